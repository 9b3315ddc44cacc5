"""Every pane and dialog on show: for pictures of them, and for tests that look at all of them."""
