"""What one file says of another: kinds, names, units, labels and values that have to exist there."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from difflib import get_close_matches
from typing import Any, get_args

from fieldnotes.records import Action, Certainty, Finding, Outcome, PartStatus, TrialOutcome
from fieldnotes.vocabulary.explanations import ExplanationsFile
from fieldnotes.vocabulary.measures import UnitName
from fieldnotes.vocabulary.packs import AppliancePack
from fieldnotes.vocabulary.rules import Label, RuleFile
from fieldnotes.vocabulary_bench.names import SECTIONS, Section, layers_of
from fieldnotes.vocabulary_bench.opened import Mistake, Opened, Place, Source

# What the report can hold where a rule of the label has a value.
VALUES: dict[Label, tuple[str, ...]] = {
    "outcome": (*get_args(Outcome), "none", "as before"),
    "work": get_args(Action),
    "part": get_args(PartStatus),
    "cause": (
        *get_args(Certainty),
        "heading",
        "sure",
        "owing",
        "yours",
        "did",
        "of trouble",
        "afterthought",
        "cleft",
        "from",
        "adds",
        "ruin",
        "softens",
    ),
    "complaint": ("reported", "said", "when", "trouble"),
    "verdict": (*get_args(Finding), "heading"),
    "trial": (*get_args(TrialOutcome), "run", "begun", "counted", "same"),
}


def reference_mistakes(opened: Opened) -> Iterator[Mistake]:
    """Everything that is named and does not exist.

    Nothing is told of kinds, and of names in packs, while a pack cannot be read: they may be there.
    """
    whole = not any(mistake.path.parent.name == "appliances" for mistake in opened.refused)
    for source, pack in opened.all_of(AppliancePack):
        yield from _code_shapes(source, pack)
        if whole:
            yield from _wider(opened, source, pack)
            yield from _expectations(opened, source, pack)
    for source, layer in opened.layers:
        for n, part in enumerate(layer.parts):
            for k, unit in enumerate(part.measured_in):
                if unit not in get_args(UnitName):
                    yield source.mistake(
                        ("parts", n, "measured_in", k),
                        f'"{unit}" is no unit.{_hint(unit, get_args(UnitName))}',
                    )
    for source in opened.sources if whole else ():
        if source.name in ("limits.yaml", "sums.yaml", "gaps.yaml", "cautions.yaml") or isinstance(
            source.model, ExplanationsFile
        ):
            for at, kind in _kinds_in(source.plain, ()):
                if kind not in opened.packs:
                    yield source.mistake(
                        at, f'no kind of appliance is called "{kind}".{_hint(kind, opened.packs)}'
                    )
    yield from _labels(opened)
    yield from _values(opened)


def _wider(opened: Opened, source: Source, pack: AppliancePack) -> Iterator[Mistake]:
    if pack.wider == pack.kind:
        yield source.mistake(("wider",), f'"{pack.kind}" cannot be a sort of itself. Take wider out.')
    elif pack.wider and pack.wider not in opened.packs:
        yield source.mistake(
            ("wider",), f'no kind of appliance is called "{pack.wider}".{_hint(pack.wider, opened.packs)}'
        )


def _expectations(opened: Opened, source: Source, pack: AppliancePack) -> Iterator[Mistake]:
    known = {section: _names_known(opened, pack, section) for section in SECTIONS}
    things = known["parts"] | known["trials"]
    for n, expectation in enumerate(pack.expects):
        for k, name in enumerate(expectation.complaint):
            if name not in known["symptoms"]:
                text = f'no symptom of "{pack.kind}" is called "{name}".{_hint(name, known["symptoms"])}'
                yield source.mistake(("expects", n, "complaint", k), text)
        for k, check in enumerate(expectation.look_for):
            for j, name in enumerate(check.about):
                if name not in things:
                    text = f'no part or trial of "{pack.kind}" is called "{name}".{_hint(name, things)}'
                    yield source.mistake(("expects", n, "look_for", k, "about", j), text)


def _names_known(opened: Opened, pack: AppliancePack, section: Section) -> set[str]:
    """Names on this kind, and on the sorts of it: "washer" may speak of the agitator."""
    sorts = [other for _, other in opened.packs.values() if other.wider == pack.kind]
    layers = [layer for _, layer in layers_of(opened, pack.kind)]
    return {entry.name for layer in (*layers, *sorts) for entry in getattr(layer, section)}


def _code_shapes(source: Source, pack: AppliancePack) -> Iterator[Mistake]:
    for n, shape in enumerate(pack.code_shapes):
        try:
            re.compile(shape)
        except re.error as fault:
            yield source.mistake(
                ("code_shapes", n),
                f'"{shape}" is no regular expression: {fault}. E01 to E99 is "E\\\\d\\\\d".',
            )


def _kinds_in(plain: Any, at: Place) -> Iterator[tuple[Place, str]]:
    """Every kind that a judging file names, with its place."""
    if isinstance(plain, list):
        for n, below in enumerate(plain):
            yield from _kinds_in(below, (*at, n))
    elif isinstance(plain, dict):
        for key, below in plain.items():
            if key in ("kinds", "not_kinds") and isinstance(below, list):
                yield from (((*at, key, n), kind) for n, kind in enumerate(below))
            else:
                yield from _kinds_in(below, (*at, key))


def _labels(opened: Opened) -> Iterator[Mistake]:
    """Labels that the program asks for and no rule gives. The loader refuses those that it does not know."""
    if any(mistake.path.parent.name == "rules" for mistake in opened.refused):
        return  # the missing rule may be in the refused file
    given = {rule.label for _, rules in opened.all_of(RuleFile) for rule in rules.rules}
    for label in get_args(Label):
        if label not in given:
            yield Mistake(
                opened.folder / "rules",
                1,
                f'no rule has the label "{label}", so what it marks is never found. Add a rule with it.',
            )


def _values(opened: Opened) -> Iterator[Mistake]:
    for source, rules in opened.all_of(RuleFile):
        for n, rule in enumerate(rules.rules):
            allowed = VALUES.get(rule.label)
            if allowed and rule.value not in allowed:
                said = f'value "{rule.value}"' if rule.value else "no value"
                yield source.mistake(
                    ("rules", n, "value"),
                    f'rule "{rule.id}" has {said}; {rule.label} is one of {", ".join(allowed)}.'
                    f"{_hint(rule.value, allowed) if rule.value else ' Give one of these.'}",
                )


def _hint(name: str, known: Collection[str]) -> str:
    near = get_close_matches(name, list(known), 1)
    return f' Did you mean "{near[0]}"?' if near else " Take it out, or add it."
