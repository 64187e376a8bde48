"""One visit from its sources to its record: the stages in their order, and nothing else."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from fieldnotes import __version__
from fieldnotes.records import Job, MadeWith, Visit
from fieldnotes.transcript import Transcript

if TYPE_CHECKING:
    from fieldnotes.hear import Progress
    from fieldnotes.understand.understanding import Understanding
    from fieldnotes.vocabulary.load import Vocabulary

HOTWORDS_MOST = 50  # terms; more do not fit the recogniser's prompt (223 tokens)


@dataclass(frozen=True, slots=True)
class Order:
    """What the office knows before anything is heard."""

    number: str | None = None
    technician: str | None = None
    customer: str | None = None
    date: str | None = None  # ISO 8601; None: today


def visit_of(transcript: Transcript, vocabulary: Vocabulary, order: Order) -> Visit:
    """The judged record of a visit."""
    from fieldnotes.judge.judging import judge
    from fieldnotes.tidy import tidy

    findings = _understanding(vocabulary).findings(tidy(transcript, vocabulary.measures))
    visit = Visit(
        job=Job(
            number=order.number,
            technician=order.technician,
            customer=order.customer,
            date=order.date or date.today().isoformat(),
        ),
        appliance=findings.appliance,
        complaints=tuple(findings.complaints),
        checks=tuple(findings.checks),
        readings=tuple(findings.readings),
        trials=tuple(findings.trials),
        codes=tuple(findings.codes),
        work=tuple(findings.work),
        parts=tuple(findings.parts),
        causes=tuple(findings.causes),
        verdict=findings.verdict,
        advice=tuple(findings.advice),
        follow_ups=tuple(findings.follow_ups),
        safety=tuple(findings.safety),
        notices=transcript.notices,
        recording=transcript.recordings,
        made_with=MadeWith(
            program=f"fieldnotes {__version__}",
            vocabulary=vocabulary.digest,
            speech_model=transcript.speech_model,
            settings=dict(transcript.settings),
        ),
    )
    return judge(
        visit,
        limits=vocabulary.limits,
        gaps=vocabulary.gaps,
        cautions=vocabulary.cautions,
        packs=vocabulary.packs,
        measures=vocabulary.measures,
        transcript=transcript,
    )


def hotwords_of(vocabulary: Vocabulary, kind: str | None) -> str:
    """Terms to tell the recogniser, as a comma list: those of the kind of appliance, or the most needed of all."""
    packs = vocabulary.packs
    if kind in packs:
        return ", ".join(packs[kind].hotwords[:HOTWORDS_MOST])
    shares = [pack.hotwords for pack in packs.values() if pack.hotwords]
    rounds = [words[n] for n in range(max(map(len, shares), default=0)) for words in shares if n < len(words)]
    return ", ".join(list(dict.fromkeys(rounds))[:HOTWORDS_MOST])


def date_in_name(sources: Sequence[Path]) -> str | None:
    """The date that the first recording's name holds, as many recorders write it: 2026-03-02 or 20260302."""
    found = re.search(r"(20\d\d)[-_]?(0[1-9]|1[0-2])[-_]?(0[1-9]|[12]\d|3[01])", sources[0].stem) if sources else None
    return "-".join(found.groups()) if found else None


@lru_cache(maxsize=2)
def _understanding(vocabulary: Vocabulary) -> Understanding:
    from fieldnotes.understand.understanding import Understanding

    return Understanding(vocabulary)
