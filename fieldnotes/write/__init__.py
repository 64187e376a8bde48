"""The last stage: a visit record and its transcript become a job folder.

Reads `Visit` and `Transcript`; adds nothing to what they say.
"""

from fieldnotes.write.contents import Contents
from fieldnotes.write.folder import check_destination, write_job
from fieldnotes.write.schema import visit_schema

__all__ = ["Contents", "check_destination", "visit_schema", "write_job"]
