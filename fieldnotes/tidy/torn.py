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
from fieldnotes.vocabulary.measures import NumberWords
from fieldnotes.vocabulary.quantities import QUANTITY_OF

_HUNDREDS, _BELOW_HUNDRED = re.compile(r"[1-9]\d{0,2}00"), re.compile(r"[1-9]\d")
_TWO_POINTS = re.compile(r"\W*(\d{1,2})\.([1-9]\d)\.(\d{1,2})\W*")


def put_together(
    tokens: Sequence[Token], breaths: Sequence[tuple[int, int]], lexicon: Lexicon
) -> tuple[list[Token], list[tuple[int, int]]]:
    """The tokens and the breaths' ranges, with torn numbers whole and false full stops as commas."""
    whole = _without_false_stops(_hundreds(_decimals(tokens, lexicon), lexicon), lexicon)
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
    """ "Point nine, four inches of water" and "not point, not four megohms" without the comma and with their noughts: a
    decimal said digit by digit before its unit."""
    mended = list(tokens)
    words = lexicon.numbers
    zero = next((word for word, value in words.digits.items() if value == 0), None)
    for n, point in enumerate(tokens):
        if point.text not in words.point or (n and tokens[n - 1].text in words.not_a_decimal_after):
            continue
        last = n + 1
        while last < len(tokens) and _is_digit(tokens[last], words) and tokens[last].breath == point.breath:
            last += 1
        stops = [token.stop for token in tokens[n : last - 1] if token.stop]
        leads_on = n > 0 and _leads_to_point(tokens[n - 1], words)
        if (
            last - n not in (2, 3)
            or tokens[last - 1].text not in words.digits
            or tokens[last - 1].stop
            or stops not in ([], [","])
            or (point.stop and not leads_on)
            or not _is_unit([t.text for t in tokens[last : last + 4]], lexicon)
        ):
            continue
        for m in range(n, last - 1):
            if tokens[m].stop:
                mended[m] = replace(mended[m], stop="", guessed=True)
        for m in range(n + 1, last):
            if zero and tokens[m].text in words.zero_before_point:
                mended[m] = replace(mended[m], text=zero, guessed=True)
    return mended


def _hundreds(tokens: Sequence[Token], lexicon: Lexicon) -> list[Token]:
    """ "1100 in 80 rpm" as "1100 and 80 rpm": the "and" of a number as it was heard. What is reached in a time ("1100
    in 80 seconds") stays two numbers."""
    mended = list(tokens)
    for n in range(1, len(tokens) - 2):
        before, joint, rest = tokens[n - 1 : n + 2]
        if joint.text != "in" or joint.confidence == 1.0 or before.stop or joint.stop or rest.stop:
            continue
        if not (_HUNDREDS.fullmatch(before.text) and _BELOW_HUNDRED.fullmatch(rest.text)):
            continue
        texts = [token.text for token in tokens[n + 2 : n + 6]]
        found = lexicon.units.at(texts, 0) or lexicon.symbols.at(texts, 0)
        if found and QUANTITY_OF.get(found[1].unit or "") != "time":
            mended[n] = replace(joint, text="and", guessed=True)
    return mended


def _leads_to_point(token: Token, words: NumberWords) -> bool:
    """Whether "point" behind a token is one of a number, whatever stop is behind it: "nought point", "reads point"."""
    noughts = words.zero_before_point | words.zero_in_a_row | words.leads_to_number
    return not token.stop and (token.text in noughts or words.digits.get(token.text) == 0)


def _is_unit(texts: Sequence[str], lexicon: Lexicon) -> bool:
    """Whether texts begin with a unit, as said or as it is misheard ("megomes")."""
    misheard = {word for unit in lexicon.misheard_units for word in unit.heard_as}
    return bool(lexicon.units.at(texts, 0)) or (texts[:1] != [] and texts[0] in misheard)


def _is_digit(token: Token, words: NumberWords) -> bool:
    return token.text in words.digits or token.text in words.zero_before_point


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
