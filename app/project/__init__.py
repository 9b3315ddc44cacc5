"""The design of a panel as an immutable value, and what its signals mean. Reads no file and edits nothing."""
