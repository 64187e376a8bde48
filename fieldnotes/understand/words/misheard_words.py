"""Short words that a recogniser takes for others, told by where they stand.

- A heading of the report opens its breath ("Checks: upper element ..."), a verdict closes its sentence ("..., passed");
  each has a stop on its other side.
- What tells how a reading should be stands before "says" ("the boat says fifteen to thirty ohms").
- A bare verb alone behind a heading, or behind a programme that it ends, lost its ending ("Safety. Unplug.", "the test
  finish").
- "In" before a bare verb ("it comes up once in settles") is an "and".
"""

from __future__ import annotations

from dataclasses import replace

from fieldnotes.tidy.text import SENTENCE_ENDS, TidyText, Token
from fieldnotes.vocabulary.grammar import Grammar

SAYING = ("says", "said")
_STOPS = (",", ":", *SENTENCE_ENDS)


def with_misheard_words(text: TidyText, grammar: Grammar) -> TidyText:
    """The text with such words as they were said; `heard` of a token stays as it is."""
    tokens = list(text.tokens)
    for first, last in text.breaths:
        for n in range(first, last):
            if said := _said(tokens, n, first, last, grammar):
                tokens[n] = replace(tokens[n], text=said)
    return text.with_tokens(tokens, range(len(tokens) + 1))


def _said(tokens: list[Token], n: int, first: int, last: int, grammar: Grammar) -> str | None:
    """What was said for token `n` of the breath [first, last); None: what was heard."""
    token = tokens[n]
    if n == first and token.stop in _STOPS and token.text in grammar.misheard_headings:
        return grammar.misheard_headings[token.text]
    ends = n + 1 == last or token.stop in SENTENCE_ENDS
    if ends and n > first and tokens[n - 1].stop in _STOPS and token.text in grammar.misheard_closings:
        return grammar.misheard_closings[token.text]
    if token.text in grammar.misheard_sources and not ends and tokens[n + 1].text in SAYING:
        return grammar.misheard_sources[token.text]
    if token.text in grammar.lost_endings and (ends or token.stop) and n > 0:
        before = tokens[n - 1]
        headed = before.stop in _STOPS and before.text in grammar.headings
        if headed or first == n == last - 1 or (not before.stop and before.text in grammar.programmes):
            return grammar.lost_endings[token.text]
    if token.text == "in" and not ends and not token.stop and n > first:
        return "and" if tokens[n + 1].text in grammar.and_heard_as_in else None
    return None
