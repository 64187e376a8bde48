"""Numbers and sentences that were torn apart where the voice rested: tokens -> tokens.

"One nineteen point three" is written "1.19.3", "point nine four" as "point nine, four", and a full stop is set behind
"it was empty in" because the speaker looked at his watch. A number that is put together is marked as guessed.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import islice

from fieldnotes.tidy.lexicon import Lexicon
from fieldnotes.tidy.numbers import NumberReader
from fieldnotes.tidy.text import SENTENCE_ENDS, Token
from fieldnotes.tidy.wholes import CLOSE

_TWO_POINTS = re.compile(r"\W*(\d{1,2})\.([1-9]\d)\.(\d{1,2})\W*")


def put_together(
    tokens: Sequence[Token], breaths: Sequence[tuple[int, int]], lexicon: Lexicon
) -> tuple[list[Token], list[tuple[int, int]]]:
    """The tokens and the breaths' ranges, with torn numbers whole and false full stops as commas."""
    whole = _without_false_stops(_decimals(tokens, lexicon), lexicon)
    kept = _figures(whole)
    counts = [0] * len(breaths)
    for token in kept:
        counts[token.breath] += 1
    ranges, first = [], 0
    for count in counts:
        ranges.append((first, first + count))
        first += count
    return kept, ranges


def _figures(tokens: Sequence[Token]) -> list[Token]:
    """ "1.19.3" as 119.3; "16.15.9" as the 15.9 with which the speaker began again; others stay no number."""
    kept: list[Token] = []
    for n, token in enumerate(tokens):
        torn = _TWO_POINTS.fullmatch(token.heard)
        if torn and n + 1 < len(tokens) and not tokens[n + 1].heard:
            hundreds, rest = int(torn[1]), int(torn[2])
            if hundreds < 10:
                text = f"{hundreds * 100 + rest}.{torn[3]}"
            elif abs(hundreds - rest) <= CLOSE:
                text = f"{rest}.{torn[3]}"
            else:
                text = ".".join(torn.groups())
            kept.append(replace(token, text=text, stop=tokens[n + 1].stop, guessed=True))
        elif not (kept and not token.heard and _TWO_POINTS.fullmatch(kept[-1].heard)):
            kept.append(token)
    return kept


def _decimals(tokens: Sequence[Token], lexicon: Lexicon) -> list[Token]:
    """ "Point nine, four inches of water" without the comma: a bare decimal, then one digit that has its unit."""
    mended = list(tokens)
    words = lexicon.numbers
    for n in range(1, len(tokens) - 2):
        point, tenth, digit = tokens[n - 1 : n + 2]
        if (
            point.text in words.point
            and not point.stop
            and tenth.stop == ","
            and not digit.stop
            and tenth.breath == digit.breath
            and {tenth.text, digit.text} <= words.digits.keys()
            and (n < 2 or tokens[n - 2].text not in words.not_a_decimal_after)
            and lexicon.units.at([t.text for t in tokens[n + 2 : n + 6]], 0)
        ):
            mended[n] = replace(tenth, stop="", guessed=True)
    return mended


def _without_false_stops(tokens: Sequence[Token], lexicon: Lexicon) -> list[Token]:
    """Full stops that say nothing as commas.

    A recogniser sets full stops and commas by ear alike: inside a breath, where the voice did not rest, no sentence
    ends for sure, but before a question, which has a tune of its own. Nor does one, whoever wrote it, behind a word
    that leads on to a number, where one follows ("empty in. Let's see, 42 seconds").
    """
    reader = NumberReader(tokens, lexicon)
    mended = list(tokens)
    for n, token in enumerate(tokens[:-1]):
        if token.stop != ".":
            continue
        after = tokens[n + 1]
        by_ear = token.confidence < 1.0 and after.breath == token.breath and _ending(tokens, n + 1) != "?"
        leads_on = token.text in lexicon.numbers.leads_to_number and _number_behind(reader, n + 1)
        if by_ear or leads_on:
            # by ear a capital may still be that of a name
            mended[n : n + 2] = replace(mended[n], stop=","), replace(after, capital=after.capital and by_ear)
    return mended


def _ending(tokens: Sequence[Token], at: int) -> str:
    """The stop that ends the sentence of token `at`; empty where its breath ends without one."""
    breath = tokens[at].breath
    behind = (
        token for token in islice(tokens, at, None) if token.stop in SENTENCE_ENDS or token.breath != breath
    )
    found = next(behind, None)
    return found.stop if found is not None and found.breath == breath else ""


def _number_behind(reader: NumberReader, at: int) -> bool:
    """Whether an aside that only gains time stands at a token, and a number behind it."""
    lexicon = reader.lexicon
    for book in (lexicon.pauses, lexicon.interrupts, lexicon.settles):
        found = book.at(reader.texts, at)
        behind = at + found[0] if found else len(reader.texts)
        if behind < len(reader.texts) and (number := reader.at(behind)) is not None:
            return number.form not in ("ordinal", "count", "abandoned")
    return False
