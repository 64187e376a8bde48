"""The finished quantities, with one scale of degrees for the whole visit.

Bare "degrees" become Celsius or Fahrenheit by the scale's name where it falls anywhere, else by the family of units
(kilopascals, litres / psi, gallons) that the speaker uses more, else by words that go with one of them (earth, mains /
ground, faucet) and by what the figures can only be (minus seventeen / one hundred and twenty); Fahrenheit on a tie.
"""

from __future__ import annotations

from collections.abc import Sequence

from fieldnotes.tidy.lexicon import CELSIUS, DEGREES, FAHRENHEIT, Lexicon
from fieldnotes.tidy.quantities import Found
from fieldnotes.tidy.text import Quantity, Token

LIKELY = 2  # a telling figure weighs as much as so many words
COLDEST = -10  # no freezer is that cold in Fahrenheit
COOL = (2, 8)  # a refrigerator in Celsius
HOT = (101, 150)  # water and exhaust air in Fahrenheit
HOTTEST = 280  # an oven in Fahrenheit


def settled(found: Sequence[Found], tokens: Sequence[Token], lexicon: Lexicon) -> tuple[Quantity, ...]:
    """The finished quantities, with degrees decided."""
    scale = scale_of(found, tokens, lexicon)
    return tuple(
        Quantity(
            first=q.first,
            last=q.last,
            value=float(q.value),
            unit=scale if q.unit == DEGREES else q.unit,
            ordinal_or_count=q.count,
            replaced=q.replaced,
        )
        for q in found
    )


def scale_of(found: Sequence[Found], tokens: Sequence[Token], lexicon: Lexicon) -> str:
    """The unit of bare degrees: "degC" or "degF"."""
    named = {CELSIUS: 0, FAHRENHEIT: 0}
    for token in tokens:
        if token.text in lexicon.units and len(token.text) > 1:
            match = lexicon.units.at([token.text], 0)
            if match and match[1].unit in named:
                named[str(match[1].unit)] += 1
    for quantity in found:
        if quantity.unit in named:
            named[str(quantity.unit)] += 1
    if named[CELSIUS] != named[FAHRENHEIT]:
        return max(named, key=lambda scale: named[scale])
    metric = sum(q.unit in lexicon.metric for q in found)
    customary = sum(q.unit in lexicon.customary for q in found)
    above = lexicon.numbers.above  # "four above" is no refrigerator in Celsius
    if metric == customary:
        metric = sum(token.text in lexicon.metric_speech for token in tokens)
        customary = sum(token.text in lexicon.customary_speech for token in tokens)
        bare = [(float(q.value), tokens[q.last - 1].text in above) for q in found if q.unit == DEGREES]
        metric += sum(
            LIKELY * (value <= COLDEST or (COOL[0] <= value <= COOL[1] and not said_above))
            for value, said_above in bare
        )
        customary += sum(LIKELY * (HOT[0] <= value <= HOT[1] or value >= HOTTEST) for value, _ in bare)
    return CELSIUS if metric > customary else FAHRENHEIT
