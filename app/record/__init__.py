"""What happened on a machine, kept: recording, reading back, exporting, and what can be measured in it."""
