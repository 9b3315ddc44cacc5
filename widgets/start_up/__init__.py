"""The Start-up workspace: trends, events and recordings."""
