"""Names of the copied recordings."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldnotes.write.file_names import safe_names


@pytest.mark.parametrize(
    ("name", "safe"),
    [
        ("kitchen side.flac", "kitchen side.flac"), ("Küche.m4a", "Küche.m4a"), ("a:b?.wav", "a_b_.wav"),
        ("con.wav", "_con.wav"), ("..hidden.wav", "hidden.wav"), ("-rf.wav", "rf.wav"),
        ("a\nb.wav", "a_b.wav"),
        ("a\u202egpj.wav", "a_gpj.wav"), ("visit.json", "visit-2.json"), ("Report.HTML", "Report-2.HTML"),
        ("x" * 300 + ".flac", "x" * 195 + ".flac"), ("...", "recording"), ("a\udcff.wav", "a_.wav"),
    ],
)  # fmt: skip
def test_name_is_kept_as_far_as_it_is_safe(name: str, safe: str) -> None:
    assert safe_names([name], taken=["visit.json", "report.html"]) == [safe]


def test_same_names_are_told_apart() -> None:
    assert safe_names(["a.wav", "A.wav", "a.wav", "a-2.wav"], taken=[]) == [
        "a.wav",
        "A-2.wav",
        "a-3.wav",
        "a-2-2.wav",
    ]


@given(st.lists(st.text(max_size=300), max_size=4))
def test_names_are_always_usable_and_different(wanted: list[str]) -> None:
    names = safe_names(wanted, taken=["visit.json"])

    assert len({name.casefold() for name in [*names, "visit.json"]}) == len(wanted) + 1
    for name in names:
        assert 0 < len(name.encode()) <= 255
        assert not set(name) & set('/\\:*?"<>|\x00')
        assert name not in {".", ".."}
