"""The bytes of a transaction explained, part by part, and the figures of many. Only looks; never asks a line."""
