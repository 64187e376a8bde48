"""Words that stand for several: "PowerPoint" for power point. The first keeps the word as heard."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from fieldnotes.tidy.text import TidyText, Token


def with_compounds_parted(text: TidyText, compounds: Mapping[str, str]) -> TidyText:
    """The text with each compound that is written as one word as the words it is made of."""
    return parted(
        text, {n: compounds[t.text].split() for n, t in enumerate(text.tokens) if t.text in compounds}
    )


def parted(text: TidyText, words: Mapping[int, Sequence[str]]) -> TidyText:
    """The text with several words in place of some tokens; the stop behind such a token follows the last."""
    if not words:
        return text
    place: list[int] = []  # for each token, where it stands afterwards
    tokens: list[Token] = []
    for n, token in enumerate(text.tokens):
        place.append(len(tokens))
        if n in words:
            first, *others = (replace(token, text=word, stop="") for word in words[n])
            tokens += [first, *(replace(other, heard="", capital=False) for other in others)]
            tokens[-1] = replace(tokens[-1], stop=token.stop)
        else:
            tokens.append(token)
    place.append(len(tokens))
    return text.with_tokens(tokens, place)
