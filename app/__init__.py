"""Fanlight without a display: the project, its signals, the panel, the line, the followers and the checks."""
