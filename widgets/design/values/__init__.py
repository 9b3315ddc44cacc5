"""Texts in cells and what they mean: one place for tables, forms and the clipboard."""
