"""Lines and devices in Design: their tables and their properties."""
