"""Trials proposed from a project alone: every screen change, entry, override, text and action, pressed and expected."""
