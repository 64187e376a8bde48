"""Noun phrases: what stands where a verb looks for its object or its subject.

"swapped | the old drain pump | for a new one": a phrase ends before a preposition, a joining word, a stop or a
verb. It names a thing of the vocabulary, or a thing in the speaker's own words, or it is a pronoun.
"""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing, things_in

INTRODUCED = 60  # words
OWN_WORDS = 4  # words of a name that the vocabulary does not know
INDEFINITE = frozenset(("a", "an", "some", "another", "two", "three", "four", "few", "couple", "more"))
STANDS_ALONE = ("it", "that", "this", "those", "these", "them", "both", "one", "ones", "her", "all", "lot")
LISTED = ("and", "plus", "or")
MEASURES = (
    "set",
    "pair",
    "length",
    "sheet",
    "strip",
    "roll",
    "piece",
    "couple",
    "bit",
    "lot",
    "load",
    "drop",
    "dab",
    "bunch",
)
POINTING = ("that", "this", "those", "these")
AMOUNTS = ("lb", "kg", "gal", "L")
ROUGHLY = ("about", "like", "roughly", "maybe", "nearly", "almost", "easily", "around")
ARTICLES = ("the", "a", "an", "my", "your", "his", "her", "its", "their", "our")
NUMBERED = ("part", "number", "numbers", "code", "order", "off", "them", "quantity", "each")


@dataclass(frozen=True, slots=True)
class NounPhrase:
    """The words [first, last) and the thing they name; `thing` is None for a pronoun, and for
    words that name nothing of the appliance (a person, a tool)."""

    first: int
    last: int
    thing: Thing | None
    pronoun: bool = False
    indefinite: bool = False  # "a sock", in contrast to "the belt"
    matter: bool = False  # dirt, water, frost: what is on or in things


def noun_phrase(narration: Narration, at: int, end: int) -> NounPhrase | None:
    """The noun phrase that starts at a word, and at no later one."""
    grammar, words = narration.grammar, narration.words
    first, indefinite = at, True
    while at < end:
        if words[at] in STANDS_ALONE and (at + 1 >= end or _ends_pronoun(narration, at)):
            return NounPhrase(first, at + 1, None, pronoun=True)
        counted = next((q for q in narration.quantities if q.first == at and q.unit is None), None)
        if counted and not any(m.first <= at and m.last > counted.last for m in narration.mentions):
            indefinite = indefinite and words[at] != "both"
            at = counted.last
        elif weighed := _weighed_at(narration, at):
            at = weighed
        elif words[at] in ROUGHLY and at == first:
            at = first = at + 1
        elif (
            words[at] in MEASURES
            and words[at + 1 : at + 2] == ("of",)
            and not any(m.first == at for m in narration.mentions)
        ):
            at += 2
        elif words[at + 1 : at + 2] == ("'s",) and narration.marked("bystander", at, at + 1):
            at += 2  # "a child's sock"
        elif words[at] in grammar.before_noun and not any(m.first == at for m in narration.named(at, end)):
            indefinite = indefinite and (words[at] in INDEFINITE or words[at] in ("of", "old", "new", "big"))
            at += 1
        else:
            break
        if narration.tokens[at - 1].stop:
            return None
    if at >= end:
        return None
    last = _last_word(narration, at, end)
    if last == at:
        return None
    if words[last - 1] in ("one", "ones"):
        return NounPhrase(first, last, None, pronoun=True)  # "the left one"
    phrase = _named(narration, first, at, last, indefinite) or _own(narration, first, at, last, indefinite)
    if last < end and words[last] == "of" and not narration.tokens[last - 1].stop:
        inner = noun_phrase(narration, last + 1, end)
        known = phrase and phrase.thing and any(m.first >= at and m.last <= last for m in narration.mentions)
        if inner and phrase and not phrase.thing:
            return inner  # "a bag of chips"
        if inner and not known and (inner.thing is None or inner.matter or is_known(narration, inner)):
            matter = inner.matter or bool(phrase and phrase.matter)
            return NounPhrase(first, inner.last, inner.thing, inner.pronoun, indefinite, matter)
        if inner and phrase and phrase.thing and not known:
            whole = " ".join(words[at : inner.last])
            return NounPhrase(first, inner.last, Thing(whole, at, inner.last), indefinite=indefinite)
    return phrase


def _weighed_at(narration: Narration, at: int) -> int | None:
    """Where the name begins behind "two pounds of" or "three litres of"; None where nothing is weighed so."""
    amount = next((q for q in narration.quantities if q.first == at and q.unit in AMOUNTS), None)
    return amount.last + 1 if amount and narration.words[amount.last : amount.last + 1] == ("of",) else None


def noun_phrases(narration: Narration, at: int, end: int) -> list[NounPhrase]:
    """The noun phrase that starts at a word, and those joined to it ("the belt, both rollers and the idler")."""
    words = narration.words
    found = [phrase] if (phrase := noun_phrase(narration, at, end)) else []
    while found and found[-1].thing is not None:
        at = found[-1].last
        joined = bool(narration.tokens[at - 1].stop == ",")
        at = _after_number(narration, at, end)
        while at < end and words[at] in LISTED:
            joined, at = True, at + 1
        following = noun_phrase(narration, at, end) if joined and at < end else None
        if following is None or following.thing is None or following.matter:
            break
        if not is_known(narration, following) and "new" not in words[following.first : following.last]:
            break
        if following.last < end and words[following.last] in narration.grammar.verbs:
            break  # "..., and the filter is clean": a sentence of its own
        found.append(following)
    return found


def _after_number(narration: Narration, at: int, end: int) -> int:
    """Where a list goes on behind a part number ("one drum belt, part number one nine, and one pulley")."""
    start = at
    while at < end and (
        narration.words[at] in NUMBERED
        or any(s.first <= at < s.last for s in narration.spelled)
        or any(q.first <= at < q.last for q in narration.quantities)
        or (len(narration.words[at]) == 1 and narration.words[at] != "a")
    ):
        at += 1
    return at if "number" in narration.words[start:at] or "part" in narration.words[start:at] else start


def _last_word(narration: Narration, at: int, end: int) -> int:
    """Where the words of a name end."""
    n = at
    while n < end:
        inside = next((m for m in narration.mentions if m.first <= n < m.last and m.first >= at), None)
        if inside:
            n = inside.last
        elif (
            n - at >= OWN_WORDS
            or _ends_phrase(narration, n)
            or (n > at and narration.words[n].endswith("ed"))
        ):
            break
        else:
            n += 1
        if narration.tokens[n - 1].stop:
            break
    return min(n, end)


def _ends_phrase(narration: Narration, at: int) -> bool:
    """Whether a word cannot be part of a name."""
    grammar, word = narration.grammar, narration.words[at]
    return bool(
        word in grammar.prepositions
        or word in ("i", "we")
        or word in grammar.name_ends
        or word in grammar.joiners
        or word in grammar.verbs
        or word in grammar.pronouns
        or word in grammar.negators
        or word in ARTICLES
        or any(m.first == at for m in narration.marks.get("work", ()))
        or any(q.first == at for q in narration.quantities)
    )


def _ends_pronoun(narration: Narration, at: int) -> bool:
    """Whether the next word shows that a pronoun stands alone ("got that | cleaned out"; not "all | that ice")."""
    stopped = narration.tokens[at].stop
    word = narration.words[at + 1]
    if narration.words[at] in ("all", "both") and word in (*ARTICLES, *POINTING) and not stopped:
        return False
    return bool(stopped) or _ends_phrase(narration, at + 1) or word.endswith("ed") or word in ("all", "both")


def is_known(narration: Narration, phrase: NounPhrase) -> bool:
    """Whether the vocabulary has a name for what a phrase names."""
    return any(phrase.first <= m.first and m.last <= phrase.last for m in narration.mentions)


def is_introduced(narration: Narration, phrase: NounPhrase) -> bool:
    """Whether a thing of the speaker's own name was brought up before with "a" ("a pea in it, ... had the pea out")."""
    words = narration.words
    head = words[phrase.last - 1]
    return any(
        words[n] == head and words[n - 1] not in (*POINTING, *ARTICLES[:1], *ARTICLES[3:])
        for n in range(max(1, phrase.first - INTRODUCED), phrase.first)
    )


def is_plural(narration: Narration, phrase: NounPhrase) -> bool:
    """Whether a phrase speaks of several ("both screens")."""
    word = narration.words[phrase.thing.last - 1 if phrase.thing else phrase.last - 1]
    return (word.endswith("s") and not word.endswith(("ss", "us", "'s"))) or word in ("feet", "teeth")


def _named(narration: Narration, first: int, at: int, last: int, indefinite: bool) -> NounPhrase | None:
    """The phrase where the vocabulary knows its thing, or it is dirt, water and the like."""
    matter = matter_in(narration, at, last)
    known = things_in(narration, at, last) or ([matter] if matter else [])
    return NounPhrase(first, last, known[0], indefinite=indefinite, matter=bool(matter)) if known else None


def matter_in(narration: Narration, at: int, last: int) -> Thing | None:
    """The dirt, water or ice that the words [at, last) end with ("a wad of lint"; not "the lint screen")."""
    marks = [m for label in ("soil", "matter") for m in narration.marked(label, at, last) if m.last == last]
    if not marks:
        return None
    return Thing(" ".join(narration.words[marks[-1].first : last]), marks[-1].first, last)


def _own(narration: Narration, first: int, at: int, last: int, indefinite: bool) -> NounPhrase | None:
    """The phrase in the speaker's own words."""
    words = narration.words
    if narration.marked("part number", at, last) or words[first] == "my":
        return None
    if any(m.last == last for m in narration.marked("not a thing", at, last)) or any(
        m.last == last for m in narration.marked("instrument", at, last)
    ):
        return NounPhrase(first, last, None, pronoun=words[last - 1] in narration.grammar.pronouns)
    if (
        not words[last - 1].isalpha()
        or words[last - 1].endswith(("ing", "in'", "ly"))
        or (words[at].endswith("ed") and first == at)
    ):
        return None
    if any(m.first < last and at < m.last for m in narration.marks.get("outcome", ())):
        return None
    return NounPhrase(first, last, Thing(" ".join(words[at:last]), at, last), indefinite=indefinite)
