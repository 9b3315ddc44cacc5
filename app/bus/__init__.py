"""The line: what it costs, what is asked, which answer is believed, what is written, and what is wrong with it."""
