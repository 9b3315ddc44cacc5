"""What the bytes of other clients on a line tell: settings, requests with answers, registers. No input or output."""
