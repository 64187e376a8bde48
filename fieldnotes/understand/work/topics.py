"""What has been spoken of: the things that "it" and "that" can mean, breath by breath."""

from __future__ import annotations

from fieldnotes.tidy.text import SENTENCE_ENDS
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.noun_phrases import (
    ARTICLES,
    NounPhrase,
    is_known,
    is_plural,
    matter_in,
    noun_phrase,
)
from fieldnotes.understand.words.things import things_in

NEAR = 2  # breaths; what was spoken of before that is not meant by "it"
POINTING = ("that", "those", "this", "these")
MANY = ("them", "those", "these", "both", "they", "'em")
SINGLE = ("it", "that", "this")
BRINGING = (
    "found",
    "had",
    "got",
    "have",
    "was",
    "is",
    "'s",
    "are",
    "were",
    "see",
    "saw",
)  # "there was a sock"
MEETING = (
    "was",
    "is",
    "'s",
    "are",
    "were",
    "had",
    "has",
    "got",
    "found",
    "with",
    "by",
    "of",
    "having",
)  # "it had a sock in it"
SPOKEN = ("fact", "plan", "question")  # stances whose things stay in mind


class Topics:
    """The noun phrases of a narration's clauses, taken in as the clauses go by."""

    def __init__(self, narration: Narration) -> None:
        self._narration = narration
        self._by_breath: dict[int, list[NounPhrase]] = {}
        self._strays: dict[int, list[NounPhrase]] = {}

    def take_in(self, clause: Clause) -> None:
        """The things that a clause speaks of; what only says where comes in where nothing else does."""
        if clause.stance not in SPOKEN:
            return
        here = self._by_breath.setdefault(clause.breath, [])
        here += topics_of(self._narration, clause.first, clause.last, alone=not here)
        self._strays.setdefault(clause.breath, []).extend(
            strays_in(self._narration, clause.first, clause.last)
        )

    def stray(self, clause: Clause, at: int) -> NounPhrase | None:
        """The last thing spoken of that does not belong in the appliance ("a sock in it", "blocked with a coin")."""
        here = self._strays.get(clause.breath, []) + strays_in(
            self._narration, clause.first, min(at, clause.last)
        )
        for near in range(clause.breath, clause.breath - NEAR - 1, -1):
            if strays := here if near == clause.breath else self._strays.get(near):
                return strays[-1]
        return None

    def before(self, clause: Clause, at: int) -> NounPhrase | None:
        """What a pronoun at a word of a clause means: the first topic of this breath, else of the last one that had
        any; "that" and "those" point to the last one named."""
        narration = self._narration
        here = self._by_breath.get(clause.breath, [])
        here = here + topics_of(narration, clause.first, min(at, clause.last), alone=not here)
        if narration.words[at] in MANY and (many := self._plural(clause.breath, here)):
            return many
        for near in range(clause.breath, clause.breath - NEAR - 1, -1):
            if topics := here if near == clause.breath else self._by_breath.get(near):
                if narration.words[at] == "it" and _is_a_part(narration, topics[0]):
                    topics = [t for t in topics if not _is_dirt(narration, t)]  # "filter's got a pit on it"
                topics = _proper(narration, topics)
                topics = _of_number(narration, topics, narration.words[at])
                return topics[-1] if narration.words[at] in POINTING or near < clause.breath else topics[0]
        return None

    def _plural(self, breath: int, here: list[NounPhrase]) -> NounPhrase | None:
        """What "them" means: the last of several things that was spoken of lately."""
        for near in range(breath, breath - NEAR - 1, -1):
            topics = _proper(self._narration, here if near == breath else self._by_breath.get(near, []))
            if several := [t for t in topics if is_plural(self._narration, t)]:
                return several[-1] if near < breath else several[0]
        return None

    def cut_to_length(self, clause: Clause) -> NounPhrase | None:
        """The last thing spoken of that comes by length, as a hose does."""
        narration = self._narration
        before = topics_of(narration, *narration.breaths[clause.breath], alone=False)
        for near in range(clause.breath, clause.breath - NEAR - 1, -1):
            spoken = before if near == clause.breath else self._by_breath.get(near, [])
            for topic in reversed(spoken):
                if topic.thing and topic.thing.name.split(" ")[-1] in narration.trade.by_length:
                    return topic
        return None

    def here(self, breath: int) -> NounPhrase | None:
        """The first topic of this breath, for a verb without any object ("hose clamp, loose: tightened")."""
        topics = self._by_breath.get(breath)
        return topics[0] if topics else None


def _proper(narration: Narration, topics: list[NounPhrase]) -> list[NounPhrase]:
    """Less what was found in or on the others ("filter, a little rice in it"), where there are others."""
    return [t for t in topics if is_known(narration, t) or not t.indefinite] or topics


def _is_a_part(narration: Narration, topic: NounPhrase) -> bool:
    return is_known(narration, topic) and not _is_dirt(narration, topic)


def _is_dirt(narration: Narration, topic: NounPhrase) -> bool:
    return topic.matter or (topic.thing is not None and topic.thing.name in narration.trade.foreign_matter)


def _of_number(narration: Narration, topics: list[NounPhrase], pronoun: str) -> list[NounPhrase]:
    """Those of the topics that a pronoun agrees with ("them": the screens), or all where none does."""
    if pronoun not in MANY and pronoun not in SINGLE:
        return topics
    agreeing = [t for t in topics if is_plural(narration, t) == (pronoun in MANY)]
    return agreeing or topics


def topics_of(narration: Narration, first: int, last: int, alone: bool) -> list[NounPhrase]:
    """The things that the words [first, last) speak of, in order: the subject, in the speaker's own words if need
    be, then the parts that are named. `alone`: what stands behind a preposition counts where there is nothing else."""
    found: list[NounPhrase] = []
    at, end = first, last
    while at < end and narration.words[at] in narration.grammar.openers and narration.words[at] != "there":
        at += 1
    there = at + 1 < end and narration.words[at] == "there" and narration.words[at + 1] in BRINGING
    subject = noun_phrase(narration, at + 2 if there else at, end)
    if subject and subject.thing and (there or _is_subject(narration, subject, end)):
        found.append(subject)
    found += [p for p in _objects(narration, first, last) if not any(p.first < q.last for q in found)]
    for thing in things_in(narration, first, last):
        if any(p.first <= thing.first < p.last for p in found) or any(
            q.first <= thing.first < q.last for q in narration.quantities
        ):
            continue
        if not thing.place or (alone and not found):
            matter = matter_in(narration, thing.first, thing.last)
            found.append(NounPhrase(thing.first, thing.last, thing, matter=bool(matter)))
    return sorted(found, key=lambda p: p.first)


def _objects(narration: Narration, first: int, last: int) -> list[NounPhrase]:
    """The objects of verbs in the speaker's own words, with an article and the last word of a known name ("pulled |
    both screens")."""
    found: list[NounPhrase] = []
    for at in range(first + 1, last):
        if narration.words[at] not in (*ARTICLES, "both", "all", "those", "that"):
            continue
        if narration.words[at - 1] in narration.grammar.prepositions or (found and at < found[-1].last):
            continue
        phrase = noun_phrase(narration, at, last)
        if phrase and phrase.thing and narration.words[phrase.last - 1] in narration.nouns:
            tool = narration.words[phrase.last - 1] in narration.trade.cleaning_tools
            if not tool and not is_known(narration, phrase) and not phrase.indefinite:
                found.append(phrase)
    return found


def strays_in(narration: Narration, first: int, last: int) -> list[NounPhrase]:
    """Dirt, and things with "a" before them that are none of the appliance's parts."""
    found: list[NounPhrase] = []
    if any(word in ("i", "we") for word in narration.words[first:last]):
        return found  # "knocked it through with a punch"
    for at in range(first, last - 1):
        if narration.words[at] in MEETING:
            phrase = noun_phrase(narration, at + 1, last)
            if "like" in narration.words[at : at + 2]:
                continue  # "it's like a carpet in there"
            known = phrase and is_known(narration, phrase) and not phrase.matter
            if phrase and phrase.thing and phrase.indefinite and not known:
                found.append(phrase)
    return found


def _is_subject(narration: Narration, phrase: NounPhrase, end: int) -> bool:
    """Whether a phrase is what its clause speaks of: a verb or a place follows it, or it stands alone, as a
    heading does ("condenser, it's dusty"). A thing of the speaker's own name has an article, or heads the breath."""
    grammar, words = narration.grammar, narration.words
    known = (
        any(phrase.first <= m.first and m.last <= phrase.last for m in narration.mentions) or phrase.matter
    )
    article = phrase.thing is not None and phrase.first < phrase.thing.first
    if phrase.last >= end or narration.tokens[phrase.last - 1].stop:
        heads = (
            phrase.first == 0
            or narration.tokens[phrase.first - 1].stop in SENTENCE_ENDS
            or any(phrase.first == first for first, _ in narration.breaths)
        )
        return known or article or heads
    after = words[phrase.last]
    if article and after in ("that", "which") and not narration.tokens[phrase.last - 1].stop:
        return True  # "the little jet that sprays the water in was furred up"
    follows = after in grammar.verbs or after in grammar.prepositions or after in grammar.being
    heads = any(phrase.first == breath for breath, _ in narration.breaths) and after in BRINGING
    return (known or article or heads) and (follows or after.endswith("ed"))
