"""Outcome words that judge nothing where they stand: they open a breath, fill a pause, or say how a thing was done
or made."""

from __future__ import annotations

from fieldnotes.understand.checks.outcomes import Found
from fieldnotes.understand.checks.targets import OPEN
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.things import Thing, things_in

PAUSED = ("i", "we", "so", "let", "now", "what", "where")  # "okay, | I've pulled ...", "okay, | so the coil"


def merely_opens(narration: Narration, clause: Clause, found: Found) -> bool:
    """Whether "okay" or "right" only opens the breath."""
    behind = narration.words[found.last : found.last + 1]
    if narration.words[found.first] == "right" and not narration.grammar.being.isdisjoint(behind):
        return True  # "left is weak, right is fine"
    alone = found.first == clause.first and found.last == clause.last
    return alone and narration.words[found.first] in narration.grammar.openers


def set_both_ways(narration: Narration, clause: Clause) -> bool:
    """Whether a thing was set one way and back before a clause."""
    begin, _ = narration.breaths[clause.breath]
    ways = {narration.words[m.last - 1] for m in narration.marked("work", begin, clause.first)}
    return {"up", "down"} <= ways or {"on", "off"} <= ways


def only_opened(narration: Narration, found: Found, thing: Thing) -> bool:
    """Whether "open" tells of a tap or a door rather than of a circuit; alone it does so of all but what is measured
    in ohms ("thermal cutoff, open")."""
    *being, word = narration.words[found.first : found.last]
    if found.outcome != "fault" or word != "open" or len(being) > 1:
        return False
    return thing.name.split()[-1] in narration.trade.opened or not (being or measures_ohms(thing))


def done_by_another(narration: Narration, found: Found, thing: Thing) -> bool:
    """Whether "it" does what no amount can do ("nineteen amps, then it trips")."""
    amount = any(q.first <= thing.first < q.last for q in narration.quantities)
    acts = narration.words[found.first] not in narration.grammar.being
    return amount and acts and narration.words[found.first - 1 : found.first] in (("it",), ("she",), ("he",))


def measures_ohms(thing: Thing) -> bool:
    return not {"ohm", "kohm"}.isdisjoint(thing.measured_in)


def only_pauses(narration: Narration, clause: Clause, found: Found) -> bool:
    """Whether "okay" only fills the pause before what is done with the thing ("element, okay, I've pulled one
    lead"); behind a number it judges that."""
    words = narration.words
    first, last = narration.breaths[clause.breath]
    return (
        (found.first, found.last) == (clause.first, clause.last)
        and found.last - found.first == 1
        and words[found.first] in narration.grammar.lone_openers
        and narration.tokens[found.first].stop == ","
        and found.last < last
        and words[found.last] in PAUSED
        and not narration.numbers(first, clause.first)
    )


def of_a_need(narration: Narration, clause: Clause, found: Found) -> bool:
    """Whether "not today" says when a part that is needed will be fitted."""
    words = narration.words[found.first : found.last]
    return words == ("not", "today") and any(
        m.value == "needed" for m in narration.marked("part", *narration.breaths[clause.breath])
    )


def of_an_instrument(narration: Narration, found: Found) -> bool:
    """Whether outcome words only tell what an instrument does ("the manometer drops to point one")."""
    first = narration.sentence_begins(found.first)
    return not found.firm and any(
        m.last == found.first or found.last <= m.last
        for m in narration.marked("instrument", first, found.first)
    )


def only_says_how(narration: Narration, clause: Clause, found: Found) -> bool:
    """Whether an outcome word only says how something was done ("plugged back in firmly", "until it clicks")."""
    if found.outcome in OPEN:
        return False
    if narration.words[clause.first] in ("until", "till", "while", "whilst"):
        return True
    before = narration.words[clause.first : found.first]
    if (
        found.last - found.first == 1
        and "i" in before
        and not things_in(narration, clause.first, found.first)
    ):
        return True  # "I held it", "I clicked ..."
    if _made_so(narration, clause, found):
        return True
    done = [
        m
        for m in narration.marked("work", clause.first, clause.last)
        if m.last <= found.first and not _leads_to_more(narration, m)
    ]
    between = narration.words[done[-1].last : found.first] if done else ()
    return bool(done) and not any(w in narration.grammar.being for w in between)


def _made_so(narration: Narration, clause: Clause, found: Found) -> bool:
    """Whether a good word only says how something was made ("scraped that terminal bright", "wiped it dry")."""
    words, grammar = narration.words, narration.grammar
    at = clause.first
    while at < found.first and (words[at] in grammar.openers or words[at] in ("i", "we", "'ve", "have")):
        at += 1
    return (
        found.outcome == "good"
        and words[at] in grammar.making
        and grammar.being.isdisjoint(words[at : found.first])
    )


def _leads_to_more(narration: Narration, deed: Mark) -> bool:
    """Whether a deed's last word is a preposition here, and so no part of it ("it has got a label off | a jar")."""
    words, grammar = narration.words, narration.grammar
    return words[deed.last - 1] in grammar.prepositions and words[deed.last : deed.last + 1] in (
        ("a",),
        ("an",),
    )


def judges_nothing(narration: Narration, clause: Clause, found: Found, waiting: bool) -> bool:
    """Whether outcome words are no judgement here. `waiting`: something named or measured waits for one."""
    return (
        (not waiting and merely_opens(narration, clause, found))
        or only_pauses(narration, clause, found)
        or of_a_need(narration, clause, found)
        or only_says_how(narration, clause, found)
        or of_an_instrument(narration, found)
    )


def not_said_of(narration: Narration, found: Found, thing: Thing) -> bool:
    """Whether outcome words that judge cannot be said of a thing."""
    return only_opened(narration, found, thing) or done_by_another(narration, found, thing)
