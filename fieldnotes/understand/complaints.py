"""Complaints: what the customer reported, as opposed to what the technician found."""

from __future__ import annotations

from fieldnotes.records import Item
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.nouns import Mention
from fieldnotes.understand.sentences import complaint_sentence, said

BARE = (
    3  # breaths at the start in which a bare symptom is the complaint ("Electric range, oven not heating.")
)
GOES_ON = (
    "also",
    "and",
    "plus",
    "another",
    "started",
    "then",
    "sometimes",
    "happens",
    "only",
    "mostly",
    "it",
    "she",
    "he",
    "seems",
)
SHORT = 12  # words of a breath that goes on with a complaint without saying so
OPENING = 0.35  # share of the visit in which a bare symptom right after a complaint still belongs to it


def complaints_in(
    narration: Narration, clauses: list[Clause], gone: frozenset[int]
) -> tuple[list[Item], frozenset[int]]:
    """All complaints in order, and the indices of the clauses that tell them."""
    items: list[Item] = []
    used: set[int] = set()
    previous = -5
    opening = max(6, int(len(narration.breaths) * OPENING))
    by_breath: dict[int, list[int]] = {}
    for index, clause in enumerate(clauses):
        by_breath.setdefault(clause.breath, []).append(index)
    for breath, indices in by_breath.items():
        if breath > opening:
            break
        told = [i for i in indices if _reports(narration, clauses[i], breath)]
        bare = not items and breath < BARE
        if not told and not (
            (bare or breath == previous + 1) and _names_symptom(narration, clauses, indices, bare)
        ):
            continue
        first, last = _span(narration, clauses, indices, told)
        symptom = next(iter(narration.named(first, last, "symptom")), None)
        if first in gone or (symptom is None and _no_complaint(narration, first, last)):
            continue
        previous = breath
        used |= {i for i in indices if first <= clauses[i].first < last}
        items.append(
            Item(
                about=symptom.name.name if symptom else said(narration, first, last),
                text=complaint_sentence(narration, first, last),
                evidence=evidence_of(narration, first, last),
            )
        )
    return items, frozenset(used)


def _reports(narration: Narration, clause: Clause, breath: int) -> bool:
    if clause.stance == "customer":
        told_of_others = narration.marked("history", *narration.breaths[clause.breath])
        return not told_of_others or bool(narration.named(clause.first, clause.last, "symptom"))
    if clause.stance == "history" and narration.marked("customer", clause.first, clause.last):
        return bool(
            narration.named(clause.first, clause.last, "symptom")
        )  # "for a week before that he says ..."
    return clause.stance in ("fact", "question", "general") and bool(
        any(
            not _denied(narration, clause, m)
            for m in narration.marked("complaint", clause.first, clause.last)
        )
        or narration.marked("customer", clause.first, clause.last)
    )


def _denied(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """ "I've no complaint about the dampers"."""
    return any(
        w in narration.grammar.negators
        for w in narration.words[max(clause.first, mark.first - 2) : mark.first]
    )


def _span(
    narration: Narration, clauses: list[Clause], indices: list[int], told: list[int]
) -> tuple[int, int]:
    """The clauses around the one that reports, up to where the technician speaks of himself or of the unit."""
    at = told[0] if told else indices[0]
    first = at
    while (
        first > indices[0]
        and not _own(narration, clauses[first - 1])
        and clauses[first - 1].last - clauses[first - 1].first > 1
    ):
        first -= 1
    last = at
    while last < indices[-1] and not _own(narration, clauses[last + 1]):
        last += 1
    return clauses[first].first, clauses[last].last


def _own(narration: Narration, clause: Clause) -> bool:
    words = narration.words[clause.first : clause.last]
    return clause.stance in ("plan", "history") or "i" in words[:3] or (clause.turn and words[0] != "but")


def _names_symptom(narration: Narration, clauses: list[Clause], indices: list[int], bare: bool) -> bool:
    """A breath right after a complaint, or at the very start, that names a symptom as a fact: "Also a burning
    smell". What the technician did himself, and what is denied, is none."""
    first, last = clauses[indices[0]].first, clauses[indices[-1]].last
    own = [c for i in indices if (c := clauses[i]).stance in ("fact", "customer", "general")]
    named: list[Mention | Mark] = [m for c in own for m in narration.named(c.first, c.last, "symptom")]
    named += [m for c in own for m in _troubles(narration, c)]
    if not named or any(word in ("i", "my", "i'm", "we") for word in narration.words[first:last]):
        return False
    before = narration.words[max(first, named[0].first - 3) : named[0].first]
    if any(word in narration.grammar.negators for word in before):
        return False
    if bare:
        return _names_kind(narration, first, last) or bool(narration.named(first, last, "symptom"))
    return narration.words[first] in GOES_ON or last - first <= SHORT


def _troubles(narration: Narration, clause: Clause) -> list[Mark]:
    """Words that tell of trouble without being a symptom of the vocabulary ("the ice maker's quit")."""
    found = [m for m in narration.marked("outcome", clause.first, clause.last) if m.value == "fault"]
    return found + [m for m in narration.marked("trial", clause.first, clause.last) if m.value == "failed"]


def _names_kind(narration: Narration, first: int, last: int) -> bool:
    return narration.kind_at is not None and first <= narration.kind_at.first < last


def _no_complaint(narration: Narration, first: int, last: int) -> bool:
    """What a customer says of other things: when it was bought, who was here, that something is fine."""
    return bool(
        narration.marked("purchased", first, last)
        or narration.marked("bystander", first + 1, last)
        or narration.marked("history", first, last)
        or last - first < 4
    )
