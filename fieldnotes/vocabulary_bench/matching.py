"""Words and phrases that nothing said can ever match."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, get_args, get_origin

from pydantic import BaseModel

from fieldnotes.vocabulary import grammar as grammar_file
from fieldnotes.vocabulary import measures as measures_file
from fieldnotes.vocabulary.explanations import ExplanationsFile
from fieldnotes.vocabulary.grammar import Grammar
from fieldnotes.vocabulary.limits import CautionsFile, GapsFile, LimitsFile
from fieldnotes.vocabulary.measures import NumberWords, Retractions, Spelling
from fieldnotes.vocabulary.packs import AppliancePack, PartsFile, Phrases
from fieldnotes.vocabulary.photos import PhotoWords
from fieldnotes.vocabulary.phrases import Choice, PhraseMistake, Sequence, parse, wordings
from fieldnotes.vocabulary.private import PrivateCues
from fieldnotes.vocabulary.rules import RuleFile
from fieldnotes.vocabulary.sums import SumsFile
from fieldnotes.vocabulary_bench.opened import Mistake, Opened, Place, Source
from fieldnotes.words import split_words

# A sign of the phrase language inside a word, as in a regular expression: "drain(s)", "colou?r", "clean*".
_GLUED = re.compile(r"[\w'>](?=[(<*])|(?:\)|\?|>|\*\d*)(?=[a-z<'])", re.IGNORECASE)
SHOWN = 50  # signs of a phrase in a message
_WORD_SETS = (grammar_file.Words, measures_file.Words, dict[str, grammar_file.Words])
_NOT_WORDS = ("currency_signs",)  # signs before a number, looked for in what was written


def matching_mistakes(opened: Opened) -> Iterator[Mistake]:
    """All of them, in every file of phrases and of single words."""
    grammar = opened.one(Grammar)
    fillers = grammar.fillers if grammar else frozenset()
    for source in opened.sources:
        heard = isinstance(source.model, (PartsFile, AppliancePack, RuleFile, PhotoWords))
        judged = isinstance(source.model, (LimitsFile, SumsFile, GapsFile, CautionsFile, ExplanationsFile))
        names = heard and not isinstance(source.model, (RuleFile, PhotoWords))
        if heard or judged:
            for at, phrase in _phrases(source.model, type(source.model), ()):
                for text in _reasons(phrase, fillers, names or judged, judged):
                    yield source.mistake(at, f'"{short(phrase)}" {text}')
        if isinstance(source.model, PrivateCues):  # its finder drops no fillers
            for at, phrase in _phrases(source.model, PrivateCues, ()):
                for text in _reasons(phrase, frozenset(), names=True, judged=False):
                    yield source.mistake(at, f'"{short(phrase)}" {text}')
        if isinstance(source.model, (Grammar, NumberWords, Spelling, Retractions, PhotoWords)):
            unheard = fillers if isinstance(source.model, (Grammar, PhotoWords)) else frozenset()
            yield from _word_mistakes(source, unheard)


def _phrases(value: Any, shape: Any, at: Place) -> Iterator[tuple[Place, str]]:
    """Every phrase in a model, found by its type, with its place in the file."""
    if value is None:
        return
    if shape == Phrases:
        yield from (((*at, n), phrase) for n, phrase in enumerate(value))
    elif isinstance(value, BaseModel):
        for name, field in type(value).model_fields.items():
            yield from _phrases(getattr(value, name), field.annotation, (*at, field.alias or name))
    elif isinstance(value, tuple):
        for n, entry in enumerate(value):
            yield from _phrases(entry, get_args(shape)[0], (*at, n))
    elif isinstance(value, dict):
        for key, entry in value.items():
            yield from _phrases(entry, get_args(shape)[1], (*at, key))


def _reasons(phrase: str, fillers: frozenset[str], names: bool, judged: bool) -> Iterator[str]:
    """Why a phrase, or part of it, never matches. `names`: without slots; `judged`: in the report."""
    if match := _GLUED.search(phrase):
        yield (
            f'has a sign inside a word after "{phrase[: match.end()].split()[-1]}".'
            ' Signs stand for whole words: write "drain|drains", not "drain(s)".'
        )
        return
    words = set(_words_of(parse(phrase)))
    for word in sorted(words & fillers):
        yield f'holds the filler "{word}", which is dropped before matching. Take the word out.'
    if "n't" in words:
        yield 'holds "n\'t" as a word, but "isn\'t" is one word. Write the whole word.'
    if judged and (clitics := sorted(word for word in words if word.startswith("'"))):
        yield f'holds "{clitics[0]}", which is dropped from what is judged. Take it out.'
    if names:
        try:
            wordings(phrase)
        except PhraseMistake as fault:
            yield f"cannot name a thing: {fault}."


def short(phrase: str) -> str:
    """The phrase as it is shown in a message."""
    return phrase if len(phrase) <= SHOWN else phrase[: SHOWN - 1] + "…"


def _words_of(sequence: Sequence) -> Iterator[str]:
    for element in sequence:
        if isinstance(element, Choice):
            for alternative in element.alternatives:
                yield from _words_of(alternative)
        else:
            yield element


def _word_mistakes(source: Source, fillers: frozenset[str]) -> Iterator[Mistake]:
    """Single words that are compared with single words of speech."""
    for key, field in type(source.model).model_fields.items():
        if key in _NOT_WORDS or key not in source.plain:
            continue
        keyed = get_origin(field.annotation) is dict and get_args(field.annotation)[0] == measures_file.Said
        if field.annotation not in _WORD_SETS and not keyed:
            continue
        for at, word in _leaves(source.plain[key], (key,), values=not keyed):
            split = split_words(word) if word else [""]  # "": nothing stands there
            if split != [word]:
                into = f"splits it into {' and '.join(map(repr, split))}" if split else "leaves nothing of it"
                yield source.mistake(
                    at,
                    f'"{word}" in {key} never matches: speech is compared word by word, and {into}.'
                    " Take it out.",
                )
            elif word in fillers and key != "fillers":
                yield source.mistake(
                    at, f'"{word}" in {key} is a filler, which is dropped before matching. Take it out.'
                )


def _leaves(plain: Any, at: Place, values: bool) -> Iterator[tuple[Place, str]]:
    """The words of a list, or of a table's keys and, where they are words too, its values."""
    if isinstance(plain, list):
        yield from (((*at, n), str(word)) for n, word in enumerate(plain))
    elif isinstance(plain, dict):
        for key, below in plain.items():
            yield (*at, key), str(key)
            if values:
                yield from _leaves(below, (*at, key), values)
