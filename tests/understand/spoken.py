"""Visits in plain sentences for the tables, and findings in a short notation to compare them in.

`|` parts two breaths. A row is (id, kind of appliance, what is said, what a careful clerk would write); a trap is
the same of which nothing is to be written. Expected values are written from the sentence. Names are the
vocabulary's (vocab/parts.yaml, vocab/appliances/).

`NOT_YET` of a file names the rows that are right and still fail; they are strict expected failures, so that the
change that mends one has to take its name out.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from typing import Any

import pytest

from fieldnotes.records import Item, Verdict
from fieldnotes.tidy import tidy
from fieldnotes.transcript import Breath, Recording, Transcript, Word
from fieldnotes.understand.understanding import Findings
from fieldnotes.vocabulary.load import Vocabulary

WORD_S, PAUSE_S = 0.4, 0.6  # a steady speaker
ARRIVAL = ("The customer says it stopped working last week.", "Lovely people, they had a cake on the table.")

Facts = set[str]
Understood = Callable[[str], Findings]
Row = tuple[str, str, str, Any]
Trap = tuple[str, str, str]


def visit(kind: str, said: str) -> str:
    """A visit that begins as visits do: the kind, a complaint, a word of chat; then what is said."""
    return " | ".join([f"{kind.capitalize()}.", *ARRIVAL, said])


def transcript(said: str) -> Transcript:
    """Breaths with evenly spread word times."""
    breaths: list[Breath] = []
    at = 0.0
    for breath in said.split("|"):
        words = breath.split()
        times = [round(at + n * WORD_S, 3) for n in range(len(words) + 1)]
        breaths.append(
            Breath(words=tuple(Word(text=w, start=times[n], end=times[n + 1]) for n, w in enumerate(words)))
        )
        at = times[-1] + PAUSE_S
    recording = Recording(file="visit.vtt", sha256="0" * 64, seconds=round(at, 3))
    return Transcript(breaths=tuple(breaths), recordings=(recording,))


def rows(table: Sequence[tuple[Any, ...]], not_yet: Collection[str]) -> list[Any]:
    """The table for `parametrize`, ids in place."""
    late = pytest.mark.xfail(strict=True, reason="not understood yet")
    return [pytest.param(*row[1:], id=row[0], marks=[late] if row[0] in not_yet else []) for row in table]


def understood_by(vocabulary: Vocabulary, findings: Callable[[Any], Findings]) -> Understood:
    """Said -> findings, through tidying."""
    return lambda said: findings(tidy(transcript(said), vocabulary.measures))


def facts(found: Findings) -> Facts:
    """What was found on the appliance and done to it, one short text each: "check belt: good"."""
    return (
        checks(found)
        | readings(found)
        | {f"trial {t.about}: {t.outcome}" for t in found.trials}
        | {f"code {c.code}" for c in found.codes}
        | work_and_parts(found)
        | {f"cause {c.about}: {c.certainty}" for c in found.causes}
    )


def checks(found: Findings) -> Facts:
    return {f"check {c.about}: {c.outcome}" for c in found.checks}


def readings(found: Findings) -> Facts:
    return {f"reading {r.about}: {r.value:g} {r.unit}" for r in found.readings}


def work_and_parts(found: Findings) -> Facts:
    """ "work filter: cleaned", "part belt: fitted", "part hose clamp: needed, 2, ABC123"."""
    parts = set()
    for part in found.parts:
        more = [str(part.quantity)] if part.quantity != 1 else []
        more += [part.number] if part.number else []
        parts.add(", ".join([f"part {part.about}: {part.status}", *more]))
    return {f"work {w.about}: {w.action}" for w in found.work} | parts


def verdict(found: Verdict) -> str:
    """ "fault found", "fault found, not said", or "open"."""
    if found.finding is None:
        return "open"
    return found.finding if found.stated else f"{found.finding}, not said"


def told(items: Sequence[Item], expected: Sequence[str]) -> list[str]:
    """Of each item the expected words that its quote contains, else the quote: equal to `expected` where all
    came, in order, each in an item of its own."""
    left = list(expected)
    shown: list[str] = []
    for item in items:
        quote = item.evidence.quote.lower()
        words = next((w for w in left if w in quote), None)
        if words is not None:
            left.remove(words)
        shown.append(words if words is not None else item.evidence.quote)
    return shown
