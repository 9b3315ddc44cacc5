"""Where one begins: the start page, new panels from few answers, first steps, serial ports; it edits no project."""
