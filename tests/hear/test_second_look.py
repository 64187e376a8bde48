"""Which names take the place of what was heard. No recogniser: how probable each text is, is written down here."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from fieldnotes.hear.second_look import Text, looked_at_again, replaced
from fieldnotes.hear.terms import Terms

NAMES = Terms(names=("compressor", "condenser", "drain pump", "heater coil", "belt", "plug"))
UNSURE, SURE = -2.0, -0.05  # log-probability of a word


def settled(heard: str, unsure: str, gains: dict[str, float]) -> str:
    """The text after a second look. A name is by its gain likelier than what it takes the place of."""
    words = heard.split()
    scores = [[UNSURE if word.strip(".,") in unsure.split() else SURE] for word in words]

    def judge(texts: Sequence[Text]) -> list[list[list[float]]]:
        told = []
        for text in texts:
            gain = sum(by for name, by in gains.items() if name in " ".join(text).lower())
            new = [word for word in text if word not in words]
            told.append([[(UNSURE + gain) / len(new)] if word in new else [SURE] for word in text])
        return told

    return " ".join(replaced(words, looked_at_again(words, scores, NAMES, judge)))


@pytest.mark.parametrize(
    ("heard", "unsure", "gains", "after"),
    [
        pytest.param(
            "Compenser is running.", "Compenser", {"compressor": 1.0, "condenser": -8.0}, "Compressor is running.",
            id="the name that fits the sound best, with the capital",
        ),
        pytest.param("brained pump.", "brained", {"drain pump": -2.0}, "drain pump.", id="with the stop"),
        pytest.param("the brained pump.", "brained", {"drain pump": -20.0}, "the brained pump.", id="sound says no"),
        pytest.param("the brained pump.", "", {"drain pump": 2.0}, "the brained pump.", id="was sure"),
        pytest.param("the drain pump.", "drain pump", {"drain pump": 5.0}, "the drain pump.", id="a name already"),
        pytest.param("it did melt.", "melt", {"belt": -3.0}, "it did melt.", id="a short name needs more"),
        pytest.param("heater 5.", "5", {"heater coil": 5.0}, "heater 5.", id="digits are left alone"),
        pytest.param("a drain. Pump it.", "drain Pump", {"drain pump": 5.0}, "a drain. Pump it.", id="across a stop"),
    ],
)  # fmt: skip
def test_second_look(heard: str, unsure: str, gains: dict[str, float], after: str) -> None:
    assert settled(heard, unsure, gains) == after


def test_terms_are_told_apart_by_all_they_hold() -> None:
    both = {Terms("a").digest, Terms("a", ("b",)).digest, Terms("", ("a", "b")).digest}

    assert len(both) == 3
