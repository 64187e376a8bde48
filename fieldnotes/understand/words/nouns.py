"""Names of things in the words: parts, conditions, trials, symptoms and kinds of appliance.

The one module of this stage that imports spaCy: its PhraseMatcher holds the literal names of parts and kinds.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from spacy.matcher import PhraseMatcher
from spacy.tokens import Doc
from spacy.vocab import Vocab

from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.packs import PartEntry
from fieldnotes.vocabulary.phrase_net import PhraseNet
from fieldnotes.vocabulary.phrases import wordings

Sort = Literal["part", "trial", "symptom", "kind"]
SHARED = ""  # owner of what all kinds of appliance have


@dataclass(frozen=True, slots=True)
class Name:
    """One entry of the vocabulary. `owner` is the kind of appliance whose pack holds it, or SHARED."""

    sort: Sort
    name: str
    owner: str
    short: bool = False  # only the bare noun was said: it counts on this kind of appliance alone
    misheard: bool = False
    piece: bool = False
    condition: bool = False
    tells_kind: bool = False
    measured_in: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Mention:
    """A name found in the words [first, last)."""

    first: int
    last: int
    name: Name


class NounFinder:
    """Finds names of things. Built once for a vocabulary. `heads` are the words in which names of parts end."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self._words = (
            Vocab()
        )  # of strings alone; the traits that a language adds to each word nothing here asks for
        self._matcher = PhraseMatcher(self._words, attr="ORTH")
        self._names: dict[str, list[Name]] = defaultdict(list)
        self._wider = {kind: pack.wider for kind, pack in vocabulary.packs.items()}
        forms: dict[tuple[str, ...], list[Name]] = defaultdict(list)
        self._told: list[Name] = []  # symptoms and trials, which are said in too many ways to list
        told_phrases: list[tuple[int, str]] = []
        for name, phrases in _entries(vocabulary):
            if name.sort in ("symptom", "trial"):
                told_phrases += [(len(self._told), phrase) for phrase in phrases]
                self._told.append(name)
                continue
            for phrase in phrases:
                for form in wordings(phrase):
                    for variant in (form, *_plurals(form)):
                        forms[variant].append(name)
        named = [form for form, names in forms.items() if not all(name.misheard for name in names)]
        parts = [(word,) for word in vocabulary.grammar.part_nouns]
        self.heads = frozenset(
            form[-1] for form in (*named, *parts, *(many for part in parts for many in _plurals(part)))
        )
        self._net = PhraseNet(told_phrases)
        together: dict[tuple[Name, ...], list[Doc]] = defaultdict(list)
        for form, names in forms.items():
            together[tuple(dict.fromkeys(names))].append(Doc(self._words, words=list(form)))
        for number, (meaning, docs) in enumerate(together.items()):
            self._names[str(number)] = list(meaning)
            self._matcher.add(str(number), docs)  # a key for each form would take spaCy half a second

    def find(self, words: Sequence[str], breaks: frozenset[int]) -> list[list[Mention]]:
        """For each stretch that is a name of something, all its possible meanings, in order. No name reaches
        across a break."""
        if not words:
            return []
        doc = Doc(self._words, words=list(words))
        strings = self._words.strings
        spans = [
            (start, end, self._names[strings[key]])
            for key, start, end in self._matcher(doc)
            if breaks.isdisjoint(range(start + 1, end))
        ]
        told: dict[tuple[int, int], list[Name]] = defaultdict(list)
        for number, start, end in self._net.find(words, {}, breaks):
            told[start, end].append(self._told[number])
        spans += [(start, end, names) for (start, end), names in told.items()]
        return [
            [Mention(start, end, name) for name in names]
            for start, end, names in sorted(spans, key=_by_place)
        ]

    def lineage(self, kind: str | None) -> tuple[str, ...]:
        """The kinds whose bare nouns count on this appliance: itself, what it is a sort of, and its sorts."""
        if kind is None:
            return ()
        wider = self._wider.get(kind)
        return (kind, *([wider] if wider else []), *(k for k, w in self._wider.items() if w == kind))


def _by_place(span: tuple[int, int, list[Name]]) -> tuple[int, int]:
    return span[0], -span[1]


def _entries(vocabulary: Vocabulary) -> Iterable[tuple[Name, tuple[str, ...]]]:
    shared = vocabulary.parts
    for owner, parts, trials, symptoms in (
        (SHARED, shared.parts, shared.trials, shared.symptoms),
        *((kind, pack.parts, pack.trials, pack.symptoms) for kind, pack in vocabulary.packs.items()),
    ):
        for part in parts:
            yield _part(part, owner), (part.name, *part.spoken)
            yield _part(part, owner, short=True), part.short
            yield _part(part, owner, misheard=True), part.misheard
        for trial in trials:
            yield Name("trial", trial.name, owner), (trial.name, *trial.spoken)
        for symptom in symptoms:
            yield Name("symptom", symptom.name, owner), (symptom.name, *symptom.spoken)
    for kind, pack in vocabulary.packs.items():
        yield Name("kind", kind, kind), (kind, *pack.spoken)


def _part(entry: PartEntry, owner: str, short: bool = False, misheard: bool = False) -> Name:
    return Name(
        "part",
        entry.name,
        owner,
        short,
        misheard,
        entry.piece,
        entry.condition,
        entry.tells_kind,
        entry.measured_in,
    )


def _plurals(form: tuple[str, ...]) -> list[tuple[str, ...]]:
    """The form with its last word in the plural."""
    last = form[-1]
    if not last.isalpha() or (last.endswith("s") and not last.endswith("ss")):
        return []
    if last.endswith(("ss", "x", "ch", "sh")):
        plural = last + "es"
    elif last.endswith("y") and last[-2:-1] not in "aeiou":
        plural = last[:-1] + "ies"
    else:
        plural = last + "s"
    return [(*form[:-1], plural)]
