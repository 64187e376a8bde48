"""Words of the report itself that people say aloud: "Checks: upper element ...", "Trial: full recovery. Passed."

A recogniser takes some of them for words that sound like them. What they are is told by where they stand: a heading
opens its breath, a verdict closes its sentence, and each has a stop on its other side.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from fieldnotes.tidy.text import SENTENCE_ENDS, TidyText

_STOPS = (",", ":", *SENTENCE_ENDS)


def with_report_words(text: TidyText, headings: Mapping[str, str], closings: Mapping[str, str]) -> TidyText:
    """The text with `headings` and `closings` (as heard -> as said) mended where they stand as such."""
    tokens = list(text.tokens)
    for first, last in text.breaths:
        for n in range(first, last):
            token = tokens[n]
            ends = n + 1 == last or token.stop in SENTENCE_ENDS
            set_off = n > first and tokens[n - 1].stop in _STOPS
            if n == first and token.text in headings and token.stop in _STOPS:
                tokens[n] = replace(token, text=headings[token.text])
            elif ends and set_off and token.text in closings:
                tokens[n] = replace(token, text=closings[token.text])
    return text.with_tokens(tokens, range(len(tokens) + 1))
