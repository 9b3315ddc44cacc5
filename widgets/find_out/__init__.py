"""Find out: an unknown device on a line becomes a project. Nothing here writes to a line."""
