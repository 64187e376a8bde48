"""Superheat and subcooling, from CoolProp's equations of state. CoolProp is an extra: `fieldnotes[refrigeration]`.

Pressures are gauge readings at sea level; a mile higher the air weighs 18 kPa less and every figure shifts.
Source: CoolProp 8.0.0 (Bell et al., doi:10.1021/ie4033999); for blends the dew point counts for superheat and the
bubble point for subcooling.
"""

from __future__ import annotations

from functools import lru_cache

ATMOSPHERE_KPA = 101.325
KELVIN = 273.15
DEW, BUBBLE = 1, 0  # share of vapour


class CoolPropMissing(Exception):
    """CoolProp is not installed."""


def superheat(pressure: float, line: float, refrigerant: str) -> float:
    """K by which the suction line (degC) is above the dew point at a gauge pressure in kPa."""
    return line - saturation(refrigerant, pressure, DEW)


def subcooling(pressure: float, line: float, refrigerant: str) -> float:
    """K by which the liquid line (degC) is below the bubble point at a gauge pressure in kPa."""
    return saturation(refrigerant, pressure, BUBBLE) - line


@lru_cache(maxsize=256)
def saturation(refrigerant: str, pressure: float, vapour: int) -> float:
    """DegC at which it boils at a gauge pressure in kPa. Raises ValueError where it does not, as above 4 MPa."""
    try:
        from CoolProp.CoolProp import PropsSI
    except ImportError as fault:
        raise CoolPropMissing from fault
    pascal = (pressure + ATMOSPHERE_KPA) * 1000
    return float(PropsSI("T", "P", pascal, "Q", vapour, refrigerant)) - KELVIN
