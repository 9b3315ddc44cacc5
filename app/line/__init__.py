"""The lines of a project at work: polled, written to while armed, and watched. Never decides what a key does."""
