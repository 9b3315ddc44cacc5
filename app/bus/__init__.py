"""The line: timing, plan, client, polling engine, writes, diagnosis, statistics."""
