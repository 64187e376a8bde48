"""Deeds: verbs of doing that tell of something done here, each with what the verb governs.

The object is the noun phrase that the verb governs: behind it ("swapped the pump"), before it in the passive and in
notes ("the pump's been swapped", "belt replaced"), between "have" and it ("I've that brushed out"), or what "it"
means. A verb that governs nothing tells of no deed.
"""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.noun_phrases import NounPhrase, is_known, noun_phrase, noun_phrases
from fieldnotes.understand.things import bare_name, things_in
from fieldnotes.understand.topics import Topics, topics_of

BE = ("is", "'s", "are", "'re", "was", "were", "been", "being", "got", "get", "gets", "be")
HAVE = ("have", "'ve", "had", "got", "has")
SELF = ("i", "we")
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
NOTED = ("one", "two", "three", "four", "number", "quantity", "with", "too", "fitted")
LOOKING = ("test", "see", "check", "prove", "look", "find")
CODES = ("codes", "code", "faults", "errors", "memory", "history")
SOMETHING = ("that", "which", "who", "this", "it", "there")
RESULTS = ("now", "there", "done", "'s", "is", "are", "'re", "gone", "went", "good")
NEW = ("new", "replacement", "fresh")
STATE = ("is", "'s", "are", "'re")
CLOSING = ("till", "until", "where")  # "squeezed it down till it bites"
DATING = ("in", "the", "last", "since", "this", "around", "before")
LAST_TIME = ("when", "back", "last", "before", "on", "in")  # "... when I was here last"


@dataclass(frozen=True, slots=True)
class Deed:
    """What was done (`mark`) and to what. `named`: the words name it; otherwise it was found for a pronoun."""

    mark: Mark
    objects: list[NounPhrase]
    named: bool


def deeds_in(
    narration: Narration, clauses: list[Clause], index: int, topics: Topics, gone: frozenset[int]
) -> list[Deed]:
    """The deeds that a clause tells of."""
    clause = clauses[index]
    if _was_long_ago(clauses, index, narration):
        return []
    end = _sentence_end(clauses, index)
    found: list[Deed] = []
    for mark in _told(narration, clause):
        if mark.first in gone or not _was_done(narration, clauses, index, mark):
            continue
        if any(deed.mark.value == mark.value and mark.first < deed.mark.last for deed in found):
            continue
        phrases = _governed(narration, clauses, index, mark, end)
        meant: NounPhrase | None = None
        if phrases is None:
            stray = topics.stray(clause, mark.first) if mark.value == "removed" else None
            meant = stray or topics.here(clause.breath)
        elif phrases and phrases[0].pronoun:
            meant = _meant(topics, clause, mark, phrases[0])
        if meant or phrases:
            named = bool(phrases) and not phrases[0].pronoun
            found.append(Deed(mark, [meant] if meant else phrases or [], named))
    if not found and _is_noted(narration, clauses, index):
        for mark in narration.marked("new part", clause.first, clause.last)[:1]:
            things = things_in(narration, mark.first, mark.last)
            found.append(Deed(mark, [NounPhrase(t.first, t.last, t) for t in things], named=True))
    return found


def _told(narration: Narration, clause: Clause) -> list[Mark]:
    """The verbs of doing, and the results that tell of a deed ("that's in now"); of two that overlap the longer."""
    marks = [m for label in ("work", "result") for m in narration.marked(label, clause.first, clause.last)]
    longest: list[Mark] = []
    for mark in sorted(marks, key=lambda m: m.first - m.last):
        if not any(m.first < mark.last and mark.first < m.last for m in longest):
            longest.append(mark)
    return sorted(longest, key=lambda m: m.first)


def _is_noted(narration: Narration, clauses: list[Clause], index: int) -> bool:
    """Whether a sentence without any verb notes a new part as an invoice does: with how many, or with its number ("New
    clamp on the hose, one.")."""
    grammar, words = narration.grammar, narration.words
    same = [c for c in clauses[max(0, index - 1) : index + 10] if c.sentence == clauses[index].sentence]
    first, last = clauses[index].first, same[-1].last
    while first < last and words[first] in grammar.openers:
        first += 1
    mark = next(iter(narration.marked("new part", first, first + 1)), None)
    if mark is None or same[0] is not clauses[index] or any(c.stance != "fact" for c in same):
        return False
    rest = words[mark.last : last]
    if any(w in grammar.being or w in grammar.modals for w in rest) or narration.marked("part", first, last):
        return False
    return any(w in NOTED for w in rest) and not any(q.unit for q in narration.numbers(mark.last, last))


def _sentence_end(clauses: list[Clause], index: int) -> int:
    same = [c for c in clauses[index : index + 12] if c.sentence == clauses[index].sentence]
    return same[-1].last


def _was_long_ago(clauses: list[Clause], index: int, narration: Narration) -> bool:
    """Whether the clause or the next puts the deed into an earlier visit ("in the spring", "when I was here last")."""
    grammar, words = narration.grammar, narration.words
    for n in range(clauses[index].first + 1, clauses[index].last):
        if words[n] in (*grammar.months, *grammar.seasons) and words[n - 1] in DATING:
            return True
    before = clauses[index - 1 : index]
    if before and before[0].breath == clauses[index].breath and before[0].stance == "history":
        return words[clauses[index].first] not in SELF  # "Other firm, last winter. Changed the motor."
    following = clauses[index + 1 : index + 2]
    return bool(
        following
        and following[0].sentence == clauses[index].sentence
        and following[0].stance == "history"
        and narration.words[following[0].first] in LAST_TIME
    )


def _was_done(narration: Narration, clauses: list[Clause], index: int, mark: Mark) -> bool:
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
    if _by_another(narration, clauses, index, mark):
        return False
    last = before[-1:]
    if mark.rule.form == "doing":
        return _is_under_way(narration, clauses, index, mark)
    if mark.rule.form == "bare":
        told = last and last[0] in ("was", "is") and "did" in words[max(0, mark.first - 16) : mark.first]
        at_head = not last or last[0] in SELF or last[0] in grammar.openers or last[0] in grammar.joiners
        return bool(at_head or told) and not any(word in NOT_SAID_OF_ME for word in before)
    if mark.rule.object in ("within", "before", "new"):
        return True
    if mark.rule.object == "behind" and _is_for_a_look(narration, clause, mark):
        return False
    if _is_ordered(narration, clause, mark):
        return False
    if not last or mark.rule.object == "behind" or _held(narration, clause, mark):
        return True
    if last[0] in SOMETHING:
        return False
    adjective = last[0] in grammar.before_noun and last[0] not in (*grammar.pronouns, "all", "both")
    return last[0] not in ("it", "to") and not adjective


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


def _governed(
    narration: Narration, clauses: list[Clause], index: int, mark: Mark, end: int
) -> list[NounPhrase] | None:
    """The noun phrases that the verb governs; a pronoun where it has to be found what they are; none where the verb
    governs nothing; None where it leaves its object out ("hose clamp, loose: tightened")."""
    clause = clauses[index]
    it = NounPhrase(mark.first, mark.first + 1, None, pronoun=True)
    if mark.rule.object == "within" and any(
        w in ("one", "ones") for w in narration.words[mark.first : mark.last]
    ):
        named = [NounPhrase(t.first, t.last, t) for t in things_in(narration, mark.last, end) if not t.place]
        if named:
            return named[:1]  # "new one's gone in, one heater element"
    if mark.rule.object == "within":
        within = [p for p in topics_of(narration, mark.first, mark.last, alone=False) if p.thing]
        return within or _before(narration, clause, mark) or [it]
    if mark.rule.object == "new":
        return _called_new(narration, clauses, index, mark)
    if mark.rule.object == "before":
        return _before(narration, clause, mark) or _subject_pronoun(narration, clause, mark)
    if mark.rule.object == "behind":
        return noun_phrases(narration, mark.last, end) or [it]
    if _is_passive(narration, clause, mark):
        return [] if _is_state(narration, mark) else _before(narration, clause, mark) or [it]
    if held := _held(narration, clause, mark):
        return [held]
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


def _meant(topics: Topics, clause: Clause, mark: Mark, phrase: NounPhrase) -> NounPhrase | None:
    """What a pronoun means: where something was taken out, what does not belong there."""
    at = phrase.last - 1
    stray = topics.stray(clause, at) if mark.value == "removed" else None
    return stray or topics.before(clause, at)


def _after(narration: Narration, mark: Mark, end: int) -> list[NounPhrase]:
    """The object behind the verb and its particle ("swapped out | the pump"); none where a stop parts them."""
    grammar, words = narration.grammar, narration.words
    at = mark.first + (2 if words[mark.first] in SELF else 1)
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
        and not any(word in CODES for word in words[max(0, mark.first - 3) : mark.first])
        and words[mark.first - 1] in STATE
        and not any(word == "now" for word in words[mark.last : mark.last + 3])
    )


def _held(narration: Narration, clause: Clause, mark: Mark) -> NounPhrase | None:
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
    return []


def new_parts(narration: Narration, first: int, last: int) -> list[NounPhrase]:
    """The parts within [first, last) that are called new, before or behind their name ("one element, new")."""
    words, found = narration.words, []
    for thing in things_in(narration, first, last):
        before = words[max(0, thing.first - 3) : thing.first]
        behind = words[thing.last : thing.last + 1]
        if any(w in NEW for w in behind) or (any(w in NEW for w in before) and not thing.place):
            found.append(NounPhrase(max(first, thing.first - 1), thing.last, thing))
    return found
