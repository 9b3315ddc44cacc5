"""Simulated followers: register bank, drive and load model, TCP and serial servers."""
