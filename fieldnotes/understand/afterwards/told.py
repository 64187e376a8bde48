"""Advice to the customer, and what is still to happen after the visit."""

from __future__ import annotations

from collections.abc import Callable

from fieldnotes.records import Item
from fieldnotes.understand.afterwards.advice_cues import ORDERING, is_told, orders, told_by_others
from fieldnotes.understand.afterwards.advice_points import CONDITIONS, SHORT, Label, points
from fieldnotes.understand.afterwards.open_tasks import is_a_promise, is_due, is_open
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import advice_sentence, behind_telling, follow_up_sentence, reported
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.things import things_in

RETURN_VISIT = "return visit"
SHORT_CUE = 4  # words: a cue this short speaks of what was said before it
# "I told her that too", "he's going to pick that up himself": what is meant was said before.
POINTERS = ("that", "it", "them", "so", "one", "this", "these", "those", "to", "word")
SELVES = ("himself", "herself", "myself", "themselves")
ANSWERS = frozenset(
    ("please", "don't", "not", "no", "never", "ever", "yes", "definitely", "absolutely", "certainly")
)
FILLING = ("too", "much", "twice", "as", "well", "also", "up", "again", "him", "her", "on", *SELVES)


def follow_ups_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Item], frozenset[int]]:
    """What is still to be done, and the clauses that say so."""
    return _items(narration, clauses, "follow_up", follow_up_sentence, claimed, gone)


def advice_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Item], frozenset[int]]:
    """Every point that the customer was told, and the clauses that tell it."""
    return _items(narration, clauses, "advice", advice_sentence, claimed, gone)


def _items(
    narration: Narration,
    clauses: list[Clause],
    label: Label,
    sentence: Callable[[Narration, int, int], str],
    claimed: frozenset[int],
    gone: frozenset[int],
) -> tuple[list[Item], frozenset[int]]:
    items: list[Item] = []
    used: set[int] = set()
    for group in _groups(narration, clauses, label, claimed, gone):
        used |= set(group)
        for point in points(narration, [clauses[i] for i in group], label):
            first, last = _from_where_it_points(narration, clauses, point, label), point[-1].last
            items.append(
                Item(
                    about=_about(narration, first, last, label),
                    text=sentence(narration, first, last),
                    evidence=evidence_of(narration, first, last),
                )
            )
    return items, frozenset(used)


def _groups(
    narration: Narration, clauses: list[Clause], label: Label, claimed: frozenset[int], gone: frozenset[int]
) -> list[list[int]]:
    """Runs of clauses from a cue to the end of its breath, or to where the speaker turns to something else."""
    groups: list[list[int]] = []
    open_breath = -1
    for index, clause in enumerate(clauses):
        if index in claimed:
            continue
        starts = _starts(narration, clauses, clause, label, gone) or (
            label == "advice" and _goes_on(narration, clauses, index, groups)
        )
        if open_breath == clause.breath and (starts or not _ends(narration, clauses, index, label)):
            groups[-1].append(index)
        elif starts:
            groups.append([*_lead_in(narration, clauses, index, label, claimed), index])
            open_breath = clause.breath
        elif open_breath == clause.breath:
            open_breath = -1
    return groups


def _starts(
    narration: Narration, clauses: list[Clause], clause: Clause, label: Label, gone: frozenset[int]
) -> bool:
    begin = next(c.first for c in clauses if c.sentence == clause.sentence)
    marks = [
        m
        for m in narration.marked(label, clause.first, clause.last)
        if m.first not in gone and not _refused(narration, clause, m.first)
    ]
    marks = [m for m in marks if m.rule.form != "bare" or orders(narration, m.last)]
    due = is_due if label == "follow_up" else is_told
    marks = [m for m in marks if due(narration, clause, m)]
    stance = "fact" if _only_looks_so(narration, clause, marks) else clause.stance
    if not marks or stance == "history":
        return False
    if stance == "customer" and not is_a_promise(narration, clause, marks):
        return False
    if stance == "hypothetical" and (
        "if" in narration.words[clause.first : clause.last]
        or (label == "advice" and narration.words[clause.first] != "i" and not _bids(narration, marks[0]))
    ):
        return False
    if _only_says_when(narration, clause, marks[0]) and not (
        label == "advice" and _points_back(narration, marks[0].last, clause.last)
    ):
        return False  # "... till I'm back" only says how long
    if label == "advice":
        return (
            clause.stance != "question"
            and not narration.marked("follow_up", clause.first, marks[0].first + 1)
            and not (clause.stance == "general" and marks[0].rule.id == "advice-direct")
            and not told_by_others(narration, begin, marks[0])
            and not _is_own_promise(narration, clause, marks[0])
            and not narration.trade.bystanders & set(narration.words[marks[0].first : marks[0].last])
        )
    return is_open(narration, clauses, clause, begin, marks)


def _comes_again(narration: Narration, first: int, last: int) -> bool:
    """Whether all that is said of a later day is that one of us comes again ("we'll be back out to fit it")."""
    return any(
        not {"back", "again", "return", "visit"}.isdisjoint(narration.words[m.first : m.last])
        and not {"i", "we", "us"}.isdisjoint(narration.words[max(first, m.first - 2) : m.last])
        for m in narration.marked("follow_up", first, last)
    )


def _is_own_promise(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether what the customer was told is what we will do ("I've told her I'll look in next week")."""
    says_who = narration.words[mark.last : mark.last + 1] in (("i",), ("we",))
    _, end = narration.breaths[clause.breath]
    return says_who and bool(narration.marked("follow_up", mark.last, min(end, mark.last + 1)))


def _bids(narration: Narration, mark: Mark) -> bool:
    """Whether a cue says in itself what the customer is to do ("if it trips, she's to leave it off")."""
    return narration.words[mark.first + 1 : mark.first + 3] in (
        ("'s", "to"),
        ("is", "to"),
        ("are", "to"),
        ("'re", "to"),
    )


def _only_looks_so(narration: Narration, clause: Clause, marks: list[Mark]) -> bool:
    """Whether all that makes a clause hearsay, history or a hypothesis lies within what the cues say themselves:
    "she said she'd think it over", "somebody has to come back"."""
    if clause.stance not in ("history", "hypothetical", "customer", "general"):
        return False
    cues = narration.marked(clause.stance, clause.first, clause.last)
    return bool(cues) and all(
        narration.words[c.last : c.last + 1] == ("to",)
        or any(m.first <= c.first and c.last <= m.last for m in marks)
        for c in cues
    )


def _only_says_when(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a cue stands in the words that tell the time, and not behind them ("when it comes | I'm to fit it")."""
    if narration.words[clause.first] not in ("till", "until", "before", "when", "once"):
        return False
    return not any(m.last <= mark.first for m in narration.marked("later", clause.first, mark.first))


def _points_back(narration: Narration, first: int, last: int) -> bool:
    """Whether the words behind a cue only point back: "I told him that too", "so I had a word"."""
    return all(word in POINTERS or word in FILLING for word in narration.words[first:last])


def _from_where_it_points(
    narration: Narration, clauses: list[Clause], point: list[Clause], label: Label
) -> int:
    """Where the words of a point start: at its first clause; at its sentence's start, where it only points back."""
    first, last = point[0].first, point[-1].last
    marks = narration.marked(label, first, last)
    if not marks or things_in(narration, first, last):
        return first
    own = [w for w in narration.words[marks[-1].last : last] if w not in FILLING and w not in ANSWERS]
    pointing = not own or (len(own) <= SHORT and any(w in POINTERS for w in own[-2:]))
    if not pointing:
        return first
    return next(c.first for c in clauses if c.sentence == point[0].sentence)


def _refused(narration: Narration, clause: Clause, at: int) -> bool:
    """Whether it is denied ("I haven't told her"), the customer's doing ("she explained that ..."), or was told to
    the technician ("I was advised by the factory ...")."""
    before = narration.words[max(clause.first, at - 2) : at]
    return (
        any(word in narration.grammar.negators for word in before)
        or before[-1:] in (("she",), ("he",), ("they",), ("who",))
        or (
            before[-1:] == ("it",) and narration.words[at] in ("never", "always", "only")
        )  # "it never put a ..."
        or before in (("i", "was"), ("i", "am"), ("i", "'m"))
    )


def _goes_on(narration: Narration, clauses: list[Clause], index: int, groups: list[list[int]]) -> bool:
    """Whether a breath goes on with the advice of the one before it: "And to pick the bedding cycle for those",
    "And if it cuts off again, flip the breaker off"."""
    clause = clauses[index]
    first, last = narration.breaths[clause.breath]
    if clause.first != first or not groups:
        return False
    words = narration.words[first:last]
    told = clauses[groups[-1][-1]].breath
    if told != clause.breath - 1 and not (
        told == clause.breath - 2 and _is_told_still(narration, words, clauses[groups[-1][0]].first, told)
    ):
        return False
    if words[0] not in ("and", "also", "plus", "then") or "i" in words[:3] or len(words) <= SHORT:
        return False
    if words[1] in CONDITIONS:
        heads = [narration.words[c.first] for c in clauses if c.breath == clause.breath and c.first > first]
        return any(word in narration.grammar.orders or word == "no" for word in heads)
    return (
        any(word in ORDERING or word in ("aren't", "isn't") for word in words[1:5])
        or words[1] in narration.grammar.orders
        or any(word in ("to", "don't", "never", "not", "no", "always", "that") for word in words[1:3])
    )


def _is_told_still(narration: Narration, words: tuple[str, ...], begin: int, told: int) -> bool:
    """Whether "And to go easy on the powder" goes on from "told him not to run it", past one breath that only speaks
    of the same ("Not even a quick one.")."""
    between = slice(*narration.breaths[told + 1])
    first = narration.words[between][:1]
    same = first in (("not",), ("no",), ("even",), ("never",), ("only",), ("because",), ("cause",), ("cos",))
    to = words[:2] == ("and", "to") or words[:3] == ("and", "not", "to")
    return same and to and "to" in narration.words[begin : narration.breaths[told][1]]


def _lead_in(
    narration: Narration, clauses: list[Clause], index: int, label: Label, claimed: frozenset[int]
) -> list[int]:
    """Earlier clauses of the sentence that belong to the point ("She wants a paper for insurance, office please
    send"): only such as tell of nothing else."""
    lead: list[int] = []
    begin = next(c.first for c in clauses if c.sentence == clauses[index].sentence)
    if label == "follow_up" and narration.marked("advice", begin, clauses[index].first):
        return lead  # "I told her, get a metal one, and she says her nephew's doing that"
    for before in range(index - 1, -1, -1):
        clause = clauses[before]
        if clause.sentence != clauses[index].sentence or before in claimed:
            break
        said = ("outcome", "work", "safety", "trial", "verdict", "cause", "part")
        if clauses[index].last - clauses[index].first <= SHORT_CUE and clause.stance != "history":
            lead.insert(0, before)  # "the seal wants a wipe now and again, I showed her"
            continue
        if any(narration.marked(label, clause.first, clause.last) for label in said) or (
            "i" in narration.words[clause.first : clause.last]
        ):
            break
        lead.insert(0, before)
    return lead


def _ends(narration: Narration, clauses: list[Clause], index: int, label: Label) -> bool:
    """Whether the speaker is back to facts ("..., so I left it running", "Breaker back on.")."""
    clause = clauses[index]
    words = narration.words[clause.first : clause.last]
    new_sentence = index > 0 and clauses[index - 1].sentence != clause.sentence
    if new_sentence and narration.marked("safety", clause.first, clause.last):
        return True
    return clause.turn and ("i" in words[:3] or (words[0] == "but" and label == "follow_up"))


def _about(narration: Narration, first: int, last: int, label: Label) -> str:
    things = things_in(narration, first, last)
    if things:
        return things[0].name
    if label == "follow_up" and _comes_again(narration, first, last):
        return RETURN_VISIT
    begin = behind_telling(narration, first, last) if label == "advice" else first
    return reported(narration, begin, last, past=False)
