"""Which readings of a visit go into which sum, and what is not worked out."""

from __future__ import annotations

import pytest

from fieldnotes.judge.readings import judge_readings
from fieldnotes.records import Judgement, Limit, Reading, Sum
from fieldnotes.transcript import Breath, Transcript, Word

from ..visits import PACKS, item, judged_readings, limits, measures, reading, sums, visit

AMERICAN, COMMONWEALTH = "the receptacle is grounded", "the mains lead is earthed"


def judged(kind: str, *readings: Reading, heard: str = AMERICAN) -> tuple[Reading, ...]:
    return judged_readings(visit(kind, readings=readings, safety=(item("elsewhere", heard),)))


def made(read: Reading) -> dict[str, tuple[float, str]]:
    return {one.id: (one.value, one.unit) for one in read.sums}


# V x V / P: 240 V and 5400 W are 10.667 ohm, 4500 W 12.8, 2600 W 22.154, 1500 W 38.4, 120 V and 1200 W 12,
# 350 W 41.143, 230 V and 2000 W 26.45. Of each the last value within 10 % and the first beyond.
@pytest.mark.parametrize(
    ("kind", "heard", "watts", "inside", "outside"),
    [
        ("electric dryer", AMERICAN, "fifty four hundred watts", (9.61, 10.67, 11.73), (9.59, 11.74)),
        ("water heater", AMERICAN, "forty five hundred watts", (11.53, 12.8, 14.07), (11.51, 14.09)),
        ("electric range", "", "twenty six hundred watts", (19.95, 22.15, 24.36), (19.93, 24.38)),
        ("electric range", AMERICAN, "one point five kilowatts", (34.57, 38.4, 42.23), (34.55, 42.25)),
        ("dishwasher", AMERICAN, "twelve hundred watts", (10.81, 12, 13.19), (10.79, 13.21)),
        ("refrigerator", AMERICAN, "three hundred and fifty watts", (37.04, 41.14, 45.25), (37.02, 45.27)),
        ("dishwasher", COMMONWEALTH, "two thousand watts", (23.82, 26.45, 29.09), (23.79, 29.11)),
    ],
    ids=["dryer", "water-heater", "range", "kilowatts", "dishwasher", "defrost", "230-volts"],
)
def test_element_resistance_follows_from_its_rating(
    kind: str, heard: str, watts: str, inside: tuple[float, ...], outside: tuple[float, ...]
) -> None:
    said = f"element, plate says {watts}"

    def judgement(ohm: float) -> Judgement:
        return judged(kind, reading("heating element", ohm, "ohm", said), heard=heard)[0].judgement

    assert [judgement(ohm) for ohm in inside] == ["within"] * 3
    assert [judgement(ohm) for ohm in outside] == ["outside"] * 2


def test_limit_says_how_it_came_about() -> None:
    said = "element ten point eight ohms, plate says fifty four hundred watts"

    assert judged("electric dryer", reading("heating element", 10.8, "ohm", said))[0].limit == Limit(
        minimum=9.6,
        maximum=11.73,
        unit="ohm",
        source="",
        status="common practice, no source",
        note="Rated power 5400 W; usual supply 240 V. Read cold; the appliance's own sheet decides.",
    )


@pytest.mark.parametrize(
    ("kind", "about", "value", "unit", "said"),
    [
        ("dryer", "heating element", 10.8, "ohm", "ten point eight ohms"),
        ("dryer", "heating element", 10.8, "ohm", "ten point eight, a forty watt"),
        ("electric range", "bake element", 21, "ohm", "twenty six hundred watts, broil thirty six hundred watts"),
        ("hot tub", "heater", 10.8, "ohm", "ten point eight ohms, fifty four hundred watts"),
        ("dryer", "motor", 10.8, "ohm", "motor ten point eight ohms, fifty four hundred watt element"),
        ("dryer", "heating element", 12, "ohm", "element to ground twelve ohms, fifty four hundred watts"),
        ("washer", "run capacitor", 40, "uF", "forty microfarads, it was forty four last year"),
        ("dryer", "duct length", 25, "ft", "twenty five feet"),
        ("dryer", "heating element", 118, "V", "the element has one eighteen on it, fifty four hundred watts"),
        ("electric range", "oven temperature", 1080, "degF", "sensor, a thousand and eighty"),
        ("washer", "drain pump", 700, "rpm", "pump, seven hundred, drum is twenty inches across"),
    ],
    ids=[
        "no-rating", "far-off", "two-ratings", "no-supply", "part", "to-ground", "no-mark", "no-elbows", "volts",
        "no-resistance", "no-spin",
    ],
)  # fmt: skip
def test_nothing_follows_from_unsure_words(kind: str, about: str, value: float, unit: str, said: str) -> None:
    assert judged(kind, reading(about, value, unit, said), heard="")[0].sums == ()


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
    read = judged("dryer", reading("duct length", value, "ft", said))[0]

    assert read.judgement == judgement
    assert {"duct-mitred", "duct-smooth"} == set(made(read))


def test_each_element_has_its_own_power() -> None:
    upper, lower, supply = judged(
        "water heater",
        reading("upper element", 12.8, "ohm", "upper element twelve point eight"),
        reading("lower element", 14.4, "ohm", "lower fourteen point four"),
        reading("supply", 240, "V", "two forty on the line"),
    )

    assert made(upper)["element-power"] == (4500, "W")
    assert made(lower)["element-power"] == (4000, "W")
    assert supply.sums == ()


@pytest.mark.parametrize(
    "volts",
    [
        reading("supply", 119, "V", "supply, one leg to neutral, one nineteen"),
        reading("oven sensor", 240, "V", "two forty at the sensor"),
        reading("control board", 240, "V", "two forty at the board supply"),
        reading("supply", 240, "V", "supply was two forty before I switched off, dead now"),
        reading("supply", 5, "V", "supply five volts dc to the hall sensor"),
    ],
    ids=["one-leg", "sensor", "board", "dead", "dc"],
)
def test_other_volts_are_no_supply(volts: Reading) -> None:
    element = reading("heating element", 10.9, "ohm", "element ten point nine")

    assert judged("electric dryer", element, volts)[0].sums == ()


def test_two_supplies_leave_the_choice_open_unless_one_is_in_the_same_breath() -> None:
    apart = (
        reading("heating element", 10.9, "ohm", "element ten point nine"),
        reading("supply", 238, "V", "supply two thirty eight"),
        reading("outlet", 244, "V", "outlet two forty four"),
    )
    said = "element ten point nine, supply two thirty eight"
    beside = (reading("heating element", 10.9, "ohm", said), reading("supply", 238, "V", said), apart[2])

    assert judged("electric dryer", *apart)[0].sums == ()
    assert made(judged("electric dryer", *beside)[0])["element-power"] == (5197, "W")


def test_input_says_who_said_it_and_what_was_assumed() -> None:
    read = judged(
        "electric dryer",
        reading("heating element", 10.9, "ohm", "element ten point nine, fifty four hundred watts"),
    )[0]
    (one,) = [made for made in read.sums if made.id == "element-resistance"]
    rating, supply = one.inputs

    assert one.formula == "R = V² / P"
    assert (rating.symbol, rating.what, rating.value, rating.unit) == ("P", "rated power", 5400, "W")
    assert rating.evidence is not None
    assert "fifty four hundred watts" in rating.evidence.quote
    assert (supply.symbol, supply.value, supply.unit, supply.evidence) == ("V", 240, "V", None)


def test_number_that_was_said_keeps_its_time() -> None:
    words = ["Plate", "says", "five", "thousand", "four", "hundred", "watts."]
    plate = Breath(words=tuple(Word(text=w, start=60 + n, end=61 + n) for n, w in enumerate(words)))
    text = Transcript(breaths=(plate,), recordings=())
    element = reading("heating element", 10.9, "ohm", "element ten point nine")
    volts = reading("supply", 240, "V", "supply two forty")
    one = visit("electric dryer", readings=(element, volts))

    sums_of = judge_readings(one, limits(), sums(), PACKS, measures(), text)[0].sums
    (share,) = [one for one in sums_of if one.id == "element-share"]

    assert share.inputs[2].evidence is not None
    assert (share.inputs[2].evidence.start, share.inputs[2].evidence.end) == (60, 67)


@pytest.mark.parametrize(
    ("heard", "unit", "expected"),
    [
        ("it's in the freezer, five celsius", "degC", (10, "delta_degC")),
        ("it's in the freezer", "degF", (10, "delta_degF")),
    ],
)
def test_differences_have_no_zero_point(heard: str, unit: str, expected: tuple[float, str]) -> None:
    hot = reading("hot water temperature", 25 if unit == "degC" else 77, unit, "hot tap now")
    cold = reading("inlet", 15 if unit == "degC" else 67, unit, "incoming cold")

    assert made(judged("water heater", hot, cold, heard=heard)[0])["hot-water-rise"] == expected


def test_limit_that_the_technician_stated_stays_beside_a_sum() -> None:
    own = Limit(minimum=10, maximum=12, unit="ohm", source="", status="stated by the technician")
    said = "element ten point nine, should be ten to twelve, fifty four hundred watts"
    read = judged("electric dryer", reading("heating element", 10.9, "ohm", said, limit=own))[0]

    assert read.limit == own
    assert read.judgement == "within"
    assert "element-resistance" in made(read)


def test_unit_that_does_not_fit_gives_no_sum() -> None:
    read = judged("gas range", reading("supply voltage", 7, "inH2O", "supply voltage seven inches"))[0]

    assert read.note == limits().unit_does_not_fit
    assert read.sums == ()


def test_same_readings_give_the_same_sums_in_the_order_of_the_vocabulary() -> None:
    readings = (
        reading(
            "heating element", 10.9, "ohm", "element ten point nine, plate says fifty four hundred watts"
        ),
        reading("supply", 240, "V", "supply two forty"),
    )
    first, again = (judged("electric dryer", *readings)[0].sums for _ in range(2))
    order = [rule.id for rule in sums().sums]

    assert first == again
    assert [one.id for one in first] == sorted((one.id for one in first), key=order.index)
    assert all(isinstance(one, Sum) for one in first)
    assert [one.id for one in first] == ["element-resistance", "element-power", "element-share"]
