"""Which items of a visit the triggers of a caution or a gap point to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from fieldnotes.judge.units import convert
from fieldnotes.judge.words import says
from fieldnotes.records import Check, Item, Part, Reading, Trial, Visit, Work
from fieldnotes.vocabulary.quantities import QUANTITY_OF
from fieldnotes.vocabulary.triggers import Trigger


def pointed_at(triggers: Sequence[Trigger], visit: Visit) -> Iterator[Item]:
    """The items that any of the triggers points to, trigger by trigger; one item may come more than once."""
    lists: Mapping[str, Sequence[Item]] = {
        "complaints": visit.complaints, "checks": visit.checks, "readings": visit.readings,
        "trials": visit.trials, "codes": visit.codes, "work": visit.work, "parts": visit.parts,
        "causes": visit.causes, "advice": visit.advice, "follow_ups": visit.follow_ups,
        "safety": visit.safety,
    }  # fmt: skip
    for on in triggers:
        for name in on.among:
            yield from (item for item in lists[name] if _fires(on, item))


def _fires(on: Trigger, item: Item) -> bool:
    """Whether all that the trigger names holds of the item."""
    text = f"{item.about} / {item.evidence.quote}"
    if isinstance(item, Check) and item.outcome == "not tested" and "not tested" not in on.outcome:
        return False  # what was not touched calls for no caution
    return (
        (not on.names or says(item.about, on.names))
        and (not on.says or says(text, on.says))
        and not says(text, on.not_says)
        and (not on.outcome or (isinstance(item, Check | Trial) and item.outcome in on.outcome))
        and (not on.action or (isinstance(item, Work) and item.action in on.action))
        and (not on.status or (isinstance(item, Part) and item.status in on.status))
        and (on.quantity is None or (isinstance(item, Reading) and _reaches(on, item)))
        and (not on.judgement or (isinstance(item, Reading) and item.judgement in on.judgement))
    )


def _reaches(on: Trigger, reading: Reading) -> bool:
    if QUANTITY_OF.get(reading.unit) != on.quantity:
        return False
    if on.at_least is None or on.unit is None:
        return True
    return convert(reading.value, reading.unit, on.unit) >= on.at_least
