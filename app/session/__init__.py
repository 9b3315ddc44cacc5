"""One project running: its lines and its panel, against devices or models of them. Never draws."""
