"""Whether words pass on a trouble that somebody reported, or the customer's other talk."""

from __future__ import annotations

from fieldnotes.understand.complaints.complaint_points import (
    PERSONS,
    SHORTEST,
    sets_off,
    troubles_in,
    whens_in,
)
from fieldnotes.understand.words.clauses import Clause, is_yet_to_be_said
from fieldnotes.understand.words.narration import Mark, Narration

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
        "anybody",
        "anyone",
        "nobody",
        "else",
        "not",
        "can't",
        "cannot",
        "couldn't",
        "won't",
        "wouldn't",
        "would",
        "'d",
        "could",
        "might",
        "people",
        "wife",
        "boss",
        "plate",
        "tag",
        "sticker",
        "label",
    ]
)
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
SUBJECT = 3  # words behind "she says" in which its subject stands


def reports(narration: Narration, clause: Clause) -> bool:
    """Whether a clause passes on what somebody reported; what was done here earlier is history, when the trouble
    began is not ("for a week before that he says ...")."""
    if is_yet_to_be_said(narration, clause.first):
        return False
    if clause.stance == "customer":
        first, last = narration.breaths[clause.breath]
        return not told_of_others(narration, first, last) or bool(troubles_in(narration, first, last))
    customer = narration.marked("customer", clause.first, clause.last)
    if clause.stance == "history":
        said_here = _only_said(narration, clause)
        if _heads_a_report(narration, clause):
            return True  # "reported condition, no heat, per the owner"
        return bool(customer or said_here) and bool(troubles_in(narration, clause.first, clause.last))
    cues = [
        m
        for m in narration.marked("complaint", clause.first, clause.last)
        if (m.value == "reported" and not _denied(narration, clause, m))
        or _somebody_says(narration, clause, m)
    ]
    return clause.stance in ("fact", "question", "general") and bool(cues or customer)


def _heads_a_report(narration: Narration, clause: Clause) -> bool:
    """Whether a clause announces a complaint, and a trouble follows in its breath."""
    _, last = narration.breaths[clause.breath]
    announced = [m for m in narration.marked("complaint", clause.first, clause.last) if m.value == "reported"]
    return any(m.first == clause.first and troubles_in(narration, m.last, last) for m in announced)


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
    if not {"i", "we"}.isdisjoint(narration.words[max(clause.first, mark.first - 3) : mark.first]):
        return False  # "I've told her", "I wouldn't say"
    if narration.words[mark.last : mark.last + 1] == ("off",):
        return False  # "before the boss tells me off"
    things = [m for m in narration.named(clause.first, mark.first) if m.last == mark.first]
    things_read = [
        m for m in narration.marked("expected", clause.first, mark.first + 1) if m.last > mark.first
    ]
    return before not in NO_SPEAKER and not things and not things_read


def told_of_others(narration: Narration, first: int, last: int) -> bool:
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


def denies(narration: Narration, clauses: list[Clause], indices: list[int]) -> bool:
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


def adds_to_complaint(
    narration: Narration, clauses: list[Clause], told: list[int], first: int, last: int, follows: bool
) -> bool:
    """Whether what is passed on after a first complaint tells of trouble or of when it comes: much other talk of the
    customer's is of what works, what was bought and who was here."""
    if troubles_in(narration, first, last) or whens_in(narration, first, last):
        return True
    other = not {"years", "bought", *narration.grammar.negators}.isdisjoint(narration.words[first:last])
    supposed = any(clauses[i].stance == "hypothetical" for i in told)
    cue = max((m.last for m in narration.marked("customer", first, last)), default=first)
    subject, verb = (*narration.words[cue : cue + 2], "", "")[:2]
    talk = subject in PERSONS and cue < last and verb not in FEELING
    return follows and not other and not supposed and not talk and not sets_off(narration, first, last)


def of_other_things(narration: Narration, first: int, told: int, last: int, plated: frozenset[int]) -> bool:
    """What a customer says of other things than trouble: when it was bought, who was here, who is coming."""
    if troubles_in(narration, first, last) and not {"had", "years"} <= set(narration.words[first:last]):
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
        or (mark and not narration.trade.other_speakers.isdisjoint(narration.words[cue:end]))
        or told_of_others(narration, told, last)
    )
