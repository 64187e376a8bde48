"""Superheat and subcooling against figures that CoolProp 8.0.0 gave elsewhere, and what happens without it."""

from __future__ import annotations

import sys

import pytest

from fieldnotes.judge.sums.formulas import work_out
from fieldnotes.judge.sums.refrigerant import BUBBLE, DEW, saturation, subcooling, superheat

from ..visits import item, judged_readings, reading, sums, visit

PSI = 6.894757  # kPa (NIST SP 811, B.8)


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


# Saturation pressures in psi gauge at sea level, CoolProp 8.0.0, worked out by separate code; R-410A to 0.5 psi,
# the others to 0.05. The change of pressure with temperature turns that into degrees.
@pytest.mark.parametrize(
    ("fluid", "fahrenheit", "psig", "point", "tolerance"),
    [
        ("R134a", 0, 6.475, DEW, 0.15),
        ("R134a", 40, 35.045, DEW, 0.15),
        ("R134a", 100, 124.156, BUBBLE, 0.15),
        ("R600a", 0, -3.163, DEW, 0.3),
        ("R600a", 100, 57.948, BUBBLE, 0.15),
        ("R290", 0, 23.693, DEW, 0.15),
        ("R290", 100, 173.921, BUBBLE, 0.15),
        ("R32", 40, 120.951, DEW, 0.15),
        ("R32", 100, 325.672, BUBBLE, 0.15),
        ("R410A", 40, 118.36, DEW, 0.3),
        ("R410A", 100, 318.53, BUBBLE, 0.3),
    ],
)
def test_it_boils_where_the_tables_say(
    fluid: str, fahrenheit: float, psig: float, point: int, tolerance: float
) -> None:
    pytest.importorskip("CoolProp")

    assert abs(saturation(fluid, psig * PSI, point) * 1.8 + 32 - fahrenheit) <= tolerance


# Normal boiling points in degC; they agree with ASHRAE 34 to 0.1 (from memory).
@pytest.mark.parametrize(
    ("fluid", "boils"), [("R134a", -26.07), ("R600a", -11.75), ("R290", -42.11), ("R32", -51.65)]
)
def test_it_boils_at_the_pressure_of_the_air(fluid: str, boils: float) -> None:
    pytest.importorskip("CoolProp")

    assert abs(saturation(fluid, 0, DEW) - boils) <= 0.05


# CoolProp 8.0.0, worked out by separate code
@pytest.mark.parametrize(
    ("fluid", "psig", "line", "expected", "tolerance"),
    [("R134a", 5, 10, 13.05, 0.1), ("R410A", 118, 52, 12.18, 0.3)],
)
def test_superheat(fluid: str, psig: float, line: float, expected: float, tolerance: float) -> None:
    pytest.importorskip("CoolProp")

    assert abs(superheat(psig * PSI, celsius(line), fluid) * 1.8 - expected) <= tolerance


@pytest.mark.parametrize(
    ("fluid", "psig", "line", "expected"), [("R134a", 130, 92, 10.74), ("R32", 325.7, 90, 10.01)]
)
def test_subcooling(fluid: str, psig: float, line: float, expected: float) -> None:
    pytest.importorskip("CoolProp")

    assert abs(subcooling(psig * PSI, celsius(line), fluid) * 1.8 - expected) <= 0.1


@pytest.mark.parametrize("fluid", [one.name for one in sums().refrigerants])
def test_every_refrigerant_of_the_vocabulary_is_known_and_boils_higher_under_pressure(fluid: str) -> None:
    pytest.importorskip("CoolProp")
    boils = [saturation(fluid, pressure, DEW) for pressure in range(0, 1500, 100)]

    assert boils == sorted(boils)


@pytest.mark.parametrize("pressure", [-150, 1e6])
def test_pressure_that_there_cannot_be_gives_none(pressure: float) -> None:
    pytest.importorskip("CoolProp")

    assert work_out("superheat", {"pressure": pressure, "line": -10, "refrigerant": "R134a"}) is None


def test_without_coolprop_a_note_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "CoolProp.CoolProp", None)
    saturation.cache_clear()
    line = reading("suction line", 10, "degF", "suction line ten degrees")
    low = reading("system pressures", 5, "psi", "suction pressure five psi")
    one = visit("refrigerator", readings=(line, low), safety=(item("elsewhere", "it's an R134a system"),))

    judged = judged_readings(one)

    assert judged[0].sums == ()
    assert judged[0].note == sums().needs_coolprop
    assert "fieldnotes[refrigeration]" in sums().needs_coolprop
    assert judged_readings(one.model_copy(update={"readings": judged})) == judged
    assert judged[1].note is None
