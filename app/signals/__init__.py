"""Registers to numbers, numbers to engineering values, values to text. Knows nobody else."""
