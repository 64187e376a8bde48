"""How alike words sound."""

from __future__ import annotations

import pytest

from fieldnotes.sounds import Sounding, sound_of


@pytest.mark.parametrize(
    ("one", "other"), [("burner", "purner"), ("plug", "block"), ("felt seal", "velt zeal")]
)
def test_sounds_that_noise_makes_alike_are_one(one: str, other: str) -> None:
    assert sound_of(one) == sound_of(other)


@pytest.mark.parametrize(
    ("heard", "name", "other"),
    [
        ("compenser", "compressor", "belt"),
        ("brained pump", "drain pump", "heat pump"),
        ("vector", "victor", "vent"),
    ],
)
def test_misheard_name_is_more_alike_than_another(heard: str, name: str, other: str) -> None:
    likeness = Sounding([name, other]).likeness([heard])

    assert likeness.shape == (1, 2)
    assert 1 > likeness[0, 0] > likeness[0, 1]


def test_name_is_most_like_itself() -> None:
    assert Sounding(["drain pump", "drain hose"]).likeness(["drain pump"]).argmax() == 0
    assert Sounding(["drain pump"]).likeness(["drain pump"]).tolist() == [[1.0]]
