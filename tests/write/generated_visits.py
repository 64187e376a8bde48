"""A visit of forty minutes with eighty items, each with words that stand nowhere else."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count, cycle
from typing import TypeVar

from fieldnotes.records import (
    Appliance,
    Cause,
    Caution,
    Check,
    Code,
    Evidence,
    Gap,
    Item,
    Job,
    Limit,
    Part,
    Reading,
    Trial,
    Verdict,
    Visit,
    Work,
)  # fmt: skip
from fieldnotes.transcript import Breath, Recording, Transcript, Word

from .visits import MADE_WITH

Kind = TypeVar("Kind", bound=Item)
THINGS = ("drain pump", "door seal", "inlet valve", "heater", "belt", "motor", "lid lock", "thermistor")
DONE = (
    "turns freely and without a sound", "has continuity from end to end", "shows no sign of a leak",
    "was looked at with the lamp, front and back, before the panel went on again",
)  # fmt: skip
RECORDINGS = (
    Recording(file="kitchen.m4a", sha256="a" * 64, seconds=1500.0),
    Recording(file="cellar.m4a", sha256="b" * 64, seconds=912.0, starts_at=1500.0),
)
LIMITS = (
    Limit(minimum=10, maximum=20, unit="ohm", source="plate of the part", status="stated by the technician"),
    Limit(maximum=12, unit="ohm", source="", status="common practice, no source"),
    None,
)


def visit_of_eighty() -> Visit:
    """Forty checks, fourteen readings, and some of all else: eighty items, in three bursts and in between."""
    lines = _lines()
    outcomes = cycle(("good", "good", "fault", "good", "unclear", "good", "not tested"))
    doubts = cycle(("certain", "certain", "likely", "certain", "possible"))
    limits = cycle(LIMITS)
    return Visit(
        job=Job(
            number="J-8080", date="2026-03-02", technician="R. Quill", customer="Mrs. Tansley",
            started="2026-03-02T09:05:00", ended="2026-03-02T10:20:00",
        ),
        appliance=Appliance(kind="dishwasher", make="Brackwell", model="BKD614S", serial="K40718822"),
        complaints=_some(Item, 3, lines),
        checks=tuple(_made(Check, lines, outcome=next(outcomes), certainty=next(doubts)) for _ in range(40)),
        readings=tuple(_reading(lines, next(limits), 8.0 + n) for n in range(14)),
        trials=_some(Trial, 4, lines, outcome="passed"),
        codes=_some(Code, 2, lines, code="F21"),
        work=_some(Work, 4, lines, action="replaced"),
        parts=_some(Part, 4, lines, status="fitted", number="551-2", quantity=2),
        causes=_some(Cause, 2, lines, certainty="likely"),
        advice=_some(Item, 3, lines),
        follow_ups=_some(Item, 2, lines),
        safety=_some(Item, 2, lines),
        verdict=Verdict(
            finding="fault found", text="Verdict of the visit zz900.",
            evidence=Evidence(start=2390, end=2394, quote="spoken verdict of the visit zz901", confidence=0.9),
        ),
        gaps=tuple(
            Gap(what=f"Gap zz91{n}.", why=f"Reason zz92{n}.", needed_by=needed, weight=weight)
            for n, (needed, weight) in enumerate(
                [(("office",), 1), (("warranty desk", "office"), 2), (("warranty desk",), 1), ((), 3)]
            )
        ),
        cautions=tuple(Caution(about=f"Matter zz93{n}", text=f"Caution zz94{n}.") for n in range(2)),
        notices=("kitchen.m4a: notice zz950",),
        recording=RECORDINGS,
        made_with=MADE_WITH,
    )  # fmt: skip


def transcript_of(visit: Visit) -> Transcript:
    """The quotes of the checks, as breaths."""
    spoken = tuple(Breath(words=_words(check.evidence)) for check in visit.checks)
    return Transcript(breaths=spoken, recordings=visit.recording, speech_model="a speech model")


def _words(said: Evidence) -> tuple[Word, ...]:
    return tuple(Word(text=text, start=said.start, end=said.end) for text in said.quote.split())


def _lines() -> Iterator[dict[str, object]]:
    """The fields of an item one after the other, 29 seconds apart, but every ten of them only 2."""
    time = 4.0
    for n in count():
        thing = THINGS[n % len(THINGS)]
        said = Evidence(
            start=time, end=time + 3, quote=f"spoken zz{n:03d}q, the {thing}, and so on",
            confidence=0.5 if n % 17 == 5 else 0.9,
        )  # fmt: skip
        yield {
            "about": thing,
            "text": f"{thing.capitalize()} zz{n:03d}t {DONE[n % len(DONE)]}.",
            "evidence": said,
        }
        time += 2 if n // 10 % 3 == 1 else 29 + n % 5 * 3


def _made(kind: type[Kind], lines: Iterator[dict[str, object]], **more: object) -> Kind:
    return kind.model_validate(next(lines) | more)


def _some(
    kind: type[Kind], times: int, lines: Iterator[dict[str, object]], **more: object
) -> tuple[Kind, ...]:
    return tuple(_made(kind, lines, **more) for _ in range(times))


def _reading(lines: Iterator[dict[str, object]], limit: Limit | None, value: float) -> Reading:
    judged: dict[str, object] = {"judgement": "no limit known"}
    if limit is not None:
        over = value - (limit.maximum or 0)
        under = value - (limit.minimum or 0)
        off = over if over > 0 else under if under < 0 else None
        judged = {"judgement": "within" if off is None else "outside", "outside_by": off}
    return _made(Reading, lines, value=value, unit="ohm", limit=limit, **judged)
