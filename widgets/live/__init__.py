"""A session in the window: arming, values, transactions, recording. Talks to the line through the session only."""
