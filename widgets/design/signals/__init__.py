"""Signals in Design: their table, their properties, the aid for their scale."""
