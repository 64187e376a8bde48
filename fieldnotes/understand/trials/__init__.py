"""What was run, and how it ended."""
