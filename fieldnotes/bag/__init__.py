"""The job folder as a file that proves itself: a BagIt bag, its check, its seals and its later versions.

Knows files and folders only, nothing of visits. Source: RFC 8493, The BagIt File Packaging Format (V1.0).
"""

from fieldnotes.bag.amendments import Amendment, amend, record_paths
from fieldnotes.bag.checking import verify
from fieldnotes.bag.keys import new_key
from fieldnotes.bag.problems import Problem, SealSeen, Verified, shown
from fieldnotes.bag.sealing import seal
from fieldnotes.bag.seals import is_sealed
from fieldnotes.bag.tag_files import PAYLOAD, TAG_FILES, close_bag

__all__ = [
    "PAYLOAD", "TAG_FILES", "Amendment", "Problem", "SealSeen", "Verified", "amend", "close_bag", "is_sealed",
    "new_key", "record_paths", "seal", "shown", "verify",
]  # fmt: skip
