"""Limits that are worked out from what was said beside the reading."""

from __future__ import annotations

import pytest

from fieldnotes.judge.sums import Calculator
from fieldnotes.records import Judgement, Limit
from fieldnotes.vocabulary.quantities import SpeechHeard
from fieldnotes.vocabulary.sums import DuctSum, RatingSum, SampleReading

from .visits import judged_readings, limits, measures, reading, rules_for, visit_of

SUMS = limits().sums
RULES: list[tuple[str, RatingSum | DuctSum]] = [
    *((rule.id, rule) for rule in SUMS.ratings),
    ("duct", SUMS.duct),
]
SAMPLES = [
    pytest.param(sample, id=f"{name}-{'holds' if holds else 'not'}-{n}")
    for name, rule in RULES
    for holds, samples in ((True, rule.holds_for), (False, rule.not_for))
    for n, sample in enumerate(samples)
]


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_sum_keeps_its_own_samples(sample: SampleReading) -> None:
    assert judged_readings(visit_of(sample))[0].judgement == sample.judgement


@pytest.mark.parametrize(("name", "rule"), RULES, ids=[name for name, _ in RULES])
def test_samples_are_judged_by_the_sum_alone(name: str, rule: RatingSum | DuctSum) -> None:
    """Without the sum no rule of the vocabulary would judge them."""
    for sample in rule.holds_for:
        other = rules_for(visit_of(sample))[0]
        assert other is None or other.bounds == (None, None)


# V x V / P, from the stated formula: 240 V and 5400 W are 10.667 ohm, 4500 W 12.8, 2600 W 22.154,
# 1500 W 38.4, 120 V and 1200 W 12, 800 W 18, 350 W 41.143, 230 V and 2000 W 26.45.
# Of each the last value within 10 % and the first beyond.
@pytest.mark.parametrize(
    ("kind", "speech", "watts", "inside", "outside"),
    [
        ("electric dryer", "american", "fifty four hundred watts", (9.61, 10.67, 11.73), (9.59, 11.74)),
        ("water heater", "american", "forty five hundred watts", (11.53, 12.8, 14.07), (11.51, 14.09)),
        ("electric range", "unknown", "twenty six hundred watts", (19.95, 22.15, 24.36), (19.93, 24.38)),
        ("electric range", "american", "one point five kilowatts", (34.57, 38.4, 42.23), (34.55, 42.25)),
        ("dishwasher", "american", "twelve hundred watts", (10.81, 12, 13.19), (10.79, 13.21)),
        ("refrigerator", "american", "three hundred and fifty watts", (37.04, 41.14, 45.25), (37.02, 45.27)),
        ("dishwasher", "commonwealth", "two thousand watts", (23.82, 26.45, 29.09), (23.79, 29.11)),
    ],
    ids=["dryer", "water-heater", "range", "kilowatts", "dishwasher", "defrost", "230-volts"],
)
def test_element_resistance_follows_from_its_rating(
    kind: str, speech: SpeechHeard, watts: str, inside: tuple[float, ...], outside: tuple[float, ...]
) -> None:
    calculator = Calculator(SUMS, measures(), (kind,), speech)
    limit = calculator.limit_for(reading("heating element", inside[1], "ohm"), f"element, plate says {watts}")

    assert limit is not None
    assert limit.minimum is not None
    assert limit.maximum is not None
    assert [limit.minimum <= value <= limit.maximum for value in inside] == [True, True, True]
    assert [limit.minimum <= value <= limit.maximum for value in outside] == [False, False]


def test_limit_says_how_it_came_about() -> None:
    calculator = Calculator(SUMS, measures(), ("electric dryer",), "american")
    said = "element ten point eight ohms, plate says fifty four hundred watts"

    assert calculator.limit_for(reading("heating element", 10.8, "ohm"), said) == Limit(
        minimum=9.6,
        maximum=11.73,
        unit="ohm",
        source="",
        status="common practice, no source",
        note="5400 W at 240 V is 10.67 ohm. V x V / P, read cold; the appliance's own sheet decides.",
    )


@pytest.mark.parametrize(
    ("kinds", "about", "value", "unit", "said"),
    [
        (("dryer",), "heating element", 10.8, "ohm", "ten point eight ohms"),
        (("dryer",), "heating element", 10.8, "ohm", "ten point eight, a forty watt"),
        (
            ("electric range",),
            "bake element",
            21,
            "ohm",
            "twenty six hundred watts, broil thirty six hundred watts",
        ),
        (("hot tub",), "heater", 10.8, "ohm", "ten point eight ohms, fifty four hundred watts"),
        (("dryer",), "motor", 10.8, "ohm", "motor ten point eight ohms, fifty four hundred watt element"),
        (("dryer",), "heating element", 12, "ohm", "element to ground twelve ohms, fifty four hundred watts"),
        (("washer",), "run capacitor", 40, "uF", "forty microfarads, it was forty four last year"),
        (("dryer",), "duct length", 25, "ft", "twenty five feet and three elbows"),
        (("dryer",), "duct length", 25, "ft", "twenty five feet"),
    ],
    ids=[
        "no-rating",
        "far-off",
        "two-ratings",
        "no-supply",
        "part",
        "to-ground",
        "no-mark",
        "elbows-unsure",
        "no-elbows",
    ],
)
def test_nothing_follows_from_unsure_words(
    kinds: tuple[str, ...], about: str, value: float, unit: str, said: str
) -> None:
    calculator = Calculator(SUMS, measures(), kinds, "american")

    assert calculator.limit_for(reading(about, value, unit), said) is None


# IRC Table M1502.4.6.1: 35 ft less 5 ft for a mitred 90 degree elbow, 1.5 ft for one of 10 in radius.
@pytest.mark.parametrize(
    ("value", "said", "judgement"),
    [
        (22.5, "duct with two elbows", "within"),
        (25, "duct with two elbows", "within"),
        (26, "duct with two elbows", "no limit known"),
        (31, "duct with three nineties", "outside"),
        (30, "duct with three nineties", "no limit known"),
    ],
    ids=["short", "at-mitred", "between", "over-smooth", "under-smooth"],
)
def test_elbows_shorten_the_duct(value: float, said: str, judgement: Judgement) -> None:
    sample = SampleReading(about="duct length", said=said, value=value, unit="ft", kind="dryer")

    assert judged_readings(visit_of(sample))[0].judgement == judgement
