"""The speaker's own name of what a clause is about, where the vocabulary has none.

"The splice caps were cooked", "hot side nut was loose", "The joints on the filter board I examined": the noun phrase
that opens a clause is its subject. It counts as a name where its last word is one in which names of parts end, or
where "the", "its" or the like shows that it is a noun.
"""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing

LONGEST = 4  # words of a name
SHOWS_A_NOUN = frozenset(
    (
        "the",
        "its",
        "this",
        "that",
        "these",
        "those",
        "both",
        "every",
        "each",
        "their",
        "your",
        "his",
        "her",
        "our",
    )
)
LEAVES_OUT = frozenset(
    (
        "all",
        "of",
        "two",
        "three",
        "four",
        "five",
        "six",
        "old",
        "same",
        "other",
        "little",
        "wee",
        "whole",
        "poor",
        "a",
        "an",
    )
)
PLACES = frozenset(
    ("left", "right", "front", "back", "rear", "top", "bottom", "upper", "lower", "middle", "centre", "center", "hot",
     "cold", "inner", "outer", "first", "second", "third", "fourth", "near", "far", "big", "small", "run", "start")
)  # fmt: skip
HOW = ("hot", "cold", "run", "start", "big", "small", "near", "far")  # these say how something is, too
MOST_PLACES = 3
STILL = 3  # breaths for which "the left one" is still one of what was spoken of
ONE_OF = ("one", "ones", "side", "hand", "fella", "fellow", "lad", "guy", "pair", "two")
NO_LAST_WORD = ("ing", "ed", "ly", "in'", "'t")


@dataclass(frozen=True, slots=True)
class Subject:
    """`thing`: the name, without its article and without what says where it is. Words up to `last` belong to it."""

    thing: Thing
    last: int
    part: bool  # it ends as names of parts do


def own_subject(narration: Narration, first: int, last: int) -> Subject | None:
    """The noun phrase that opens the words [first, last), where no name of the vocabulary is in it."""
    grammar, words = narration.grammar, narration.words
    at = first
    while at < last and words[at] in grammar.openers and not _belongs(narration, at, last):
        at += 1
    noun = False
    while at < last and (words[at] in SHOWS_A_NOUN or words[at] in LEAVES_OUT):
        noun = noun or words[at] in SHOWS_A_NOUN
        if narration.tokens[at].stop:
            return None  # "that, ..."
        at += 1
    end = at
    while end < last and not _ends(narration, end):
        end += 1
        if narration.tokens[end - 1].stop:
            break
    if not 0 < end - at <= LONGEST or not _is_name(narration, at, end):
        return None
    part = words[end - 1] in narration.nouns
    if (not part and not noun) or (not noun and _only_says_how_far(narration, at, end)):
        return None
    return Subject(Thing(" ".join(words[at:end]), at, end), _with_place(narration, end, last), part)


def placed_subject(narration: Narration, first: int, last: int, focus: Thing | None) -> Subject | None:
    """One of several, told by its place alone: "Shock absorbers. Left is weak ..." is about the left shock absorber.
    `focus` is what was spoken of before; None: only "one" shows that a thing is meant."""
    grammar, words = narration.grammar, narration.words
    if (
        focus is None
        or focus.condition
        or narration.breath_of(first) - narration.breath_of(focus.first) > STILL
    ):
        return None
    at = first
    while at < last and (
        words[at] in SHOWS_A_NOUN or (words[at] in grammar.openers and not _belongs(narration, at, last))
    ):
        at += 1
    end = at
    other = words[at : at + 1] == ("other",) and words[at + 1 : at + 2] in (("one",), ("ones",), ("side",))
    while end < min(last, at + MOST_PLACES) and (words[end] in PLACES or (other and end == at)):
        end += 1
        if narration.tokens[end - 1].stop:
            break
    if end == at:
        return None
    stop = end
    while stop < last and words[stop] in ONE_OF and not narration.tokens[stop - 1].stop:
        stop += 1
    if (
        stop < last
        and not narration.tokens[stop - 1].stop
        and not (
            words[stop] in grammar.links
            or words[stop] in grammar.being
            or words[stop] in grammar.verbs
            or any(m.first == stop for m in narration.marks.get("outcome", ()))
        )
    ):
        return None
    if end - at == 1 and stop == end == last and words[at] in HOW:
        return None  # "coil two again, hot, ..."
    same_breath = narration.breath_of(focus.first) == narration.breath_of(at)
    if end - at == 1 and stop == end and not same_breath:
        return None  # "top comes off", "right, ..."
    base = [word for word in focus.name.split() if word not in PLACES] or focus.name.split()
    return Subject(Thing(" ".join([*words[at:end], *base]), at, stop), stop, True)


def is_placed(thing: Thing) -> bool:
    """Whether a name says which of several is meant ("top door switch")."""
    return thing.name.split()[0] in PLACES


def _belongs(narration: Narration, at: int, last: int) -> bool:
    """Whether a word that may open a sentence is part of a name here ("right one")."""
    stopped = bool(narration.tokens[at].stop)
    return (
        narration.words[at] == "right"
        and not stopped
        and narration.words[at + 1 : last][:1]
        in (
            ("one",),
            ("side",),
            ("is",),
            ("was",),
            ("'s",),
            ("rear",),
            ("front",),
        )
    )


def _ends(narration: Narration, at: int) -> bool:
    """Whether a word can be no part of a name."""
    grammar, word = narration.grammar, narration.words[at]
    return (
        word in grammar.being
        or word in grammar.verbs
        or word in grammar.prepositions
        or word in grammar.joiners
        or word in grammar.pronouns
        or word in grammar.negators
        or word in grammar.articles
        or word in grammar.name_ends
        or word in grammar.links
        or not word[-1].isalpha()
        or any(q.first <= at < q.last for q in narration.quantities)
        or any(
            m.first == at
            for label in ("outcome", "work", "hedge", "safety")
            for m in narration.marks.get(label, ())
        )
    )


def _is_name(narration: Narration, first: int, last: int) -> bool:
    words = narration.words
    if any(m.first < last and first < m.last for m in narration.mentions if m.name.sort == "part"):
        return False
    if words[last - 1] == narration.kind or (
        words[last : last + 1] == ("of",) and words[last - 1] in narration.trade.vessels
    ):
        return False  # "a cup of water went through"
    if words[last - 1].endswith(NO_LAST_WORD) or words[first].endswith(("ed", "ly")):
        return False
    return not any(
        m.first < last and last <= m.last
        for label in ("not a thing", "bystander", "soil", "matter", "instrument")
        for m in narration.marked(label, first, last)
    )


def _only_says_how_far(narration: Narration, at: int, end: int) -> bool:
    """Whether a single word names no part but an end of one ("start to end", "side to side")."""
    word = narration.words[at]
    bare = end - at == 1 and not narration.tokens[at].stop
    far = word in PLACES or word in narration.grammar.ends_of_things or word in narration.grammar.extents
    return bare and far and narration.words[end : end + 1] == ("to",)


def _with_place(narration: Narration, at: int, last: int) -> int:
    """Where what says where the thing is ends ("the joints | on the filter board")."""
    grammar, words = narration.grammar, narration.words
    while at < last and words[at] in grammar.prepositions and not narration.tokens[at - 1].stop:
        end = at + 1
        while end < last and (
            words[end] in grammar.articles
            or words[end] in grammar.determiners
            or any(m.first <= end < m.last for m in narration.mentions)
            or not _ends(narration, end)
        ):
            end += 1
            if narration.tokens[end - 1].stop or (end < last and words[end] in grammar.being):
                break
        at = end
    return at
