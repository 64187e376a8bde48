"""What a verb of doing governs.

Its object is the noun phrase behind it ("swapped the pump"), before it in the passive and in notes ("the pump's been
swapped", "belt replaced"), between "have" and it ("I've that brushed out"), or in front of "I" ("the ice I have
melted"); where words tell a result ("that's in now"), what was called new around them.
"""

from __future__ import annotations

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.noun_phrases import (
    NounPhrase,
    is_known,
    is_plural,
    noun_phrase,
    noun_phrases,
)
from fieldnotes.understand.words.things import bare_name, things_in
from fieldnotes.understand.work.topics import topics_of

SELF = ("i", "we")
BE = ("is", "'s", "are", "'re", "was", "were", "been", "being", "got", "get", "gets", "be")
HAVE = ("have", "'ve", "had", "got", "has")
LEFT_OUT = (
    "i",
    "we",
    "'ve",
    "have",
    "had",
    "just",
    "also",
    "both",
    "all",
    "not",
    "you",
    "then",
    "been",
    "it",
    "too",
    "got",
    "them",
    "she",
)
STOCKED = ("had", "have", "carry", "keep", "got")
ALSO = ("and", "plus", "also")
NEW = ("new", "replacement", "fresh")
STATE = ("is", "'s", "are", "'re")
CLOSING = ("till", "until", "where")  # "squeezed it down till it bites"


def governed(
    narration: Narration, clauses: list[Clause], index: int, mark: Mark, end: int
) -> list[NounPhrase] | None:
    """The noun phrases that the verb governs; a pronoun where it has to be found what they are; none where the verb
    governs nothing; None where it leaves its object out ("hose clamp, loose: tightened")."""
    clause = clauses[index]
    it = NounPhrase(mark.first, mark.first + 1, None, pronoun=True)
    if mark.rule.object == "within":
        if stood_for := _stands_for(narration, clauses, index, mark, end):
            return stood_for[:1]
        within = [p for p in topics_of(narration, mark.first, mark.last, alone=False) if _tells(narration, p)]
        return within or _before(narration, clause, mark) or [it]
    if mark.rule.object == "new":
        return _called_new(narration, clauses, index, mark)
    if mark.rule.object == "before":
        return _before(narration, clause, mark) or _subject_pronoun(narration, clause, mark)
    if mark.rule.object == "behind":
        return noun_phrases(narration, mark.last, end) or [it]
    if _is_passive(narration, clause, mark):
        return [] if _is_state(narration, mark) else _before(narration, clause, mark) or [it]
    if between := held(narration, clause, mark):
        return [between]
    if narration.words[mark.last : min(mark.last + 1, end)] == ("my",):
        return []  # "swapped my leads": the speaker's own, no part of the unit
    after = _after(narration, mark, end)
    if mark.last - mark.first > 1 and not _holds(narration, mark, after):
        return []  # "pulled the lever and it came back on"
    noted = _just_before(narration, clause, mark) if mark.rule.form == "done" else []
    if noted and (not after or (after[0].thing and after[0].first == after[0].thing.first)):
        return noted
    if after:
        return after
    if narration.words[mark.last - 1] in NEW:
        return None  # "took the old element out and put new"
    if mark.rule.form == "bare" or _did_it_itself(narration, clause, mark):
        return []
    if any(word in BE for word in narration.words[clause.first : mark.first]):
        return []  # "the bubble is just about centred"
    if before := _before(narration, clause, mark):
        return before
    heads = clause.first == narration.breaths[clause.breath][0] and clause.last == mark.last
    if heads and index + 1 < len(clauses) and clauses[index + 1].breath == clause.breath:
        listed = noun_phrases(narration, mark.last, narration.breaths[clause.breath][1])
        if listed and is_known(narration, listed[0]):
            return listed[:1]  # "Fitted. Roller, one."
    own = [w for w in narration.words[clause.first : mark.first] if w not in narration.grammar.openers]
    return None if all(w in LEFT_OUT for w in own) else []


def _tells(narration: Narration, phrase: NounPhrase) -> bool:
    """Whether a phrase says what is new; "a fresh piece" only stands for it."""
    return phrase.thing is not None and (
        is_known(narration, phrase) or narration.words[phrase.last - 1] not in narration.trade.stand_ins
    )


def _stands_for(
    narration: Narration, clauses: list[Clause], index: int, mark: Mark, end: int
) -> list[NounPhrase]:
    """What "the new one" is: a part that the sentence named before ("had a pump on the truck, so the new one's on"),
    else the one that is named behind it ("new one's gone in, one heater element"), not its screws."""
    told = narration.words[mark.first : mark.last]
    if "one" not in told and "ones" not in told:
        return []
    sentence = clauses[index].sentence
    first = next(c.first for c in clauses[max(0, index - 8) : index + 1] if c.sentence == sentence)
    for begin, last in ((first, mark.first), (mark.last, end)):
        things = [t for t in things_in(narration, begin, last) if not t.place]
        single = [t for t in things if not is_plural(narration, NounPhrase(t.first, t.last, t))]
        if named := (things if "ones" in told else single):
            return [NounPhrase(t.first, t.last, t) for t in named]
    return []


def _after(narration: Narration, mark: Mark, end: int) -> list[NounPhrase]:
    """The object behind the verb and its particle ("swapped out | the pump"); none where a stop parts them."""
    grammar, words = narration.grammar, narration.words
    at = mark.first + (2 if words[mark.first] in SELF else 1)
    if at < mark.last and words[at].endswith("ed"):
        at += 1  # "wire brushed", "re seated"
    while at < end and (
        words[at] in grammar.name_ends or (at < mark.last and words[at] in grammar.prepositions)
    ):
        if narration.tokens[at - 1].stop not in ("", ":"):
            return []
        at += 1
    if at >= end or narration.tokens[at - 1].stop not in ("", ":"):
        return []
    return noun_phrases(narration, at, end)


def _holds(narration: Narration, mark: Mark, objects: list[NounPhrase]) -> bool:
    """Whether the words of a deed hold together around its objects."""
    rest = range(objects[-1].last if objects else mark.first + 1, mark.last)
    return not any(
        narration.words[n] in narration.grammar.joiners and narration.words[n] not in CLOSING for n in rest
    )


def _did_it_itself(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a verb without an object tells what the appliance did ("it let go and reseated")."""
    begin, _ = narration.breaths[clause.breath]
    subjects = [
        w for w in narration.words[begin : mark.first] if w in SELF or w in ("it", "she", "he", "they")
    ]
    return bool(subjects) and subjects[-1] not in SELF


def _is_passive(narration: Narration, clause: Clause, mark: Mark) -> bool:
    n = mark.first - 1
    skipped = (*narration.grammar.name_ends, "all", "both")
    while n >= clause.first and narration.words[n] in skipped:
        n -= 1
    return n >= clause.first and narration.words[n] in BE and mark.rule.form != "bare"


def _is_state(narration: Narration, mark: Mark) -> bool:
    """Whether a passive tells how things are, not what was done ("the hose is strapped up")."""
    words = narration.words
    return (
        mark.value not in ("replaced", "reset", "calibrated")
        and not any(word in narration.trade.code_words for word in words[max(0, mark.first - 3) : mark.first])
        and words[mark.first - 1] in STATE
        and not any(word == "now" for word in words[mark.last : mark.last + 3])
    )


def held(narration: Narration, clause: Clause, mark: Mark) -> NounPhrase | None:
    """The object between "have" and the participle ("I've that brushed out", "got the drain open")."""
    begin, _ = narration.breaths[clause.breath]
    for n in range(mark.first - 1, max(begin, mark.first - 5), -1):
        if narration.words[n - 1] in HAVE and narration.words[n] not in BE:
            phrase = noun_phrase(narration, n, mark.first)
            return phrase if phrase and phrase.last == mark.first else None
    return None


def _just_before(narration: Narration, clause: Clause, mark: Mark) -> list[NounPhrase]:
    """The thing noted right before a participle ("drain pump replaced"), with no subject that did it."""
    if any(word in SELF for word in narration.words[clause.first : mark.first]):
        return []
    topics = topics_of(narration, clause.first, mark.first, alone=True)
    return [p for p in topics[-1:] if p.last == mark.first and p.thing and not p.thing.place]


def _before(narration: Narration, clause: Clause, mark: Mark) -> list[NounPhrase]:
    """The subject of the passive, or the object in front of "I" ("all that ice I have melted out")."""
    if fronted := _fronted(narration, clause, mark):
        return [fronted]
    topics = topics_of(narration, clause.first, mark.first, alone=True)
    if topics:
        return topics[:1]
    name = bare_name(narration, clause.first, mark.first)
    return [NounPhrase(name.first, name.last, name)] if name else []


def _fronted(narration: Narration, clause: Clause, mark: Mark) -> NounPhrase | None:
    """The object in front of "I" ("all that ice | I have melted out", "this | I have washed")."""
    first = clause.first
    while first < mark.first and narration.words[first] in narration.grammar.openers:
        first += 1
    phrase = noun_phrase(narration, first, mark.first)
    if phrase and phrase.last < mark.first and narration.words[phrase.last] in SELF:
        return phrase
    return None


def _subject_pronoun(narration: Narration, clause: Clause, mark: Mark) -> list[NounPhrase]:
    """The pronoun in front of a verb ("they | got a drop of oil"), or one for the subject that it leaves out; none
    where other words are its subject ("the hum | is gone")."""
    for n in range(mark.first - 1, clause.first - 1, -1):
        if narration.words[n] in narration.grammar.pronouns:
            return [NounPhrase(n, n + 1, None, pronoun=True)]
    if any(word not in narration.grammar.openers for word in narration.words[clause.first : mark.first]):
        return []
    return [NounPhrase(mark.first, mark.first + 1, None, pronoun=True)]


def _called_new(narration: Narration, clauses: list[Clause], index: int, mark: Mark) -> list[NounPhrase]:
    """The parts that the words around a mark call new, in its sentence, else in the two breaths up to it."""
    clause = clauses[index]
    if "new" in narration.words[mark.first : mark.last]:
        first = next(c.first for c in clauses if c.sentence == clause.sentence)
        return [
            NounPhrase(t.first, t.last, t) for t in things_in(narration, first, mark.first) if not t.place
        ]
    same = [
        c
        for c in clauses[max(0, index - 8) : index + 8]
        if c.sentence == clause.sentence and c.stance == "fact"
    ]
    breath = [
        c
        for c in clauses[max(0, index - 12) : index]
        if 0 <= clause.breath - c.breath <= 1 and c.stance == "fact"
    ]
    for near in (same, breath):
        found = [p for c in near for p in new_parts(narration, c.first, c.last)]
        if found:
            return found
    return _in_stock(narration, same) or _also(narration, clauses, index, mark)


def _in_stock(narration: Narration, clauses: list[Clause]) -> list[NounPhrase]:
    """What the speaker had with him ("I had a sheet of mica, so I cut one and that's in there")."""
    words = narration.words
    for clause in clauses:
        for n in range(clause.first, clause.last - 1):
            if words[n] in STOCKED and words[n + 1] in ("a", "an", "one"):
                phrase = noun_phrase(narration, n + 1, clause.last)
                taken = not set(words[n : clause.last]).isdisjoint(("off", "out", "up", "down"))
                if phrase and phrase.thing and is_known(narration, phrase) and not taken:
                    return [phrase]
    return []


def _also(narration: Narration, clauses: list[Clause], index: int, mark: Mark) -> list[NounPhrase]:
    """What a sentence that goes on with "and" or "plus" adds to what the breath before told to be new ("and the cutoff
    kit, both are in")."""
    clause = clauses[index]
    first = next(c.first for c in clauses if c.sentence == clause.sentence)
    before = [c for c in clauses[max(0, index - 12) : index] if c.breath == clause.breath - 1]
    if narration.words[first] not in ALSO or not before:
        return []
    replaced = any(
        m.value == "replaced"
        for label in ("work", "result")
        for m in narration.marked(label, before[0].first, before[-1].last)
    )
    things = [t for t in things_in(narration, first, mark.first) if not t.place]
    panels = any(m.last == t.last for t in things for m in narration.marked("access", t.first, t.last))
    return [NounPhrase(t.first, t.last, t) for t in things[:1]] if replaced and not panels else []


def new_parts(narration: Narration, first: int, last: int) -> list[NounPhrase]:
    """The parts within [first, last) that are called new, before or behind their name ("one element, new")."""
    words, found = narration.words, []
    for thing in things_in(narration, first, last):
        before = words[max(0, thing.first - 3) : thing.first]
        behind = words[thing.last : thing.last + 1]
        if any(w in NEW for w in behind) or (any(w in NEW for w in before) and not thing.place):
            found.append(NounPhrase(max(first, thing.first - 1), thing.last, thing))
    return found
