"""The dialogs of the program: their one look, questions with named answers, and work with progress."""
