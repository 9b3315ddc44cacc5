"""Parts of every window: looks, sizes, lists, questions, commands. Knows no project and no line."""
