"""What is said to whoever listens instead of looking: when, in what order, and through which widget."""
