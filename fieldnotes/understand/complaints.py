"""Complaints: what the customer reported, as opposed to what the technician found.

They stand at the start of a visit, before the unit's plate is read: one breath or several, of which often only the
first says that somebody reported it ("She says it bangs. | Only with bedding.").
"""

from __future__ import annotations

import itertools

from fieldnotes.records import Item
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.nouns import Mention
from fieldnotes.understand.sentences import complaint_sentence, said

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
SHORTEST = 4  # words of a complaint that names no trouble we know
SHORT = 12  # words of a breath that goes on with a complaint without saying so
OPENING = 0.35  # share of the visit in which a bare symptom right after a complaint still belongs to it
PLATE = ("model", "serial", "plate", "purchased")
PLAIN_NO = ("no", "nope", "nah")
OTHERS = frozenset(["neighbours", "neighbors", "plumber", "electrician", "builder", "landlord", "super"])
# In front of "says" these are nobody who reports a trouble.
NO_SPEAKER = frozenset(
    [
        "i",
        "we",
        "you",
        "it",
        "that",
        "this",
        "to",
        "which",
        "else",
        "not",
        "wife",
        "boss",
        "plate",
        "tag",
        "sticker",
        "label",
    ]
)
PASSING = frozenset(
    [
        "also",
        "sometimes",
        "now",
        "lately",
        "every",
        "night",
        "day",
        "time",
        "half",
        "often",
        "some",
        "days",
        "nights",
        "then",
    ]
)
# "a frost free freezer", "the ice cream", "that rice smells good"
NO_TROUBLE_BEFORE = (("free",), ("good",), ("cream",), ("creams",), ("maker",), ("cubes",), ("box",))
SET_AGAINST = frozenset(["second", "other", "none", "pattern", "since"])  # "and the second one's damp"
EARLIER = frozenset(["last", "previous", "other", "first", "before", "ago", "visit", "earlier"])
# What a customer gets is trouble, what she likes or does is talk.
FEELING = frozenset(
    [
        "gets",
        "get",
        "got",
        "hears",
        "heard",
        "hear",
        "smells",
        "smelled",
        "smelt",
        "sees",
        "saw",
        "finds",
        "found",
        "notices",
        "noticed",
        "feels",
        "felt",
        "can",
        "has",
        "have",
        "had",
        "'s",
    ]
)
PERSONS = frozenset(["she", "he", "they", "we", "you", "i"])
OF_A_SUBJECT = frozenset(
    ["the", "her", "his", "their", "its", "a", "an", "some", "nothing", "everything", "one"]
)
SUBJECT = 3  # words behind "she says" in which its subject stands


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
        told = [i for i in indices if _reports(narration, clauses[i])]
        if _denies(narration, clauses, indices):
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
            told and _of_other_things(narration, first, clauses[told[0]].first, last, plated)
        ):
            continue
        if items and told and not _adds(narration, clauses, told, first, last, follows):
            continue
        previous = breath
        used |= {i for i in indices if first <= clauses[i].first < last}
        for start, end in _points(narration, clauses, first, last):
            symptom = next(iter(narration.named(start, end, "symptom")), None)
            items.append(
                Item(
                    about=symptom.name.name if symptom else said(narration, start, end),
                    text=complaint_sentence(narration, start, end),
                    evidence=evidence_of(narration, start, end),
                )
            )
    return items, frozenset(used)


def _points(narration: Narration, clauses: list[Clause], first: int, last: int) -> list[tuple[int, int]]:
    """One stretch for each thing reported: "it squeals, and it smells hot" are two."""
    edges = [first]
    for clause in clauses:
        joined = narration.words[clause.first] in ("and", "also", "plus") or (
            narration.tokens[clause.first - 1].stop == "."
            and bool(narration.marked("customer", clause.first, clause.last))
        )
        if first < clause.first < last and joined:
            before = {m.name.name for m in narration.named(edges[-1], clause.first, "symptom")}
            after = {m.name.name for m in narration.named(clause.first, last, "symptom")}
            then = narration.words[clause.first + 1 : clause.first + 2] == ("then",)  # only what came of it
            if not before.isdisjoint(after):
                continue
            if (before and after and not then) or _tells_more(narration, clause, edges[-1]):
                edges.append(clause.first)
    return list(itertools.pairwise([*edges, last]))


def _tells_more(narration: Narration, clause: Clause, start: int) -> bool:
    """Whether a clause with a subject of its own goes on to another trouble ("..., and the top rack's not getting
    washed"), of which the vocabulary need not know both; what works or once worked only sets it off."""
    words, grammar = narration.words, narration.grammar
    at = clause.first + 1
    while at < clause.last and (words[at] in PASSING or words[at] == "that"):
        at += 1
    subject = words[at : at + 1] and (words[at] in grammar.subjects or words[at] in OF_A_SUBJECT)
    verb = words[at + 1 : at + 2] and (words[at + 1] in grammar.verbs or words[at + 1] in grammar.being)
    if not (subject or verb) or clause.last - at < SHORTEST - 1:
        return False
    told = narration.marked("customer", start, clause.first)
    told += [m for m in narration.marked("complaint", start, clause.first) if m.value in ("", "said")]
    if not (told or _troubles(narration, start, clause.first)):
        return False  # only says where he is
    if _sets_off(narration, clause.first, clause.last):
        return False
    if "then" in words[clause.first : at]:  # mostly only what came of it
        return bool(_troubles(narration, start, clause.first)) and bool(_troubles(narration, at, clause.last))
    if _tells_trouble(narration, clause.first, clause.last):
        return SET_AGAINST.isdisjoint(words[clause.first : clause.last])
    person = words[at] in PERSONS
    whens = _whens(narration, clause.first, clause.last)
    return bool(_troubles(narration, start, clause.first)) and not person and not whens


def _tells_trouble(narration: Narration, first: int, last: int) -> bool:
    """In what is passed on, a denial is a trouble as well ("the motor never pauses")."""
    return bool(_troubles(narration, first, last)) or any(
        word in narration.grammar.negators for word in narration.words[first:last]
    )


def _sets_off(narration: Narration, first: int, last: int) -> bool:
    """Whether a stretch tells what works, what used to be so or what a bystander did, rather than a trouble."""
    return (
        any(m.value == "good" for m in narration.marked("outcome", first, last))
        or bool(narration.marked("bystander", first, last))
        or any(narration.words[n : n + 2] == ("used", "to") for n in range(first, last))
    )


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


def _reports(narration: Narration, clause: Clause) -> bool:
    """Whether a clause passes on what somebody reported; what was done here earlier is history, when the trouble
    began is not ("for a week before that he says ...")."""
    if clause.stance == "customer":
        first, last = narration.breaths[clause.breath]
        return not _told_of_others(narration, first, last) or bool(_troubles(narration, first, last))
    customer = narration.marked("customer", clause.first, clause.last)
    if clause.stance == "history":
        said_here = _only_said(narration, clause)
        return bool(customer or said_here) and bool(_troubles(narration, clause.first, clause.last))
    cues = [
        m
        for m in narration.marked("complaint", clause.first, clause.last)
        if (m.value == "" and not _denied(narration, clause, m)) or _somebody_says(narration, clause, m)
    ]
    return clause.stance in ("fact", "question", "general") and bool(cues or customer)


def _only_said(narration: Narration, clause: Clause) -> bool:
    """Whether a clause counts as history only because somebody said something ("the girl at the desk said ...")."""
    said = [
        m
        for m in narration.marked("complaint", clause.first, clause.last)
        if _somebody_says(narration, clause, m)
    ]
    history = narration.marked("history", clause.first, clause.last)
    earlier = EARLIER.isdisjoint(narration.words[clause.first : clause.last])
    return (
        bool(said)
        and earlier
        and all(any(h.first < s.last and s.first < h.last for s in said) for h in history)
    )


def _somebody_says(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a verb of saying has somebody else as its subject ("himself says", "the girl at the desk said"): not
    the technician, not a plate or a display."""
    if mark.value != "said" or mark.first == clause.first:
        return False
    before = narration.words[mark.first - 1]
    things = [m for m in narration.named(clause.first, mark.first) if m.last == mark.first]
    things_read = [
        m for m in narration.marked("expected", clause.first, mark.first + 1) if m.last > mark.first
    ]
    return before not in NO_SPEAKER and not things and not things_read


def _told_of_others(narration: Narration, first: int, last: int) -> bool:
    """Whether earlier visits are spoken of; "the fella says" is the customer's word, not theirs."""
    reported = narration.marked("customer", first, last)
    return any(
        not any(r.first <= m.first and m.last <= r.last for r in reported)
        for m in narration.marked("history", first, last)
    )


def _denied(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """ "I've no complaint about the dampers"."""
    return any(
        w in narration.grammar.negators
        for w in narration.words[max(clause.first, mark.first - 2) : mark.first]
    )


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
    troubled = [i for i in indices if _troubles(narration, clauses[i].first, clauses[i].last)]
    at = (told or troubled or indices)[0]
    first = last = at
    while first > indices[0] and first - 1 in indices and not _own(narration, clauses[first - 1]):
        first -= 1
    while last < indices[-1] and last + 1 in indices and not _own(narration, clauses[last + 1]):
        last += 1
    while first < at and _says_nothing(narration, clauses[first]):
        first += 1
    return clauses[first].first, clauses[last].last


def _says_nothing(narration: Narration, clause: Clause) -> bool:
    return all(word in narration.grammar.openers for word in narration.words[clause.first : clause.last])


def _own(narration: Narration, clause: Clause) -> bool:
    """Whether a clause is no more of the complaint: the technician's own doings and plans, or earlier visits."""
    turned = clause.turn and narration.words[clause.first] != "but"
    end = clause.last if turned else min(clause.last, clause.first + 3)
    return _speaks_of_self(narration, clause.first, end) or (
        (clause.stance == "history" or _plans(narration, clause))
        and not _troubles(narration, clause.first, clause.last)
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
        m.first <= first + NEAR for m in _whens(narration, first, last)
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
    named = [m for c in own for m in _troubles(narration, c.first, c.last)]
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


def _troubles(narration: Narration, first: int, last: int) -> list[Mention | Mark]:
    """Symptoms of the vocabulary, and words that tell of trouble without being one ("the ice maker's quit")."""
    found: list[Mention | Mark] = [*narration.named(first, last, "symptom")]
    found += [m for m in narration.marked("outcome", first, last) if m.value == "fault"]
    found += [m for m in narration.marked("trial", first, last) if m.value == "failed"]
    found += [m for m in narration.marked("complaint", first, last) if m.value == "trouble"]
    return [
        m
        for m in found
        if narration.words[m.last : m.last + 1] not in NO_TROUBLE_BEFORE
        and "never" not in narration.words[max(first, m.first - 3) : m.first]  # "it's never been noisy"
        and narration.words[m.first - 1] not in narration.grammar.negators  # "no water on the floor"
    ]


def _denies(narration: Narration, clauses: list[Clause], indices: list[int]) -> bool:
    """ "Any smell, she isn't complaining", "if the filter's missing you get crumbs, he told me"."""
    first, last = clauses[indices[0]].first, clauses[indices[-1]].last
    words = narration.words
    if words[first] == "if":
        return True
    return any(
        words[n].startswith(("complain", "mention", "notice"))
        and not narration.grammar.negators.isdisjoint(words[max(first, n - 2) : n])
        for n in range(first, last)
    )


def _adds(
    narration: Narration, clauses: list[Clause], told: list[int], first: int, last: int, follows: bool
) -> bool:
    """Whether what is passed on after a first complaint tells of trouble or of when it comes: much other talk of the
    customer's is of what works, what was bought and who was here."""
    if _troubles(narration, first, last) or _whens(narration, first, last):
        return True
    other = not {"years", "bought", *narration.grammar.negators}.isdisjoint(narration.words[first:last])
    supposed = any(clauses[i].stance == "hypothetical" for i in told)
    cue = max((m.last for m in narration.marked("customer", first, last)), default=first)
    subject, verb = (*narration.words[cue : cue + 2], "", "")[:2]
    talk = subject in PERSONS and cue < last and verb not in FEELING
    return follows and not other and not supposed and not talk and not _sets_off(narration, first, last)


def _whens(narration: Narration, first: int, last: int) -> list[Mark]:
    return [m for m in narration.marked("complaint", first, last) if m.value == "when"]


def _names_kind(narration: Narration, first: int, last: int) -> bool:
    return narration.kind_at is not None and first <= narration.kind_at.first < last


def _of_other_things(narration: Narration, first: int, told: int, last: int, plated: frozenset[int]) -> bool:
    """What a customer says of other things than trouble: when it was bought, who was here, who is coming."""
    if _troubles(narration, first, last) and not {"had", "years"} <= set(narration.words[first:last]):
        return False
    begin, _ = narration.breaths[narration.breath_of(first)]
    cues = narration.marked("customer", first, last)
    more = last - first - sum(m.last - m.first for m in cues)  # words besides "she says"
    if last - first < SHORTEST or more == 0 or not plated.isdisjoint(range(begin, told)):
        return True
    mark = next((m for m in cues if m.first >= told), None)
    cue = told + 1 if mark is None else mark.last
    if mark and narration.words[mark.first] in ("says", "tells", "told", "reckons"):
        cue = mark.first + 2  # "says the kettle's on": the cue holds the subject
    end = min(last, cue + SUBJECT)
    return bool(
        narration.marked("purchased", told, last)
        or "years" in narration.words[first:last]
        or narration.marked("follow_up", told, last)
        or (mark and narration.marked("bystander", cue, end))
        or (mark and not OTHERS.isdisjoint(narration.words[cue:end]))
        or _told_of_others(narration, told, last)
    )
