"""What is recognised in the words before anything is made of it."""
