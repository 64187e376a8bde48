"""Numbers that cannot be: what is taken for them, what is only offered, and what stays a measured fault."""

from __future__ import annotations

import pytest

from fieldnotes.judge.doubts import sounds_like
from fieldnotes.records import Doubt, Judgement, Limit, Reading
from fieldnotes.vocabulary.limits import LimitRule

from .visits import judged_readings, limits, measures, reading, visit

# What is heard for each other: fifteen and fifty. Twelve and twenty, and numbers of two words, are not.
TWINS = [
    (13, 30), (14, 40), (15, 50), (16, 60), (17, 70), (18, 80), (19, 90), (14.5, 40.5), (-18.3, -80.3), (115, 150),
    (213, 230),
]  # fmt: skip
ALONE = [0, 1, 10, 11, 12, 20, 24, 45, 81, 100, 101, 112, 120, 420, 1.5, 0.15, 0.5]


@pytest.mark.parametrize(("one", "other"), TWINS)
def test_teens_and_tens_sound_like_each_other(one: float, other: float) -> None:
    assert (sounds_like(one, measures()), sounds_like(other, measures())) == (other, one)


@pytest.mark.parametrize("value", ALONE)
def test_other_numbers_sound_like_none(value: float) -> None:
    assert sounds_like(value, measures()) is None


def judged(one: Reading, kind: str) -> Reading:
    return judged_readings(visit(kind, readings=(one,)))[0]


def freezer(value: float, unit: str, said: str) -> Reading:
    return reading("freezer compartment", value, unit, said)


def tap(value: float, said: str) -> Reading:
    return reading("hot water", value, "degF", said)


DOUBTED: list[tuple[str, Reading, str, float, Doubt, Judgement]] = [
    (
        "freezer of eighty below is one of eighteen below",
        freezer(-80, "degC", "freezer compartment, minus eighty"), "freezer",
        -18, Doubt(heard=-80, fits=-18), "within",
    ),
    (
        "with decimals, in the fridge's freezer",
        freezer(-90.5, "degC", "freezer compartment, minus ninety point five"), "refrigerator",
        -19.5, Doubt(heard=-90.5, fits=-19.5), "within",
    ),
    (
        "what would be possible, but a fault, is not taken for it",
        freezer(-70, "degC", "freezer compartment, minus seventy"), "freezer",
        -70, Doubt(heard=-70, fits=-17), "no limit known",
    ),
    (
        "water below freezing at the tap",
        tap(15, "hot water at the sink is fifteen Fahrenheit"), "dishwasher",
        15, Doubt(heard=15, fits=50), "no limit known",
    ),
]  # fmt: skip

LOOK_ALIKES: list[tuple[str, Reading, str, Judgement]] = [
    ("as it should be", freezer(-18, "degC", "freezer compartment, minus eighteen"), "freezer", "within"),
    ("a warm freezer", freezer(18, "degF", "freezer compartment, eighteen"), "freezer", "outside"),
    ("a freezer that stood off", freezer(80, "degF", "freezer compartment is at eighty"), "freezer", "outside"),
    ("coldest that can be", freezer(-60, "degF", "freezer compartment, minus sixty"), "freezer", "within"),
    ("lukewarm tap", tap(60, "hot water at the sink is sixty Fahrenheit"), "dishwasher", "outside"),
    ("impossible, and nothing sounds like it", tap(24, "hot water, twenty four"), "dishwasher", "no limit known"),
    ("both impossible", tap(250, "hot water, two fifty"), "dishwasher", "no limit known"),
    ("coil is no compartment", reading("evaporator coil", -80, "degC", "minus eighty on the freezer coil"), "freezer",
     "no limit known"),
    ("no such kind", freezer(-80, "degC", "freezer compartment, minus eighty"), "dishwasher", "no limit known"),
    ("a winding may have fifty ohms", reading("drain pump", 50, "ohm", "fifty ohms on the pump"), "dishwasher",
     "no limit known"),
    ("a fuse may have fifteen ohms", reading("thermal fuse", 15, "ohm", "fuse, fifteen ohms"), "dryer", "outside"),
    ("a supply may be low", reading("leg to leg", 190, "V", "leg to leg, one ninety"), "electric dryer", "outside"),
    ("a duct may be long", reading("duct length", 50, "ft", "the duct run is fifty feet"), "dryer", "outside"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("one", "kind", "value", "doubt", "judgement"),
    [row[1:] for row in DOUBTED],
    ids=[row[0] for row in DOUBTED],
)
def test_impossible_number_is_put_in_doubt(
    one: Reading, kind: str, value: float, doubt: Doubt, judgement: Judgement
) -> None:
    got = judged(one, kind)

    assert (got.value, got.doubt, got.judgement) == (value, doubt, judgement)
    assert (got.limit is None) == (judgement == "no limit known")
    assert (got.about, got.text, got.unit, got.evidence) == (one.about, one.text, one.unit, one.evidence)


@pytest.mark.parametrize(
    ("one", "kind", "judgement"), [row[1:] for row in LOOK_ALIKES], ids=[row[0] for row in LOOK_ALIKES]
)
def test_number_that_can_be_stays(one: Reading, kind: str, judgement: Judgement) -> None:
    got = judged(one, kind)

    assert (got.value, got.doubt, got.judgement) == (one.value, None, judgement)


def test_typed_number_stays_and_is_marked() -> None:
    heard = freezer(-80, "degC", "freezer compartment, minus eighty")
    typed = heard.model_copy(update={"evidence": heard.evidence.model_copy(update={"confidence": 1.0})})
    got = judged(typed, "freezer")

    assert (got.value, got.doubt, got.judgement) == (-80, Doubt(heard=-80, fits=-18), "no limit known")


def test_limit_stated_aloud_repairs_nothing() -> None:
    stated = Limit(maximum=-18, unit="degC", source="the technician", status="stated by the technician")
    one = freezer(-80, "degC", "minus eighty, should be minus eighteen").model_copy(update={"limit": stated})

    assert judged(one, "freezer") == one.model_copy(update={"judgement": "within"})


def test_doubt_of_an_earlier_judging_is_settled_anew() -> None:
    one = freezer(-80, "degC", "freezer compartment, minus eighty")
    once = judged(one, "freezer")

    assert judged(once, "freezer") == once
    assert judged(once, "dishwasher") == one


def bounded() -> list[LimitRule]:
    return [rule for rule in limits().limits if rule.possible]


@pytest.mark.parametrize("rule", bounded(), ids=lambda rule: rule.id)
def test_whatever_is_within_or_sampled_is_possible(rule: LimitRule) -> None:
    assert rule.possible is not None
    lowest, highest = rule.possible.minimum, rule.possible.maximum
    values = [bound for bound in rule.bounds if bound is not None]
    values += [sample.value for sample in rule.holds_for if sample.unit == rule.unit]

    assert all(lowest is None or lowest <= value for value in values)
    assert all(highest is None or value <= highest for value in values)
