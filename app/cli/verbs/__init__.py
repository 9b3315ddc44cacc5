"""The verbs of the command line: of each its options and what it does, which returns the exit status."""
