"""What the documents of a visit are made from: the record as it was heard, and the one for those outside the shop."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from fieldnotes.private.striking import strike
from fieldnotes.records import Visit
from fieldnotes.settings import Settings
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.write.contents import Contents, Explanation


def explanations_of(vocabulary: Vocabulary) -> dict[str, Explanation]:
    """All that the customer page can explain, by topic."""
    return {
        topic: Explanation(rule.title, rule.text, vocabulary.drawings[topic], rule.alt)
        for topic, rule in vocabulary.explanations.items()
    }


@dataclass(frozen=True, slots=True)
class Papers:
    """`office` for the shop and the customer; `claim` with private words struck out."""

    office: Contents
    claim: Contents


def papers(
    visit: Visit,
    transcript: Transcript,
    settings: Settings,
    vocabulary: Vocabulary,
    *,
    struck_everywhere: bool = False,
    photos: Mapping[str, bytes] | None = None,
) -> Papers:
    """Both sets for one visit; with `struck_everywhere` the office's set is struck out too."""
    struck = strike(visit, transcript, vocabulary, region=settings.shop.region)
    office = Contents(
        visit, transcript, settings, explanations=explanations_of(vocabulary), photos=photos or {}
    )
    claim = replace(office, visit=struck.visit, transcript=struck.transcript)
    return Papers(claim if struck_everywhere else office, claim)
