"""Text made ready for paper: codes for what no font has, places to break at, directions kept apart."""

from __future__ import annotations

import unicodedata
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldnotes.write.glyphs import characters
from fieldnotes.write.legible import legible

LATIN = frozenset({*range(0x20, 0x7F), *map(ord, "\u00a0\u0301é")})
HEBREW = frozenset(map(ord, "אבגד \u05b8"))
FONTS = (LATIN, HEBREW)
BUILT_IN = characters((Path(__file__).parents[2] / "templates" / "fonts",))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("plain words", "plain words"),
        ("中", "[U+4E2D]"),
        ("a中b", "a[U+4E2D]b"),
        ("\U0001f600", "[U+1F600]"),
        ("x\u0301b", "x\u0301b"),
        ("e\u0301b", "éb"),  # one sign where Unicode has it so
        ("א\u0301", "\u2068א[U+0301]\u2069"),  # no font has the letter and the mark
        ("\u0301a", "[U+0301]a"),  # a mark with no letter before it
        ("a\u05b8", "a[U+05B8]"),
        ("a\u202eb", "a[U+202E]b"),
        ("a\u2069b", "a[U+2069]b"),
        ("\ue000", "[U+E000]"),
        ("\ufeffa", "[U+FEFF]a"),
        ("a\nb\x00c", "a bc"),
        ("אב ab", "\u2068אב ab\u2069"),
        ("a" * 30, "a" * 30),
        ("a" * 31, "\u200b".join(["a" * 10, "a" * 10, "a" * 10, "a"])),
        (f"{'a' * 30} {'b' * 30}", f"{'a' * 30} {'b' * 30}"),
        (f"{'a' * 30}\u00a0{'b' * 30}", f"{'a' * 30}\u00a0{'b' * 30}"),
        ("中" * 4, "\u200b".join(["[U+4E2D]"] * 4)),  # 32 characters on paper
        ("x\u0301" * 16, "\u200b".join(["x\u0301" * 5] * 3 + ["x\u0301"])),
    ],
    ids=lambda value: ascii(value)[:30],
)
def test_text_is_made_ready(text: str, expected: str) -> None:
    assert legible(text, FONTS) == expected


@given(st.text(max_size=80))
def test_nothing_is_lost_and_all_can_be_drawn(text: str) -> None:
    ready = legible(text, FONTS)
    all_points = LATIN | HEBREW | set(map(ord, "\u200b\u2068\u2069"))

    assert {ord(character) for character in ready} <= all_points
    small = [c for c in unicodedata.normalize("NFC", text) if "a" <= c <= "z"]
    assert [c for c in ready if "a" <= c <= "z"] == small


@settings(max_examples=30)
@given(st.text(alphabet=st.characters(codec="utf-8"), max_size=40))
def test_ready_text_stays_ready(text: str) -> None:
    """But for the isolates around it, which would be shown as codes the second time."""
    ready = legible(text, FONTS).strip("\u2068\u2069").replace("\u200b", "")

    assert legible(ready, FONTS).strip("\u2068\u2069").replace("\u200b", "") == ready


@pytest.mark.parametrize(
    "text",
    [
        "Ωμω °C µF kΩ × − – — “ ” ‘ ’ … · ² ³ ₀ ₁ ½ ≤ ≥ ± √ Δ → ← ↑ ↓", "✓ ✗ ⚠ ☐ ☑ ★ ● ○ ■ □ ▶ ◇ ✔ ✖",
        "Zażółć gęślą jaźń, Łódź, Đorđe, Ștefan, İzmir, Þór, Škoda, Nguyễn Thị Hạnh", "Щит, Їжак, Ђорђе, Ќоѓ",
        "Ελληνικά, Ἀθῆναι", "שָׁלוֹם עולם", "مُحَمَّد الحدّاد ۱۲۳ پژوهش", "😀 🔧 🧼 🚿 💧 👨‍🔧 🇬🇧", "€ £ $ ¥ ₪ ₽ ₹ §",
    ],
)  # fmt: skip
def test_built_in_fonts_have(text: str) -> None:
    assert "[U+" not in legible(text, BUILT_IN)
