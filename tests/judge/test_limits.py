"""Readings against limits: which limit applies, and to which side a value falls."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldnotes.errors import VocabularyError
from fieldnotes.judge.units import convert
from fieldnotes.records import Appliance, Judgement, Limit, Reading
from fieldnotes.vocabulary.limits import LimitRule, LimitsFile
from fieldnotes.vocabulary.quantities import UNITS
from fieldnotes.vocabulary.sums import SampleReading
from fieldnotes.vocabulary.yaml_file import load_yaml

from .visits import item, judged_readings, limits, reading, rules_for, visit, visit_of

RULES = limits().limits
SAMPLES = [
    pytest.param(rule, sample, holds, id=f"{rule.id}-{'holds' if holds else 'not'}-{n}")
    for rule in RULES
    for holds, samples in ((True, rule.holds_for), (False, rule.not_for))
    for n, sample in enumerate(samples)
]


def judged(one: Reading, kind: str | None = None, heard: str = "") -> Reading:
    safety = (item("elsewhere", heard),) if heard else ()
    return judged_readings(visit(kind, readings=(one,), safety=safety))[0]


@pytest.mark.parametrize(("rule", "sample", "holds"), SAMPLES)
def test_every_rule_keeps_its_own_samples(rule: LimitRule, sample: SampleReading, holds: bool) -> None:
    one = visit_of(sample)

    assert (rules_for(one)[0] is rule) == holds
    assert judged_readings(one)[0].judgement == sample.judgement


# Bounds are those of the standards named in vocab/limits.yaml; the last in and the first out of each side.
@pytest.mark.parametrize(
    ("about", "said", "kind", "heard", "unit", "inside", "outside"),
    [
        # ANSI C84.1-2020 Table 1, Range A, utilization voltage: 108 to 126 V and 216 to 252 V
        ("outlet", "at the outlet", "dishwasher", "ground is good", "V", (108, 126), (107.9, 126.1)),
        ("outlet", "at the outlet", "electric range", "ground is good", "V", (216, 252), (215.9, 252.1)),
        # ANSI C84.1-2020 Table 1, Range A, service voltage: 114 to 126 V and 228 to 252 V
        ("panel", "at the panel", None, "ground is good", "V", (114, 126), (113.9, 126.1)),
        ("panel", "at the panel", None, "ground is good", "V", (228, 252), (227.9, 252.1)),
        # EN 50160, 230 V +/- 10 %
        ("socket", "at the socket", "dishwasher", "mains and earth", "V", (207, 253), (206.9, 253.1)),
        # 21 CFR 1030.10(c)(1)
        ("leakage", "around the door", "microwave", "", "mW/cm2", (0, 5), (5.01,)),
        # FDA: refrigerator at most 40 degF (4 degC), freezer at most 0 degF (-18 degC)
        ("fresh food", "fresh food", "refrigerator", "", "degF", (33, 40), (40.5, 32)),
        ("freezer", "the freezer", "freezer", "", "degC", (-18, -25), (-17, 3)),
        # UPC 608.2, IPC 604.8, IRC P2903.3.1: 80 psi static, 551.58 kPa by NIST SP 811
        ("water pressure", "static", "washer", "a foot of hose", "kPa", (551, 300), (552,)),
        # IRC M1502.4.3: transition duct of at most 8 ft, 2.4384 m
        ("transition duct", "one piece", "dryer", "", "m", (2.43, 1), (2.44,)),
        # EN 50678:2020 and EN 50699:2020: 0.3 ohm with a cord up to 5 m
        ("earth continuity", "plug to case", "dishwasher", "earth", "ohm", (0.05, 0.3), (0.31, 2)),
    ],
    ids=[
        "outlet-120", "outlet-240", "panel-120", "panel-240", "socket-230", "microwave", "fresh-food",
        "freezer-celsius", "water-kpa", "transition-metres", "earth-path",
    ],
)  # fmt: skip
def test_bounds_are_inclusive_as_in_the_source(
    about: str,
    said: str,
    kind: str | None,
    heard: str,
    unit: str,
    inside: tuple[float, ...],
    outside: tuple[float, ...],
) -> None:
    def verdicts(values: tuple[float, ...]) -> set[Judgement]:
        return {judged(reading(about, value, unit, said), kind, heard).judgement for value in values}

    assert (verdicts(inside), verdicts(outside)) == ({"within"}, {"outside"})


LOOK_ALIKES = [
    ("sensor-volts", reading("wash sensor", 5, "V", "five volts at the sensor, supply is fine"), "washer"),
    ("board-volts", reading("control board", 12.1, "V", "twelve volts DC at the board"), "dishwasher"),
    (
        "part-volts",
        reading("drain pump", 98, "V", "outlet's good, ninety eight volts at the pump"),
        "dishwasher",
    ),
    ("breaker-off", reading("outlet", 0, "V", "breaker off, outlet reads zero"), "dishwasher"),
    ("proved-dead", reading("supply voltage", 0.3, "V", "proved it dead, point three"), "electric range"),
    (
        "coil-ohms",
        reading("inlet valve coil", 900, "ohm", "valve coil nine hundred, insulation is fine"),
        "washer",
    ),
    (
        "winding-ohms",
        reading("motor", 2.1, "ohm", "motor two point one and not grounded to the frame"),
        "dryer",
    ),
    (
        "thermostat-heater",
        reading("cycling thermostat", 7.2, "kohm", "the bias heater, seven point two K"),
        "dryer",
    ),
    ("oven-not-fridge", reading("oven temperature", 352, "degF", "three fifty two"), "electric range"),
    ("water-not-oven", reading("water temperature", 350, "degF", "three fifty"), "electric range"),
    ("evaporator", reading("evaporator coil", -12, "degF", "minus twelve on the coil, freezer"), "freezer"),
    (
        "room",
        reading("room temperature", 74, "degF", "kitchen is seventy four, fridge is next"),
        "refrigerator",
    ),
    ("gas-not-vent", reading("gas pressure", 3.5, "inH2O", "three and a half at the valve"), "gas dryer"),
    ("hardness", reading("water hardness", 300, "ppm", "three hundred parts per million"), "water heater"),
    ("lid-lock-coil", reading("lid lock coil", 61, "ohm", "sixty one with the lid closed"), "washer"),
    ("duct-of-no-dryer", reading("duct length", 60, "ft", "sixty feet"), "range hood"),
    ("kind-unknown", reading("fresh food", 51, "degF", "fifty one"), None),
    ("one-of-240", reading("outlet", 121, "V", "one twenty one at the outlet"), "electric dryer"),
]


@pytest.mark.parametrize(("one", "kind"), [c[1:] for c in LOOK_ALIKES], ids=[c[0] for c in LOOK_ALIKES])
def test_look_alikes_are_held_against_nothing(one: Reading, kind: str | None) -> None:
    expected = one.model_copy(update={"limit": None, "judgement": "no limit known"})

    assert judged(one, kind).model_copy(update={"sums": ()}) == expected


def test_wider_kind_lends_its_limits() -> None:
    one = reading("back pressure", 1.1, "inH2O", "one point one inches of water")

    assert judged(one, "electric dryer").judgement == "outside"


def test_guessed_kind_lends_no_limits() -> None:
    one = visit("dryer", readings=(reading("back pressure", 1.1, "inH2O", "one point one inches of water"),))
    guessed = one.model_copy(update={"appliance": Appliance(kind="dryer", kind_inferred=True)})

    assert [r.judgement for r in judged_readings(one)] == ["outside"]
    assert [r.judgement for r in judged_readings(guessed)] == ["no limit known"]


def test_quote_names_the_point_only_where_about_is_vague() -> None:
    vague = reading("temperature", 51, "degF", "middle shelf, fifty one")
    named = reading("crisper drawer", 51, "degF", "middle shelf is fine, crisper fifty one")

    assert judged(vague, "refrigerator").judgement == "outside"
    assert judged(named, "refrigerator").judgement == "no limit known"


def test_quote_with_two_readings_names_neither() -> None:
    quote = "middle shelf thirty eight, door shelf fifty one"
    pair = (reading("temperature", 38, "degF", quote), reading("temperature", 51, "degF", quote))

    got = judged_readings(visit("refrigerator", readings=pair))

    assert [one.judgement for one in got] == ["no limit known", "no limit known"]


@pytest.mark.parametrize(
    ("heard", "judgement"),
    [
        ("the earth is good, mains off at the socket", "within"),
        ("ground wire and outlet are good", "no limit known"),
    ],
    ids=["commonwealth", "american"],
)
def test_whose_english_decides_the_supply(heard: str, judgement: Judgement) -> None:
    """210 V lies within 230 V +/- 10 %, but may be a 208 V supply in America."""
    assert (
        judged(reading("supply voltage", 210, "V", "two hundred and ten"), None, heard).judgement == judgement
    )


@pytest.mark.parametrize(
    ("about", "unit"),
    [("supply voltage", "ohm"), ("back pressure", "degF"), ("spin speed", "V"), ("oven temperature", "psi")],
    ids=["volts", "pressure", "speed", "temperature"],
)
def test_unit_that_cannot_belong_is_said_misheard(about: str, unit: str) -> None:
    one = reading(about, 12, unit, note="heard twice")

    assert judged(one, "dryer") == one.model_copy(
        update={"note": f"heard twice; {limits().unit_does_not_fit}", "judgement": "no limit known"}
    )


@pytest.mark.parametrize("about", ["pressure switch", "temperature sensor", "thermistor", "speed sensor"])
def test_part_named_after_a_quantity_keeps_its_ohms(about: str) -> None:
    assert judged(reading(about, 0.4, "ohm", about), "washer").note is None


STATED = Limit(minimum=12, maximum=16, unit="ohm", source="the technician", status="stated by the technician")


@pytest.mark.parametrize(
    ("value", "unit", "beyond"),
    [(16.2, "ohm", 0.2), (0.0165, "kohm", 0.5), (11, "ohm", -1), (14, "ohm", None), (16, "ohm", None)],
)
def test_what_lies_outside_says_by_how_far(value: float, unit: str, beyond: float | None) -> None:
    one = reading("thermal fuse", value, unit, "should be twelve to sixteen", limit=STATED)

    assert judged(one).outside_by == (None if beyond is None else pytest.approx(beyond))


@pytest.mark.parametrize(
    ("value", "unit", "judgement"),
    [
        (14.5, "ohm", "within"),
        (16.2, "ohm", "outside"),
        (0.013, "kohm", "within"),
        (14, "V", "no limit known"),
    ],
    ids=["within", "outside", "other-unit", "other-quantity"],
)
def test_limit_stated_aloud_alone_counts(value: float, unit: str, judgement: Judgement) -> None:
    one = reading("thermal fuse", value, unit, "should be twelve to sixteen", limit=STATED)

    found = judged(one)

    assert (found.judgement, found.limit) == (judgement, STATED)


def test_limit_of_an_earlier_judging_is_dropped() -> None:
    stale = Limit(minimum=1, maximum=2, unit="ohm", source="x", status="from memory")
    one = reading("drain pump", 14.5, "ohm", "fourteen", limit=stale, judgement="outside")

    assert judged(one) == one.model_copy(update={"limit": None, "judgement": "no limit known"})


DECIMALS = st.decimals(min_value=Decimal("-60"), max_value=Decimal(400), places=2)
POINTS = [(rule, sample) for rule in RULES for sample in rule.holds_for if rule.bounds != (None, None)]


@settings(deadline=None)  # the first run compiles the vocabulary
@given(
    point=st.sampled_from(POINTS),
    value=DECIMALS,
    unit=st.sampled_from([u for units in UNITS.values() for u in units]),
)
def test_converting_a_reading_never_changes_its_judgement(
    point: tuple[LimitRule, SampleReading], value: Decimal, unit: str
) -> None:
    """Pint as the outside reference: the same reading in another unit of its quantity."""
    rule, sample = point
    if unit not in UNITS[rule.quantity]:
        unit = rule.unit
    plain = visit_of(sample.model_copy(update={"value": float(value), "unit": rule.unit}))
    other = visit_of(
        sample.model_copy(update={"value": convert(float(value), rule.unit, unit), "unit": unit})
    )

    (a,), (b,) = judged_readings(plain), judged_readings(other)

    assert (a.limit, a.judgement) == (b.limit, b.judgement)


@pytest.mark.parametrize("rule", [rule for rule, _ in POINTS], ids=lambda rule: rule.id)
def test_value_at_the_bound_is_within_in_every_unit(rule: LimitRule) -> None:
    sample = rule.holds_for[0]
    for bound in rule.bounds:
        for unit in UNITS[rule.quantity] if bound is not None else ():
            one = visit_of(
                sample.model_copy(update={"value": convert(bound or 0, rule.unit, unit), "unit": unit})
            )
            if rules_for(one)[0] is rule:
                assert judged_readings(one)[0].judgement == "within"


def test_every_limit_has_a_source_or_says_so() -> None:
    without = {rule.id for rule in RULES if not rule.source}

    assert without == {rule.id for rule in RULES if rule.status == "common practice, no source"}


SAID = "source: A book, status: from memory"
LIMIT = """
unit_does_not_fit: misheard
vague: [reading]
speech: {}
quantity_names: []
limits:
  - id: one
    quantity: voltage
    point: [outlet]
    unit: V
    status: from memory
    source: A standard
    maximum: 126
    holds_for: [{about: outlet, value: 120, unit: V}]
    not_for: [{about: pump, value: 120, unit: V, judgement: no limit known}]
"""


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("    source: A standard\n", "", 'needs a source; without one, write "common practice, no source"'),
        ("status: from memory", "status: common practice, no source", 'so the status is "looked up"'),
        ("status: from memory", "status: from memry", 'Did you mean "from memory"'),
        (
            "    unit: V\n    status",
            "    unit: psi\n    status",
            'unit "psi" does not measure voltage: V, mV',
        ),
        ("maximum: 126", "nominal: 120", "nominal and tolerance_percent belong together"),
        ("    maximum: 126\n", "", "a rule without bounds needs a note"),
        ("maximum: 126", "maximum: 126\n    minimum: 130", "minimum 130 is above maximum 126"),
        ("    holds_for: [{about: outlet, value: 120, unit: V}]\n", "", "holds_for is missing"),
        ("quantity: voltage", "quantity: voltage\n    colour: red", "unknown key 'colour'"),
        ("maximum: 126", "maximum: 126\n    possible: {from: 0, status: from memory}", "needs a source"),
        ("maximum: 126", f"maximum: 126\n    possible: {{{SAID}}}", "give from, to or both"),
        (
            "maximum: 126",
            f"maximum: 126\n    only_between: {{to: 150}}\n    possible: {{from: 0, {SAID}}}",
            "give only_between or possible",
        ),
    ],
    ids=[
        "no-source",
        "source-too-many",
        "status",
        "unit",
        "half-nominal",
        "empty",
        "upside-down",
        "sample",
        "key",
        "possible-by-whom",
        "possible-without-bounds",
        "possible-unseen",
    ],
)
def test_loader_refuses_a_faulty_limit(tmp_path: Path, old: str, new: str, message: str) -> None:
    path = tmp_path / "limits.yaml"
    assert old in LIMIT
    path.write_text(LIMIT.replace(old, new), encoding="utf-8")

    with pytest.raises(VocabularyError, match=r"limits\.yaml, line \d+: .*") as fault:
        load_yaml(path, LimitsFile)
    assert message in str(fault.value)


def test_loader_takes_nominal_with_tolerance(tmp_path: Path) -> None:
    path = tmp_path / "limits.yaml"
    path.write_text(LIMIT.replace("maximum: 126", "nominal: 120\n    tolerance_percent: 5"), encoding="utf-8")

    assert load_yaml(path, LimitsFile).limits[0].bounds == (114, 126)
