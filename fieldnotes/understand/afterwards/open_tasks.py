"""Which cues of what is to come speak of after this visit, and of this job."""

from __future__ import annotations

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration

OPENING = 0.35  # share of the visit in which nothing is said of after it
CLOSING = 0.5  # share of the visit after which what the customer says that she will do is a follow-up
LETTING = ("'s", "let's", "me", "lets")
SOON = {"minute", "minutes", "tick", "ticks", "jiffy", "sec", "mo", "moment"}


def is_due(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a cue that could as well tell the next step or another matter speaks of a later day: its breath says
    when, it heads a sentence, or the visit is nearing its end."""
    first, last = narration.breaths[clause.breath]
    if narration.words[mark.last : mark.last + 1] == ("know",) or (
        narration.words[mark.first - 1] == "to"
        and narration.words[mark.first - 2] in ("wanted", "had", "meant")
    ):
        return False  # "she wants to know can she ...", "I'd wanted to come back"
    if _is_of_now(narration, mark):
        return False
    if any(
        s.value == "hazard" and s.first < mark.last and mark.first < s.last
        for s in narration.marked("safety", clause.first, clause.last)
    ):
        return False  # "somebody's going to get scalded"
    if mark.value == "dated" and narration.words[clause.first] == "if":
        return False
    if narration.words[mark.last - 2 : mark.last] in (("should", "have"), ("must", "have")):
        return False  # "somebody should have seen that"
    if mark.value == "dated":
        days = narration.marked("later", first, last)
        return any(narration.words[d.first - 1] not in ("a", "last", "every", "since", "of") for d in days)
    if mark.value == "heading":
        if (mark.first, mark.last) == narration.breaths[clause.breath]:
            return False  # "Follow up." alone says nothing of what
        before = narration.words[clause.first : mark.first]
        return all(word in narration.grammar.openers or word in narration.grammar.articles for word in before)
    return mark.value != "late" or clause.breath >= CLOSING * len(narration.breaths)


def _is_of_now(narration: Narration, mark: Mark) -> bool:
    """Whether a cue tells the next step ("let's see how she fills"), what did not come about ("it'd be back in a
    week"), what nobody is to do ("he won't ring"), or speaks of the base of a thing and not of the office."""
    words, before = narration.words, narration.words[mark.first - 1]
    head, end, after = words[mark.first], words[mark.last - 1], words[mark.last : mark.last + 1]
    dated = narration.marked("later", *narration.breaths[narration.breath_of(mark.first)])
    return (
        (head == "see" and before in LETTING and not dated)
        or (head in ("be", "come", "go") and before in ("'d", "would", "could"))
        or (end in narration.grammar.negators and after in (("call",), ("ring",), ("phone",), ("text",)))
        or (head == "base" and before in narration.grammar.articles)
    )


def is_a_promise(narration: Narration, clause: Clause, marks: list[Mark]) -> bool:
    """Whether what the customer says is what she will do ("she says she'll ring by Wednesday"), or the cue itself
    only looks like a report ("he's getting an electrician in")."""
    reported = narration.marked("customer", clause.first, clause.last)
    if any(r.first < m.last and m.first < r.last and m.last > r.last for m in marks for r in reported):
        return True
    late = clause.breath >= CLOSING * len(narration.breaths)
    return late and any(m.rule.label == "follow_up" for m in marks)


def is_open(
    narration: Narration, clauses: list[Clause], clause: Clause, begin: int, marks: list[Mark]
) -> bool:
    """Whether a cue of what is to come speaks of after this visit, and of this job."""
    words = narration.words[clause.first : clause.last]
    if clause.breath < OPENING * len(narration.breaths):
        return False
    if clause.stance == "general" and not any(m.rule.id == "follow-up-office" for m in marks):
        return False
    if "job" in narration.words[begin : clause.last] and {"tomorrow", "next"} & set(
        narration.words[begin : clause.last]
    ):
        return False  # of another job
    if "back" in words and any(w in SOON and words[n - 1] != "the" for n, w in enumerate(words)):
        return False  # "back in a minute", not "back the minute it lands"
    if "then" in words[:2] and any(
        c.stance == "hypothetical" for c in clauses if c.breath == clause.breath and c.first < clause.first
    ):
        return False  # "I could have ..., and then I'm back here in a month"
    answered = [m.first for m in narration.marked("customer", begin, marks[0].first)]
    promised = narration.words[marks[0].first] in ("i", "we")  # "I've said I'll look in on it"
    told_first = [
        m
        for m in narration.marked("advice", begin, clause.last)
        if m.first < marks[0].first
        and not (promised and m.last == marks[0].first)
        and not any(m.first < at for at in answered)
    ]
    decided = any(
        word in ("wants", "want", "decided", "rather", "like")
        for m in marks
        for word in narration.words[m.first : m.last]
    )
    # "I gave her the quote, she wants to think", but not "told him he wants it flushed"
    decided = decided and all(narration.words[m.first] in ("gave", "given", "left") for m in told_first)
    return not told_first or decided or any(m.rule.id == "follow-up-office" for m in marks)
