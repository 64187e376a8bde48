"""What is held to be the cause, and the verdict."""
