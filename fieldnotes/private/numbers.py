"""Telephone numbers, cards and codes among the digits that were spoken.

What the digits are is told by the nearest phrase before them. Without one, only what a numbering plan
(`phonenumbers`) or the check digit of cards (Luhn, ISO/IEC 7812-1 Annex B) bears out is private.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fieldnotes.private.cues import Found, table
from fieldnotes.private.digits import Digits, runs_of
from fieldnotes.private.tokens import Token
from fieldnotes.vocabulary.load import Vocabulary

REACH = 8  # tokens from the end of a phrase to the digits that it speaks of
CARD_DIGITS = range(13, 20)  # ISO/IEC 7812-1: up to 19; 13 is the shortest in use (from memory)
_KINDS = {
    "protects": "", "telephone": "telephone", "code": "code", "code_at_once": "code", "code_beside": "code",
    "card_ending": "card",
    "card_more": "card", "card": "card number", "postcode": "address",
}  # fmt: skip
_LENGTHS = {"code": range(3, 13), "card": range(3, 13), "address": range(5, 6)}


def numbers_in(tokens: Sequence[Token], vocabulary: Vocabulary, region: str) -> Iterator[Found]:
    """Every telephone number, card number and code; serial, model and part numbers are none."""
    cues = _cues(tokens, vocabulary)
    for run in runs_of(tokens, vocabulary, vocabulary.private.telephone_pauses):
        for piece in _pieces(tokens, run, cues):
            yield from _in_piece(tokens, piece, cues, vocabulary, region)
    yield from _lettered_codes(tokens, cues, vocabulary)


Cue = tuple[int, int, str]  # tokens [first, last) and what follows them


def _cues(tokens: Sequence[Token], vocabulary: Vocabulary) -> list[Cue]:
    """The phrases before numbers; of two that overlap the longer holds, of equals the one that protects."""
    found = [(first, last, name) for name in _KINDS for first, last in table(vocabulary, name).ends(tokens)]
    ways_in = {token.breath for token in tokens if token.text in vocabulary.private.ways_in}
    found = [cue for cue in found if cue[2] != "code_beside" or tokens[cue[0]].breath in ways_in]
    found.sort(key=lambda cue: (cue[0] - cue[1], list(_KINDS).index(cue[2])))
    kept: list[Cue] = []
    for cue in found:
        if all(cue[1] <= other[0] or other[1] <= cue[0] for other in kept):
            kept.append(cue)
    return sorted(kept)


def _pieces(tokens: Sequence[Token], run: list[Digits], cues: list[Cue]) -> Iterator[list[Digits]]:
    """A run parted where a phrase stands inside it ("on the card, expiry ...")."""
    piece: list[Digits] = []
    for digits in run:
        if piece and any(
            piece[-1].last <= first < digits.first for first, _, name in cues if name != "telephone"
        ):
            yield piece
            piece = []
        piece.append(digits)
    yield piece


def _in_piece(
    tokens: Sequence[Token], piece: list[Digits], cues: list[Cue], vocabulary: Vocabulary, region: str
) -> Iterator[Found]:
    text = "".join(digits.text for digits in piece)
    cue = _nearest(tokens, piece[0].first, cues, vocabulary)
    kind = None if cue is None else _KINDS[cue[2]]
    if kind == "":
        return
    if len(text) in CARD_DIGITS and _luhn(text):
        yield Found("card", piece[0].first, piece[-1].last)
    elif kind == "telephone" or _area_code(tokens, piece, vocabulary):
        yield from _telephones(tokens, piece, region, asked=True)
    elif kind in _LENGTHS:
        lengths = _LENGTHS[kind]
        sentence = _first_sentence(tokens, piece)
        if sum(len(digits.text) for digits in sentence) in lengths:
            yield Found(kind, piece[0].first, sentence[-1].last)
    elif not _beside_letter(tokens, piece):
        yield from _telephones(tokens, piece, region, asked=False)


def _nearest(tokens: Sequence[Token], at: int, cues: list[Cue], vocabulary: Vocabulary) -> Cue | None:
    """The last phrase that ends before token `at` and reaches it; None where there is none.

    A full stop inside one breath ends its reach; the end of a breath alone does not.
    """
    links = vocabulary.private.links
    for cue in reversed(cues):
        if cue[1] > at:
            continue
        between = tokens[cue[1] : at]
        at_once = cue[2] == "code_at_once"
        if len(between) > REACH or (at_once and any(token.text not in links for token in between)):
            return None
        ended = any(token.stop in (".", "?", "!") and token.text not in links for token in between)
        return None if ended else cue
    return None


def _first_sentence(tokens: Sequence[Token], piece: list[Digits]) -> list[Digits]:
    for n, digits in enumerate(piece):
        if tokens[digits.last - 1].stop in (".", "?", "!", ";"):
            return piece[: n + 1]
    return piece


def _area_code(tokens: Sequence[Token], piece: list[Digits], vocabulary: Vocabulary) -> bool:
    first = piece[0].first
    return [token.text for token in tokens[max(0, first - 2) : first]] == ["area", "code"]


def _beside_letter(tokens: Sequence[Token], piece: list[Digits]) -> bool:
    """Whether a letter or a string of letters and figures stands next to it, as in model numbers."""
    before, after = piece[0].first - 1, piece[-1].last
    beside = [tokens[before]] if before >= 0 and not tokens[before].stop else []
    beside += [tokens[after]] if after < len(tokens) and not tokens[after - 1].stop else []
    return any(
        (len(token.text) == 1 and token.text not in ("i", "a"))
        or (token.text.isalnum() and not token.text.isalpha() and not token.text.isdigit())
        for token in beside
    )


def _telephones(tokens: Sequence[Token], piece: list[Digits], region: str, asked: bool) -> Iterator[Found]:
    """Telephone numbers in a piece: whole, else its first numbers that make one, then the rest likewise.

    Where one was announced, what a numbering plan knows comes first, then anything that can be dialled.
    """
    left = piece
    while left:
        counts = range(len(left), 0, -1)
        texts = {count: "".join(digits.text for digits in left[:count]) for count in counts}
        known = [count for count in counts if _is_telephone(texts[count], region, asked=False)]
        if asked:
            known += [count for count in counts if _is_telephone(texts[count], region, asked=True)]
        else:
            known = [n for n in known if all(_digit_by_digit(tokens, digits) for digits in left[:n])]
        if known:
            yield Found("telephone", left[0].first, left[known[0] - 1].last)
            left = left[known[0] :]
        else:
            left = left[1:] if not asked else []


def _digit_by_digit(tokens: Sequence[Token], digits: Digits) -> bool:
    """Whether a number is written in figures or said as a telephone number is: not "thirteen sixty"."""
    first = tokens[digits.first].text
    return first[:1].isdigit() or len(digits.text) == 1 or len(set(digits.text)) == 1


def _is_telephone(text: str, region: str, asked: bool) -> bool:
    """Whether the digits can be dialled. Where one was announced, a local number of 7 digits is enough."""
    import phonenumbers

    if asked:
        return 7 <= len(text) <= 15
    regions = dict.fromkeys((region, "US", "GB"))
    for each in regions:
        try:
            number = phonenumbers.parse(text, each)
        except phonenumbers.NumberParseException:
            continue
        if phonenumbers.is_valid_number(number):
            return True
        if text.startswith("0") and len(text) > 9 and phonenumbers.is_possible_number(number):
            return True  # ranges that are kept free, and those given out after the library was made
    return False


def _luhn(text: str) -> bool:
    doubled = [int(digit) * (1 + n % 2) for n, digit in enumerate(reversed(text))]
    return sum(value // 10 + value % 10 for value in doubled) % 10 == 0


def _lettered_codes(tokens: Sequence[Token], cues: list[Cue], vocabulary: Vocabulary) -> Iterator[Found]:
    """Codes with letters ("C 1 4 5 9 Y") and passwords, which may be any words."""
    links, numbers = vocabulary.private.links, vocabulary.measures.numbers
    for _, last, name in cues:
        if name in ("code", "code_at_once"):
            first = _past_links(tokens, last, links)
            end = first
            while end < len(tokens) and _code_sign(
                tokens[end], frozenset(numbers.digits) | numbers.zero_in_a_row
            ):
                end += 1
                if tokens[end - 1].stop in (".", "?", "!"):
                    break
            said = "".join(token.text for token in tokens[first:end])
            if end - first > 1 or (any(c.isdigit() for c in said) and not said.isdigit()):
                yield Found("code", first, end)
    for _, last in table(vocabulary, "password").ends(tokens):
        last = _past_purpose(tokens, last, vocabulary)
        first = _past_links(tokens, last, links)
        if first > last - 1 and first < len(tokens) and _announced(tokens, last, links):
            yield Found("code", first, _password_end(tokens, first, vocabulary))


def _past_purpose(tokens: Sequence[Token], last: int, vocabulary: Vocabulary) -> int:
    """Where what a password is follows behind what it is for: "password for the guest network is"."""
    if last < len(tokens) and tokens[last].text in vocabulary.private.password_for:
        for at in range(last, min(last + REACH, len(tokens))):
            if tokens[at].breath != tokens[last].breath or tokens[at - 1].stop:
                break
            if tokens[at].text in ("is", "'s"):
                return at
    return last


def _announced(tokens: Sequence[Token], last: int, links: frozenset[str]) -> bool:
    return tokens[last - 1].text in links or (last < len(tokens) and tokens[last].text in links)


def _past_links(tokens: Sequence[Token], i: int, links: frozenset[str]) -> int:
    while i < len(tokens) and tokens[i].text in links:
        i += 1
    return i


def _code_sign(token: Token, digit_words: frozenset[str]) -> bool:
    text = token.text
    mixed = text.isalnum() and any(c.isdigit() for c in text)
    return mixed or (len(text) == 1 and text.isalnum()) or text in digit_words


def _password_end(tokens: Sequence[Token], first: int, vocabulary: Vocabulary) -> int:
    """Up to the stop, at most five words on; without one, up to the first plain word."""
    digits, plain = vocabulary.measures.numbers, vocabulary.private.ordinary
    figures = digits.digits.keys() | digits.zero_in_a_row | digits.teens.keys() | digits.tens.keys()
    end = first + 1
    while end < len(tokens) and end - first < 5 and not tokens[end - 1].stop:
        text = tokens[end].text
        if tokens[end].breath != tokens[first].breath or (text in plain and text not in figures):
            break
        end += 1
    return end
