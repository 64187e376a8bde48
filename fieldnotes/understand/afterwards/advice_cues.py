"""Which cues of advice really tell the customer something, and were said by the technician."""

from __future__ import annotations

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration

ORDERING = frozenset(
    (
        "no",
        "every",
        "only",
        "must",
        "should",
        "once",
        "twice",
        "mustn't",
        "shouldn't",
        "needs",
        "want",
        "wants",
    )
)
# "I asked him to hold the torch": what somebody does during the visit.
HELPING = frozenset(
    ("hold", "stand", "pass", "bring", "fetch", "show", "sign", "come", "help", "step", "shine", "lift")
)
MY_OWN = (("'d", "be"), ("'ll", "be"), ("would", "be"), ("will", "be"), ("'d", "have"), ("'ll", "have"))
NO_VERBS = frozenset(("to", "not", "that", "also", "if", "when", "she", "he", "they", "somebody", "someone"))
REACH = 12  # words: what was told stands at most so far before "..., I told her"


def is_told(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a cue tells something: not a question ("I asked him when he got it"), and where it stands behind what
    was told, only at the end of a sentence that orders something ("Filter every load, I says")."""
    words = narration.words
    if any(word in ("ask", "asked", "asking") for word in words[mark.first : mark.last]):
        wanted = words[mark.first : mark.last + 3]
        return any(
            word in ("to", "not", "that", "please", "never") for word in wanted
        ) and HELPING.isdisjoint(wanted)
    if words[mark.last : mark.last + 1] == ("i",) and words[mark.last + 1 : mark.last + 3] in MY_OWN:
        return False  # "I told her I'd be an hour"
    if words[mark.first - 1] in ("i", "we") and words[mark.first] in ("was", "were", "been", "am", "'m"):
        return False  # "I was advised by the factory ..."
    if words[mark.first - 1] in ("be", "been", "what", "as", "like", "can", "could"):
        return False  # "I'd be telling him", "forget what I said"
    if mark.value == "behind":
        begin, end = narration.breaths[clause.breath]
        before = words[max(begin, mark.first - REACH) : mark.first]
        ordered = any(word in ORDERING for word in before) or _has_order(narration, before)
        ends = mark.last == end or narration.tokens[mark.last - 1].stop in (".", "!", ";")
        follows = words[mark.last : mark.last + 2]
        return (ordered and (ends or _has_order(narration, follows))) or orders(narration, mark.last)
    return True


def orders(narration: Narration, at: int) -> bool:
    """Whether "I said" goes on with an order ("I said change it twice a year", "I said when she's buying, ...")."""
    following = narration.words[at : at + 2]
    return (
        len(following) == 2
        and (following[0] in narration.grammar.orders or following[0] in ("no", "so"))
        and following[1] not in ("myself", "'s", "'d", "'ll", "is", "was", "would", "sounds")
    )


def _has_order(narration: Narration, words: tuple[str, ...]) -> bool:
    return any(word in narration.grammar.orders and word not in NO_VERBS for word in words)


def told_by_others(narration: Narration, begin: int, mark: Mark) -> bool:
    """Whether somebody else told it: "a fellow from the store came by and told her ..."."""
    before = narration.words[begin : mark.first]
    others = narration.trade.strangers.union(narration.grammar.others) - {
        "she",
        "he",
        "they",
        "you",
        "customer",
        "customers",
        "people",
    }
    at = max((n for n, word in enumerate(before) if word in others), default=-1)
    return narration.words[mark.first] not in ("i", "we") and at >= 0 and not {"i", "we"} & set(before[at:])
