"""Demo projects with their own scenarios."""
