"""The Bench workspace: the panel operated against its devices."""
