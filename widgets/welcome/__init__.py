"""Where one begins: the start page, new panels from a few answers, the first steps; it edits no project."""
