"""Formulas against worked examples from outside, and against Pint where it can say the same."""

from __future__ import annotations

import inspect
import math
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pint import UnitRegistry

from fieldnotes.judge.sums.formulas import _BY_NAME, work_out
from fieldnotes.vocabulary.formulas import FORMULAS, FormulaName

UNITS: UnitRegistry[float] = UnitRegistry(cache_folder=None)

# Expected values are the outside ones: arithmetic by hand from the law or the standard that is named, or the
# library that is named; none was taken from this program.
EXAMPLES = [
    # Ohm's and Joule's laws
    ("resistance from power", {"power": 5400, "voltage": 240}, 10.667, 0.005),
    ("resistance from power", {"power": 4500, "voltage": 240}, 12.8, 0.005),
    ("resistance from power", {"power": 350, "voltage": 120}, 41.143, 0.005),
    ("resistance from power", {"power": 2000, "voltage": 230}, 26.45, 0.005),
    ("power from resistance", {"resistance": 12.8, "voltage": 240}, 4500, 0.5),
    ("power from resistance", {"resistance": 240**2 / 5400, "voltage": 208}, 4056, 0.5),
    ("power from resistance", {"resistance": 240**2 / 5400, "voltage": 228}, 4873.5, 0.5),
    ("share of rated power by resistance", {"resistance": 12.8, "voltage": 208, "rated": 4500}, 75.11, 0.01),
    ("power from current", {"current": 22.5, "voltage": 240}, 5400, 0.5),
    ("share of rated power by current", {"current": 18.75, "voltage": 240, "rated": 4500}, 100, 0.01),
    ("leakage current", {"resistance": 0.042, "voltage": 120}, 2.857, 0.001),
    # the mark on the part
    ("deviation from mark", {"measured": 41, "marked": 45}, -8.89, 0.01),
    # a.c. theory: 60 Hz, 2653 x I / V
    ("capacitance from current", {"current": 4.0, "voltage": 236, "frequency": 60}, 44.96, 0.05),
    ("windings in series", {"common_run": 4.0, "common_start": 6.5}, 10.5, 0.001),
    # definition of B, IEC 60539-1
    ("beta formula", {"resistance": 5000, "r25": 10000, "beta": 3950}, 41.46, 0.01),
    ("beta formula", {"resistance": 33620.6, "r25": 10000, "beta": 3950}, 0, 0.01),
    ("beta formula", {"resistance": 10000, "r25": 10000, "beta": 3950}, 25, 0.001),
    ("beta formula", {"resistance": 3588.2, "r25": 10000, "beta": 3950}, 50, 0.01),
    ("beta formula", {"resistance": 1086.7, "r25": 10000, "beta": 3950}, 85, 0.01),
    # IEC 60751
    ("platinum sensor", {"resistance": 138.51, "r0": 100}, 100, 0.02),
    ("platinum sensor", {"resistance": 1097.35, "r0": 1000}, 25, 0.02),
    ("platinum sensor", {"resistance": 1672.44, "r0": 1000}, (350 - 32) / 1.8, 0.02),
    # IRC Table M1502.4.6.1
    ("duct length allowed", {"longest": 35, "elbows": 2, "each": 5}, 25, 0.01),
    ("duct length allowed", {"longest": 35, "elbows": 3, "each": 1.5}, 30.5, 0.01),
    # circular motion, standard gravity
    ("spin acceleration", {"speed": 1200, "diameter": 0.5}, 402.57, 0.5),
    ("spin acceleration", {"speed": 700, "diameter": 0.54}, 147.94, 0.2),
    ("spin acceleration", {"speed": 1400, "diameter": 0.5}, 547.94, 0.5),
    ("temperature difference", {"first": 14.44, "second": 48.33}, 33.89, 0.001),
    ("rate of change", {"first": 6, "second": -9, "time": 1}, -15, 0.001),
    ("gas input from the meter", {"volume": 2, "time": 150, "heating_value": 1030}, 49440, 1),
    ("gas input from the meter", {"volume": 1, "time": 90, "heating_value": 1030}, 41200, 1),
    # NIST SP 811, B.8
    ("inches of water to millibar", {"pressure": 3.5}, 8.718, 0.001),
    ("inches of water to millibar", {"pressure": 7}, 17.4362, 0.0005),
    ("millibar to inches of water", {"pressure": 34.4738}, 13.84, 0.002),  # 1/2 psi
    ("ppm from grains per gallon", {"hardness": 10}, 171.18, 0.01),
    ("grains per gallon from ppm", {"hardness": 171.18}, 10, 0.001),
    ("german degrees from ppm", {"hardness": 178.48}, 10, 0.001),
    # EN 50678 and EN 50699, as their worked examples
    ("protective conductor limit", {"length": 3}, 0.3, 0.001),
    ("protective conductor limit", {"length": 12.5}, 0.4, 0.001),
    ("protective conductor limit", {"length": 20}, 0.5, 0.001),
    ("protective conductor limit", {"length": 90}, 1.0, 0.001),
    # IEC 60705
    ("output from a water load", {"volume": 1.0, "first": 10, "second": 20, "time": 47}, 890.9, 0.5),
]  # fmt: skip


@pytest.mark.parametrize(("formula", "inputs", "expected", "tolerance"), EXAMPLES)
def test_formula_gives_the_worked_example(
    formula: FormulaName, inputs: dict[str, float], expected: float, tolerance: float
) -> None:
    result = work_out(formula, inputs)

    assert result is not None
    assert abs(result - expected) <= tolerance


def test_every_formula_has_its_shape_and_an_example() -> None:
    tried = {formula for formula, *_ in EXAMPLES} | {"superheat", "subcooling"}  # these in test_refrigerant

    assert set(get_args(FormulaName)) == set(FORMULAS) == set(_BY_NAME) == tried
    for name, function in _BY_NAME.items():
        assert set(inspect.signature(function).parameters) == set(FORMULAS[name].inputs)


@pytest.mark.parametrize(
    ("formula", "inputs"),
    [
        ("resistance from power", {"power": 0, "voltage": 240}),
        ("power from resistance", {"resistance": 0, "voltage": 240}),
        ("deviation from mark", {"measured": 40, "marked": 0}),
        ("beta formula", {"resistance": 0, "r25": 10000, "beta": 3950}),
        ("platinum sensor", {"resistance": 900, "r0": 1000}),
        ("platinum sensor", {"resistance": 1e6, "r0": 1000}),
        ("rate of change", {"first": 6, "second": -9, "time": 0}),
    ],
)
def test_inputs_without_an_answer_give_none(formula: FormulaName, inputs: dict[str, float]) -> None:
    assert work_out(formula, inputs) is None


@given(st.floats(min_value=0.01, max_value=1000))
def test_pressures_and_hardness_agree_with_pint(value: float) -> None:
    inches = UNITS.Quantity(value, "inH2O").to("mbar").magnitude
    grains = UNITS.Quantity(value, "grain / gallon").to("mg / L").magnitude

    assert work_out("inches of water to millibar", {"pressure": value}) == pytest.approx(inches, rel=1e-6)
    assert work_out("ppm from grains per gallon", {"hardness": value}) == pytest.approx(grains, rel=1e-6)


@given(st.floats(min_value=300, max_value=2000), st.floats(min_value=0.3, max_value=0.8))
def test_spin_agrees_with_pint(speed: float, diameter: float) -> None:
    turning = UNITS.Quantity(speed, "rpm").to("rad / s").magnitude
    acceleration = UNITS.Quantity(turning**2 * diameter / 2, "m / s ** 2").to("standard_gravity")
    result = work_out("spin acceleration", {"speed": speed, "diameter": diameter})

    assert result == pytest.approx(acceleration.magnitude, rel=1e-9)


@given(st.floats(min_value=100, max_value=9000), st.floats(min_value=100, max_value=260))
def test_power_agrees_with_pint(power: float, voltage: float) -> None:
    ohm = (UNITS.Quantity(voltage, "V") ** 2 / UNITS.Quantity(power, "W")).to("ohm").magnitude

    assert work_out("resistance from power", {"power": power, "voltage": voltage}) == pytest.approx(ohm)
    assert work_out("power from resistance", {"resistance": ohm, "voltage": voltage}) == pytest.approx(power)


@given(st.floats(min_value=0, max_value=400))
def test_platinum_sensor_undoes_its_curve(celsius: float) -> None:
    ohm = 1000 * (1 + 3.9083e-3 * celsius - 5.775e-7 * celsius**2)  # IEC 60751

    assert work_out("platinum sensor", {"resistance": ohm, "r0": 1000}) == pytest.approx(celsius, abs=1e-6)


@given(
    st.floats(min_value=-40, max_value=150),
    st.floats(min_value=1e3, max_value=1e5),
    st.floats(min_value=2500, max_value=4800),
)
def test_beta_formula_undoes_its_definition(celsius: float, r25: float, beta: float) -> None:
    ohm = r25 * math.exp(beta * (1 / (celsius + 273.15) - 1 / 298.15))  # IEC 60539-1
    result = work_out("beta formula", {"resistance": ohm, "r25": r25, "beta": beta})

    assert result == pytest.approx(celsius, abs=1e-6)


@given(st.floats(min_value=0, max_value=200))
def test_longer_leads_are_allowed_no_less_and_never_over_one_ohm(length: float) -> None:
    shorter, longer = (work_out("protective conductor limit", {"length": x}) for x in (length, length + 7.5))

    assert shorter is not None
    assert longer is not None
    assert 0.3 <= shorter <= longer <= 1
