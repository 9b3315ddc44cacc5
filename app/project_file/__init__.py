"""Projects as files: all problems told at once, nothing lost in writing. Never changes what a project means."""
