"""The visit as a picture: where along the recording each check, reading, test, work and part was told of.

Here is where things stand; templates/timeline.svg draws them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from fieldnotes.records import Check, Item, Part, Reading, Trial, Visit
from fieldnotes.transcript import Recording

Shape = Literal["good", "bad", "unclear", "none", "done", "open"]
SHAPES: tuple[Shape, ...] = (
    "good",
    "bad",
    "unclear",
    "none",
    "done",
    "open",
)  # as in the key below the chart
LANES = ("checks", "readings", "trials", "work", "parts")
_SHAPE_OF: dict[str, Shape] = {
    "good": "good", "passed": "good", "within": "good", "fault": "bad", "failed": "bad", "outside": "bad",
    "unclear": "unclear", "not tested": "none", "no limit known": "none", "fitted": "done", "ordered": "open",
    "needed": "open",
}  # fmt: skip
_HOUR = 3600
_STEPS = (
    1,
    2,
    5,
    10,
    15,
    30,
    60,
    120,
    300,
    600,
    900,
    1800,
    _HOUR,
    2 * _HOUR,
    4 * _HOUR,
    6 * _HOUR,
    12 * _HOUR,
)

# all in units of the drawing, which are those of a page at its usual size
SPACE = 10.0  # from mark to mark along a row
ROW = 11.0  # from row to row
MOST_ROWS = 8
LANE_GAP, TOP, AXIS, KEY_LINE = 9.0, 6.0, 20.0, 18.0


@dataclass(frozen=True, slots=True)
class Paper:
    """How wide the drawing is, and what of it is taken by the names of the lanes, one time, one entry of the key."""

    width: float
    names: float
    tick: float
    key: float
    margin: float = 24.0  # on the right, for half of the last time


WIDE = Paper(width=720, names=84, tick=64, key=100)
NARROW = Paper(width=360, names=78, tick=58, key=116)


@dataclass(frozen=True, slots=True)
class Mark:
    """One item; or several, where more are told of in one moment than can stand above each other."""

    x: float
    y: float
    shape: Shape
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Lane:
    """Items of one kind; its marks stand on `floor`, further rows above."""

    name: str
    floor: float
    marks: tuple[Mark, ...]  # in the order of time


@dataclass(frozen=True, slots=True)
class Tick:
    x: float
    seconds: float


@dataclass(frozen=True, slots=True)
class Border:
    """Where a further recording begins."""

    x: float
    recording: Recording


@dataclass(frozen=True, slots=True)
class Key:
    """What a shape means; shape None: the line where a further recording begins."""

    x: float
    y: float
    shape: Shape | None


@dataclass(frozen=True, slots=True)
class Chart:
    """The whole drawing. `seconds` is the length of the visit's clock."""

    width: float
    height: float
    left: float
    right: float
    axis: float
    seconds: float
    lanes: tuple[Lane, ...]
    ticks: tuple[Tick, ...]
    borders: tuple[Border, ...]
    key: tuple[Key, ...]


def chart_of(visit: Visit, paper: Paper) -> Chart | None:
    """The chart of a visit, or None where none of its items has a time."""
    timed = {name: _in_time_order(getattr(visit, name)) for name in LANES}
    if not any(timed.values()):
        return None
    seconds = _length(visit, [item for items in timed.values() for item in items])
    left, right = paper.names, paper.width - paper.margin

    def across(time: float) -> float:
        return round(left + (right - left) * min(max(time, 0.0), seconds) / seconds, 1)

    lanes: list[Lane] = []
    floor = TOP
    for name, items in timed.items():
        if items:
            places = _placed(items, [across(_start(item)) for item in items])
            floor += ROW * (1 + max(row for _, row, _ in places)) + (LANE_GAP if lanes else 0)
            marks = (Mark(x, floor - ROW * (row + 0.5), _shape(told), told) for x, row, told in places)
            lanes.append(Lane(name, floor, tuple(marks)))
    axis = floor + LANE_GAP / 2
    borders = tuple(Border(across(r.starts_at), r) for r in visit.recording if 0 < r.starts_at < seconds)
    key = _key(lanes, bool(borders), axis + AXIS, paper)
    ticks = tuple(Tick(across(at), at) for at in _tick_times(seconds, int((right - left) / paper.tick)))
    height = key[-1].y + KEY_LINE / 2
    return Chart(paper.width, height, left, right, axis, seconds, tuple(lanes), ticks, borders, key)


def _in_time_order(items: Sequence[Item]) -> list[Item]:
    return sorted((item for item in items if item.evidence.start is not None), key=_start)


def _start(item: Item) -> float:
    return item.evidence.start or 0.0


def _length(visit: Visit, items: Sequence[Item]) -> float:
    """Up to the end of the recordings, or of what was said where they have no length; at least a second."""
    ends = [recording.starts_at + (recording.seconds or 0.0) for recording in visit.recording]
    said = [time for item in items for time in (item.evidence.start, item.evidence.end) if time is not None]
    return max(1.0, *ends, *said)


def _shape(items: tuple[Item, ...]) -> Shape:
    """Of a mark with several items: the first in the order of bad, unclear and so on that one of them has."""
    states = {_shape_of_one(item) for item in items}
    return next(shape for shape in ("bad", "unclear", "open", "none", "good", "done") if shape in states)


def _shape_of_one(item: Item) -> Shape:
    match item:
        case Check() | Trial():
            return _SHAPE_OF[item.outcome]
        case Reading():
            return _SHAPE_OF[item.judgement]
        case Part():
            return _SHAPE_OF[item.status]
        case _:
            return "done"


def _placed(items: Sequence[Item], across: Sequence[float]) -> list[tuple[float, int, tuple[Item, ...]]]:
    """(x, row, items) of each mark: on the lowest row on which it touches no other; when all rows are full,
    an item joins the last mark of the highest."""
    placed: list[tuple[float, int, list[Item]]] = []
    last: list[int] = []  # for each row its last mark
    for item, x in zip(items, across, strict=True):
        row = next((row for row, mark in enumerate(last) if x - placed[mark][0] >= SPACE), len(last))
        if row == MOST_ROWS:
            placed[last[-1]][2].append(item)
            continue
        last[row : row + 1] = [len(placed)]
        placed.append((x, row, [item]))
    return [(x, row, tuple(told)) for x, row, told in placed]


def _tick_times(seconds: float, most: int) -> list[float]:
    """Round times from the start on, at most that many steps apart."""
    day = 24 * _HOUR
    step = next((step for step in _STEPS if seconds / step <= most), day * math.ceil(seconds / most / day))
    return [float(step * n) for n in range(int(seconds / step) + 1)]


def _key(lanes: Sequence[Lane], borders: bool, top: float, paper: Paper) -> tuple[Key, ...]:
    """The shapes that occur, in lines of as many as fit."""
    used = {mark.shape for lane in lanes for mark in lane.marks}
    shapes: list[Shape | None] = [shape for shape in SHAPES if shape in used]
    fit = max(1, int(paper.width / paper.key))
    return tuple(
        Key(n % fit * paper.key + ROW / 2, top + KEY_LINE * (n // fit + 0.5), shape)
        for n, shape in enumerate(shapes + [None] * borders)
    )
