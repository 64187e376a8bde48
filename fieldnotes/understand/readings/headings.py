"""Names that stand by themselves beside a number: a heading before it ("Garage air, eleven degrees", "Air out. One
forty one."), or the name behind a number that came first ("Forty one ohms, front left burner", "Zero volts, that's
across the terminal block")."""

from __future__ import annotations

from collections.abc import Sequence

from fieldnotes.tidy.text import Quantity
from fieldnotes.understand.readings.measured import EXTREMES, SHOWING
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing, things_in

LONGEST = 7  # words of a heading
POINTING = (("that", "'s"), ("that", "is"), ("this", "is"), ("which", "is"), ("it", "'s"), ("that", "was"))
SCALES = ("fahrenheit", "celsius")
INTERJECTIONS = frozenset(
    [
        "correction",
        "mistake",
        "pardon",
        "again",
        "anyway",
        "really",
        "honestly",
        "exactly",
        "perfect",
        "lovely",
        "great",
        "super",
        "grand",
        "sorry",
        "wait",
        "actually",
        "bingo",
        "perhaps",
        "maybe",
        "roughly",
        "about",
        "say",
        "meaning",
        "result",
        "reading",
        "meanwhile",
    ]
)
NO_NAMES = ("outcome", "hedge", "work", "safety", "expected", "measuring", "bystander", "turn", "timed")
ASIDES = (
    "on",
    "up",
    "back",
    "wait",
    "see",
    "look",
    "sorry",
    "please",
    "course",
    "sir",
    "ma'am",
    "all",
    "right",
)
PERSONS = (
    "i",
    "we",
    "you",
    "he",
    "she",
    "they",
    "it",
    "that",
    "this",
    "there",
    "what",
    "who",
    "where",
    "how",
    "me",
    "us",
)


def heading_of(narration: Narration, first: int, last: int) -> Thing | None:
    """The speaker's own name for what is read next, where [first, last) is nothing else: a few words without a verb."""
    words, grammar = narration.words, narration.grammar
    while first < last and (words[first] in grammar.openers or words[first] in grammar.fillers):
        first += 1
    while first < last and words[first] in ("the", "a", "an", "my", "and"):
        first += 1
    known = things_in(narration, first, last)
    if len(known) == 1 and (known[0].first, known[0].last) == (first, last):
        return known[0]
    span = words[first:last]
    if not span or len(span) > LONGEST or span[-1] in ASIDES or not all(w.isalpha() for w in span):
        return None
    if span[0] in INTERJECTIONS or any(
        w in PERSONS or w in grammar.being or w in grammar.negators or w in grammar.modals for w in span
    ):
        return None
    if span[0] in grammar.prepositions or span[0] in grammar.joiners or span[0].endswith(("ing", "ed", "ly")):
        return None
    if narration.marked("instrument", first, first + 1):
        return None  # "clamp meter when it tries"
    if span[0] in grammar.verbs or span[0] in grammar.orders or narration.numbers(first, last):
        return None
    if any(
        not any(thing.first <= mark.first and mark.last <= thing.last for thing in known)
        for label in NO_NAMES
        for mark in narration.marked(label, first, last)
    ):
        return None
    return Thing(known[-1].name if known else " ".join(span), first, last)


def name_behind(
    narration: Narration, clauses: Sequence[Clause], index: int, quantity: Quantity
) -> tuple[Thing, int] | None:
    """What a number that opens its sentence was read on, named in one of the next clauses of the sentence and before
    any other reading; and where those words end."""
    clause = clauses[index]
    if not opens(narration, clause, quantity):
        return None
    for following in clauses[index + 1 :]:
        if following.sentence != clause.sentence or following.stance != "fact":
            return None
        first, last = following.first, following.last
        if all(w in EXTREMES or w in SCALES for w in narration.words[first:last]) or _is_extreme(
            narration, first, last
        ):
            continue
        if narration.numbers(first, last):
            return None
        thing = _name_in(narration, first, last)
        return (thing, last) if thing else None
    return None


def opens(narration: Narration, clause: Clause, quantity: Quantity) -> bool:
    """Whether only openers stand before a number in its sentence, or it follows such a one ("344 low, 361 high")."""
    begin, _ = narration.breaths[clause.breath]
    at = quantity.first
    while at > begin and narration.tokens[at - 1].stop != ".":
        at -= 1
    inside = {n for q in narration.numbers(at, quantity.first) for n in range(q.first, q.last)}
    return all(
        n in inside or narration.words[n] in narration.grammar.openers or narration.words[n] in EXTREMES
        for n in range(at, quantity.first)
    )


def _is_extreme(narration: Narration, first: int, last: int) -> bool:
    """Whether a clause is one more number of a pair: "three sixty one high"."""
    numbers = narration.numbers(first, last)
    inside = {n for q in numbers for n in range(q.first, q.last)}
    return bool(numbers) and all(n in inside or narration.words[n] in EXTREMES for n in range(first, last))


def _name_in(narration: Narration, first: int, last: int) -> Thing | None:
    words = narration.words
    pointing = words[first : first + 2] in POINTING
    if pointing:
        first += 2
        if words[first:last][:1] == ("what",):
            first += 1
        if words[last - 1] in SHOWING:
            last -= 1
        if narration.marked("outcome", first, first + 1):
            return None
        things = things_in(narration, first, last)
        if things:
            return things[0]
        while first < last and (
            words[first] in narration.grammar.prepositions or words[first].endswith("ing")
        ):
            first += 1
    things = things_in(narration, first, last)
    judged = {n for m in narration.marked("outcome", first, last) for n in range(m.first, m.last)}
    if len(things) == 1 and things[0].first == first and judged.issuperset(range(things[0].last, last)):
        return things[0]  # "heating element spot on"
    return heading_of(narration, first, last)
