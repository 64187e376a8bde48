"""Advice to the customer, and what is still to happen after the visit."""

from __future__ import annotations

from collections.abc import Callable

from fieldnotes.records import Item
from fieldnotes.understand.advice_points import CONDITIONS, SHORT, Label, points
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.sentences import advice_sentence, follow_up_sentence, reported
from fieldnotes.understand.things import things_in

SHORT_CUE = 4  # words: a cue this short speaks of what was said before it
OPENING = 0.35  # share of the visit in which nothing is said of after it
CLOSING = 0.5  # share of the visit after which what the customer says that she will do is a follow-up
# "I told her that too", "he's going to pick that up himself": what is meant was said before.
POINTERS = ("that", "it", "them", "so", "one", "this", "these", "those", "to", "word")
SOON = {"minute", "minutes", "tick", "ticks", "jiffy", "sec", "mo", "moment"}
BYSTANDERS = {"boy", "kids", "children", "dog", "cat", "boys", "girls", "neighbour", "neighbor", "apprentice"}
SELVES = ("himself", "herself", "myself", "themselves")
ANSWERS = frozenset(("please", "don't", "not", "no", "never", "ever", "yes", "definitely", "absolutely", "certainly"))
STRANGERS = frozenset(("boy", "girl", "store", "shop", "dealer", "seller", "salesman", "clerk", "assistant"))
ORDERING = frozenset(("no", "every", "only", "must", "should", "once", "twice", "mustn't", "shouldn't", "needs", "want", "wants"))
# "I asked him to hold the torch": what somebody does during the visit.
HELPING = frozenset(("hold", "stand", "pass", "bring", "fetch", "show", "sign", "come", "help", "step", "shine", "lift"))
MY_OWN = (("'d", "be"), ("'ll", "be"), ("would", "be"), ("will", "be"), ("'d", "have"), ("'ll", "have"))
NO_VERBS = frozenset(("to", "not", "that", "also", "if", "when", "she", "he", "they", "somebody", "someone"))
REACH = 12  # words: what was told stands at most so far before "..., I told her"
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
                    about=_about(narration, first, last),
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
    marks = [m for m in marks if m.rule.form != "bare" or _orders(narration, m.last)]
    due = _is_due if label == "follow_up" else _is_told
    marks = [m for m in marks if due(narration, clause, m)]
    stance = "fact" if _only_looks_so(narration, clause, marks) else clause.stance
    if not marks or stance == "history":
        return False
    if stance == "customer" and not _is_a_promise(narration, clause, marks):
        return False
    if stance == "hypothetical" and (
        "if" in narration.words[clause.first : clause.last]
        or (label == "advice" and narration.words[clause.first] != "i")
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
            and not _told_by_others(narration, begin, marks[0])
            and not BYSTANDERS & set(narration.words[marks[0].first : marks[0].last])
        )
    return _is_open(narration, clauses, clause, begin, marks)


def _only_looks_so(narration: Narration, clause: Clause, marks: list[Mark]) -> bool:
    """Whether all that makes a clause hearsay, history or a hypothesis lies within what the cues say themselves:
    "she said she'd think it over", "somebody has to come back"."""
    if clause.stance not in ("history", "hypothetical", "customer", "general"):
        return False
    cues = narration.marked(clause.stance, clause.first, clause.last)
    return bool(cues) and all(any(m.first <= c.first and c.last <= m.last for m in marks) for c in cues)


def _only_says_when(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a cue stands in the words that tell the time, and not behind them ("when it comes | I'm to fit it")."""
    if narration.words[clause.first] not in ("till", "until", "before", "when", "once"):
        return False
    return not any(m.last <= mark.first for m in narration.marked("later", clause.first, mark.first))


def _is_due(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a cue that could as well tell the next step or another matter speaks of a later day: its breath says
    when, it heads a sentence, or the visit is nearing its end."""
    first, last = narration.breaths[clause.breath]
    if narration.words[mark.last : mark.last + 1] == ("know",) or (
        narration.words[mark.first - 1] == "to" and narration.words[mark.first - 2] in ("wanted", "had", "meant")
    ):
        return False  # "she wants to know can she ...", "I'd wanted to come back"
    if mark.value == "dated" and narration.words[clause.first] == "if":
        return False
    if narration.words[mark.last - 2 : mark.last] in (("should", "have"), ("must", "have")):
        return False  # "somebody should have seen that"
    if mark.value == "dated":
        days = narration.marked("later", first, last)
        return any(narration.words[d.first - 1] not in ("a", "last", "every", "since", "of") for d in days)
    if mark.value == "heading":
        before = narration.words[clause.first : mark.first]
        return all(word in narration.grammar.openers or word in narration.grammar.articles for word in before)
    return mark.value != "late" or clause.breath >= CLOSING * len(narration.breaths)


def _orders(narration: Narration, at: int) -> bool:
    """Whether "I said" goes on with an order ("I said change it twice a year", "I said when she's buying, ...")."""
    following = narration.words[at : at + 2]
    return (
        len(following) == 2
        and (following[0] in narration.grammar.orders or following[0] in ("no", "so"))
        and following[1] not in ("myself", "'s", "'d", "'ll", "is", "was", "would", "sounds")
    )


def _is_told(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a cue tells something: not a question ("I asked him when he got it"), and where it stands behind what
    was told, only at the end of a sentence that orders something ("Filter every load, I says")."""
    words = narration.words
    if any(word in ("ask", "asked", "asking") for word in words[mark.first : mark.last]):
        wanted = words[mark.first : mark.last + 3]
        return any(word in ("to", "not", "that", "please", "never") for word in wanted) and HELPING.isdisjoint(
            wanted
        )
    if words[mark.last : mark.last + 1] == ("i",) and words[mark.last + 1 : mark.last + 3] in MY_OWN:
        return False  # "I told her I'd be an hour"
    if words[mark.first - 1] in ("be", "been", "what", "as", "like", "can", "could"):
        return False  # "I'd be telling him", "forget what I said"
    if mark.value == "behind":
        begin, end = narration.breaths[clause.breath]
        before = words[max(begin, mark.first - REACH) : mark.first]
        ordered = any(word in ORDERING for word in before) or _has_order(narration, before)
        ends = mark.last == end or narration.tokens[mark.last - 1].stop in (".", "!", ";")
        follows = words[mark.last : mark.last + 2]
        return (ordered and (ends or _has_order(narration, follows))) or _orders(narration, mark.last)
    return True


def _has_order(narration: Narration, words: tuple[str, ...]) -> bool:
    return any(word in narration.grammar.orders and word not in NO_VERBS for word in words)


def _told_by_others(narration: Narration, begin: int, mark: Mark) -> bool:
    """Whether somebody else told it: "a fellow from the store came by and told her ..."."""
    before = narration.words[begin : mark.first]
    others = STRANGERS.union(narration.grammar.others) - {"she", "he", "they", "you", "customer", "customers", "people"}
    at = max((n for n, word in enumerate(before) if word in others), default=-1)
    return narration.words[mark.first] not in ("i", "we") and at >= 0 and not {"i", "we"} & set(before[at:])


def _is_a_promise(narration: Narration, clause: Clause, marks: list[Mark]) -> bool:
    """Whether what the customer says is what she will do ("she says she'll ring by Wednesday"), or the cue itself
    only looks like a report ("he's getting an electrician in")."""
    reported = narration.marked("customer", clause.first, clause.last)
    if any(r.first < m.last and m.first < r.last and m.last > r.last for m in marks for r in reported):
        return True
    late = clause.breath >= CLOSING * len(narration.breaths)
    return late and any(m.rule.label == "follow_up" for m in marks)


def _is_open(
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
    if "back" in words and SOON & set(words):
        return False  # "back in a minute"
    if "then" in words[:2] and any(
        c.stance == "hypothetical" for c in clauses if c.breath == clause.breath and c.first < clause.first
    ):
        return False  # "I could have ..., and then I'm back here in a month"
    answered = [m.first for m in narration.marked("customer", begin, marks[0].first)]
    told_first = [
        m
        for m in narration.marked("advice", begin, clause.last)
        if m.first < marks[0].first and not any(m.first < at for at in answered)
    ]
    decided = any(
        word in ("wants", "want", "decided", "rather", "like")
        for m in marks
        for word in narration.words[m.first : m.last]
    )
    # "I gave her the quote, she wants to think", but not "told him he wants it flushed"
    decided = decided and all(narration.words[m.first] in ("gave", "given", "left") for m in told_first)
    return not told_first or decided or any(m.rule.id == "follow-up-office" for m in marks)


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
        or before in (("i", "was"), ("i", "am"), ("i", "'m"))
    )


def _goes_on(narration: Narration, clauses: list[Clause], index: int, groups: list[list[int]]) -> bool:
    """Whether a breath goes on with the advice of the one before it: "And to pick the bedding cycle for those",
    "And if it cuts off again, flip the breaker off"."""
    clause = clauses[index]
    first, last = narration.breaths[clause.breath]
    if clause.first != first or not groups or clauses[groups[-1][-1]].breath != clause.breath - 1:
        return False
    words = narration.words[first:last]
    if words[0] not in ("and", "also", "plus", "then") or "i" in words[:3] or len(words) <= SHORT:
        return False
    if words[1] in CONDITIONS:
        heads = [narration.words[c.first] for c in clauses if c.breath == clause.breath and c.first > first]
        return any(word in narration.grammar.orders or word == "no" for word in heads)
    return any(word in ORDERING or word in ("aren't", "isn't") for word in words[1:5]) or words[1] in narration.grammar.orders or any(
        word in ("to", "don't", "never", "not", "no", "always", "that") for word in words[1:3]
    )


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


def _about(narration: Narration, first: int, last: int) -> str:
    things = things_in(narration, first, last)
    if things:
        return things[0].name
    return reported(narration, first, last, past=False)
