"""What the documents of a visit are made from, and which files each document is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from types import MappingProxyType

from fieldnotes.present import present_time
from fieldnotes.records import Visit
from fieldnotes.settings import Document, Settings
from fieldnotes.transcript import Transcript

RECORD, CHECKLIST, CAPTIONS, FINDINGS = "visit.json", "checklist.csv", "transcript.vtt", "findings.vtt"
ALWAYS = (RECORD, CHECKLIST, CAPTIONS, FINDINGS)  # whatever documents are asked for
PAGES: Mapping[Document, tuple[str, ...]] = MappingProxyType(
    {"office": ("report.html", "report.md", "report.txt"), "customer": (), "claim": ("claim.html",)}
)  # rendered from the template of the same name


def files_of(documents: tuple[Document, ...]) -> tuple[str, ...]:
    """The files of these documents, and those that are always there."""
    return (*ALWAYS, *(name for document in documents for name in PAGES[document]))


@dataclass(frozen=True, slots=True)
class Contents:
    """One visit as it is shown, with all that its documents need."""

    visit: Visit
    transcript: Transcript
    settings: Settings = field(default_factory=Settings)
    written: datetime = field(default_factory=present_time)
    beside: str = ""  # from the documents to the recordings: "" in the same folder, "../" in a later version
