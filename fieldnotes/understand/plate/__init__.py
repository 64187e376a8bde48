"""Which unit it is, and the codes that it shows."""
