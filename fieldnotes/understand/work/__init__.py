"""What was done, and which parts it took."""
