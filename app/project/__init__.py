"""The design of a panel as an immutable value; edits are functions Project -> Project; reading and writing files."""
