"""Sums: what follows from the readings of a visit and from numbers that were said, each with its source."""
