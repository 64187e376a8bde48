"""Every mistake of a vocabulary at once, and what it holds."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from fieldnotes.vocabulary.explanations import ExplanationsFile
from fieldnotes.vocabulary.limits import CautionsFile, LimitsFile
from fieldnotes.vocabulary.phrases import PhraseMistake
from fieldnotes.vocabulary.rules import RuleFile
from fieldnotes.vocabulary.sums import SumsFile
from fieldnotes.vocabulary_bench.matching import matching_mistakes
from fieldnotes.vocabulary_bench.names import name_mistakes
from fieldnotes.vocabulary_bench.opened import Mistake, Opened, open_vocabulary
from fieldnotes.vocabulary_bench.photo_samples import photo_sample_mistakes
from fieldnotes.vocabulary_bench.references import reference_mistakes
from fieldnotes.vocabulary_bench.samples import repeated_rules, sample_mistakes


@dataclass(frozen=True)
class Checked:
    """The mistakes by file and line, and the vocabulary in one line."""

    mistakes: tuple[Mistake, ...]
    summary: str


def check_vocabulary(shop: Path | None = None) -> Checked:
    """The built-in vocabulary, or a shop's folder laid over it.

    Samples are tried once all files can be read: what a sentence says may hang on any of them. Raises
    VocabularyError where `shop` is no folder.
    """
    opened = open_vocabulary(shop)
    found = {
        *opened.refused,
        *name_mistakes(opened),
        *matching_mistakes(opened),
        *reference_mistakes(opened),
        *repeated_rules(opened),
    }
    vocabulary = opened.vocabulary()
    if vocabulary is not None:
        try:
            found |= set(sample_mistakes(opened, vocabulary))
            found |= set(photo_sample_mistakes(opened, vocabulary))
        except PhraseMistake:  # in the name of a thing, and told above with its line
            vocabulary = None
    return Checked(tuple(sorted(found)), _summary(opened, len(found), vocabulary is not None))


def _summary(opened: Opened, mistakes: int, samples: bool) -> str:
    layers = [layer for _, layer in opened.layers]
    rules = [rule for _, rules in opened.all_of(RuleFile) for rule in rules.rules]
    counts = {
        "kinds": len(opened.packs),
        "parts": sum(len(layer.parts) for layer in layers),
        "symptoms": sum(len(layer.symptoms) for layer in layers),
        "trials": sum(len(layer.trials) for layer in layers),
        "rules": len(rules),
        "phrases of rules": sum(len(rule.phrases) for rule in rules),
        "limits": sum(len(limits.limits) for _, limits in opened.all_of(LimitsFile)),
        "sums": sum(len(sums.sums) for _, sums in opened.all_of(SumsFile)),
        "cautions": sum(len(cautions.cautions) for _, cautions in opened.all_of(CautionsFile)),
        "explanations": sum(len(held.explanations) for _, held in opened.all_of(ExplanationsFile)),
    }
    held = ", ".join(f"{count} {name}" for name, count in counts.items())
    told = f"{mistakes} mistake{'s' * (mistakes != 1)}" if mistakes else "no mistakes"
    late = "" if samples else " (samples are tried once these are mended)"
    return f"vocab: {held}; {told}{late}"
