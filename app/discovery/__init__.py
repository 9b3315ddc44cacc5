"""From an unknown device to a project: the whole search, what it found, and what of it goes into a project."""
