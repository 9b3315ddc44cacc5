"""Which registers are read together, in which order and how often. Works out; never asks a line."""
