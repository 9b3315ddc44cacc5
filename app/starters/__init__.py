"""New projects from a few answers: from the files in resources/starters to a panel that runs; it keeps no file."""
