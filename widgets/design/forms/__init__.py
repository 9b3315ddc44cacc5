"""Forms of properties, checked while one types: their rows; and those of screens, the panel and its messages."""
