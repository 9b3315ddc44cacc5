"""The command line: one command, a verb a job, one writer to the terminal. No window but by the verb that opens it."""
