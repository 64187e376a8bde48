"""Private words of a visit: which they are and when they were said.

The balance. Two mistakes are possible, and they are not equal: a private word that stays has left the shop for
good, a common word that is struck can be heard again from the shop's own copy. So behind a phrase that calls for a
private thing ("her number's", "the gate code is", a title) anything of the right shape is struck, also what
no telephone network knows. But a claim is paid on its readings, parts and codes, and a struck one is a claim
sent back. So without such a phrase only what proves itself is struck (a numbering plan, a card's check digit,
a street's kind), a number before a unit or behind "serial", "part number", "fault code" never is, and of a
name that is a plain word too ("Mark the hose") only the sort with a capital inside a sentence.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from fieldnotes.private.addresses import addresses_in
from fieldnotes.private.cues import Found, plain_words
from fieldnotes.private.emails import emails_in
from fieldnotes.private.names import names_in, same_names
from fieldnotes.private.numbers import numbers_in
from fieldnotes.private.tokens import Token, tokens_of
from fieldnotes.records import PrivateKind
from fieldnotes.transcript import Plain, Transcript
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.words import split_words

ORDER: tuple[PrivateKind, ...] = (
    "e-mail",
    "card",
    "telephone",
    "address",
    "code",
    "name",
)  # who keeps a word


class PrivateWords(Plain):
    """Words [first, last) of one breath, and when they were said (None in notes without times)."""

    kind: PrivateKind
    breath: int
    first: int
    last: int
    start: float | None
    end: float | None


def find_private(
    transcript: Transcript,
    vocabulary: Vocabulary,
    known_names: Sequence[str] = (),
    region: str = "US",
    makes: Sequence[str] = (),
) -> tuple[PrivateWords, ...]:
    """All private words in spoken order; what runs over two breaths comes as two.

    `known_names` are struck wherever they stand (the job's customer); `region` is the ISO 3166 code of the
    country whose numbering plan holds; `makes` are names of things, which are kept ("at the Brunholm").
    """
    tokens = tokens_of(transcript)
    found = [*emails_in(tokens, vocabulary), *numbers_in(tokens, vocabulary, region)]
    found += addresses_in(tokens, vocabulary)
    kept = {word for make in makes for word in split_words(make)} - {
        word for name in known_names for word in split_words(name)
    }
    found += (
        name
        for name in names_in(tokens, vocabulary)
        if not kept.issuperset(token.text for token in tokens[name.first : name.last])
    )
    names = [*known_names, *_said(tokens, found, "name")]
    found += same_names(tokens, names, vocabulary)
    places = {word for said in _said(tokens, found, "address") for word in said.split()}
    strange = {word for word in places - plain_words(vocabulary) if word.isalpha() and len(word) > 3}
    strange -= vocabulary.private.streets | vocabulary.private.street_words
    found += [Found("address", at, at + 1) for at, token in enumerate(tokens) if token.text in strange]
    return tuple(_in_words(transcript, tokens, found))


def _said(tokens: Sequence[Token], found: Iterable[Found], kind: str) -> list[str]:
    return [" ".join(t.text for t in tokens[f.first : f.last]) for f in found if f.kind == kind]


def _in_words(transcript: Transcript, tokens: Sequence[Token], found: list[Found]) -> Iterator[PrivateWords]:
    """Tokens as written words, neighbours of one kind and one find together."""
    owner: dict[tuple[int, int], tuple[PrivateKind, int]] = {}
    for kind in ORDER:
        for number, stretch in enumerate(sorted(found, key=lambda f: (f.first, -f.last))):
            if stretch.kind == kind:
                for token in tokens[stretch.first : stretch.last]:
                    if not token.mark:
                        owner.setdefault((token.breath, token.word), (kind, number))
    places = sorted(owner)
    for _, group in groupby(
        enumerate(places), key=lambda entry: (*owner[entry[1]], entry[1][0], entry[1][1] - entry[0])
    ):
        run = [place for _, place in group]
        breath, first, last = run[0][0], run[0][1], run[-1][1] + 1
        words = transcript.breaths[breath].words[first:last]
        yield PrivateWords(
            kind=owner[run[0]][0],
            breath=breath,
            first=first,
            last=last,
            start=words[0].start,
            end=words[-1].end,
        )
