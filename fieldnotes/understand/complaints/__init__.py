"""What the customer reported."""
