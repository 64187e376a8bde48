"""What is measured, in which units, and what a value from the trade must say about its source."""

from __future__ import annotations

from typing import Literal

Quantity = Literal[
    "voltage", "current", "resistance", "power", "capacitance", "frequency", "speed", "temperature",
    "pressure", "length", "time", "concentration", "power density", "volume", "mass", "share", "sound level",
    "hardness",
]  # fmt: skip
# Units of the record by what they measure. rpm and Hz are kept apart although both are "per time".
UNITS: dict[Quantity, tuple[str, ...]] = {
    "voltage": ("V", "mV"),
    "current": ("A", "mA", "uA"),
    "resistance": ("ohm", "kohm", "Mohm"),
    "power": ("W", "kW"),
    "capacitance": ("uF",),
    "frequency": ("Hz",),
    "speed": ("rpm",),
    "temperature": ("degF", "degC"),
    "pressure": ("psi", "kPa", "mbar", "inH2O"),
    "length": ("in", "ft", "mm", "m"),
    "time": ("s", "min", "h"),
    "concentration": ("ppm",),
    "power density": ("mW/cm2",),
    "volume": ("gal", "L"),
    "mass": ("lb", "kg"),
    "share": ("%",),
    "sound level": ("dB",),
    "hardness": ("grain/gal",),
}
QUANTITY_OF: dict[str, Quantity] = {unit: quantity for quantity, units in UNITS.items() for unit in units}
Status = Literal["looked up", "from memory", "common practice, no source"]
Speech = Literal["commonwealth", "american"]
SpeechHeard = Speech | Literal["unknown"]


def needs_source(source: str, status: Status) -> None:
    """Raises ValueError where a value has neither a source nor the words that it has none."""
    if status != "common practice, no source" and not source.strip():
        raise ValueError(f'status "{status}" needs a source; without one, write "common practice, no source"')
    if status == "common practice, no source" and source.strip():
        raise ValueError(f'it has a source ("{source}"), so the status is "looked up" or "from memory"')
