"""Numbers that the speaker took back: "fourteen, sorry, forty", "fifty three, it settled, fifty one"."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from itertools import pairwise
from typing import Literal

from fieldnotes.tidy.lexicon import DEGREES, Lexicon
from fieldnotes.tidy.quantities import Found
from fieldnotes.tidy.text import Token
from fieldnotes.tidy.units import SCALES

CueKind = Literal["takes back", "interrupts", "settles"]
_GAP = 12  # tokens between the two numbers, at most
_SOON = 3  # tokens between the number and the words that take it back, at most
_AT_ONCE = 2  # tokens between cue and new number that leave no room for another subject
_DRIFT = 0.1  # neighbours of a drifting reading differ by no more than this share
_FACTOR = 2  # two readings of one thing differ by less than this factor


def cue_at(
    texts: Sequence[str], tokens: Sequence[Token], i: int, lexicon: Lexicon
) -> tuple[int, CueKind] | None:
    """Length in tokens and kind of the retraction cue at token `i`; None where there is none."""
    if back := lexicon.takes_back.at(texts, i):
        return back[0], "takes back"
    if settles := lexicon.settles.at(texts, i):
        return settles[0], "settles"
    if interrupts := lexicon.interrupts.at(texts, i):
        return interrupts[0], "interrupts"
    if texts[i] in lexicon.retractions.no:
        alone = bool(tokens[i].stop) or i + 1 == len(texts) or tokens[i + 1].breath != tokens[i].breath
        if (
            alone
            or texts[i + 1] in lexicon.retractions.no_goes_on
            or texts[i + 1] in lexicon.starters - {"a"}
        ):
            return 1, "takes back"
    return None


def mark_replaced(found: Sequence[Found], tokens: Sequence[Token], lexicon: Lexicon) -> None:
    """Sets `replaced` on every number that a later one takes back; the later one inherits its unit."""
    texts = [token.text for token in tokens]
    measured = [q for q in found if not q.count]
    for quantity in measured:
        _mend_unit(quantity, texts, tokens, lexicon)
    for before, after in pairwise(measured):
        if _takes_back(before, after, texts, tokens, lexicon):
            before.replaced = True
            _mend_ending(before, after)
            if after.unit is None:
                after.unit, after.inferred = before.unit, True
    _mark_drifts(measured, texts, tokens, lexicon)
    for before, after in pairwise(found):
        bare = before.unit is None and not before.decimals  # "three, no, four beeps"
        if bare and after.count and 0 < after.first - before.last <= _AT_ONCE + 1:
            cue = cue_at(texts, tokens, before.last, lexicon)
            if cue and cue[1] != "settles" and "ordinal" not in (before.form, after.form):
                before.replaced = before.count = True


def _mend_unit(quantity: Found, texts: Sequence[str], tokens: Sequence[Token], lexicon: Lexicon) -> None:
    """ "Nought point nine ohms, sorry, microfarads": the same number in another unit."""
    at = quantity.last
    cue = cue_at(texts, tokens, at, lexicon) if quantity.unit and at < len(texts) else None
    while cue and cue[1] != "settles":  # "no, make that", "sorry, I mean"
        at += cue[0]
        cue = cue_at(texts, tokens, at, lexicon) if at < len(texts) else None
    if at == quantity.last or at >= len(texts) or len(texts[at]) == 1:
        return
    unit = lexicon.units.at(texts, at)
    if unit and unit[1].unit and tokens[at].breath == tokens[quantity.first].breath:
        quantity.unit, quantity.last = unit[1].unit, at + unit[0]


def _mend_ending(before: Found, after: Found) -> None:
    """ "Two forty, no, thirty eight": only the tens and ones were said again."""
    if not (10 <= after.value < 100 <= before.value) or after.decimals or before.decimals:
        return
    whole = before.value - before.value % 100 + after.value
    if None in (before.unit, after.unit) and abs(whole - before.value) <= before.value * Decimal(str(_DRIFT)):
        after.value = whole


def _takes_back(
    before: Found, after: Found, texts: Sequence[str], tokens: Sequence[Token], lexicon: Lexicon
) -> bool:
    compatible = _compatible(before.unit, after.unit) or before.value == after.value
    if not 0 < after.first - before.last <= _GAP or not compatible:
        return False
    own_units = bool(before.unit and after.unit and not before.inferred and not after.inferred)
    for i in range(before.last, min(after.first, before.last + _SOON + 1)):
        if texts[i] in lexicon.numbers.minus:
            return False  # "minus, no, it's plus nine" takes back the minus
        cue = cue_at(texts, tokens, i, lexicon)
        if cue is None:
            continue
        length, kind = cue
        between = after.first - i - length
        if own_units and i > before.last + 1 and not _alike(before, after):
            return False  # "primary 0.3 ohm, secondary I measured, excuse me, 96 ohm"
        if kind == "settles":
            return _alike(before, after)
        if between <= _AT_ONCE or not own_units:
            return True
        return kind == "takes back" and _alike(before, after)
    return False


def _mark_drifts(
    measured: Sequence[Found], texts: Sequence[str], tokens: Sequence[Token], lexicon: Lexicon
) -> None:
    """Of readings that creep towards the last only that counts: "one seventeen, one eighteen point two".

    Only where the next one was said more exactly or was itself taken back: three equal windings stay three.
    """
    for before, after in zip(reversed(measured[:-1]), reversed(measured[1:]), strict=True):
        gap = texts[before.last : after.first]
        side_by_side = all(word in lexicon.numbers.fillers for word in gap)
        if not side_by_side or tokens[before.first].breath != tokens[after.first].breath:
            continue
        near = abs(float(before.value - after.value)) <= abs(float(after.value)) * _DRIFT
        near = near or (
            before.value < 0 and after.value < 0
        )  # "minus two, minus five, settling at minus eight"
        unit_left_open = before.unit is None or before.inferred
        exacter = after.decimals > before.decimals
        said_twice = (
            not gap and before.value == after.value and before.unit == after.unit and not before.inferred
        )
        if (near and unit_left_open and (after.replaced or exacter)) or (said_twice and before.unit):
            before.replaced = True


def _alike(before: Found, after: Found) -> bool:
    """Whether both can be readings of one thing: same sign, less than a factor of two apart."""
    one, other = float(before.value), float(after.value)
    if one == 0 or other == 0:
        return abs(one - other) <= 1
    if one == -other:
        return True  # "three below, no, three above"
    return one * other > 0 and 1 / _FACTOR <= one / other <= _FACTOR


def _compatible(one: str | None, other: str | None) -> bool:
    temperatures = (DEGREES, *SCALES)
    return one is None or other is None or one == other or (one in temperatures and other in temperatures)
