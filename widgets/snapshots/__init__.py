"""Registers as found and as left, in the window."""
