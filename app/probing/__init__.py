"""Reading an unknown line: a client of its own that cannot write, and the searches for settings, units, registers."""
