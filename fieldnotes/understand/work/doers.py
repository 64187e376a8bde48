"""Whose deed a verb tells of, and when: done here, on this visit, by the one who speaks or by the apprentice."""

from __future__ import annotations

import itertools

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.work.governed import SELF, held

NOT_SAID_OF_ME = (
    "to",
    "you",
    "they",
    "people",
    "it",
    "customer",
    "he",
    "she",
    "said",
    "say",
    "told",
    "tell",
    "'ll",
)
CLOSE = 3  # words before a verb in which a negation or another subject governs it
ASIDES = ("understand", "gather", "believe", "hear", "think", "suppose", "reckon", "guess", "presume")
SAYING = (
    "said",
    "says",
    "say",
    "told",
    "tells",
    "reports",
    "reported",
    "wants",
    "wanted",
    "thinks",
    "complains",
)
LOOKING = ("test", "see", "check", "prove", "look", "find")
SOMETHING = ("that", "which", "who", "this", "it", "there")
RESULTS = ("now", "there", "done", "'s", "is", "are", "'re", "gone", "went", "good")
OPPOSITE = (("down", "up"), ("up", "down"), ("in", "out"))
WOULD = ("'d", "would", "could", "should", "might", "may")
DATING = ("in", "the", "last", "since", "this", "around", "before")
LAST_TIME = ("when", "back", "last", "before", "on", "in")  # "... when I was here last"


def was_long_ago(clauses: list[Clause], index: int, narration: Narration) -> bool:
    """Whether the clause or the next puts the deed into an earlier visit ("in the spring", "when I was here last")."""
    grammar, words = narration.grammar, narration.words
    for n in range(clauses[index].first + 1, clauses[index].last):
        if words[n] in (*grammar.months, *grammar.seasons) and words[n - 1] in DATING:
            return True
    before = clauses[index - 1 : index]
    if before and before[0].breath == clauses[index].breath and _tells_of_history(narration, before[0]):
        return words[clauses[index].first] not in SELF  # "Other firm, last winter. Changed the motor."
    following = clauses[index + 1 : index + 2]
    return bool(
        following
        and following[0].sentence == clauses[index].sentence
        and following[0].stance == "history"
        and narration.words[following[0].first] in LAST_TIME
    )


def _tells_of_history(narration: Narration, clause: Clause) -> bool:
    """Whether a clause tells or asks what somebody else did before ("What'd the last guy do? Cleaned the spark.")."""
    asked = clause.stance == "question" and bool(narration.marked("history", clause.first, clause.last))
    return clause.stance == "history" or asked


def was_done(narration: Narration, clauses: list[Clause], index: int, mark: Mark) -> bool:
    """Whether the verb tells of a deed of this visit: not denied, not somebody else's, no adjective."""
    grammar, words, clause = narration.grammar, narration.words, clauses[index]
    if any(
        m.first <= mark.first and mark.last <= m.last and m.last - m.first > 1 and m.name.sort == "part"
        for m in narration.mentions
    ):
        return False  # "defrost heater"
    before = words[max(clause.first, mark.first - CLOSE) : mark.first]
    if any(word in grammar.negators for word in before):
        return False
    if any(d.last == mark.first for d in narration.marked("denied", clause.first, clause.last)):
        return False
    if "there" in words[clause.first : mark.first] and not any(
        w in SELF for w in words[clause.first : mark.first]
    ):
        return False  # "there's a sticker glued over it"
    if _by_another(narration, clauses, index, mark) or _is_no_deed(narration, clause, mark):
        return False
    last = before[-1:]
    if mark.rule.form == "doing":
        return _is_under_way(narration, clauses, index, mark)
    if mark.rule.form == "bare":
        told = last and last[0] in ("was", "is") and "did" in words[max(0, mark.first - 16) : mark.first]
        if _is_for_often(narration, clause):
            return False
        told = told or (last == ("did",) and words[mark.first - 2] in SELF)  # "I did tighten it"
        at_head = not last or last[0] in SELF or last[0] in grammar.openers or last[0] in grammar.joiners
        return bool(at_head or told) and not any(word in NOT_SAID_OF_ME for word in before)
    if mark.rule.object in ("within", "before", "new"):
        return True
    if mark.rule.object == "behind" and _is_for_a_look(narration, clause, mark):
        return False
    if _is_ordered(narration, clause, mark):
        return False
    if not last or mark.rule.object == "behind" or held(narration, clause, mark):
        return True
    if last[0] in SOMETHING:
        return False
    adjective = last[0] in grammar.before_noun and last[0] not in (*grammar.pronouns, "all", "both")
    return last[0] not in ("it", "to") and not adjective


def _would_be_done(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether it was only thought of ("I'd have changed the board", "I could have swapped it")."""
    words = narration.words
    at = mark.first + 1 if words[mark.first] in ("have", "'ve") else mark.first
    before = words[max(clause.first, at - CLOSE) : at]
    return any(one in WOULD and other in ("have", "'ve", "of") for one, other in itertools.pairwise(before))


def _is_no_deed(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether the words of a deed mean something else: "got it off her cousin", "got it off at the plug", "he's got a
    wash going"."""
    words, trade = narration.words, narration.trade
    behind = words[mark.last : mark.last + 3]
    if _would_be_done(narration, clause, mark):
        return True
    if mark.value == "adjusted":
        return _is_tried(narration, mark) or _came_off(narration, mark)
    if mark.value == "cleaned" and mark.rule.object == "before":
        return behind[:1] != () and behind[0] in trade.under_way
    if mark.value != "removed" or words[mark.first] not in ("got", "had", "took", "have"):
        return False
    if words[mark.last - 1] != "off":
        return False
    at_the_plug = behind[:1] == ("at",) and not trade.switched_at.isdisjoint(behind[1:])
    return at_the_plug or any(w in trade.sellers or w in narration.grammar.others for w in behind)


def _is_tried(narration: Narration, mark: Mark) -> bool:
    """Whether a control was moved one way and back to see what it does ("wound it down and she clicked off, wound it up
    and she clicked on")."""
    words = narration.words
    begin, end = narration.breaths[narration.breath_of(mark.first)]
    ways = {
        words[m.last - 1]
        for m in narration.marked("work", begin, end)
        if m.value == "adjusted" and words[m.first] == words[mark.first]
    }
    return any(way in ways and back in ways for way, back in OPPOSITE)


def _came_off(narration: Narration, mark: Mark) -> bool:
    """Whether it came loose by itself ("the bolt had backed off")."""
    words = narration.words
    return words[mark.first] == "backed" and words[mark.first - 1] in ("had", "has", "'s", "have", "was")


def _is_for_often(narration: Narration, clause: Clause) -> bool:
    """Whether a bare verb tells what is to be done again and again ("clean the filter, and now and then check the
    hose"), not what was done."""
    _, end = narration.breaths[clause.breath]
    return any(
        m.value == "when" and narration.words[m.first] in narration.grammar.often
        for m in narration.marked("complaint", clause.first, end)
    )


def _by_another(narration: Narration, clauses: list[Clause], index: int, mark: Mark) -> bool:
    """Whether somebody else is the subject of a verb, in its clause or, where that has none, in the one before it of
    the same sentence ("a fellow had hung a blanket on it, took it off again"). "You've rinsed that" is said to the
    apprentice, who works here too."""
    grammar, words = narration.grammar, narration.words
    clause, first, indirect = clauses[index], clauses[index].first, mark.rule.object in ("before", "new")
    by = words[mark.last : mark.last + 6]
    if "by" in by and any(w in grammar.others for w in by[by.index("by") :]):
        return True
    for n in range(index, max(-1, index - 4), -1):
        if clauses[n].sentence != clause.sentence:
            break
        for at in range(min(clauses[n].last, mark.first) - 1, clauses[n].first - 1, -1):
            if words[at] in SELF and words[at + 1] not in ASIDES:
                return False
            if words[at] == "you" and words[at + 1] in ("'ve", "have"):
                return False
            if indirect and words[at] in ("she", "he", "they", "you"):
                continue  # "they got a drop of oil"
            if words[at] in grammar.others and words[at + 1] not in SAYING:
                return n == index or words[at] not in ("he", "she", "they", "you")
        if any(word in ("it", "that", "which", "there") for word in words[first : mark.first]):
            break
    return False


def _is_under_way(narration: Narration, clauses: list[Clause], index: int, mark: Mark) -> bool:
    """Whether what is being done is told to be done as well ("I'm picking them out, and they're clean now")."""
    words = narration.words
    if words[mark.first - 1] == "after":
        return words[mark.first - 2] in ("'m", "am", "'re")  # "I'm after fishing it out": I just did
    if words[mark.first - 1] not in ("'m", "am", "'re", "just", "now") or words[mark.first - 2] in (
        "you",
        "they",
    ):
        return False
    breath = clauses[index].breath
    following = [c for c in clauses[index + 1 : index + 6] if c.breath == breath and c.stance == "fact"]
    return any(
        word in RESULTS and narration.words[n - 1] not in SELF
        for c in following
        for n, word in enumerate(words[c.first : c.last], c.first)
    )


def _is_for_a_look(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether it was done to find out something ("ran hot water down the drain to test it")."""
    words = narration.words
    return any(words[n] == "to" and words[n + 1] in LOOKING for n in range(mark.last, clause.last - 1))


def _is_ordered(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether it is only asked for ("get the roof duct cleaned")."""
    before = narration.words[clause.first : mark.first]
    if not any(word in ("get", "getting", "gets") for word in before):
        return False
    return not any(word in SELF for word in before)
