"""The shapes in which a thing is blamed for a trouble: "the squeal's that left roller", "it was the element that's
been tripping her", "the smell comes from the fat". What counts as the trouble is also what the customer complained of.
"""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.things import things_in

HOW_SURE = ("likely", "possible", "sure", "softens")
SHORTEST = 4  # letters of a word that can name a trouble
SUBJECT = 3  # words before "is what did it" that name what did it
POINTERS = ("it", "that", "this", "those", "these", "they")
BEING = ("is", "'s", "was", "are", "were", "be")
POINTING = ("the", "that", "this", "her", "his", "their", "them", "those", "these", "your", "a", "an", "one")
HEADS = ("for", "me", "in", "short", "is", "honestly", "no", "question", "doubt", "yep", "basically", "like")
ASIDES = ("just", "only", "all", "simply", "purely", "probably", "likely", "definitely", "really", "surely")
# "is what she said", "is what's needed", "is what I do" blame nothing.
NO_BLAME = frozenset(
    [
        "i",
        "you",
        "we",
        "they",
        "she",
        "he",
        "it",
        "the",
        "a",
        "an",
        "that",
        "this",
        "to",
        "kind",
        "sort",
        "is",
        "'s",
        "are",
        "was",
        "if",
        "about",
        "needed",
        "wanted",
        "required",
        "left",
        "matters",
        "counts",
        "called",
        "meant",
        "supposed",
        "there",
        "told",
        "said",
        "say",
        "says",
        "who",
        "all",
        "other",
        "next",
        "people",
        "anybody",
        "my",
        "your",
    ]
)


@dataclass(frozen=True)
class Blame:
    """Sees blame in a narration. `complained` are the words in which the customer told the trouble."""

    narration: Narration
    complained: frozenset[str]

    def trouble(self, first: int, last: int) -> bool:
        """Whether words tell of a trouble."""
        narration = self.narration
        return (
            bool(narration.named(first, last, "symptom"))
            or any(
                m.value in ("fault", "failed")
                for label in ("outcome", "trial")
                for m in narration.marked(label, first, last)
            )
            or any(
                m.value == "trouble" and m.last <= last for m in narration.marked("complaint", first, last)
            )
            or not self.complained.isdisjoint(narration.words[first:last])
        )

    def something(self, first: int, last: int) -> bool:
        """Whether words name a thing, or what gets into things."""
        return bool(things_in(self.narration, first, last)) or any(
            self.narration.marked(label, first, last) for label in ("soil", "matter")
        )

    def good(self, first: int, last: int) -> bool:
        """Whether words judge something good; a verb of doing ("heating") alone does not."""
        return any(
            m.value == "good" and m.rule.strength != "verb"
            for m in self.narration.marked("outcome", first, last)
        )

    def points(self, first: int, last: int) -> int | None:
        """Where "it was the ..." stands at the head of a sentence: the word of being."""
        words, openers = self.narration.words, self.narration.grammar.openers
        at = first
        while at < last and (words[at] in openers or words[at] in HEADS):
            at += 1
        if at + 2 < last and words[at] in POINTERS and words[at + 1] in BEING:
            return at + 1
        return None

    def of_trouble(self, clause: Clause) -> int | None:
        """Where a trouble is said to be a thing ("the slow preheat is the weak igniter"): the word of being."""
        words = self.narration.words
        for at in range(clause.first + 1, clause.last - 1):
            if words[at] not in BEING:
                continue
            after = at + 1
            while after < clause.last - 1 and words[after] in ASIDES:
                after += 1
            return (
                at
                if words[after] in POINTING
                and self._names_trouble(clause.first, at)
                and self.something(after, clause.last)
                and not self.good(clause.first, clause.last)
                and not any(w in self.narration.grammar.negators for w in words[clause.first : clause.last])
                else None
            )
        return None

    def _names_trouble(self, first: int, last: int) -> bool:
        """A noun of trouble as the subject: a thing that is only said to be bad does not count."""
        narration = self.narration
        return bool(narration.named(first, last, "symptom")) or not self.complained.isdisjoint(
            narration.words[first:last]
        )

    def cleft(self, clauses: list[Clause], mark: Mark, closing: bool) -> bool:
        """Whether "X is what iced it up", "it's X that's been tripping her" blames what stands before it."""
        words = self.narration.words
        first = clauses[0].first
        if self.good(first, mark.last):
            return False
        if words[mark.first] in BEING:
            before = words[max(first, mark.first - SUBJECT) : mark.first]
            named = [w for w in before if w not in self.narration.grammar.determiners]
            return (
                bool(named) and words[mark.first - 1] not in POINTERS and words[mark.last - 1] not in NO_BLAME
            )
        if not self.something(first, mark.first):
            return False
        points = self.points(first, mark.first) is not None
        return points or (closing and self.hedged(first, clauses[-1].last))

    def hedged(self, first: int, last: int) -> bool:
        """Whether the speaker says how sure he is."""
        return any(m.value in HOW_SURE for m in self.narration.marked("cause", first, last))

    def acts(self, first: int, last: int) -> bool:
        """Whether something was doing something ("the seal was dumping water")."""
        words = self.narration.words
        return any(
            words[n] in ("was", "were") and words[n + 1].endswith("ing") for n in range(first, last - 1)
        )

    def origin(self, clauses: list[Clause], mark: Mark, closing: bool) -> bool:
        """Whether "the smell comes from the fat" blames what stands behind it."""
        first, last = clauses[0].first, clauses[-1].last
        if not self.narration.words[mark.last : last] or self.good(first, last):
            return False
        if self._names_trouble(first, mark.first):
            return True
        return (
            closing and self.narration.words[mark.first - 1] in POINTERS and self.something(mark.last, last)
        )


def complained_of(narration: Narration, clauses: list[Clause], reported: frozenset[int]) -> frozenset[str]:
    """The words of the complaints that can name the trouble again ("soup" in "that's your slow soup")."""
    grammar = narration.grammar
    plain = (
        grammar.determiners
        | grammar.openers
        | grammar.verbs
        | grammar.prepositions
        | grammar.others
        | grammar.subjects
        | grammar.joiners
        | grammar.extents
        | grammar.negators
    )
    found: set[str] = set()
    for index in reported:
        first, last = clauses[index].first, clauses[index].last
        taken = {n for m in narration.named(first, last) for n in range(m.first, m.last)}
        for label in ("customer", "complaint", "history"):
            taken |= {
                n
                for m in narration.marked(label, first, last)
                if m.value != "trouble"
                for n in range(m.first, m.last)
            }
        found |= {
            word
            for n, word in enumerate(narration.words[first:last], first)
            if n not in taken and len(word) >= SHORTEST and word.isalpha() and word not in plain
        }
    if narration.kind_at:
        found -= set(narration.words[narration.kind_at.first : narration.kind_at.last])
    return frozenset(found)
