"""The formulas of sums, by their names in the vocabulary. Plain arithmetic: numbers in, a number out.

Units are those of `vocabulary.formulas.FORMULAS`. A formula that has no answer for its inputs (nothing divided by
nothing, a resistance that no sensor has) raises ArithmeticError or ValueError.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

from fieldnotes.judge.sums.refrigerant import subcooling, superheat
from fieldnotes.vocabulary.formulas import FormulaName

KELVIN = 273.15  # 0 degC
GRAVITY = 9.80665  # m/s2, standard gravity (ISO 80000-3)
INCH_OF_WATER = 2.490889  # mbar, conventional (NIST SP 811, B.8)
GRAIN_PER_GALLON = 17.11806  # mg/L (NIST SP 811, B.8: grain 64.79891 mg, US gallon 3.785412 L)
GERMAN_DEGREE = 17.848  # mg/L as CaCO3: 10 mg/L as CaO
WATER_HEAT = 4187.0  # J/(kg K), as IEC 60705 reckons
PLATINUM_A, PLATINUM_B = 3.9083e-3, -5.775e-7  # IEC 60751, 0 to 850 degC


def resistance_from_power(power: float, voltage: float) -> float:
    """Ohm. Source: Ohm's and Joule's laws. 5400 W at 240 V: 10.667."""
    return voltage**2 / power


def power_from_resistance(resistance: float, voltage: float) -> float:
    """W. Source: Ohm's and Joule's laws. 12.8 ohm at 240 V: 4500."""
    return voltage**2 / resistance


def share_by_resistance(resistance: float, voltage: float, rated: float) -> float:
    """Percent of the rated power that a resistance gives at a voltage."""
    return 100 * power_from_resistance(resistance, voltage) / rated


def power_from_current(current: float, voltage: float) -> float:
    """W of a load that only heats (power factor 1). Source: physics."""
    return voltage * current


def share_by_current(current: float, voltage: float, rated: float) -> float:
    """Percent of the rated power that is drawn, of a load that only heats."""
    return 100 * power_from_current(current, voltage) / rated


def leakage_current(resistance: float, voltage: float) -> float:
    """Milliamperes that a voltage drives through an insulation resistance in Mohm. Source: Ohm's law."""
    return voltage / resistance / 1000


def deviation_from_mark(measured: float, marked: float) -> float:
    """Percent above (below: negative) the mark. 41 uF on a part of 45 uF: -8.89."""
    return 100 * (measured - marked) / marked


def capacitance_from_current(current: float, voltage: float, frequency: float) -> float:
    """Microfarads of a capacitor by its own current and voltage. Source: a.c. theory. 4 A at 236 V, 60 Hz: 44.96."""
    return current * 1e6 / (2 * math.pi * frequency * voltage)


def windings_in_series(common_run: float, common_start: float) -> float:
    """Ohm from run to start. Source: resistances in series add."""
    return common_run + common_start


def beta_formula(resistance: float, r25: float, beta: float) -> float:
    """DegC of an NTC thermistor. Source: definition of the B value, IEC 60539-1.

    B fits near the two temperatures that it was taken at; 100 K away it is off by several degrees.
    """
    return 1 / (1 / (KELVIN + 25) + math.log(resistance / r25) / beta) - KELVIN


def platinum_sensor(resistance: float, r0: float) -> float:
    """DegC of a platinum sensor, 0 to 850 degC. Source: IEC 60751. 1672.44 ohm of a Pt1000: 176.67 (350 degF)."""
    root = PLATINUM_A**2 - 4 * PLATINUM_B * (1 - resistance / r0)
    temperature = (-PLATINUM_A + math.sqrt(root)) / (2 * PLATINUM_B)
    if not -1e-9 <= temperature <= 850:
        raise ValueError(f"{temperature:g} degC is beyond the curve")
    return temperature


def duct_length_allowed(longest: float, elbows: float, each: float) -> float:
    """Ft of straight duct that are left. Source: IRC M1502.4.6.1. 35 ft, two elbows of 5 ft: 25."""
    return longest - elbows * each


def spin_acceleration(speed: float, diameter: float) -> float:
    """Times standard gravity at the drum's wall. Source: circular motion. 1400 rpm, 0.5 m across: 547.94."""
    return (2 * math.pi * speed / 60) ** 2 * diameter / 2 / GRAVITY


def temperature_difference(first: float, second: float) -> float:
    """K from the first to the second; negative where it fell."""
    return second - first


def rate_of_change(first: float, second: float, time: float) -> float:
    """K per hour."""
    return (second - first) / time


def gas_input(volume: float, time: float, heating_value: float) -> float:
    """Btu/h from cubic feet in seconds at Btu per cubic foot. 2 ft3 in 150 s at 1030 Btu/ft3: 49440."""
    return 3600 * volume * heating_value / time


def inches_to_millibar(pressure: float) -> float:
    """Millibar. Source: NIST SP 811, B.8, conventional inch of water."""
    return pressure * INCH_OF_WATER


def millibar_to_inches(pressure: float) -> float:
    """Inches of water. Source: NIST SP 811, B.8, conventional inch of water."""
    return pressure / INCH_OF_WATER


def protective_conductor_limit(length: float) -> float:
    """Ohm for a lead of so many metres, up to 1.5 mm2. Source: EN 50678 and EN 50699.

    A stretch of 7.5 m that is only begun does not count: the lower limit is the careful one.
    """
    stretches = math.floor(max(0.0, length - 5) / 7.5 + 1e-9)
    return min(1.0, 0.3 + 0.1 * stretches)


def output_from_water(volume: float, first: float, second: float, time: float) -> float:
    """W into a litre-for-a-kilogram load of water. Source: IEC 60705, container left out. 1 L, 10 K, 47 s: 890.9."""
    return WATER_HEAT * volume * (second - first) / time


def grains_from_ppm(hardness: float) -> float:
    """Grains per US gallon from mg/L as calcium carbonate. Source: NIST SP 811, B.8."""
    return hardness / GRAIN_PER_GALLON


def german_degrees_from_ppm(hardness: float) -> float:
    """Degrees dH from mg/L as calcium carbonate."""
    return hardness / GERMAN_DEGREE


def ppm_from_grains(hardness: float) -> float:
    """Ppm (mg/L) as calcium carbonate. 10 grains per gallon: 171.18."""
    return hardness * GRAIN_PER_GALLON


_BY_NAME: dict[FormulaName, Callable[..., float]] = {
    "resistance from power": resistance_from_power,
    "power from resistance": power_from_resistance,
    "share of rated power by resistance": share_by_resistance,
    "power from current": power_from_current,
    "share of rated power by current": share_by_current,
    "leakage current": leakage_current,
    "deviation from mark": deviation_from_mark,
    "capacitance from current": capacitance_from_current,
    "windings in series": windings_in_series,
    "beta formula": beta_formula,
    "platinum sensor": platinum_sensor,
    "duct length allowed": duct_length_allowed,
    "spin acceleration": spin_acceleration,
    "temperature difference": temperature_difference,
    "rate of change": rate_of_change,
    "gas input from the meter": gas_input,
    "inches of water to millibar": inches_to_millibar,
    "millibar to inches of water": millibar_to_inches,
    "superheat": superheat,
    "subcooling": subcooling,
    "protective conductor limit": protective_conductor_limit,
    "output from a water load": output_from_water,
    "grains per gallon from ppm": grains_from_ppm,
    "german degrees from ppm": german_degrees_from_ppm,
    "ppm from grains per gallon": ppm_from_grains,
}


def work_out(formula: FormulaName, inputs: Mapping[str, Any]) -> float | None:
    """The result, or None where the inputs have none. Raises CoolPropMissing where that is needed and not there."""
    try:
        result = _BY_NAME[formula](**inputs)
    except (ArithmeticError, ValueError):
        return None
    return result if math.isfinite(result) else None
