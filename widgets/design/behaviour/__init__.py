"""Screen changes and actions in Design: their properties."""
