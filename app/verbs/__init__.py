"""The verbs of the command line: of each its options and what it does, which returns the exit status.

What only some of them need is imported when they run, so that the command answers quickly.
"""
