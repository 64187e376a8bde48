"""Values in other units, by Pint. Pint is slow to load and is loaded only when two units differ."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from fieldnotes.vocabulary.quantities import QUANTITY_OF

# Record's name -> Pint's. Pint's inH2O is the conventional one of NIST SP 811 (2.490 889 E+02 Pa).
_PINT_NAMES = {
    "ohm": "ohm", "kohm": "kiloohm", "Mohm": "megaohm", "V": "volt", "mV": "millivolt", "A": "ampere",
    "mA": "milliampere", "uA": "microampere", "W": "watt", "kW": "kilowatt", "uF": "microfarad",
    "Hz": "hertz",
    "rpm": "rpm", "degF": "degF", "degC": "degC", "psi": "psi", "kPa": "kilopascal", "mbar": "millibar",
    "inH2O": "inH2O", "in": "inch", "ft": "foot", "mm": "millimeter", "m": "meter", "s": "second",
    "min": "minute", "h": "hour", "ppm": "ppm", "mW/cm2": "milliwatt / centimeter ** 2", "gal": "gallon",
    "L": "liter", "lb": "pound", "kg": "kilogram", "%": "percent", "dB": "decibel",
    "grain/gal": "grain / gallon",
}  # fmt: skip


def measure_the_same(unit: str, other: str) -> bool:
    """Whether both are units of one quantity, so that one can be turned into the other."""
    return unit in QUANTITY_OF and QUANTITY_OF[unit] == QUANTITY_OF.get(other)


def convert(value: float, unit: str, to: str) -> float:
    """`value` of `unit` in `to`; temperatures are points of the scale, not differences.

    Raises ValueError where the two do not measure the same. Factors: Pint's, which follow NIST SP 811.
    """
    if unit == to:
        return value
    if not measure_the_same(unit, to):
        raise ValueError(f"{unit} cannot be turned into {to}")
    quantity = _registry().Quantity(value, _PINT_NAMES[unit])
    return float(quantity.to(_PINT_NAMES[to]).magnitude)


@lru_cache(maxsize=1)
def _registry() -> Any:
    from pint import UnitRegistry

    return UnitRegistry(cache_folder=None)
