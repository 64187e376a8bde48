"""How a clause names a thing: in a bare list, set apart to be spoken of next, as what was handled, or as a panel on
the way to something else."""

from __future__ import annotations

from dataclasses import replace

from fieldnotes.tidy.text import SENTENCE_ENDS
from fieldnotes.understand.checks.outcomes import Found
from fieldnotes.understand.checks.subjects import own_subject, placed_subject
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing

ECHO = ("ditto", "likewise", "same")
AROUND_ECHO = ("again", "story", "thing", "here", "there", "for", "with", "on", "is", "are", "was", "were",
               "does", "do", "it", "goes", "result", "deal")  # fmt: skip
RENEWED = 6  # breaths for which "the new one" is what was fitted
ASIDE = (["off"], ["out"], ["up"], ["down"], ["open"], ["back"], ["on"], ["away"])


def only_names(narration: Narration, clause: Clause, things: list[Thing]) -> bool:
    """Whether a clause is a bare list of things, whose outcome is still to come."""
    named = {n for t in things for n in range(t.first, t.last)}
    grammar = narration.grammar
    return all(
        n in named or narration.words[n] in grammar.articles or narration.words[n] in grammar.openers
        for n in range(clause.first, clause.last)
    )


def set_apart(narration: Narration, clause: Clause, things: list[Thing]) -> list[Thing]:
    """What a clause without a verb puts at the head of its sentence, to be spoken of next ("Thermistor in the mould,
    I was going to read it ..."); where a part only says the place, the speaker's name for what is there."""
    grammar = narration.grammar
    if (
        not opens_sentence(narration, clause)
        or any(w in grammar.verbs or w in grammar.being for w in narration.words[clause.first : clause.last])
        or narration.numbers(clause.first, clause.last)
        or any(
            not any(t.first <= m.first < t.last for t in things)
            for label in ("outcome", "work", "trial", "safety")
            for m in narration.marked(label, clause.first, clause.last)
        )
    ):
        return []
    if not things[0].place:
        return things
    named = own_topic(narration, clause)
    return [named] if named else []


def own_topic(narration: Narration, clause: Clause, focus: Thing | None = None) -> Thing | None:
    """The speaker's own name where a clause is nothing else and opens its sentence ("Wall flap. Stuck.")."""
    placed = placed_subject(narration, clause.first, clause.last, focus)
    if placed and placed.last == clause.last:
        return placed.thing
    if not opens_sentence(narration, clause) or [narration.words[clause.last - 1]] in ASIDE:
        return None
    own = own_subject(narration, clause.first, clause.last)
    return own.thing if own and own.part and own.last == clause.last else None


def opens_sentence(narration: Narration, clause: Clause) -> bool:
    """Whether a clause stands at the head of its sentence and is set off from what follows: by a stop, or by "I"
    ("oven side | I did not get into")."""
    begin, end = narration.breaths[clause.breath]
    opens = clause.first == begin or narration.tokens[clause.first - 1].stop in SENTENCE_ENDS
    person = clause.last < end and narration.words[clause.last] in narration.grammar.subjects
    return opens and (person or narration.tokens[clause.last - 1].stop in (",", ".", ":"))


def echoes(narration: Narration, clause: Clause, things: list[Thing]) -> bool:
    """Whether a clause says that what was found before holds of what it names, too: "High limit, ditto", "same for
    the left one", "so is the motor"."""
    named = {n for t in things for n in range(t.first, t.last)}
    rest = [narration.words[n] for n in range(clause.first, clause.last) if n not in named]
    if rest[:1] == ["and"]:
        rest = rest[1:]
    so_is = rest[:1] == ["so"] and rest[1:2] in (["is"], ["are"], ["does"], ["do"], ["was"], ["were"])
    if so_is and (not things or rest[2:3] in (["it"], ["that"], ["this"], ["there"])):
        return False  # "so is it any good", "so is it the diode"
    grammar = narration.grammar
    small = all(w in ECHO or w in AROUND_ECHO or w in grammar.articles or w in grammar.openers for w in rest)
    return small and (so_is or any(word in ECHO for word in rest))


def handled(narration: Narration, clause: Clause, thing: Thing) -> bool:
    """Whether a thing is the object of the speaker's deed ("I shoved the tub down")."""
    before = narration.words[clause.first : thing.first]
    return any(w in ("i", "we") for w in before)


def is_way_in(narration: Narration, thing: Thing) -> bool:
    """Whether a thing is only a panel on the way: "haven't had the front panel off", "cover's out"."""
    after = [w for w in narration.words[thing.last : thing.last + 2] if w not in narration.grammar.being]
    panel = any(m.first <= thing.last - 1 < m.last for m in narration.marks.get("access", ()))
    if thing.name.endswith("filter"):
        panel = False  # the "filter basket" is taken out to be looked at
    taken = any(
        m.value == "removed" and m.first <= thing.first < m.last for m in narration.marks.get("work", ())
    )  # "pulled the vent off, and ..." is about the vent
    return (after[:1] == ["off"] and not taken) or (panel and after[:1] in ASIDE)


def has_a_name(narration: Narration, thing: Thing) -> bool:
    """Whether what a reading was taken on is known by name, or is the appliance itself."""
    return thing.name == narration.kind or narration.words[thing.last - 1] in narration.nouns


def introduces(narration: Narration, clause: Clause) -> bool:
    """Whether the breath says what kind of appliance it is: "an upright freezer, frost free" finds nothing."""
    first, last = narration.breaths[clause.breath]
    return narration.kind_at is not None and first <= narration.kind_at.first < last


def names_more(narration: Narration, clause: Clause, found: Found) -> bool:
    """Whether something that the vocabulary lacks is named behind an outcome ("didn't get into the | control box")."""
    end = narration.words[found.last - 1]
    leads_on = end in ("a", "an", "the") or end in narration.grammar.prepositions
    return leads_on and found.last < clause.last and not narration.tokens[found.last - 1].stop


def before_person(narration: Narration, clause: Clause, found: Found) -> int:
    """Where "I" stands between a name and its outcome ("control card I have not opened"), else the outcome."""
    return next(
        (n for n in range(clause.first, found.first) if narration.words[n] in ("i", "we")), found.first
    )


def renewed_in(narration: Narration, clause: Clause, things: list[Thing]) -> Thing | None:
    """What a clause says was replaced, or calls new."""
    for label in ("work", "result", "new part", "part"):
        for m in narration.marked(label, clause.first, clause.last):
            if m.value in ("replaced", "fitted"):
                return next((t for t in things if not t.condition and not t.place), None)
    return None


def new_one(narration: Narration, clause: Clause, renewed: Thing | None) -> list[Thing]:
    """What "the new one" that opens a clause is, where something was renewed a few breaths before."""
    words = narration.words
    at = clause.first
    while at < clause.last and (words[at] in narration.grammar.openers or words[at] == "the"):
        at += 1
    if renewed is None or words[at : at + 2] != ("new", "one") or at + 2 >= clause.last:
        return []
    near = 0 <= narration.breath_of(at) - narration.breath_of(renewed.first) <= RENEWED
    return [replace(renewed, first=at, last=at + 2, place=False)] if near else []
