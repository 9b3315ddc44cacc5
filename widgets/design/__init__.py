"""The Design workspace: screens, page map, tables, properties and findings. Never talks to a line."""
