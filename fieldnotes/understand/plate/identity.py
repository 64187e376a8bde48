"""The unit: kind, make, model, serial, and when it was bought."""

from __future__ import annotations

from fieldnotes.records import Appliance, Evidence
from fieldnotes.understand.evidence import GUESSED, evidence_of
from fieldnotes.understand.plate.listed_makes import ListedMakes
from fieldnotes.understand.plate.makes import make_in
from fieldnotes.understand.plate.purchase import purchase_in
from fieldnotes.understand.plate.strings import strings_of
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.vocabulary.measures import Measures


def identity_in(
    narration: Narration,
    clauses: list[Clause],
    familiar: frozenset[str],
    listed: ListedMakes,
    measures: Measures,
) -> tuple[Appliance, frozenset[int]]:
    """The appliance, and the indices of the clauses that only identify it. `familiar`: words that are no make;
    `listed`: the shop's own."""
    strings, taken = strings_of(narration, measures)
    spans = {name: (each.first, each.last) for name, each in strings.items()}
    fields = {name: each.text for name, each in strings.items()}
    evidence = {
        name: _with_confidence(evidence_of(narration, each.first, each.last), each.confidence)
        for name, each in strings.items()
    }
    if make := _make(narration, familiar, listed):
        fields["make"], spans["make"], evidence["make"] = make
    if bought := purchase_in(narration, clauses):
        value, first, last = bought
        fields["purchased"], spans["purchased"] = value, (first, last)
        evidence["purchased"] = evidence_of(narration, first, last)
    if narration.kind_at:
        evidence["kind"] = evidence_of(narration, narration.kind_at.first, narration.kind_at.last)
    plates = {narration.breath_of(s.first) for s in taken}
    used = frozenset(
        n
        for n, c in enumerate(clauses)
        if any(c.first < last and first < c.last for first, last in spans.values())
        or (c.breath in plates and not narration.named(c.first, c.last))
    )
    appliance = Appliance(
        kind=narration.kind,
        kind_inferred=narration.kind is not None and narration.kind_at is None,
        make=fields.get("make"),
        model=fields.get("model"),
        serial=fields.get("serial"),
        purchased=fields.get("purchased"),
        evidence=evidence,
    )
    return appliance, used


def _make(
    narration: Narration, familiar: frozenset[str], listed: ListedMakes
) -> tuple[str, tuple[int, int], Evidence] | None:
    """The make as the shop's list spells it, else as it was said; the words that name it; and their evidence."""
    found = make_in(narration, familiar)
    if known := listed.told_in(narration, found):
        evidence = evidence_of(narration, known.first, known.last)
        if not known.sure:
            evidence = _with_confidence(evidence, min(evidence.confidence, GUESSED))
        return known.make, (known.first, known.last), evidence
    return (_name(narration, *found), found, evidence_of(narration, *found)) if found else None


def _with_confidence(evidence: Evidence, confidence: float) -> Evidence:
    return evidence.model_copy(update={"confidence": confidence})


def _name(narration: Narration, first: int, last: int) -> str:
    """A name as it is written, with a capital."""
    heard = [token.heard.strip(".,;:!?'\"").removesuffix("'s") for token in narration.tokens[first:last]]
    name = " ".join(word if word == "and" else word[:1].upper() + word[1:] for word in heard)
    several = narration.words[max(0, first - 2) : first] in (("of", "them"), ("of", "those"), ("of", "these"))
    return name.removesuffix("s") if several else name
