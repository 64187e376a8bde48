"""The sums of a visit: for each reading those that are about it, and the limit that they set it."""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.judge.limits import between
from fieldnotes.judge.sums.formulas import work_out
from fieldnotes.judge.sums.heard import Heard, Read
from fieldnotes.judge.sums.inputs import Finder, Found, Unsure
from fieldnotes.judge.sums.refrigerant import CoolPropMissing
from fieldnotes.judge.units import convert
from fieldnotes.judge.words import says
from fieldnotes.records import Judgement, Limit, Sum, SumInput
from fieldnotes.vocabulary.formulas import FORMULAS
from fieldnotes.vocabulary.sums import SumRule, SumsFile

_FAHRENHEIT = {  # result's unit -> the same in degrees Fahrenheit, and how much of it one is
    "delta_degC": ("delta_degF", 1.8),
    "delta_degC/h": ("delta_degF/h", 1.8),
}


@dataclass(frozen=True)
class WorkedOut:
    """The sums about one reading, in the order of the vocabulary, the limit that follows, and a note."""

    sums: tuple[Sum, ...] = ()
    limit: Limit | None = None
    note: str | None = None


def sums_about(read: Read, file: SumsFile, heard: Heard, vague: tuple[str, ...]) -> WorkedOut:
    """All that can be worked out about one reading of a visit."""
    finder = Finder(file, heard, vague)
    sums: list[Sum] = []
    limit: Limit | None = None
    note: str | None = None
    for rule in file.sums:
        found = _inputs(rule, read, finder)
        if found is None:
            continue
        try:
            result = work_out(rule.formula, {name: one.value for name, one in found.items()})
        except CoolPropMissing:
            note = file.needs_coolprop
            continue
        if result is None:
            continue
        bounds = _limit(rule, result, found)
        if bounds and not _plausible(bounds, read, file.beyond):
            continue
        sums.append(_sum(rule, result, found, heard))
        if limit is None and bounds and _sure(rule, bounds, read):
            limit = bounds
    return WorkedOut(tuple(sums), limit, note)


def _inputs(rule: SumRule, read: Read, finder: Finder) -> dict[str, Found] | None:
    """Every input of the formula by its name, in the formula's order; None where the sum cannot be made."""
    shape, around = FORMULAS[rule.formula], finder.heard.around
    if (rule.kinds and not set(rule.kinds) & set(around.kinds)) or set(rule.not_kinds) & set(around.kinds):
        return None
    unit = shape.inputs[rule.about.as_][1] if rule.about.as_ else read.reading.unit
    if not finder.fits(rule.about, read, unit):
        return None
    if (rule.heard and not says(around.heard, rule.heard)) or says(around.heard, rule.not_heard):
        return None
    found: dict[str, Found] = {}
    for name in shape.inputs:
        try:
            one = (
                finder.subject(read, *shape.inputs[name])
                if name == rule.about.as_
                else finder.find(rule.inputs[name], name, shape, read)
            )
        except Unsure:
            return None
        if one is None:
            return None
        found[name] = one
    return found


def _sum(rule: SumRule, result: float, found: dict[str, Found], heard: Heard) -> Sum:
    value, unit = _shown(result, FORMULAS[rule.formula].unit, heard.celsius)
    limit: Limit | None = None
    judgement: Judgement = "no limit known"
    if rule.minimum is not None or rule.maximum is not None:
        judgement = "within" if between(result, rule.minimum, rule.maximum) else "outside"
        limit = Limit(
            minimum=rule.minimum, maximum=rule.maximum, unit=unit, source=rule.source, status=rule.status
        )
    return Sum(
        id=rule.id,
        what=rule.what,
        formula=FORMULAS[rule.formula].written,
        inputs=tuple(one.shown for one in found.values()),
        value=_figures(value),
        unit=unit,
        source=rule.source,
        status=rule.status,
        note=rule.note,
        limit=limit,
        judgement=judgement,
    )


def _shown(result: float, unit: str, celsius: bool) -> tuple[float, str]:
    """The result in the degrees that the visit speaks of."""
    if celsius:
        return result, unit
    if unit == "degC":
        return convert(result, "degC", "degF"), "degF"
    other, times = _FAHRENHEIT.get(unit, (unit, 1))
    return result * times, other


def _limit(rule: SumRule, result: float, found: dict[str, Found]) -> Limit | None:
    """The limit that the sum sets the reading, in the unit of what it is measured from."""
    bounds, shape = rule.bounds, FORMULAS[rule.formula]
    if bounds is None:
        return None
    middle, unit = (found[bounds.of].value, shape.inputs[bounds.of][1]) if bounds.of else (result, shape.unit)
    assert isinstance(middle, float | int)
    given = "; ".join(_told(one.shown) for name, one in found.items() if name != rule.about.as_)
    low, high = (
        None if percent is None else _figures(middle * (1 + percent / 100))
        for percent in (bounds.low_percent, bounds.high_percent)
    )
    return Limit(
        minimum=low,
        maximum=high,
        unit=unit,
        source=rule.source,
        status=rule.status,
        note=f"{given[:1].upper()}{given[1:]}. {rule.note}" if rule.note else given,
    )


def _told(one: SumInput) -> str:
    return one.what if one.value is None else f"{one.what} {one.value:g} {one.unit}".strip()


def _plausible(limit: Limit, read: Read, beyond: float) -> bool:
    """Whether the reading can be of what the limit is for; a limit without two ends tells nothing of that."""
    if limit.minimum is None or limit.maximum is None:
        return True
    middle = (limit.minimum + limit.maximum) / 2
    return middle / beyond <= convert(read.reading.value, read.reading.unit, limit.unit) <= middle * beyond


def _sure(rule: SumRule, limit: Limit, read: Read) -> bool:
    value = convert(read.reading.value, read.reading.unit, limit.unit)
    judged = "within" if between(value, limit.minimum, limit.maximum) else "outside"
    return rule.bounds is not None and rule.bounds.says in (None, judged)


def _figures(value: float) -> float:
    """To four figures, as a meter reads."""
    return float(f"{value:.4g}")
