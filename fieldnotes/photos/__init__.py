"""Pictures taken during the visit: read, matched to the lines that they belong to, and made ready for the folder.

Reads a folder of pictures, `Visit` and `Transcript`; adds `Visit.photos` and the bytes of the copies. Nothing is
written to the folder of the originals.
"""

from fieldnotes.photos.bringing import Brought, bring

__all__ = ["Brought", "bring"]
