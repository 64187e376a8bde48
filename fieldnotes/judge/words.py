"""Whether vocabulary phrases are said in a text. A plural in the text counts as its singular."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from fieldnotes.records import Evidence, Item, Visit
from fieldnotes.vocabulary.phrases import wordings
from fieldnotes.words import split_words

Words = tuple[str, ...]


def says(text: str, phrases: Sequence[str]) -> bool:
    """Whether any of the phrases stands in the text as whole words; "plug's out" says "plug out".

    >>> says("Thermal fuses, point two ohms.", ["thermal fuse"])
    True
    """
    words, book = _words(text), _book(tuple(phrases))
    return any(
        _is(form, words[n : n + len(form)])
        for n, word in enumerate(words)
        for first in (word, word.removesuffix("s"))
        for form in book.get(first, ())
    )


def is_just(text: str, phrases: Sequence[str]) -> bool:
    """Whether the text is one of the phrases and nothing else; an empty text is."""
    words = _words(text)
    return not words or any(_is(form, words) for phrase in phrases for form in _forms(phrase))


def ends_with(text: str, phrases: Sequence[str]) -> bool:
    """Whether the text ends in one of the phrases: "supply voltage" in "voltage"."""
    words = _words(text)
    return any(_is(form, words[-len(form) :]) for phrase in phrases for form in _forms(phrase))


def items_of(visit: Visit) -> Iterator[Item]:
    """Every line of the visit, list by list."""
    lists: tuple[Sequence[Item], ...] = (
        visit.complaints, visit.checks, visit.readings, visit.trials, visit.codes, visit.work, visit.parts,
        visit.causes, visit.advice, visit.follow_ups, visit.safety,
    )  # fmt: skip
    for group in lists:
        yield from group


def quotes_of(visit: Visit) -> Iterator[str]:
    """All words that the visit's lines rest on, one quote at a time."""
    evidence: list[Evidence] = list(visit.appliance.evidence.values())
    for item in items_of(visit):
        evidence += [item.evidence, *item.also]
    if visit.verdict.evidence:
        evidence.append(visit.verdict.evidence)
    for one in evidence:
        yield one.quote


def _is(form: Words, words: Words) -> bool:
    return len(form) == len(words) and all(
        said in (word, word + "s") for word, said in zip(form, words, strict=True)
    )


@lru_cache(maxsize=20_000)
def _words(text: str) -> Words:
    return tuple(word for word in split_words(text) if not word.startswith("'"))


@lru_cache(maxsize=2_000)
def _book(phrases: tuple[str, ...]) -> dict[str, tuple[Words, ...]]:
    """All wordings of the phrases by their first word."""
    forms = [form for phrase in phrases for form in _forms(phrase)]
    return {first: tuple(f for f in forms if f[0] == first) for first in {form[0] for form in forms}}


@lru_cache(maxsize=20_000)
def _forms(phrase: str) -> tuple[Words, ...]:
    return wordings(phrase)
