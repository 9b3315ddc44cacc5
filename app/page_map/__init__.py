"""What is drawn of screens and screen changes: places, arrows, labels. No Qt, and no behaviour of the panel."""
