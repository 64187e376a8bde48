"""Street addresses: a house number, words and a street's kind, with the flat before and the town behind it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from fieldnotes.private.cues import Found, plain_words, table
from fieldnotes.private.digits import digits_at, unit_words
from fieldnotes.private.tokens import Token
from fieldnotes.vocabulary.load import Vocabulary

STREET_WORDS = 3  # between the house number and the street's kind
TOWN_WORDS = 8  # between the street and its ZIP code or postcode
_HOUSE = re.compile(r"\d{1,5}[a-f]?")
# UK postcode: BS 7666 gives its shape; outward and inward part are two words
_OUTWARD, _INWARD = re.compile(r"[a-z]{1,2}\d[a-z\d]?"), re.compile(r"\d[a-z]{2}")
_SPOKEN = re.compile(r"\d{5}|[a-z]{1,2}\d[a-z\d]?\d[a-z]{2}")
LONGEST_POSTCODE = 7  # signs
_ZIP = re.compile(r"\d{5}")


def addresses_in(tokens: Sequence[Token], vocabulary: Vocabulary) -> Iterator[Found]:
    """Every address that has a street, post office boxes, and flats that were named alone."""
    cued = {last for _, last in table(vocabulary, "address_before").ends(tokens)}
    cues = vocabulary.private
    for at in cued:
        if (bare := _bare_street_end(tokens, at, vocabulary)) is not None:
            yield Found("address", at, bare)
    for named, after in table(vocabulary, "boxes").ends(tokens):
        if after < len(tokens) and (box := digits_at(tokens, after, vocabulary.measures)):
            yield Found("address", named, _town_end(tokens, box.last, vocabulary))
    for at, token in enumerate(tokens):
        if token.text in cues.streets or token.text in cues.street_words:
            first = _street_start(tokens, at, cued, vocabulary)
            if first is not None:
                street_end = _street_end(tokens, at, vocabulary)
                last = _town_end(tokens, _flat_end(tokens, street_end, vocabulary), vocabulary)
                yield Found("address", _flat_start(tokens, first, vocabulary), last)
        elif token.text in cues.flats or (token.text in cues.flats_words and at in cued):
            last = _flat_end(tokens, at, vocabulary)
            if last > at and not (token.text in cues.flats_words and token.text != "flat"):
                yield Found("address", at, last)
        elif _postcode_end(tokens, at) == at + 2 and not token.text.isdigit() and token.capital:
            yield Found("address", at, at + 2)


def _street_start(tokens: Sequence[Token], at: int, cued: set[int], vocabulary: Vocabulary) -> int | None:
    """The house number's token, or the first of a street's name in capitals; None where it is no street."""
    cues = vocabulary.private
    after = tokens[at + 1] if at + 1 < len(tokens) and not tokens[at].stop else None
    if after is not None and after.text in cues.not_street_before and tokens[at].text in cues.street_words:
        return None
    first = at
    while at - first < STREET_WORDS and first > 0 and _of_name(tokens[first - 1], tokens[at], vocabulary):
        first -= 1
    named = tokens[first:at]
    if not named:
        return None
    capitals = all(token.capital for token in tokens[first : at + 1])
    for start in range(first, at):  # "14 Larkspur Lane": the nearest number before the name
        house = _house_start(tokens, start, vocabulary)
        if house is not None and _is_street(tokens, house, start, at, cued, vocabulary):
            return house
    if capitals and tokens[at].text in cues.streets and not tokens[first].opens:
        return first
    return None


def _street_end(tokens: Sequence[Token], at: int, vocabulary: Vocabulary) -> int:
    """The token after a street's kind at `at`, and after its number: "County Road 12"."""
    numbered = tokens[at].text in vocabulary.private.numbered_streets and tokens[at].capital
    number = digits_at(tokens, at + 1, vocabulary.measures) if at + 1 < len(tokens) else None
    if not numbered or tokens[at].stop or number is None or tokens[at + 1].breath != tokens[at].breath:
        return at + 1
    after = tokens[number.last] if number.last < len(tokens) else None
    measured = after is not None and not tokens[number.last - 1].stop and after.text in unit_words(vocabulary)
    return at + 1 if measured else number.last


def _bare_street_end(tokens: Sequence[Token], at: int, vocabulary: Vocabulary) -> int | None:
    """The end of "17 Wrenfield," behind "I'm at": a number, and a word that nobody knows, capital and stop."""
    if at >= len(tokens):
        return None
    house = digits_at(tokens, at, vocabulary.measures)
    if house is None or house.last >= len(tokens) or tokens[house.last - 1].stop:
        return None
    name, plain = tokens[house.last], plain_words(vocabulary)
    ends = name.stop or house.last + 1 == len(tokens) or tokens[house.last + 1].breath != name.breath
    known = name.text in plain or not name.text.isalpha() or name.breath != tokens[at].breath
    return house.last + 1 if name.capital and ends and not known else None


def _of_name(token: Token, street: Token, vocabulary: Vocabulary) -> bool:
    if (
        token.stop
        or token.mark
        or token.breath != street.breath
        or (not token.text.isalpha() and "'" not in token.text)
    ):
        return bool(re.fullmatch(r"\d+(st|nd|rd|th)", token.text)) and not token.stop
    excluded = vocabulary.private.not_in_street | vocabulary.grammar.pronouns
    return token.text not in excluded and token.text not in unit_words(vocabulary)


def _is_street(
    tokens: Sequence[Token], house: int, start: int, at: int, cued: set[int], vocabulary: Vocabulary
) -> bool:
    """A kind that is a word too needs capitals, or a phrase before the number, or a name known from nowhere."""
    cues, plain = vocabulary.private, plain_words(vocabulary)
    strange = any(token.text not in plain for token in tokens[start:at])
    if tokens[at].text in cues.streets:
        return strange or house in cued or all(token.capital for token in tokens[start : at + 1])
    if all(token.capital for token in tokens[start : at + 1]):
        return True
    return strange and house in cued


def _house_start(tokens: Sequence[Token], start: int, vocabulary: Vocabulary) -> int | None:
    """Where the house number that ends before `start` begins: "1809", "14b", "two twenty eight", "one oh six"."""
    if start > 0 and _HOUSE.fullmatch(tokens[start - 1].text) and not tokens[start - 1].stop:
        return start - 1
    first = start
    for begin in range(start - 1, max(-1, start - 6), -1):
        k = begin
        while (
            k < start
            and (found := digits_at(tokens, k, vocabulary.measures))
            and not tokens[found.last - 1].stop
        ):
            k = found.last
        if k == start and tokens[begin].breath == tokens[start].breath:
            first = begin
        elif k != start and first < start and tokens[begin].text != "and":
            break
    return first if first < start else None


def _flat_start(tokens: Sequence[Token], first: int, vocabulary: Vocabulary) -> int:
    """Takes in "Flat 3," before the house number."""
    words = vocabulary.private.flats | vocabulary.private.flats_words
    for back in (2, 3):
        if (
            first >= back
            and tokens[first - back].text in words
            and _flat_end(tokens, first - back, vocabulary) == first
        ):
            return first - back
    return first


def _flat_end(tokens: Sequence[Token], at: int, vocabulary: Vocabulary) -> int:
    """The token after "apartment nine" or "flat 3b" at `at`; `at` where no flat is named there."""
    words = vocabulary.private.flats | vocabulary.private.flats_words
    if at + 1 >= len(tokens) or tokens[at].text not in words:
        return at
    number, after = tokens[at + 1], at + 2
    found = digits_at(tokens, at + 1, vocabulary.measures)
    if found is not None:
        after = found.last
    elif not (re.fullmatch(r"\d{0,4}[a-z]|[a-z]\d{1,3}", number.text)) or number.text in ("a", "i"):
        return at
    measured = (
        after < len(tokens) and not tokens[after - 1].stop and tokens[after].text in unit_words(vocabulary)
    )
    return at if measured else after


def _town_end(tokens: Sequence[Token], at: int, vocabulary: Vocabulary) -> int:
    """Takes in the town, the state and the ZIP code or postcode behind a street."""
    for k in range(at, min(at + TOWN_WORDS, len(tokens))):
        end = _postcode_end(tokens, k) or _spoken_postcode_end(tokens, k, vocabulary)
        if end is not None and not any(token.stop in (".", "?", ";") for token in tokens[at:k]):
            return end
    end = at
    while end < len(tokens) and end - at < 4 and tokens[end - 1].stop == "," and tokens[end].capital:
        following = end
        while following < len(tokens) and tokens[following].capital and following - end < 3:
            following += 1
            if tokens[following - 1].stop:
                break
        if all(token.text in plain_words(vocabulary) for token in tokens[end:following]):
            break
        if tokens[end].breath != tokens[at - 1].breath and not tokens[following - 1].stop:
            break  # the next breath goes on to something else
        end = following
    return end


def _spoken_postcode_end(tokens: Sequence[Token], at: int, vocabulary: Vocabulary) -> int | None:
    """The end of a ZIP code or postcode said sign by sign: "four three nine nine nine", "O X four, nine Z Z"."""
    said, end = "", at
    while end < len(tokens) and tokens[end].breath == tokens[at].breath and len(said) < LONGEST_POSTCODE:
        digits = digits_at(tokens, end, vocabulary.measures)
        if digits is None and (len(tokens[end].text) != 1 or not tokens[end].text.isalpha()):
            break
        said, end = said + (digits.text if digits else tokens[end].text), digits.last if digits else end + 1
    measured = end < len(tokens) and not tokens[end - 1].stop and tokens[end].text in unit_words(vocabulary)
    return end if _SPOKEN.fullmatch(said) and not measured else None


def _postcode_end(tokens: Sequence[Token], at: int) -> int | None:
    if _ZIP.fullmatch(tokens[at].text):
        return at + 1
    pair = [token.text for token in tokens[at : at + 2]]
    if len(pair) == 2 and _OUTWARD.fullmatch(pair[0]) and _INWARD.fullmatch(pair[1]) and not tokens[at].stop:
        return at + 2
    return None
