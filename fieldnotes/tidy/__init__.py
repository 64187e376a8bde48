"""Transcript -> tokens, numbers with units, and strings that were spelled aloud."""

from fieldnotes.tidy.tidying import tidy

__all__ = ["tidy"]
