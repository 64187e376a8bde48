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
from fieldnotes.write.wording import is_doubtful

RECORD, CHECKLIST, CAPTIONS, FINDINGS = "visit.json", "checklist.csv", "transcript.vtt", "findings.vtt"
TRANSCRIPT = "transcript.json"  # every word with its time and confidence
ALWAYS = (RECORD, CHECKLIST, CAPTIONS, TRANSCRIPT, FINDINGS)  # whatever documents are asked for
PAGES: Mapping[Document, tuple[str, ...]] = MappingProxyType(
    {
        "office": ("report.html", "report.md", "report.txt"),
        "customer": ("customer.html",),
        "claim": ("claim.html",),
    }
)  # rendered from the template of the same name


PRINTED: Mapping[Document, str] = MappingProxyType(
    {"office": "report.pdf", "customer": "customer.pdf", "claim": "claim.pdf"}
)


@dataclass(frozen=True, slots=True)
class Explanation:
    """What the customer page says on a matter: paragraphs, and a drawing (SVG) with words for who cannot see it."""

    title: str
    text: tuple[str, ...]
    drawing: str
    alt: str


@dataclass(frozen=True, slots=True)
class Contents:
    """One visit as it is shown, with all that its documents need."""

    visit: Visit
    transcript: Transcript
    settings: Settings = field(default_factory=Settings)
    explanations: Mapping[str, Explanation] = field(default_factory=dict)  # by topic
    photos: Mapping[str, bytes] = field(default_factory=dict)  # by the name in the record
    written: datetime = field(default_factory=present_time)
    beside: str = ""  # from the documents to the recordings: "" in the same folder, "../" in a later version


def shown_explanations(contents: Contents) -> list[Explanation]:
    """What goes with advice that was clearly heard, as far as the vocabulary at hand still has it."""
    told = {advice.about for advice in contents.visit.advice if not is_doubtful(advice.evidence)}
    topics = [each.topic for each in contents.visit.explained if each.about in told]
    return [contents.explanations[topic] for topic in topics if topic in contents.explanations]
