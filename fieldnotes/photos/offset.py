"""How far a camera's clock is off, told by the times at which somebody said that a picture was being taken."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from math import comb
from statistics import median

# Between the words and the shutter. "Taking a picture of ..." is said with the camera still in a pocket or locked,
# and it is wiped hands that hold it: half a minute. "Got a photo of that" follows at once. Common practice, no source.
SHUTTER_BEFORE_S = 15.0
SHUTTER_AFTER_S = 30.0
TOGETHER_S = 12.0  # lags between words and shutter that differ by no more are one clock's error
# Agreements of the same size that pictures taken at any other time would be expected to show by chance. Many pictures
# that nobody spoke of agree with two cues somewhere: then it takes three.
MOST_BY_CHANCE = 0.25
CLOSE_S = 2.0  # whole seconds are written, so lags that are closer than this prove no more
ROUNDING_S = 1e-6  # a lag taken from a time and added again is not quite that time
ONE_PAIR_S = 120.0  # a clock that is set drifts by no more, and a lone pair proves no more


@dataclass(frozen=True, slots=True)
class Offset:
    """Seconds to add to the camera's times, how many pairs of a cue and a picture agree on it, and how many such
    agreements chance would be expected to give."""

    seconds: float
    pairs: int
    by_chance: float = field(default=0.0, compare=False)


def estimated_offset(
    cues: Sequence[float], pictures: Sequence[float], length_s: float, clock_known: bool = True
) -> Offset | None:
    """The constant offset that pairs most cues with a picture of their own; None: as they are, the times fit best.

    Two pairs at least must agree on it, more than on any other and more than chance would give, and no fewer pictures
    may lie within the `length_s` of the visit than before. One pair is enough within ONE_PAIR_S if there is no other
    in that range and chance would hardly give it. Where the times as they are already pair some cue, an offset needs
    two pairs more.

    All times are seconds since the first recording began, a cue's that of its end. `clock_known` False: the
    pictures' times have an arbitrary zero, so nothing speaks for leaving them as they are.
    """
    cues = sorted(cues)
    times = sorted(pictures)
    as_it_is = paired(cues, times, -SHUTTER_AFTER_S, SHUTTER_BEFORE_S) if clock_known else 0
    lags = sorted(cue - time for cue in cues for time in times)
    best, unique = _best(cues, times, lags, length_s)
    needed = max(2, as_it_is + 2 if as_it_is else 0)
    if best is not None and best.pairs >= needed and unique and best.by_chance <= MOST_BY_CHANCE:
        if not clock_known or _inside(times, best.seconds, length_s) >= _inside(times, 0.0, length_s):
            return best
    elif clock_known and not as_it_is:
        near = [lag for lag in lags if abs(lag) <= ONE_PAIR_S]
        by_chance = len(lags) * 2 * ONE_PAIR_S / max(length_s, 1.0)
        return Offset(near[0], 1, by_chance) if len(near) == 1 and by_chance <= MOST_BY_CHANCE else None
    return None


def paired(cues: Sequence[float], times: Sequence[float], low: float, high: float) -> int:
    """How many cues have a picture of their own such that the cue's time less the picture's time lies in [low, high].

    Both in order of time. All intervals are of one length, so taking the earliest that fits pairs the most.
    """
    count = at = 0
    for cue in cues:
        while at < len(times) and times[at] < cue - high:
            at += 1
        if at < len(times) and times[at] <= cue - low:
            count += 1
            at += 1
    return count


def _best(
    cues: Sequence[float], times: Sequence[float], lags: Sequence[float], length_s: float
) -> tuple[Offset | None, bool]:
    """The offset with most pairs, of equals the one that leaves most pictures within the visit; and whether it
    stands alone in that."""
    ranked: list[tuple[int, int, float, float]] = []
    most = 2
    for n, low in enumerate(lags):
        end = bisect_right(lags, low + TOGETHER_S)
        if end - n < most:
            continue
        pairs = paired(cues, times, low - ROUNDING_S, low + TOGETHER_S)
        if pairs < most:
            continue
        most = pairs
        middle = median(lags[n:end])
        ranked.append((pairs, _inside(times, middle, length_s), middle, lags[end - 1] - low))
    if not ranked:
        return None, False
    pairs, inside, offset, spread_s = max(ranked, key=lambda rank: rank[:2])
    others = [rank for rank in ranked if abs(rank[2] - offset) > TOGETHER_S]
    by_chance = _by_chance(
        pairs, len(cues), len(times), max(spread_s, CLOSE_S) / length_s if length_s else 1.0
    )
    return Offset(offset, pairs, by_chance), all(rank[:2] < (pairs, inside) for rank in others)


def _by_chance(pairs: int, cues: int, pictures: int, spread: float) -> float:
    """How many agreements of so many pairs are expected of pictures taken at any time of the visit.

    Each lag of one cue and one picture may begin one; every further cue joins it where some picture lies within
    `spread`, a share of the visit, on either side of where it should. Each is counted from all of its pairs.
    """
    joins = min(1.0, pictures * 2 * spread)
    return cues * pictures * comb(cues - 1, pairs - 1) * joins ** (pairs - 1) / pairs


def _inside(times: Sequence[float], offset: float, length_s: float) -> int:
    return sum(0 <= time + offset <= length_s for time in times)
