"""Which line of the report a picture belongs to: that of the thing named with it, else the nearest in time.

Everything is reckoned in seconds since the first recording began, so that only differences of times count.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple, get_args

from fieldnotes.photos.cues import Cue
from fieldnotes.photos.offset import SHUTTER_AFTER_S, SHUTTER_BEFORE_S
from fieldnotes.photos.things import Pictured, Things, words_of
from fieldnotes.records import Evidence, Item, PhotoSection, Visit
from fieldnotes.vocabulary.grammar import Grammar
from fieldnotes.wall_clock import WallClock

# From the words of a line to the shutter. Before them: the picture is taken and then told of, in one go. After
# them: the thing is looked at, told of, and only then are hands dried and the camera found. What was said longer
# ago is as likely not to be what is on the picture. Common practice, no source.
BEFORE_S = 20.0
AFTER_S = 60.0
# Of lines told by the same words the one that a picture shows best.
ORDER: tuple[PhotoSection, ...] = (
    "checks", "readings", "codes", "work", "parts", "trials", "appliance", "causes", "complaints", "safety",
    "follow_ups", "advice",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Place:
    """Where a picture belongs. `at` is the second of the visit; no `section`: it belongs to nothing."""

    at: float | None = None
    section: PhotoSection | None = None
    index: int | None = None
    cue: Evidence | None = None


@dataclass(frozen=True, slots=True)
class _Line:
    """One stretch of evidence of a line, in seconds since the first recording began."""

    section: PhotoSection
    index: int | None
    about: str
    words: frozenset[str]
    start: float
    end: float

    def away_s(self, wall_s: float) -> float:
        return max(self.start - wall_s, wall_s - self.end, 0.0)


class _Spoken(NamedTuple):
    """The cue nearest to a picture: seconds from one to the other, and which it is."""

    away_s: float
    cue: int


class Matcher:
    """Places pictures in a visit. Built once for a visit; it must not change its lines afterwards."""

    def __init__(
        self, visit: Visit, cues: Sequence[Cue], things: Things, grammar: Grammar, clock: WallClock
    ) -> None:
        self._clock = clock
        self._lines = list(_lines(visit, grammar, clock))
        self._cues = [
            (clock.wall_s(cue.evidence.start), clock.wall_s(cue.evidence.end), cue, things.of(cue))
            for cue in cues
            if cue.evidence.start is not None and cue.evidence.end is not None
        ]

    def places(self, walls_s: Sequence[float | None]) -> list[Place]:
        """Where pictures belong that were taken so many seconds after the first recording began; None: unknown.

        A cue is for the picture nearest to it. It is for further ones too ("a few photos of the wiring") until
        words of a line are nearer to them.
        """
        seconds = [None if wall_s is None else self._clock.second(wall_s) for wall_s in walls_s]
        told = [
            None if wall_s is None or at is None else self._spoken_of(wall_s)
            for wall_s, at in zip(walls_s, seconds, strict=True)
        ]
        first: dict[int, tuple[float, int]] = {}  # for each cue its nearest picture
        for n, spoken in enumerate(told):
            if spoken:
                first[spoken.cue] = min(first.get(spoken.cue, (spoken.away_s, n)), (spoken.away_s, n))
        own = {n for _, n in first.values()}
        return [
            Place() if wall_s is None or at is None else self._place(wall_s, round(at, 3), spoken, n in own)
            for n, (wall_s, at, spoken) in enumerate(zip(walls_s, seconds, told, strict=True))
        ]

    def _place(self, wall_s: float, at: float, spoken: _Spoken | None, own: bool) -> Place:
        if spoken is not None and not own:
            line = self._nearest(wall_s, Pictured())
            if line is not None and line.away_s(wall_s) < spoken.away_s:
                spoken = None
        if spoken is None:
            return Place(at, *_reference(self._nearest(wall_s, Pictured())))
        said_at, _, cue, pictured = self._cues[spoken.cue]
        return Place(at, *_reference(self._nearest(said_at, pictured)), cue.evidence)

    def _spoken_of(self, wall_s: float) -> _Spoken | None:
        """The cue nearest to a picture, if one is near."""
        near = [
            _Spoken(max(start - wall_s, wall_s - end, 0.0), n)
            for n, (start, end, _, _) in enumerate(self._cues)
            if start - SHUTTER_BEFORE_S <= wall_s <= end + SHUTTER_AFTER_S
        ]
        return min(near, default=None)

    def _nearest(self, wall_s: float, pictured: Pictured) -> _Line | None:
        """The line that the thing belongs to, however long ago it was; else one near in time that has its words;
        else, where the words name no known part ("this mess"), the nearest of all."""
        ranked = []
        for line in self._lines:
            near = line.start - BEFORE_S <= wall_s <= line.end + AFTER_S
            if line.about in pictured.names or (pictured.plate and line.section == "appliance"):
                rank = 0
            elif near and pictured.words & line.words:
                rank = 1
            elif near and not pictured.names and not pictured.plate:
                rank = 2
            else:
                continue
            ranked.append((rank, line.away_s(wall_s), ORDER.index(line.section), line.index or 0, line))
        return min(ranked, key=lambda found: found[:4])[-1] if ranked else None


def _reference(line: _Line | None) -> tuple[PhotoSection | None, int | None]:
    return (line.section, line.index) if line else (None, None)


def _lines(visit: Visit, grammar: Grammar, clock: WallClock) -> Iterator[_Line]:
    for section in get_args(PhotoSection):
        items: tuple[Item, ...] = () if section == "appliance" else getattr(visit, section)
        for index, item in enumerate(items):
            words = words_of(f"{item.about} {item.evidence.quote}", grammar)
            for evidence in (item.evidence, *item.also):
                yield from _line(section, index, item.about, words, evidence, clock)
    for name, evidence in visit.appliance.evidence.items():
        yield from _line("appliance", None, name, words_of(evidence.quote, grammar), evidence, clock)


def _line(
    section: PhotoSection,
    index: int | None,
    about: str,
    words: frozenset[str],
    evidence: Evidence,
    clock: WallClock,
) -> Iterator[_Line]:
    if evidence.start is not None and evidence.end is not None:
        yield _Line(section, index, about, words, clock.wall_s(evidence.start), clock.wall_s(evidence.end))
