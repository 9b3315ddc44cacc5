"""Two projects side by side in a window."""
