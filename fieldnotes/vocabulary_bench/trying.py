"""What the vocabulary makes of a few sentences: every word, what it is taken for, and what is reported."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields
from pathlib import Path

from fieldnotes.errors import FieldnotesError
from fieldnotes.records import Item, Verdict
from fieldnotes.tidy import tidy
from fieldnotes.understand.understanding import Findings, Understanding
from fieldnotes.understand.words.clauses import Clause, Stance, clauses_of
from fieldnotes.understand.words.narration import Narration
from fieldnotes.vocabulary_bench.opened import open_vocabulary
from fieldnotes.vocabulary_bench.origins import Origins
from fieldnotes.vocabulary_bench.samples import transcript_of
from fieldnotes.words import split_words


@dataclass(frozen=True, slots=True)
class Seen:
    """What was seen in the words [first, last). `sort`: "name", "rule" or "number"; `where`: file:line."""

    first: int
    last: int
    sort: str
    text: str
    where: str = ""


@dataclass(frozen=True, slots=True)
class Reported:
    """A line that the report would hold. `fields`: what it says besides, as "outcome good"."""

    section: str
    about: str
    fields: str
    text: str


@dataclass(frozen=True)
class Tried:
    """Clauses in spoken order; their ranges and those of what was seen count `words`."""

    kind: str | None
    kind_from: str
    words: tuple[str, ...]
    clauses: tuple[Clause, ...]
    seen: tuple[Seen, ...]
    reported: tuple[Reported, ...]

    def stances(self) -> set[Stance]:
        return {clause.stance for clause in self.clauses}


def try_sentences(sentences: Sequence[str], kind: str | None = None, shop: Path | None = None) -> Tried:
    """Each sentence as one breath of a visit to an appliance of `kind`, by the built-in words or a shop's.

    Raises FieldnotesError for an unknown kind and for sentences without a word; VocabularyError for mistakes
    in the files.
    """
    from fieldnotes.vocabulary.load import load_vocabulary

    vocabulary = load_vocabulary(shop)
    if kind is not None and kind not in vocabulary.packs:
        raise FieldnotesError(f'--kind "{kind}" is not in the vocabulary ({", ".join(vocabulary.packs)})')
    if not any(split_words(sentence) for sentence in sentences):
        raise FieldnotesError("there is no word to be tried; put a sentence in quotes after the command")
    # the kind as a visit tells it: said first
    text = tidy(transcript_of([*([kind] if kind else []), *sentences]), vocabulary.measures)
    understanding = Understanding(vocabulary)
    narration, findings = understanding.read(text), understanding.findings(text)
    start = narration.breaths[1][0] if kind else 0
    return Tried(
        kind=narration.kind,
        kind_from="given" if kind else "said" if narration.kind_at else "guessed from the parts",
        words=narration.words,
        clauses=tuple(clause for clause in clauses_of(narration) if clause.first >= start),
        seen=tuple(seen for seen in _seen(narration, Origins(open_vocabulary(shop))) if seen.first >= start),
        reported=tuple(_reported(findings, bool(kind))),
    )


def _seen(narration: Narration, origins: Origins) -> Iterator[Seen]:
    names = [*narration.mentions, *narration.symptoms, *([narration.kind_at] if narration.kind_at else [])]
    for mention in sorted(names, key=lambda m: m.first):
        words = narration.words[mention.first : mention.last]
        how = " (misheard)" if mention.name.misheard else " (short)" if mention.name.short else ""
        text = f"{mention.name.sort} {mention.name.name}{how}"
        yield Seen(mention.first, mention.last, "name", text, origins.of_name(mention.name, words))
    for label, marks in narration.marks.items():
        for mark in marks:
            value = f": {mark.value}" if mark.value else ""
            where = origins.of_mark(narration, mark)
            yield Seen(mark.first, mark.last, "rule", f"{label}{value} ({mark.rule.id})", where)
    for quantity in narration.quantities:
        note = " (count)" if quantity.ordinal_or_count else " (taken back)" if quantity.replaced else ""
        text = f"{quantity.value:g}{' ' + quantity.unit if quantity.unit else ''}{note}"
        yield Seen(quantity.first, quantity.last, "number", text)
    for spelled in narration.spelled:
        yield Seen(spelled.first, spelled.last, "number", f"spelled {spelled.text}")


def _reported(findings: Findings, kind_given: bool) -> Iterator[Reported]:
    for name in ("make", "model", "serial", "purchased"):
        if value := getattr(findings.appliance, name):
            yield Reported("appliance", name, value, "")
    if findings.appliance.kind and not findings.appliance.kind_inferred and not kind_given:
        yield Reported("appliance", "kind", findings.appliance.kind, "")
    for section in fields(findings):
        held = getattr(findings, section.name)
        if isinstance(held, list):
            for item in held:
                yield Reported(section.name, item.about, _fields(item), item.text)
    if findings.verdict.finding:
        yield Reported("verdict", findings.verdict.finding, _stated(findings.verdict), findings.verdict.text)


def _fields(item: Item) -> str:
    own = [name for name in type(item).model_fields if name not in Item.model_fields]
    told = {name: getattr(item, name) for name in own if name not in ("limit", "judgement")}
    if {"value", "unit"} <= told.keys():
        return f"{told['value']:g} {told['unit']}"
    return ", ".join(f"{name} {value}" for name, value in told.items() if value is not None)


def _stated(verdict: Verdict) -> str:
    return "stated" if verdict.stated else "follows from the causes"
