"""Whether a verb tells what a thing does: "it sticks", "both fans spin"; not "I couldn't open it" or "switched off"."""

from __future__ import annotations

from fieldnotes.understand.checks.presence import ends_there
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration

SELF = ("i", "we")
COMPANY = 4  # words behind "with" that only say what was on at the time ("with the motor running")


def acts(narration: Narration, clause: Clause, mark: Mark, negated: bool) -> bool:
    """Whether a verb tells what the thing before it does: no object behind it, nobody before it, not bare."""
    words, grammar = narration.words, narration.grammar
    before = words[clause.first : mark.first]
    if any(word in SELF for word in before):
        return False  # "I couldn't open it", "I hold the switch"
    within = words[mark.first : mark.last]
    denied = negated or within[0] in grammar.negators
    if within[0] in grammar.being and any(word in grammar.negators for word in within[1:]):
        return True  # "the bracket to stop it tipping is not engaged"
    if mark.value == "good" and not ends_there(narration, clause, mark):
        if has_object(narration, mark) or (
            words[mark.last] in grammar.particles and not _goes_on_there(narration, mark)
        ):
            return False  # "opens the circuit", "held in", "switched off"
        if not before and words[mark.first].endswith("ing"):
            return False  # "running current"
    if _is_caused(before):
        return False  # "the dial had it running longer"
    if "with" in before[-COMPANY:] and not any(word in grammar.being for word in before[-COMPANY:]):
        return False
    near = before[-1] if before else ""
    if near in ("don't", "never") and (len(before) == 1 or before[-2] in grammar.joiners):
        return False  # "and don't jam it"
    if denied or mark.rule.form == "bare":
        return True
    return (
        not near
        or near in grammar.being
        or near in grammar.pronouns
        or near in grammar.acting_after
        or behind_a_part(narration, clause, mark)
    )


def _goes_on_there(narration: Narration, mark: Mark) -> bool:
    """Whether "in" or "on" says where something goes on ("is blowing in the freezer")."""
    words, grammar = narration.words, narration.grammar
    return (
        words[mark.first].endswith("ing")
        and words[mark.first - 1] in grammar.being
        and words[mark.last + 1 : mark.last + 2] in (("the",), ("there",), ("my",))
    )


def _is_caused(before: tuple[str, ...]) -> bool:
    """Whether somebody or something made it do so ("had it running", "kept it spinning")."""
    return before[-1:] in (("it",), ("them",)) and before[-2:-1] in (
        ("had",),
        ("have",),
        ("kept",),
        ("keep",),
        ("got",),
    )


def has_object(narration: Narration, mark: Mark) -> bool:
    """Whether "the", "a", "it" and the like follow; "the whole way" is no object, and "it's" is a new clause."""
    after, grammar = narration.words[mark.last : mark.last + 2], narration.grammar
    return (
        len(after) > 1
        and not narration.tokens[mark.last - 1].stop
        and after[0] in grammar.object_words
        and after[1] not in grammar.extents
        and after[1] not in grammar.verbs
    )


def behind_a_part(narration: Narration, clause: Clause, mark: Mark) -> bool:
    return any(m.last == mark.first for m in narration.named(clause.first, mark.first))
