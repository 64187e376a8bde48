"""Rules and limits against the samples that stand beside them; phrases and ids that stand twice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fieldnotes.judge.context import near_words, surroundings_of
from fieldnotes.judge.explanations import brings_up
from fieldnotes.judge.limits import rule_for
from fieldnotes.judge.readings import judge_readings
from fieldnotes.records import Appliance, Evidence, Item, MadeWith, Reading, Visit
from fieldnotes.tidy import tidy
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.reader import Reader
from fieldnotes.vocabulary.explanations import ExplanationsFile
from fieldnotes.vocabulary.limits import LimitRule, LimitsFile
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.phrases import parse
from fieldnotes.vocabulary.private import PrivateCues
from fieldnotes.vocabulary.rules import Rule, RuleFile
from fieldnotes.vocabulary.sums import SampleReading, SumRule, SumSample, SumsFile
from fieldnotes.vocabulary_bench.marked import sample_fault
from fieldnotes.vocabulary_bench.matching import short
from fieldnotes.vocabulary_bench.opened import Mistake, Opened, Place, Source


def repeated_rules(opened: Opened) -> Iterator[Mistake]:
    """Ids that two rules have, and phrases that two rules of one label have, or one rule has twice."""
    ids: dict[str, str] = {}
    phrases: dict[tuple[object, ...], tuple[str, str]] = {}
    for source, rules in opened.all_of(RuleFile):
        for n, rule in enumerate(rules.rules):
            at: Place = ("rules", n, "id")
            if rule.id in ids:
                yield source.mistake(
                    at,
                    f'id "{rule.id}" is that of another rule ({ids[rule.id]}). Give one of them another.',
                )
            ids.setdefault(rule.id, source.where(at))
            for k, phrase in enumerate(rule.phrases):
                place: Place = ("rules", n, "phrases", k)
                key = (rule.label, parse(phrase))
                if key in phrases:
                    other, where = phrases[key]
                    yield source.mistake(
                        place,
                        f'phrase "{short(phrase)}" of rule "{rule.id}" stands in rule "{other}" already'
                        f" ({where}). Take one of the two out.",
                    )
                phrases.setdefault(key, (rule.id, source.where(place)))


def sample_mistakes(opened: Opened, vocabulary: Vocabulary) -> Iterator[Mistake]:
    """Rules that miss what they say they find, or find what they say they miss; limits likewise."""
    reader = Reader(vocabulary)
    for source, rules in opened.all_of(RuleFile):
        for n, rule in enumerate(rules.rules):
            for field, samples in (("finds", rule.finds), ("misses", rule.misses)):
                for k, sample in enumerate(samples):
                    narration = read_sentences(reader, vocabulary, [sample])
                    if finds(narration, rule) != (field == "finds"):
                        text = _rule_text(narration, rule, field, sample)
                        yield source.mistake(("rules", n, field, k), text)
    for source, limits in opened.all_of(LimitsFile):
        yield from _limit_samples(source, limits, vocabulary)
    for source, sums in opened.all_of(SumsFile):
        yield from _sum_samples(source, sums, vocabulary)
    for source, held in opened.all_of(ExplanationsFile):
        yield from _explanation_samples(source, held)
    for source, cues in opened.all_of(PrivateCues):
        for n, sample in enumerate(cues.samples):
            if fault := sample_fault(sample, vocabulary):
                text = f'in "{sample}" the finder of private words {fault}. Mend the phrases or the sample.'
                yield source.mistake(("samples", n), text)


def read_sentences(reader: Reader, vocabulary: Vocabulary, sentences: Sequence[str]) -> Narration:
    """The sentences, each one breath, with all that is recognised in them."""
    return reader.read(tidy(transcript_of(sentences), vocabulary.measures))


def transcript_of(sentences: Sequence[str]) -> Transcript:
    """As a notes file with one sentence a line."""
    breaths = (Breath(words=tuple(Word(text=word) for word in sentence.split())) for sentence in sentences)
    return Transcript(breaths=tuple(breath for breath in breaths if breath.words), recordings=())


def finds(narration: Narration, rule: Rule) -> bool:
    """Whether the rule's own phrase stands in the words and no longer one of its label hides it."""
    return any(mark.rule.id == rule.id for mark in narration.marks.get(rule.label, ()))


def _rule_text(narration: Narration, rule: Rule, field: str, sample: str) -> str:
    marks = [
        mark
        for mark in narration.marks.get(rule.label, ())
        if (mark.rule.id == rule.id) == (field == "misses")
    ]
    seen = [f'"{" ".join(narration.words[m.first : m.last])}" ({m.rule.id})' for m in marks]
    if field == "misses":
        found = seen[0].split(" (")[0]
        return f'rule "{rule.id}" finds {found} in its miss "{sample}". Narrow the phrase.'
    hidden = f", only {', '.join(seen)} is found of {rule.label}" if seen else ""
    return f'rule "{rule.id}" does not find its sample "{sample}"{hidden}. Add the wording to its phrases.'


def _limit_samples(source: Source, limits: LimitsFile, vocabulary: Vocabulary) -> Iterator[Mistake]:
    for n, rule in enumerate(limits.limits):
        for field, samples in (("holds_for", rule.holds_for), ("not_for", rule.not_for)):
            for k, sample in enumerate(samples):
                if text := _limit_text(rule, field == "holds_for", sample, vocabulary):
                    yield source.mistake(("limits", n, field, k), text)


def _limit_text(rule: LimitRule, holds: bool, sample: SampleReading, vocabulary: Vocabulary) -> str | None:
    visit = _visit_of(sample)
    around = surroundings_of(visit, vocabulary.limits, vocabulary.packs, None)
    near = near_words(visit.readings, None)[0]
    taken = rule_for(visit.readings[0], near, vocabulary.limits, around)
    if (taken is rule) != holds:
        by = f'limit "{taken.id}" takes it' if taken else "no limit takes it"
        told = "does not hold for its sample" if holds else "holds for a reading that it should not"
        one = f'"{sample.about}", {sample.value:g} {sample.unit}'
        return f'limit "{rule.id}" {told} {one}: {by}. Mend its words.'
    return _judged_text(rule.id, sample, vocabulary)


def _explanation_samples(source: Source, held: ExplanationsFile) -> Iterator[Mistake]:
    for n, rule in enumerate(held.explanations):
        for field, samples in (("gives", rule.gives), ("spares", rule.spares)):
            for k, sample in enumerate(samples):
                advice = Item(
                    about="", text="", evidence=Evidence(start=None, end=None, quote=sample, confidence=1)
                )
                if brings_up(rule, advice) != (field == "gives"):
                    told = "is not brought up by" if field == "gives" else "is brought up by"
                    yield source.mistake(
                        ("explanations", n, field, k),
                        f'explanation "{rule.id}" {told} its sample "{sample}". Mend its cues.',
                    )


def _sum_samples(source: Source, sums: SumsFile, vocabulary: Vocabulary) -> Iterator[Mistake]:
    for n, rule in enumerate(sums.sums):
        for field, samples in (("holds_for", rule.holds_for), ("not_for", rule.not_for)):
            for k, sample in enumerate(samples):
                if text := _sum_text(rule, sample, vocabulary):
                    yield source.mistake(("sums", n, field, k), text)


def _sum_text(rule: SumRule, sample: SumSample, vocabulary: Vocabulary) -> str | None:
    """What is wrong with a sample of a sum; those that need CoolProp or a shop's thermistor cannot be tried."""
    read = judged_visit(sample, vocabulary)
    untried = rule.formula == "beta formula" or read.note == vocabulary.sums.needs_coolprop
    if untried and not read.sums:
        return None
    made = next((one for one in read.sums if one.id == rule.id), None)
    gives = made.value if made else None
    one = f'"{sample.about}", {sample.value:g} {sample.unit}'
    if gives != sample.gives:
        told = "is not made" if gives is None else f"gives {gives:g}"
        wanted = "not to be made" if sample.gives is None else f"{sample.gives:g}"
        return f'sum "{rule.id}" {told} for its sample {one}, which wants {wanted}. Mend its words.'
    return None if read.judgement == sample.judgement else _judgement_text("sum", rule.id, read, sample)


def judged_visit(sample: SampleReading, vocabulary: Vocabulary) -> Reading:
    """The sample's reading, judged by the vocabulary on a visit that holds no more than the sample tells."""
    visit = _visit_of(sample)
    return judge_readings(visit, vocabulary.limits, vocabulary.sums, vocabulary.packs, vocabulary.measures)[0]


def _judged_text(name: str, sample: SampleReading, vocabulary: Vocabulary) -> str | None:
    read = judged_visit(sample, vocabulary)
    return None if read.judgement == sample.judgement else _judgement_text("limit", name, read, sample)


def _judgement_text(sort: str, name: str, read: Reading, sample: SampleReading) -> str:
    return (
        f'{sort} "{name}": "{sample.about}", {sample.value:g} {sample.unit} is judged "{read.judgement}",'
        f' and its sample says "{sample.judgement}". Mend the bounds or the sample.'
    )


def _visit_of(sample: SampleReading) -> Visit:
    """A visit on which this was read, the sample's other readings after it, and `heard` said besides."""

    def said(quote: str) -> Evidence:
        return Evidence(start=None, end=None, quote=quote, confidence=1)

    others = sample.others if isinstance(sample, SumSample) else ()
    readings = [(sample.about, sample.said, sample.value, sample.unit)]
    readings += [(other.about, other.said or sample.said, other.value, other.unit) for other in others]
    heard = (Item(about="elsewhere", text="", evidence=said(sample.heard)),) if sample.heard else ()
    return Visit(
        appliance=Appliance(kind=sample.kind),
        readings=tuple(
            Reading(about=about, text="", evidence=said(quote), value=value, unit=unit)
            for about, quote, value, unit in readings
        ),
        safety=heard,
        made_with=MadeWith(program="", vocabulary=""),
    )
