"""The panel's face: its cells and keys, drawn and spoken. Knows no line and no file."""
