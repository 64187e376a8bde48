"""Units: every spoken name, and conversion factors against Pint (definitions as in NIST SP 811)."""

from __future__ import annotations

import pint
import pytest

from fieldnotes.vocabulary.measures import UNITS, UnitWords
from tests.tidy.speech import MEASURES, quantities

PINT: pint.UnitRegistry[float] = pint.UnitRegistry()
PINT_NAMES = {
    "V": "volt", "kPa": "kilopascal", "mm": "millimeter", "ft": "foot", "L": "liter", "gal": "gallon",
    "kg": "kilogram", "Hz": "hertz",
}  # fmt: skip
SAID_IN_PINT = {
    "kilovolt": "kilovolt", "kilohertz": "kilohertz", "pascal": "pascal", "bar": "bar", "yard": "yard",
    "centimetre": "centimeter", "quart": "quart", "millilitre": "milliliter", "gram": "gram",
}  # fmt: skip
CONVERTED = [unit for unit in MEASURES.units.units if unit.times != 1]
SPOKEN = [(said, unit) for unit in MEASURES.units.units for said in unit.said]
WRITTEN = [(sign, unit) for unit in MEASURES.units.units for sign in unit.symbols]


def expected(unit: UnitWords) -> list[str]:
    return [f"{round(20 * unit.times, 10):.10g} {unit.unit}"]


@pytest.mark.parametrize("unit", CONVERTED, ids=[unit.said[0] for unit in CONVERTED])
def test_conversion_factor_agrees_with_pint(unit: UnitWords) -> None:
    said = PINT.Quantity(1, SAID_IN_PINT[unit.said[0]])

    assert said.to(PINT_NAMES[unit.unit]).magnitude == pytest.approx(unit.times, rel=1e-9)


@pytest.mark.parametrize(("said", "unit"), SPOKEN, ids=[said for said, _ in SPOKEN])
def test_every_spoken_unit_is_read(said: str, unit: UnitWords) -> None:
    assert quantities(f"it reads twenty {said}.") == expected(unit)


@pytest.mark.parametrize(("sign", "unit"), WRITTEN, ids=[sign for sign, _ in WRITTEN])
def test_every_symbol_written_on_a_figure_is_read(sign: str, unit: UnitWords) -> None:
    assert quantities(f"it reads 20{sign}") == expected(unit)


@pytest.mark.parametrize("said", MEASURES.units.not_recorded)
def test_unit_outside_the_record_leaves_a_bare_number(said: str) -> None:
    assert quantities(f"it reads twenty {said}") == ["20"]


def test_all_units_of_the_record_can_be_said() -> None:
    can_be_said = {unit.unit for unit in MEASURES.units.units} | {"degF", "degC"}

    assert can_be_said == UNITS


CONTEXT = [
    ("pounds weigh", "it weighs sixty pounds", ["60 lb"]),
    ("pounds after a pressure word", "the gauge says sixty pounds", ["60 psi"]),
    ("pounds before a pressure word", "sixty pounds of water pressure", ["60 psi"]),
    ("inches", "the hose is seven inches", ["7 in"]),
    ("inches after manifold", "manifold at seven inches", ["7 inH2O"]),
    ("a unit per another", "two gallons per flush", ["2"]),
    ("f before digits is no scale", "serial nine f four", ["9 (count)", "4 (count)"]),
    ("in as a word", "2 in there", ["2"]),
    ("mike after a number only", "Mike said forty five mike", ["45 uF"]),
]


@pytest.mark.parametrize(("said", "expected"), [row[1:] for row in CONTEXT], ids=[row[0] for row in CONTEXT])
def test_words_nearby_decide_the_unit(said: str, expected: list[str]) -> None:
    assert quantities(said) == expected
