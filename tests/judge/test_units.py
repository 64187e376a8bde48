"""Units: conversions against NIST SP 811 (2008), Appendix B.8, and the closed list of unit names."""

from __future__ import annotations

import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldnotes.judge.units import convert, measure_the_same
from fieldnotes.vocabulary import measures
from fieldnotes.vocabulary.quantities import QUANTITY_OF, UNITS

NAMES = sorted(measures.UNITS)


@pytest.mark.parametrize(
    ("value", "unit", "to", "expected"),
    [
        (80, "psi", "kPa", 551.5806),  # 6.894 757 E+03 Pa
        (3.5, "inH2O", "mbar", 8.718112),  # conventional inch of water, 2.490 889 E+02 Pa
        (0.5, "psi", "inH2O", 13.83995),
        (20, "gal", "L", 75.70824),  # 3.785 412 L
        (40, "degF", "degC", 4.444444),  # (t - 32) / 1.8
        (-40, "degC", "degF", -40),
        (35, "ft", "m", 10.668),  # 3.048 E-01 m exactly
        (36, "in", "mm", 914.4),  # 2.54 E-02 m exactly
        (5, "lb", "kg", 2.267962),  # 4.535 924 E-01 kg
        (1.3, "Mohm", "kohm", 1300),
        (250, "uA", "mA", 0.25),
        (2, "h", "s", 7200),
    ],
    ids=lambda value: str(value),
)
def test_conversion_agrees_with_nist(value: float, unit: str, to: str, expected: float) -> None:
    assert convert(value, unit, to) == pytest.approx(expected, rel=1e-6)


def test_every_unit_of_the_record_has_one_quantity() -> None:
    assert sorted(QUANTITY_OF) == NAMES


@pytest.mark.parametrize("quantity", UNITS, ids=str)
def test_units_of_a_quantity_turn_into_each_other(quantity: str) -> None:
    units = [unit for unit, of in QUANTITY_OF.items() if of == quantity]
    for unit in units:
        for other in units:
            assert convert(convert(12.5, unit, other), other, unit) == pytest.approx(12.5)


@given(st.sampled_from(NAMES), st.sampled_from(NAMES))
def test_units_of_different_quantities_are_refused(unit: str, other: str) -> None:
    if measure_the_same(unit, other):
        return
    with pytest.raises(ValueError, match="cannot be turned into"):
        convert(1, unit, other)


def test_hertz_and_rpm_are_kept_apart() -> None:
    """Pint holds both for "per time"; 60 Hz is no speed of a drum."""
    assert not measure_the_same("Hz", "rpm")


def test_importing_the_stage_loads_no_pint() -> None:
    code = "import sys, fieldnotes.judge.judging; sys.exit('pint' in sys.modules or 'spacy' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
