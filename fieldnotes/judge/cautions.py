"""Visit -> the cautions that its own work, parts and findings call for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fieldnotes.judge.kinds import Packs, kinds_of
from fieldnotes.judge.units import convert
from fieldnotes.judge.words import says
from fieldnotes.records import Caution, Check, Item, Part, Reading, Trial, Visit, Work
from fieldnotes.vocabulary.limits import CautionRule, CautionsFile, Trigger
from fieldnotes.vocabulary.quantities import QUANTITY_OF


def cautions_for(visit: Visit, cautions: CautionsFile, packs: Packs) -> tuple[Caution, ...]:
    """In file order, each once; the deferral to local codes and licensed persons comes last."""
    kinds = kinds_of(visit.appliance.kind, packs)
    called = [
        Caution(about=rule.about, text=rule.text)
        for rule in cautions.cautions
        if (not rule.kinds or set(rule.kinds) & set(kinds)) and _called_for(rule, visit)
    ]
    if called:
        called.append(Caution(about=cautions.deferral_about, text=cautions.deferral))
    return tuple(called)


def _called_for(rule: CautionRule, visit: Visit) -> bool:
    lists: Mapping[str, Sequence[Item]] = {
        "complaints": visit.complaints, "checks": visit.checks, "readings": visit.readings,
        "trials": visit.trials, "work": visit.work, "parts": visit.parts, "causes": visit.causes,
        "advice": visit.advice, "follow_ups": visit.follow_ups, "safety": visit.safety,
    }  # fmt: skip
    return any(_fires(on, item) for on in rule.triggers for name in on.among for item in lists[name])


def _fires(on: Trigger, item: Item) -> bool:
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
