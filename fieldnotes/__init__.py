"""fieldnotes: from what a technician says aloud while working to the visit report."""

__version__ = "0.1.0"
