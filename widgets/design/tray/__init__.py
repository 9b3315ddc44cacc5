"""Signals beside the face: found by name, and placed on it as fields with their labels and units."""
