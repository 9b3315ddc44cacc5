"""Design checks, one rule a function."""
