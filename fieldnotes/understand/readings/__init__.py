"""What was measured, and where."""
