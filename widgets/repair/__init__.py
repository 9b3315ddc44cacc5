"""A signal whose value looks wrong: its registers in every way, and buttons that put the project right. Reads only."""
