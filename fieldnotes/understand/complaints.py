"""Complaints: what the customer reported, as opposed to what the technician found."""

from __future__ import annotations

from fieldnotes.records import Item
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Narration
from fieldnotes.understand.sentences import complaint_sentence

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
        told = [
            i for i in indices
            if clauses[i].stance == "customer" or narration.marked("complaint", clauses[i].first, clauses[i].last)
        ]
        goes_on = breath == previous + 1 and _goes_on(narration, clauses, indices)
        if not told and not goes_on:
            continue
        span = _span(clauses, indices, told)
        symptom = next(iter(narration.named(span[0], span[1], "symptom")), None)
        if symptom is None and not told:
            continue
        if symptom is None and _no_complaint(narration, *span):
            continue
        if span[0] in gone:
            continue
        previous = breath
        used |= {i for i in indices if span[0] <= clauses[i].first < span[1]}
        items.append(
            Item(
                about=symptom.name.name if symptom else complaint_sentence(narration, *span, bare=True),
                text=complaint_sentence(narration, *span),
                evidence=evidence_of(narration, *span),
            )
        )
    return items, frozenset(used)


def _span(clauses: list[Clause], indices: list[int], told: list[int]) -> tuple[int, int]:
    """From the first clause that reports to the last that is still the customer's."""
    first = told[0] if told else indices[0]
    last = first
    for i in indices:
        if i > first and clauses[i].stance in ("customer", "fact", "general") and not clauses[i].turn:
            last = i
        elif i > first:
            break
    return clauses[first].first, clauses[last].last


def _goes_on(narration: Narration, clauses: list[Clause], indices: list[int]) -> bool:
    """A breath right after a complaint that adds a symptom ("also a burning smell")."""
    first, last = clauses[indices[0]].first, clauses[indices[-1]].last
    return bool(narration.named(first, last, "symptom")) and not narration.marked("outcome", first, first)


def _no_complaint(narration: Narration, first: int, last: int) -> bool:
    """What a customer says of other things: when it was bought, who was here, that something is fine."""
    return bool(
        narration.marked("purchased", first, last)
        or narration.marked("history", first, last)
        or any(m.value == "good" for m in narration.marked("outcome", first, last))
        or last - first < 4
    )
