"""Programmes and tests that are named as run: by the vocabulary, or in the speaker's own words ("a forty wash").

A breath tells so by a verb of running before the name, by setting it apart ("Short wash, eight glasses.") or by what
the programme did ("the rinse went right through").
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fieldnotes.tidy.text import SENTENCE_ENDS
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.things import things_in

SELF = ("i", "we")
ADVERBS = (
    "then",
    "now",
    "just",
    "never",
    "still",
    "also",
    "only",
    "really",
    "already",
    "honestly",
    "set",
    "cut",
)
OWN_WORDS = 4  # words of a programme that the vocabulary does not know
ENDS = ("passed", "failed", "unclear")
GIVEN = ("gave", "give", "given")
WITHIN = ("in", "during", "after", "before", "under", "until", "till", "of", "like", "than", "between", "from",
          "by", "into", "or")  # fmt: skip
NOT_DONE = ("to", "will", "'ll", "can", "could", "would", "should", "must", "not", "you", "does", "do", "did")
HAVING = ("'s", "'ve", "'d", "has", "have", "had")
SET_AT = ("at", "on", "with")
QUANTIFIED = ("same", "another", "again", "full", "whole", "complete", "half", "long", "short", "hot", "cold", "wet",
              "empty", "quick", "ordinary", "plain", "proper", "actual", "loaded", "decent", "good", "big")  # fmt: skip
Told = Literal["verb", "heading", "subject"]


@dataclass(frozen=True, slots=True)
class Run:
    """What was run, and the words [first, last) that say so."""

    about: str | None
    first: int
    last: int
    told: Told = "verb"
    again: bool = False  # "second go": of what was run shortly before


def word_before(narration: Narration, at: int) -> str:
    """The word before one, if no stop and no other breath parts them; else nothing."""
    begin, _ = narration.breaths[narration.breath_of(at)]
    return "" if at == begin or narration.tokens[at - 1].stop else narration.words[at - 1]


def named_runs(
    narration: Narration, clauses: list[Clause], gone: frozenset[int], begun: list[Mark]
) -> list[Run]:
    """Programmes and tests that are named as run."""
    runs = [
        Run(name, first, last, told)
        for clause in clauses
        for name, first, last in _programmes(narration, clause)
        if first not in gone
        and not _is_place(narration, first, begun)
        and not is_of_others(narration, first)
        and word_before(narration, first) not in narration.grammar.negators  # "it wouldn't pump out"
        and not _is_of_part(narration, clause, first)
        and (told := _how_told(narration, clauses, clause, first, last, begun))
    ]
    both = any("both" in narration.words[c.first : c.last] for c in clauses)
    different = list({run.about: run for run in reversed(runs)}.values())[::-1]
    return different if both else runs[:1]


def is_of_others(narration: Narration, at: int) -> bool:
    """Whether words of running are told of somebody else ("she ran a wash", "he's lit it so many times")."""
    others = narration.grammar.others
    before = word_before(narration, at)
    return before in others or (before in HAVING and word_before(narration, at - 1) in others)


def _programmes(narration: Narration, clause: Clause) -> list[tuple[str, int, int]]:
    """The programmes in a clause: named by the vocabulary, or in the speaker's own words ("a forty wash")."""
    named = [(m.name.name, m.first, m.last) for m in narration.named(clause.first, clause.last, "trial")]
    known = {n for m in narration.mentions for n in range(m.first, m.last)}
    setting = {m.first for m in narration.mentions if m.name.sort == "part" and m.last - m.first == 1}
    own: list[tuple[str, int, int]] = []
    for mark in narration.marked("load", clause.first, clause.last):
        headed = mark.value == "mode" and _heads_a_run(narration, clause, mark)
        if headed and (mark.first in setting or mark.first not in known):
            own.append((" ".join(narration.words[mark.first : mark.last]), mark.first, mark.last))
            continue
        if mark.value not in ("programme", "mode") or not known.isdisjoint(range(mark.first, mark.last)):
            continue
        first = mark.first
        while (
            mark.value == "programme"
            and first > clause.first
            and mark.last - first < OWN_WORDS
            and _describes(narration, first - 1)
        ):
            first -= 1
        whole = mark.last - first > 1 or (mark.value == "mode" and word_before(narration, first) == "the")
        if whole and known.isdisjoint(range(first, mark.last)):
            own.append((" ".join(narration.words[first : mark.last]), first, mark.last))
    return sorted([*named, *own], key=lambda programme: programme[1])


def _heads_a_run(narration: Narration, clause: Clause, mode: Mark) -> bool:
    """Whether a sentence opens with how the appliance was set ("cottons at forty", "boost on the left rear")."""
    begin, _ = narration.breaths[clause.breath]
    opens = clause.first == begin or narration.tokens[clause.first - 1].stop in SENTENCE_ENDS
    if not opens or not heads(narration, clause, mode.first):
        return False
    after = narration.words[mode.last] if mode.last < clause.last else ""
    return after in SET_AT or any(q.first == mode.last < clause.last for q in narration.quantities)


def _describes(narration: Narration, at: int) -> bool:
    """Whether a word may stand before the noun of a programme as part of its name."""
    grammar, word = narration.grammar, narration.words[at]
    return not (
        narration.tokens[at].stop
        or word in grammar.openers
        or word in grammar.determiners
        or word in grammar.prepositions
        or word in grammar.verbs
        or word in grammar.being
        or word in grammar.pronouns
        or word in grammar.negators
        or word in SELF
        or word in NOT_DONE
        or word in narration.trade.run_verbs
    )


def _how_told(
    narration: Narration, clauses: list[Clause], clause: Clause, first: int, last: int, begun: list[Mark]
) -> Told | None:
    """How a breath says that a programme was run, if it does."""
    if any(clause.first <= m.first <= first for m in begun) or _is_verb(narration, first):
        return "verb"
    if _is_object_before(narration, last):
        return "verb"
    end = narration.breaths[clause.breath][1] if last - first > 1 else clause.last
    ended = any(
        m.value in ENDS and not first <= m.first < last for m in narration.marked("trial", clause.first, end)
    )
    if not (heads(narration, clause, first) and _opens_sentence(narration, clauses, clause)):
        return "verb" if begun or (ended and last - first > 1) else None  # "sounded in the alarm test"
    if _stands_apart(narration, clause, last):
        return "heading"
    judged = last - first > 1 and any(
        m.value == "good" for m in narration.marked("outcome", last, clause.last)
    )
    return "subject" if ended or judged else None


def _is_verb(narration: Narration, at: int) -> bool:
    """Whether the name of a trial is told as a deed ("lit the left front")."""
    word = narration.words[at]
    return word in narration.trade.run_verbs or word in narration.trade.run_deeds or word.endswith("ed")


def _is_object_before(narration: Narration, last: int) -> bool:
    """Whether who ran a programme is told behind it ("quick program I ran", "broil I lit as well")."""
    words = narration.words[last : last + 3]
    if len(words) < 2 or words[0] not in SELF or narration.tokens[last - 1].stop:
        return False
    verb = words[2] if words[1] in ADVERBS and len(words) > 2 else words[1]
    return verb in narration.trade.run_verbs or verb in narration.trade.run_deeds


def _stands_apart(narration: Narration, clause: Clause, last: int) -> bool:
    """Whether no verb makes a programme its subject: "Short wash, eight glasses", "rinse with nothing in it"."""
    grammar, words = narration.grammar, narration.words
    if has_verb(narration, last, clause.last):
        return bool(narration.tokens[last - 1].stop)
    after = words[last] if last < clause.last else ""
    return (
        (not after and narration.words[last : last + 1] not in (("and",), ("or",)))
        or bool(narration.tokens[last - 1].stop)
        or after in grammar.prepositions
        or after in grammar.negators
        or after in grammar.determiners
        or after in narration.trade.run_out
        or any(q.first == last for q in narration.quantities)
    )


def has_verb(narration: Narration, first: int, last: int) -> bool:
    """Whether a verb stands in the words [first, last)."""
    grammar = narration.grammar
    return any(
        word in grammar.being or (word in grammar.verbs and word not in ADVERBS)
        for word in narration.words[first:last]
    )


def _opens_sentence(narration: Narration, clauses: list[Clause], clause: Clause) -> bool:
    """Whether no other thing is spoken of before a clause in its sentence."""
    first = min(c.first for c in clauses if c.sentence == clause.sentence)
    return not any(
        m.first < clause.first and m.name.sort in ("part", "trial")
        for m in narration.mentions
        if first <= m.first < clause.first
    )


def heads(narration: Narration, clause: Clause, at: int) -> bool:
    """Whether only words that open a sentence or count stand before a word of the clause."""
    grammar = narration.grammar
    counts = {n for q in narration.numbers(clause.first, at) for n in range(q.first, q.last)}
    return all(
        n in counts
        or narration.words[n] in grammar.openers
        or narration.words[n] in grammar.determiners
        or narration.words[n] in QUANTIFIED
        for n in range(clause.first, at)
    )


def _is_place(narration: Narration, first: int, begun: list[Mark]) -> bool:
    """Whether a programme only says when or where ("it hit sixty in the main wash", "in service mode")."""
    for n in range(first - 1, max(-1, first - 4), -1):
        if narration.tokens[n].stop or any(m.first <= n < m.last for m in begun):
            return False
        if narration.words[n] in WITHIN:
            return True
        if narration.words[n] not in narration.grammar.determiners and narration.words[n] not in QUANTIFIED:
            return False
    return False


def _is_of_part(narration: Narration, clause: Clause, at: int) -> bool:
    """Whether it is a part that is moved by hand ("gave the drum a spin")."""
    return any(
        m.value in ("run", "begun")
        and narration.words[m.first] in GIVEN
        and any(t.first < at for t in things_in(narration, m.first, at))
        for m in narration.marked("trial", clause.first, at)
    )
