"""What was looked at and found how."""
