"""Phrases in texts: whole words, plurals, contractions."""

from __future__ import annotations

import pytest

from fieldnotes.judge.words import ends_with, is_just, quotes_of, says
from fieldnotes.records import Appliance, Verdict

from .visits import item, reading, said, visit


@pytest.mark.parametrize(
    ("text", "phrase", "expected"),
    [
        ("Thermal fuses, point two.", "thermal fuse", True),
        ("the plug's out", "plug (is)? out", True),
        ("I pulled the main cover", "mains", False),
        ("mains tap shut", "mains", True),
        ("point eight", "power point", False),
        ("outlets", "let", False),
        ("Leg one to neutral", "leg (one|two) to (neutral|ground)", True),
        ("", "fuse", False),
    ],
    ids=[
        "plural",
        "contraction",
        "no-false-plural",
        "plural-listed",
        "half",
        "inside-a-word",
        "group",
        "empty",
    ],
)
def test_phrase_is_said_as_whole_words(text: str, phrase: str, expected: bool) -> None:
    assert says(text, [phrase]) is expected


def test_about_that_is_only_a_quantity_is_vague() -> None:
    assert [is_just(text, ["temperature"]) for text in ("Temperature", "oven temperature", "")] == [
        True,
        False,
        True,
    ]


def test_last_word_tells_the_quantity() -> None:
    assert [ends_with(text, ["pressure"]) for text in ("back pressure", "pressure switch")] == [True, False]


def test_quotes_are_gathered_from_every_line() -> None:
    one = visit(
        complaints=(item("leak", "it leaks"),),
        readings=(reading("pump", 14, "ohm", "pump fourteen"),),
        safety=(item("unplugged", "unplugged it"),),
        verdict=Verdict(finding="fault found", evidence=said("found it")),
    ).model_copy(update={"appliance": Appliance(evidence={"kind": said("the dishwasher")})})

    assert list(quotes_of(one)) == ["the dishwasher", "it leaks", "pump fourteen", "unplugged it", "found it"]
