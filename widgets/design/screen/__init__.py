"""The screen under edit: cursor, mouse, clipboard, and the panel tried in place."""
