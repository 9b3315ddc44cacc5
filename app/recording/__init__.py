"""Recordings: made beside a running session, opened with distrust, played back and exported. Never asks a line."""
