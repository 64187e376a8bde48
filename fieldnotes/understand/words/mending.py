"""Names and words that the speaker mends while saying them: "the belt, sorry, the idler pulley", "the therm, thermal
fuse". What was said first is left out, as fillers are, so that no later step reads it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from fieldnotes.tidy.text import SENTENCE_ENDS, Token
from fieldnotes.understand.words.nouns import Mention
from fieldnotes.vocabulary.grammar import Grammar
from fieldnotes.vocabulary.measures import Retractions
from fieldnotes.words import split_words

SHORTEST_START = 3  # letters of a word that was begun and not finished
LONGEST_CUE = 6  # words between a name and the one that replaces it
TURNS = ("actually", "wait")  # said too often without taking anything back


def mended(
    tokens: Sequence[Token], mentions: Iterable[Mention], cues: Retractions, grammar: Grammar
) -> frozenset[int]:
    """Indices of the words that something said right after them replaces, with the words that say so."""
    gone: set[int] = set()
    parts = [m for m in mentions if m.name.sort in ("part", "kind")]
    starts = {m.first for m in parts}
    forms = {tuple(split_words(p)) for p in (*cues.takes_back, *cues.interrupts) if p not in TURNS}
    for end, first in {m.last: m.first for m in sorted(parts, key=lambda m: -m.first)}.items():
        after = _after_cue(tokens, end, forms, cues)
        article = after is not None and after < len(tokens) and tokens[after].text in grammar.articles
        named = after + 1 if after is not None and article else after
        if named is not None and named in starts and tokens[named].breath == tokens[first].breath:
            own_article = first > 0 and tokens[first - 1].text in grammar.articles
            gone |= set(range(first, named if own_article else (after or named)))
    return frozenset(gone | _broken_off(tokens))


def _after_cue(
    tokens: Sequence[Token], at: int, forms: set[tuple[str, ...]], cues: Retractions
) -> int | None:
    """Where the words go on after what takes a name back; None where nothing does."""
    if tokens[at - 1].stop in SENTENCE_ENDS:
        return None  # "Is it the belt? No, the belt is fine."
    texts = [t.text for t in tokens[at : at + LONGEST_CUE]]
    for size in range(min(len(texts) - 1, LONGEST_CUE - 1), 0, -1):
        if tuple(texts[:size]) in forms:
            return at + size
    if texts[:1] and texts[0] in cues.no:
        set_off = bool(tokens[at].stop) and bool(tokens[at - 1].stop)
        if set_off or texts[1:2] in (
            ["the"],
            ["it"],
        ):  # "no play" denies, "no, the mount" and "no the mount" mend
            return at + 1
    return None


def _broken_off(tokens: Sequence[Token]) -> set[int]:
    """Words that were begun, broken off and said again in full ("the therm, thermal fuse")."""
    return {
        n
        for n, (token, after) in enumerate(pairwise(tokens))
        if (token.stop == "," or token.heard.endswith(("-", "...", "—")))
        and len(token.text) >= SHORTEST_START
        and len(after.text) > len(token.text) + 1
        and after.text.startswith(token.text)
        and token.breath == after.breath
        and token.text.isalpha()
    }
