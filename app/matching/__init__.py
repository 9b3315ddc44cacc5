"""Which register holds the value that a person reads off a device, and by what scale. No input or output."""
