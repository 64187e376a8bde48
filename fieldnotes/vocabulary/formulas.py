"""What the formulas of sums are called, and what goes into each: vocab/sums.yaml names them, judging works them out.

They are written as people write them. `ohm` and the like are the units in which the formula reckons.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

FormulaName = Literal[
    "resistance from power",
    "power from resistance",
    "share of rated power by resistance",
    "power from current",
    "share of rated power by current",
    "leakage current",
    "deviation from mark",
    "capacitance from current",
    "windings in series",
    "beta formula",
    "platinum sensor",
    "duct length allowed",
    "spin acceleration",
    "temperature difference",
    "rate of change",
    "gas input from the meter",
    "inches of water to millibar",
    "millibar to inches of water",
    "superheat",
    "subcooling",
    "protective conductor limit",
    "output from a water load",
    "grains per gallon from ppm",
    "german degrees from ppm",
    "ppm from grains per gallon",
]
REFRIGERANT = "refrigerant"  # the one input that is a name and no number


@dataclass(frozen=True)
class Shape:
    """`inputs`: for each input its symbol and its unit; `unit`: that of the result."""

    written: str
    inputs: dict[str, tuple[str, str]]
    unit: str


_R, _V, _I, _P = ("R", "ohm"), ("V", "V"), ("I", "A"), ("P", "W")
_T1, _T2 = ("T₁", "degC"), ("T₂", "degC")
_REFRIGERANT = {"pressure": ("p", "kPa"), "line": ("T", "degC"), REFRIGERANT: ("", "")}
FORMULAS: dict[FormulaName, Shape] = {
    "resistance from power": Shape("R = V² / P", {"power": _P, "voltage": _V}, "ohm"),
    "power from resistance": Shape("P = V² / R", {"resistance": _R, "voltage": _V}, "W"),
    "share of rated power by resistance": Shape(
        "100 % × (V² / R) / P", {"resistance": _R, "voltage": _V, "rated": _P}, "%"
    ),
    "power from current": Shape("P = V × I", {"current": _I, "voltage": _V}, "W"),
    "share of rated power by current": Shape(
        "100 % × V × I / P", {"current": _I, "voltage": _V, "rated": _P}, "%"
    ),
    "leakage current": Shape("I = V / R", {"resistance": ("R", "Mohm"), "voltage": _V}, "mA"),
    "deviation from mark": Shape(
        "100 % × (C − C₀) / C₀", {"measured": ("C", "uF"), "marked": ("C₀", "uF")}, "%"
    ),
    "capacitance from current": Shape(
        "C = I / (2π × f × V)", {"current": _I, "voltage": _V, "frequency": ("f", "Hz")}, "uF"
    ),
    "windings in series": Shape(
        "R(run–start) = R(common–run) + R(common–start)",
        {"common_run": ("R(common–run)", "ohm"), "common_start": ("R(common–start)", "ohm")},
        "ohm",
    ),
    "beta formula": Shape(
        "1/T = 1/298.15 K + ln(R / R₂₅) / B",
        {"resistance": _R, "r25": ("R₂₅", "ohm"), "beta": ("B", "K")},
        "degC",
    ),
    "platinum sensor": Shape(
        "R = R₀ × (1 + 3.9083×10⁻³ t − 5.775×10⁻⁷ t²)", {"resistance": _R, "r0": ("R₀", "ohm")}, "degC"
    ),
    "duct length allowed": Shape(
        "L = L₀ − n × l", {"longest": ("L₀", "ft"), "elbows": ("n", ""), "each": ("l", "ft")}, "ft"
    ),
    "spin acceleration": Shape(
        "(2π n / 60)² × (d / 2) / 9.80665", {"speed": ("n", "rpm"), "diameter": ("d", "m")}, "g_n"
    ),
    "temperature difference": Shape("T₂ − T₁", {"first": _T1, "second": _T2}, "delta_degC"),
    "rate of change": Shape(
        "(T₂ − T₁) / t", {"first": _T1, "second": _T2, "time": ("t", "h")}, "delta_degC/h"
    ),
    "gas input from the meter": Shape(
        "Q = 3600 × V × H / t",
        {"volume": ("V", "ft3"), "time": ("t", "s"), "heating_value": ("H", "Btu/ft3")},
        "Btu/h",
    ),
    "inches of water to millibar": Shape("p × 2.490889", {"pressure": ("p", "inH2O")}, "mbar"),
    "millibar to inches of water": Shape("p / 2.490889", {"pressure": ("p", "mbar")}, "inH2O"),
    "superheat": Shape("T − T_dew(p)", _REFRIGERANT, "delta_degC"),
    "subcooling": Shape("T_bubble(p) − T", _REFRIGERANT, "delta_degC"),
    "protective conductor limit": Shape(
        "0.3 Ω + 0.1 Ω × whole stretches of 7.5 m beyond 5 m, at most 1 Ω", {"length": ("l", "m")}, "ohm"
    ),
    "output from a water load": Shape(
        "P = 4187 × m × (T₂ − T₁) / t",
        {"volume": ("m", "L"), "first": _T1, "second": _T2, "time": ("t", "s")},
        "W",
    ),
    "grains per gallon from ppm": Shape("c / 17.11806", {"hardness": ("c", "ppm")}, "grain/gal"),
    "german degrees from ppm": Shape("c / 17.848", {"hardness": ("c", "ppm")}, "°dH"),
    "ppm from grains per gallon": Shape("c × 17.11806", {"hardness": ("c", "grain/gal")}, "ppm"),
}
