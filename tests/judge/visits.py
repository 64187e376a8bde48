"""Hand-made visits and the shipped vocabulary for the tests of judging."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from fieldnotes.judge.context import near_words, surroundings_of
from fieldnotes.judge.limits import rule_for
from fieldnotes.judge.readings import judge_readings
from fieldnotes.places import data_folder
from fieldnotes.records import Appliance, Evidence, Item, MadeWith, Reading, Visit
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.limits import CautionsFile, GapsFile, LimitRule, LimitsFile
from fieldnotes.vocabulary.measures import Measures, load_measures
from fieldnotes.vocabulary.packs import AppliancePack, PartEntry, Thermistor
from fieldnotes.vocabulary.sums import SampleReading, SumSample, SumsFile
from fieldnotes.vocabulary.yaml_file import load_yaml

MADE = MadeWith(program="fieldnotes 0", vocabulary="0")
PACKS = {
    "dryer": AppliancePack(kind="dryer", spoken=("dryer",)),
    "electric dryer": AppliancePack(kind="electric dryer", spoken=("electric dryer",), wider="dryer"),
    "top-load washer": AppliancePack(kind="top-load washer", spoken=("top loader",), wider="washer"),
    "sample appliance": AppliancePack(
        kind="sample appliance",
        spoken=("sample",),
        parts=(
            PartEntry(
                name="sample thermistor",
                thermistor=Thermistor(
                    r25_ohm=10000, beta_k=3950, source="invented sheet", status="from memory"
                ),
            ),
        ),
    ),
}


@lru_cache(maxsize=1)
def limits() -> LimitsFile:
    return load_yaml(data_folder("vocab") / "limits.yaml", LimitsFile)


@lru_cache(maxsize=1)
def sums() -> SumsFile:
    return load_yaml(data_folder("vocab") / "sums.yaml", SumsFile)


@lru_cache(maxsize=1)
def measures() -> Measures:
    return load_measures(data_folder("vocab"))


@lru_cache(maxsize=1)
def gap_rules() -> GapsFile:
    return load_yaml(data_folder("vocab") / "gaps.yaml", GapsFile)


@lru_cache(maxsize=1)
def caution_rules() -> CautionsFile:
    return load_yaml(data_folder("vocab") / "cautions.yaml", CautionsFile)


def said(quote: str, start: float | None = None) -> Evidence:
    return Evidence(start=start, end=None if start is None else start + 3, quote=quote, confidence=0.9)


def item(about: str, quote: str = "", start: float | None = None) -> Item:
    return Item(about=about, text=quote or about, evidence=said(quote or about, start))


def reading(about: str, value: float, unit: str, quote: str = "", **more: Any) -> Reading:
    return Reading(about=about, value=value, unit=unit, text=quote, evidence=said(quote), **more)


def visit(kind: str | None = None, **parts: Any) -> Visit:
    return Visit(appliance=Appliance(kind=kind), made_with=MADE, **parts)


def visit_of(sample: SampleReading) -> Visit:
    """A visit on which this was read, the sample's other readings after it, and `heard` said besides."""
    safety = (item("elsewhere", sample.heard),) if sample.heard else ()
    read = [reading(sample.about, sample.value, sample.unit, sample.said)]
    for other in sample.others if isinstance(sample, SumSample) else ():
        read.append(reading(other.about, other.value, other.unit, other.said or sample.said))
    return visit(sample.kind, readings=tuple(read), safety=safety)


def judged_readings(one: Visit, transcript: Transcript | None = None) -> tuple[Reading, ...]:
    return judge_readings(one, limits(), sums(), PACKS, measures(), transcript)


def rules_for(one: Visit) -> tuple[LimitRule | None, ...]:
    """For each reading the rule of the vocabulary that fits its words."""
    around = surroundings_of(one, limits(), PACKS, None)
    words = near_words(one.readings, None)
    return tuple(rule_for(r, near, limits(), around) for r, near in zip(one.readings, words, strict=True))
