"""Times and values as people write them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldnotes.records import Evidence, Item
from fieldnotes.write.wording import clock, is_unnamed, number, one_line, quantity, sentence


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [(0, "00:00"), (61.2, "01:01"), (61.99, "01:01"), (599.9, "09:59"), (3599, "59:59"), (3730, "1:02:10")],
)
def test_clock_rounds_down_to_seconds(seconds: float, shown: str) -> None:
    assert clock(seconds) == shown


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    [
        (14.5, "ohm", "14.5 Ω"), (120, "V", "120 V"), (1.1, "inH2O", "1.1 in. w.c."), (51, "degF", "51 °F"),
        (43.9, "uF", "43.9 µF"), (0.94, "inH2O", "0.94 in. w.c."), (-5, "degC", "−5 °C"), (80, "%", "80%"),
        (4.7, "kohm", "4.7 kΩ"), (2, "Mohm", "2 MΩ"), (1.2, "mW/cm2", "1.2 mW/cm²"),
        (1400, "rpm", "1400 rpm"),
        (12500, "Hz", "12 500 Hz"), (0.1 + 0.2, "A", "0.3 A"), (0.00001, "A", "0.00001 A"),
        (3, "in", "3 in."),
        (0, "V", "0 V"), (7, "furlong", "7 furlong"), (100, "ohm", "100 Ω"),
    ],
)  # fmt: skip
def test_quantity_carries_the_sign_of_its_unit(value: float, unit: str, shown: str) -> None:
    assert quantity(value, unit).replace("\xa0", " ").replace("\u202f", " ") == shown


@given(st.decimals(-9_999_999, 9_999_999, places=3))
def test_number_reads_back_as_the_same_number(value: float) -> None:
    shown = number(float(value)).replace("\u202f", "").replace("−", "-")

    assert float(shown) == float(value)


def test_sentence_keeps_capitals_inside() -> None:
    assert sentence("gFCI outlet") == "GFCI outlet"
    assert sentence("") == ""


def test_one_line_drops_what_a_page_must_not_hold() -> None:
    assert one_line("a\x00b\r\n\tc\u2028d\ufffee\xa0f") == "ab c de\xa0f"


@pytest.mark.parametrize(
    ("about", "text", "unnamed"),
    [
        ("drain hose", "Drain hose is not kinked.", False),
        ("supply voltage", "Voltage at the outlet.", True),
        ("washer", "Top-load Washer calibrated.", False),
        ("it started about three weeks ago, on Sundays", "Customer reported: since three weeks.", False),
    ],
    ids=["named", "not named", "in capitals", "a whole sentence is no name"],
)
def test_name_is_asked_for_where_the_text_lacks_it(about: str, text: str, unnamed: bool) -> None:
    said = Evidence(start=1.0, end=2.0, quote=text, confidence=0.9)

    assert is_unnamed(Item(about=about, text=text, evidence=said)) is unnamed
