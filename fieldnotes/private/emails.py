"""E-mail addresses, written or spoken: "pru dot lindqvist at mail dot example"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fieldnotes.private.cues import Found, table
from fieldnotes.private.digits import digits_at
from fieldnotes.private.tokens import Token
from fieldnotes.vocabulary.load import Vocabulary

DOMAIN_WORDS = 4  # "at odd jobs of tarrow dot com"
LOCAL_WORDS = 8


def emails_in(tokens: Sequence[Token], vocabulary: Vocabulary) -> Iterator[Found]:
    """Every address: words, "at", words, "dot" and an end of addresses."""
    starts = {last for _, last in table(vocabulary, "email").ends(tokens)}
    for at, token in enumerate(tokens):
        if token.text != "at" or at == 0:
            continue
        last = _domain_end(tokens, at + 1, vocabulary)
        if last is not None:
            yield Found("e-mail", _local_start(tokens, at, starts, vocabulary), last)


def _domain_end(tokens: Sequence[Token], first: int, vocabulary: Vocabulary) -> int | None:
    ends = vocabulary.private.email_ends
    dot = next(
        (k for k in range(first + 1, min(first + DOMAIN_WORDS + 1, len(tokens))) if tokens[k].text == "dot"),
        None,
    )
    if dot is None:
        return None
    last = None
    while dot + 1 < len(tokens) and tokens[dot].text == "dot":
        if tokens[dot + 1].text in ends:
            last = dot + 2
        dot += 2
    return last


def _local_start(tokens: Sequence[Token], at: int, starts: set[int], vocabulary: Vocabulary) -> int:
    """Where the part before "at" begins: behind the phrase that announces it, else what is joined to it.

    A written one ends with its word; of a spoken one, single letters and numbers belong to it.
    """
    if _in_one_word(tokens, at):
        return next(k for k in range(at, -1, -1) if k == 0 or not _in_one_word(tokens, k))
    for start in range(at - 1, max(-1, at - LOCAL_WORDS - 1), -1):
        if start in starts and not any(token.stop in (".", "?") for token in tokens[start : at - 1]):
            return start
    joints, first = vocabulary.private.email_joints, at - 1
    while first > 0:
        before = tokens[first - 1]
        same_word = (before.breath, before.word) == (tokens[first].breath, tokens[first].word)
        if before.text in joints and first > 1:
            first -= 2
        elif before.stop or before.mark:
            break
        elif same_word or (len(before.text) == 1 and before.text not in ("a", "i")):
            first -= 1
        elif _number(tokens, first, vocabulary):
            first -= 1  # "bettina forty two": the word before the number belongs to it
        else:
            break
    return first


def _in_one_word(tokens: Sequence[Token], at: int) -> bool:
    """Whether a token and the one before it were written as one word."""
    return at > 0 and (tokens[at - 1].breath, tokens[at - 1].word) == (tokens[at].breath, tokens[at].word)


def _number(tokens: Sequence[Token], first: int, vocabulary: Vocabulary) -> bool:
    return digits_at(tokens, first, vocabulary.measures) is not None
