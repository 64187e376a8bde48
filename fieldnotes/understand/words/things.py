"""What a finding is about: a part of the vocabulary, or the speaker's own name for it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.nouns import Mention

DIRECTIONS = ("back", "over", "down", "round", "on", "in", "out")  # "back to the valve" is a way, not a name
LONGEST_NAME = 4  # words; a longer stretch before a verb is a sentence, not a name


@dataclass(frozen=True, slots=True)
class Thing:
    """`name` is the vocabulary's where it has one. Words [first, last) are where it was said."""

    name: str
    first: int
    last: int
    piece: bool = False
    condition: bool = False
    measured_in: tuple[str, ...] = ()
    place: bool = False  # said behind a preposition: where something is, rather than what is spoken of


def thing_of(narration: Narration, mention: Mention) -> Thing:
    name = mention.name
    place = _behind_preposition(narration, mention.first)
    place = place or _behind_a_reading(narration, mention.first)
    return Thing(name.name, mention.first, mention.last, name.piece, name.condition, name.measured_in, place)


def _behind_a_reading(narration: Narration, at: int) -> bool:
    """Whether a name follows a number and its unit in one go ("fourteen ohms that winding")."""
    return any(
        0 <= at - q.last <= 1
        and q.unit
        and not narration.tokens[q.last - 1].stop
        and not any(w in narration.grammar.joiners for w in narration.words[q.last : at])
        for q in narration.quantities
    )


def _behind_preposition(narration: Narration, at: int) -> bool:
    """Whether a preposition governs a name ("in the upper cabinet"): one of the three words before it, with neither
    a stop nor a verb between."""
    grammar = narration.grammar
    for n in range(at - 1, max(-1, at - 4), -1):
        if (
            narration.tokens[n].stop
            or narration.words[n] in grammar.being
            or narration.words[n] in grammar.joiners
        ):
            return False
        if narration.words[n] in grammar.prepositions:
            return True
    return False


def things_in(narration: Narration, first: int, last: int) -> list[Thing]:
    """The parts and conditions named within [first, last). Two names without a word between are one: "pump harness"
    is the harness of the pump, "pump winding" a piece of it."""
    found: list[Thing] = []
    soil = {n for m in narration.marked("soil", first, last) for n in range(m.first, m.last)}
    for thing in (thing_of(narration, m) for m in narration.named(first, last)):
        if soil.issuperset(range(thing.first, thing.last)):
            continue  # lint is found on things, it is none
        if narration.words[thing.first - 1] == "my" or _set_so(narration, thing):
            continue  # "my thermocouple" is an instrument
        if found and found[-1].last == thing.first and not narration.tokens[thing.first - 1].stop:
            before = found.pop()
            of_it = thing.piece or (thing.condition and not thing.measured_in)  # "burners heat up"
            kept = before if of_it and not before.piece else thing
            name = kept.name if kept is before else _of_its_part(narration, before, thing)
            thing = replace(kept, name=name, first=before.first, last=thing.last, place=before.place)
        found.append(thing)
    return _of_their_parts(narration, found)


def _of_their_parts(narration: Narration, things: list[Thing]) -> list[Thing]:
    """A thing said by a bare noun takes the name of that of which it is: the "seal of the circulation pump" is no door
    seal."""
    bare = {m.first for m in narration.mentions if m.name.short and m.last - m.first == 1}
    named = list(things)
    for n, (thing, whole) in enumerate(pairwise(things)):
        between = [
            w for w in narration.words[thing.last : whole.first] if w not in narration.grammar.object_words
        ]
        plain = not (whole.piece or whole.condition or thing.piece or thing.condition)
        if between == ["of"] and thing.first in bare and plain:
            named[n] = replace(thing, name=f"{whole.name} {narration.words[thing.first]}")
    return named


def _of_its_part(narration: Narration, part: Thing, thing: Thing) -> str:
    """The name of a thing that many parts have, with its part's: the plug of the pump is no mains plug. A "block duct"
    is a blocked one that lost its ending."""
    if part.condition or thing.condition or set(part.name.split()) & set(thing.name.split()):
        return thing.name
    said = narration.words[part.last - 1]
    if not narration.trade.blocked.isdisjoint((f"{said}ed", f"{said}{said[-1]}ed", f"{said}d")):
        return thing.name
    return f"{part.name} {thing.name}"


def _set_so(narration: Narration, thing: Thing) -> bool:
    """Whether a thing was only set so for what is told ("spins sweet with the belt off")."""
    before = narration.words[max(0, thing.first - 2) : thing.first]
    after = [w for w in narration.words[thing.last : thing.last + 2] if w != "back"]
    return "with" in before and after[:1] in (["off"], ["on"], ["open"], ["out"])


def speaks_of_bystanders(narration: Narration, first: int, last: int) -> bool:
    """Whether the words before an outcome are about a dog, a child, the weather ...: no finding then."""
    found = narration.marked("outcome", first, last)
    return any(
        not any(
            m.first <= b.first and b.last <= m.last and (m.first < b.first or m.value != "good")
            for m in found
        )
        for b in narration.marked("bystander", first, last)
    )  # but "I have no ladder" is, and "dog hair on it"


def heads_of(narration: Narration, things: list[Thing]) -> list[Thing]:
    """The things that a clause is about: what stands behind a preposition only says where the one before it is
    ("the harness to the board", "a scorch mark on the outlet" is about the outlet, where nothing stands before)."""
    kept: list[Thing] = []
    for thing in things:
        between = narration.words[kept[-1].last : thing.first] if kept else ()
        if not kept or not any(word in narration.grammar.prepositions for word in between):
            kept.append(thing)
    return kept


def bare_name(narration: Narration, first: int, last: int) -> Thing | None:
    """The speaker's own name for a thing where a clause is nothing else ("Inlet water, one twenty four ...")."""
    while first < last and narration.words[first] in narration.grammar.openers:
        first += 1
    return firm_name(narration, first, last) if 0 < last - first <= LONGEST_NAME - 1 else None


def firm_name(narration: Narration, first: int, last: int) -> Thing | None:
    """The speaker's own name where it ends as names of the vocabulary do ("joint at the element"): of other words
    nobody can tell whether they name a thing at all."""
    thing = own_words(narration, first, last)
    words = narration.words
    if thing is None or words[thing.last - 1] not in narration.nouns or words[thing.first] in DIRECTIONS:
        return None
    return thing


def own_words(narration: Narration, first: int, last: int) -> Thing | None:
    """The speaker's own name for a thing that the vocabulary does not know: the bare words of [first, last).

    None where they are a pronoun, a person, or too long to be a name.
    """
    grammar, words = narration.grammar, narration.words
    while first < last and (words[first] in grammar.determiners or words[first] in grammar.openers):
        if words[first] in grammar.prepositions and words[first] not in ("off", "up", "down", "out"):
            return None  # "with warm water" says how, not what
        first += 1
    while last > first and (words[last - 1] in grammar.determiners or words[last - 1] in grammar.links):
        last -= 1
    span = words[first:last]
    if not span or len(span) > LONGEST_NAME or any(w in grammar.pronouns or w in grammar.verbs for w in span):
        return None
    if any(first <= m.first and m.last == last for m in narration.marked("not a thing", first, last)):
        return None
    if any(
        m.first < last and first < m.last
        for label in ("outcome", "hedge", "trial", "work", "safety")
        for m in narration.marks.get(label, ())
    ):
        return None
    if any(
        word in grammar.joiners or word in grammar.prepositions or word.endswith(("ing", "ed", "in'"))
        for word in span[:1] + span[-1:]
    ):
        return None
    if any(q.first < last and first < q.last for q in narration.quantities) or not span[-1].isalpha():
        return None
    return Thing(" ".join(span), first, last)
