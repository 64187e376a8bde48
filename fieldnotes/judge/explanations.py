"""Visit -> what is explained to the customer: matters on which advice was given, and no others."""

from __future__ import annotations

from collections.abc import Sequence

from fieldnotes.judge.kinds import Packs, kinds_of
from fieldnotes.judge.words import says
from fieldnotes.records import Explained, Item, Visit
from fieldnotes.vocabulary.explanations import ExplanationRule

MOST = 3  # the customer page is one page


def explained(visit: Visit, rules: Sequence[ExplanationRule], packs: Packs) -> tuple[Explained, ...]:
    """Each matter once, in the order of the advice that it belongs to."""
    kinds = set(kinds_of(visit.appliance.kind, packs))
    found: dict[str, Explained] = {}
    for advice in visit.advice:
        for rule in rules:
            if (not rule.kinds or kinds & set(rule.kinds)) and brings_up(rule, advice):
                found.setdefault(rule.id, Explained(topic=rule.id, about=advice.about))
    return tuple(found.values())[:MOST]


def brings_up(rule: ExplanationRule, advice: Item) -> bool:
    """Whether the advice is on the rule's matter."""
    text = f"{advice.about} / {advice.evidence.quote}"
    return says(text, rule.cues) and not says(text, rule.not_cues)
