"""The project that a window edits: its steps, its file, its unsaved work. Draws no workspace."""
