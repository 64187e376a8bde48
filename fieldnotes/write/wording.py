"""How values are written for people: times, numbers with their unit signs, names, plain text.

The words themselves stand in templates/; here is only what a template cannot say well.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from decimal import Decimal

from fieldnotes.records import Evidence, Item

LONGEST_NAME = 6  # words; what is longer is no name of a thing but a sentence of the speaker
PLEASE_CHECK_BELOW = 0.6  # confidence under which a line carries the "please check" mark
NO_BREAK, NARROW_NO_BREAK, MINUS = "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}", "\N{MINUS SIGN}"

# Record's unit name -> sign on the page. Signs: NIST SP 811 (2008) tables 1 to 6; "in. w.c." (inches of water
# column) is common practice, no source. A unit that is not listed stands as it is.
UNIT_SIGNS = {
    "ohm": "Ω", "kohm": "kΩ", "Mohm": "MΩ", "uA": "µA", "uF": "µF", "degF": "°F", "degC": "°C",
    "inH2O": "in. w.c.", "in": "in.", "mW/cm2": "mW/cm²",
    "delta_degF": "°F", "delta_degC": "°C", "delta_degF/h": "°F/h", "delta_degC/h": "°C/h", "g_n": "× g",
    "ft3": "ft³", "Btu/ft3": "Btu/ft³", "grain/gal": "grains/gal",
}  # fmt: skip
_CLOSE_UP = {"%"}  # written without a space, as people do

_SPACES = re.compile(r"[\t\n\v\f\r \x1c-\x1f\x85\u2028\u2029]+")
# control characters and noncharacters: no HTML page may hold them (HTML Standard, 13.2.3.5)
_UNPRINTABLE = re.compile(
    "[\x00-\x08\x0e-\x1b\x7f-\x84\x86-\x9f\ufdd0-\ufdef"
    + "".join(chr(plane << 16 | end) for plane in range(17) for end in (0xFFFE, 0xFFFF))
    + "]"
)


def one_line(text: str) -> str:
    """Text fit for a page: on one line, without control characters."""
    return _SPACES.sub(" ", _UNPRINTABLE.sub("", text))


def sentence(text: str) -> str:
    """The text with a capital at its start; the rest stays ("GFCI outlet" keeps its capitals)."""
    return text[:1].upper() + text[1:]


def clock(seconds: float) -> str:
    """A time of the visit: 61.96 -> "01:01", 3730.0 -> "1:02:10". Always rounded down."""
    whole = math.floor(seconds)
    hours, minutes, rest = whole // 3600, whole // 60 % 60, whole % 60
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes:02d}:{rest:02d}"


def number(value: float) -> str:
    """A number as people write it: 14.5, 120, 0.94; thin spaces from five digits on (NIST SP 811, 10.5.3)."""
    plain = format(Decimal(format(abs(value), ".10g")), "f")
    whole, point, decimals = plain.partition(".")
    if len(whole) > 4:
        whole = f"{int(whole):,}".replace(",", NARROW_NO_BREAK)
    decimals = decimals.rstrip("0")
    sign = MINUS if value < 0 else ""
    return sign + whole + (point + decimals if decimals else "")


def unit_sign(unit: str) -> str:
    """`"ohm"` -> `"Ω"`."""
    return UNIT_SIGNS.get(unit, unit)


def quantity(value: float, unit: str) -> str:
    """A number and its unit sign that stay together on one line: 14.5, "ohm" -> "14.5 Ω"."""
    return number(value) + ("" if unit in _CLOSE_UP or not unit else NO_BREAK) + unit_sign(unit)


def is_doubtful(evidence: Evidence) -> bool:
    """Whether the words were heard so unclearly that somebody must check them."""
    return evidence.confidence < PLEASE_CHECK_BELOW


def plainly(text: str, instead: Iterable[tuple[str, str]]) -> str:
    """The text with what is said otherwise to the customer (pattern, words) put in its place, as a sentence."""
    for pattern, words in instead:
        text = re.sub(pattern, words.replace("\\", r"\\"), text, flags=re.IGNORECASE)
    return sentence(text.strip())


def is_unnamed(item: Item) -> bool:
    """Whether the text of a line lacks the name of what it is about, so that it has to stand in front."""
    return item.about.lower() not in item.text.lower() and len(item.about.split()) <= LONGEST_NAME
