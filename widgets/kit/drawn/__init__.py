"""What the style draws in place of Qt's own drawing: boxes and buttons, editors, rows, tabs, bars."""
