"""Every rule of vocab/rules: it finds its own samples, leaves its near misses alone, and has its own id."""

from __future__ import annotations

from functools import cache

import pytest

from fieldnotes.tidy import tidy
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.understand.words.reader import Reader
from fieldnotes.vocabulary.load import load_vocabulary
from fieldnotes.vocabulary.phrases import parse
from fieldnotes.vocabulary.rules import Rule

RULES = load_vocabulary().rules
SAMPLES = [
    pytest.param(rule, sample, finds, id=f"{rule.id}-{'finds' if finds else 'misses'}-{n}")
    for rule in RULES
    for finds, samples in ((True, rule.finds), (False, rule.misses))
    for n, sample in enumerate(samples)
]


@cache
def reader() -> Reader:
    return Reader(load_vocabulary())


def rules_found(sentence: str, label: str) -> set[str]:
    """Ids of the rules of a label in a sentence, the longest phrase before the shorter ones inside it."""
    breath = Breath(words=tuple(Word(text=word) for word in sentence.split()))
    text = tidy(Transcript(breaths=(breath,), recordings=()), load_vocabulary().measures)
    return {mark.rule.id for mark in reader().read(text).marks.get(label, ())}


@pytest.mark.parametrize(("rule", "sample", "finds"), SAMPLES)
def test_rule_finds_its_samples_and_no_misses(rule: Rule, sample: str, finds: bool) -> None:
    assert (rule.id in rules_found(sample, rule.label)) == finds


@pytest.mark.parametrize("rule", RULES, ids=[rule.id for rule in RULES])
def test_phrases_of_a_rule_parse(rule: Rule) -> None:
    assert all(parse(phrase) for phrase in rule.phrases)


def test_ids_of_rules_are_unique() -> None:
    ids = [rule.id for rule in RULES]

    assert sorted({name for name in ids if ids.count(name) > 1}) == []
