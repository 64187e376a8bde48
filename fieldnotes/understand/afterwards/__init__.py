"""What the customer was told, what is still to happen, and how safely the unit was left."""
