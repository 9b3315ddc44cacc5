"""Where curves come from, and what can be measured in them. Never draws."""
