"""Complaints: what the customer reported, as opposed to what the technician found.

They stand at the start of a visit, before the unit's plate is read: one breath or several, of which often only the
first says that somebody reported it ("She says it bangs. | Only with bedding.").
"""

from __future__ import annotations

from fieldnotes.records import Item
from fieldnotes.understand.complaints.complaint_points import points_in, troubles_in, whens_in
from fieldnotes.understand.complaints.reporting import adds_to_complaint, denies, of_other_things, reports
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import complaint_sentence, said
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.vocabulary.quantities import QUANTITY_OF

SHORTEST_TROUBLE = 2  # words
BARE = 3  # breaths at the start in which a bare symptom is the complaint ("Oven not heating.")
# With one of these a breath tells when or how the trouble comes, though it names none ("Started after the storm").
WHEN = frozenset(
    [
        "started",
        "began",
        "been",
        "sometimes",
        "happens",
        "happened",
        "only",
        "mostly",
        "every",
        "since",
        "lately",
        "worse",
        "seems",
        "usually",
        "always",
    ]
)
GOES_ON = WHEN | frozenset(["also", "and", "plus", "another", "then", "it", "she", "he", "they"])
AT_WORK = frozenset(
    ["at", "in", "on", "out", "with", "here", "over", "up", "down", "back", "looking", "standing", "round"]
)
NEAR = 3  # words at the head of a breath within which it says when the trouble comes
SHORT = 12  # words of a breath that goes on with a complaint without saying so
OPENING = 0.35  # share of the visit in which a bare symptom right after a complaint still belongs to it
PLATE = ("model", "serial", "plate", "purchased")
MEASURED = ("temperature", "resistance", "voltage", "current", "pressure")  # what no customer measures
PLAIN_NO = ("no", "nope", "nah")


def complaints_in(
    narration: Narration, clauses: list[Clause], plate: frozenset[int], gone: frozenset[int]
) -> tuple[list[Item], frozenset[int]]:
    """All complaints in order, and the indices of the clauses that tell them. `plate` are the clauses that tell the
    unit's identity: no complaint reaches into them."""
    items: list[Item] = []
    used: set[int] = set()
    previous = -5
    opening = max(6, int(len(narration.breaths) * OPENING))
    by_breath: dict[int, list[int]] = {}
    on_plate = _on_plate(narration, clauses, plate)
    plated = frozenset(clauses[i].first for i in on_plate)
    for index, clause in enumerate(clauses):
        if index not in on_plate:
            by_breath.setdefault(clause.breath, []).append(index)
    for breath, indices in by_breath.items():
        if breath > opening:
            break
        if "otherwise" in narration.words[slice(*narration.breaths[breath])]:
            continue  # "Washes fine otherwise, she says"
        told = [i for i in indices if reports(narration, clauses[i])]
        if denies(narration, clauses, indices):
            continue
        bare = not items and breath < BARE
        follows = breath == previous + 1
        if not told and not (
            (bare and _is_bare_complaint(narration, clauses, indices))
            or (follows and _goes_on(narration, clauses, indices))
        ):
            continue
        first, last = _span(narration, clauses, indices, told)
        first = _less_taken_back(narration, first, last, gone)
        if first >= last or (
            told and of_other_things(narration, first, clauses[told[0]].first, last, plated)
        ):
            continue
        if items and told and not adds_to_complaint(narration, clauses, told, first, last, follows):
            continue
        previous = breath
        used |= {i for i in indices if first <= clauses[i].first < last}
        for start, end in points_in(narration, clauses, first, last):
            if _is_broken_off(narration, start, end):
                continue
            symptom = next(iter(narration.named(start, end, "symptom")), None)
            items.append(
                Item(
                    about=symptom.name.name if symptom else said(narration, start, end),
                    text=complaint_sentence(narration, _trouble_begins(narration, start, end), end),
                    evidence=evidence_of(narration, start, end),
                )
            )
    return items, frozenset(used)


def _trouble_begins(narration: Narration, first: int, last: int) -> int:
    """Behind the words that only announce a complaint ("this is job two, and the complaint is | it won't drain"),
    unless something of it was said before them."""
    cues = [
        m
        for label in ("complaint", "customer")
        for m in narration.marked(label, first, last)
        if m.value != "trouble"
    ]
    end = min(cues, key=lambda m: m.first).last if cues else first
    told_before = narration.named(first, end, "symptom") or troubles_in(narration, first, end)
    return first if told_before or last - end < SHORTEST_TROUBLE else end


def _is_broken_off(narration: Narration, first: int, last: int) -> bool:
    """Whether what somebody said ends before it says anything: "she says it's not." was cut off behind "not"."""
    begin = _trouble_begins(narration, first, last)
    grammar = narration.grammar
    hanging = grammar.pronouns | grammar.being | grammar.negators | grammar.modals | grammar.openers
    return begin > first and hanging.issuperset(narration.words[begin:last])


def _on_plate(narration: Narration, clauses: list[Clause], plate: frozenset[int]) -> frozenset[int]:
    """The clauses of `plate` that have a word of the plate, or go on from one that has."""
    found: set[int] = set()
    for index in sorted(plate):
        first, last = clauses[index].first, clauses[index].last
        cues = [m for label in PLATE for m in narration.marked(label, first, last)]
        cues += [m for m in narration.marked("make", first, last) if m.last - m.first > 1]
        goes_on = index - 1 in found and clauses[index - 1].breath == clauses[index].breath
        reports = narration.marked("customer", first, last) or narration.marked("complaint", first, last)
        if (cues or goes_on) and not reports:
            found.add(index)
    return frozenset(found)


def _less_taken_back(narration: Narration, first: int, last: int, gone: frozenset[int]) -> int:
    """Where a complaint starts that was taken back at its head. A plain "no" only corrects a day or a number."""
    end = first
    while end in gone:
        end += 1
    return first if narration.words[end - 1] in PLAIN_NO else end


def _span(
    narration: Narration, clauses: list[Clause], indices: list[int], told: list[int]
) -> tuple[int, int]:
    """The clauses around the one that reports, up to where the technician speaks of himself or of the unit."""
    troubled = [i for i in indices if troubles_in(narration, clauses[i].first, clauses[i].last)]
    at = (told or troubled or indices)[0]
    first = last = at
    while first > indices[0] and first - 1 in indices and not _own(narration, clauses[first - 1]):
        first -= 1
    while last < indices[-1] and last + 1 in indices and not _own(narration, clauses[last + 1]):
        last += 1
    unit = first
    while first < at and (
        _says_nothing(narration, clauses[first]) or _tells_the_unit(narration, clauses[unit], clauses[first])
    ):
        first += 1
    return clauses[first].first, clauses[last].last


def _tells_the_unit(narration: Narration, opening: Clause, clause: Clause) -> bool:
    """Whether a clause before the trouble only tells what machine this is and where ("integrated dishwasher this, in a
    rented flat, and | it trips"). `opening`: the clause with which the breath's complaint would begin."""
    kind = narration.kind_at
    told = kind is not None and opening.first <= kind.first < clause.last
    return told and not troubles_in(narration, clause.first, clause.last)


def _says_nothing(narration: Narration, clause: Clause) -> bool:
    return all(word in narration.grammar.openers for word in narration.words[clause.first : clause.last])


def _own(narration: Narration, clause: Clause) -> bool:
    """Whether a clause is no more of the complaint: the technician's own doings and plans, or earlier visits."""
    turned = clause.turn and narration.words[clause.first] != "but"
    end = clause.last if turned else min(clause.last, clause.first + 3)
    return _speaks_of_self(narration, clause.first, end) or (
        (clause.stance == "history" or _plans(narration, clause))
        and not troubles_in(narration, clause.first, clause.last)
    )


def _plans(narration: Narration, clause: Clause) -> bool:
    """Whether a plan is the technician's: with somebody else as the subject it is what the customer told."""
    opening = narration.words[clause.first : clause.first + 3]
    others = {"it", "she", "he", "they", "the"}
    return clause.stance == "plan" and others.isdisjoint(opening)


def _is_bare_complaint(narration: Narration, clauses: list[Clause], indices: list[int]) -> bool:
    """A breath at the very start that names a symptom as a fact: "Electric range, oven not heating"."""
    first, last = clauses[indices[0]].first, clauses[indices[-1]].last
    verbs = [m for m in narration.marked("complaint", first, last) if m.value == "trouble"]
    verbs += [m for m in narration.marked("trial", first, last) if m.value == "failed"]
    return _names_trouble(narration, clauses, indices) and (
        bool(narration.named(first, last, "symptom")) or (bool(verbs) and _names_kind(narration, first, last))
    )


def _goes_on(narration: Narration, clauses: list[Clause], indices: list[int]) -> bool:
    """A breath right after a complaint that names a symptom as a fact ("Also a burning smell"), or when it comes."""
    first, last = clauses[indices[0]].first, clauses[indices[-1]].last
    when = narration.words[first] in WHEN or any(
        m.first <= first + NEAR for m in whens_in(narration, first, last)
    )
    if when and not _speaks_of_self(narration, first, last):
        return True
    return _names_trouble(narration, clauses, indices) and (
        narration.words[first] in GOES_ON or last - first <= SHORT
    )


def _names_trouble(narration: Narration, clauses: list[Clause], indices: list[int]) -> bool:
    """What the technician did himself, what is denied and what such machines do in general is no trouble."""
    first, last = clauses[indices[0]].first, clauses[indices[-1]].last
    own = [c for i in indices if (c := clauses[i]).stance in ("fact", "customer", "general")]
    if any(QUANTITY_OF.get(q.unit or "") in MEASURED for q in narration.numbers(first, last)):
        return False  # "51 degrees Fahrenheit, way too warm."
    named = [m for c in own for m in troubles_in(narration, c.first, c.last)]
    if not named or _speaks_of_self(narration, first, last) or _of_such_machines(narration, first, last):
        return False
    before = narration.words[max(first, named[0].first - 3) : named[0].first]
    return not any(word in narration.grammar.negators for word in before)


def _speaks_of_self(narration: Narration, first: int, last: int) -> bool:
    """Whether the technician tells of his own doings; "I'm at ..., looking at ..." only says where he is."""
    words = narration.words
    return any(
        words[n] in ("i", "my", "we")
        and not (words[n + 1 : n + 2] in (("'m",), ("am",), ("'re",)) and AT_WORK & set(words[n + 2 : n + 3]))
        for n in range(first, last)
    )


def _of_such_machines(narration: Narration, first: int, last: int) -> bool:
    """ "These get noisy when they're low on gas"."""
    return narration.words[first] in ("these", "those", "any", "most", "some")


def _names_kind(narration: Narration, first: int, last: int) -> bool:
    return narration.kind_at is not None and first <= narration.kind_at.first < last
