"""The words around a line: its breath, and one that goes right on."""

from __future__ import annotations

import pytest

from fieldnotes.judge.context import said_around
from fieldnotes.records import Evidence, Judgement
from fieldnotes.transcript import Breath, Transcript, Word

from .visits import judged_readings, reading, visit


def spoken(*breaths: tuple[str, float | None]) -> Transcript:
    """Breaths with the time at which each begins; a word lasts 0.25 s."""

    def word(text: str, n: int, start: float | None) -> Word:
        at = None if start is None else start + n * 0.25
        return Word(text=text, start=at, end=None if at is None else at + 0.25)

    return Transcript(
        breaths=tuple(
            Breath(words=tuple(word(text, n, start) for n, text in enumerate(said.split())))
            for said, start in breaths
        ),
        recordings=(),
    )


def evidence(quote: str, start: float | None = None, end: float | None = None) -> Evidence:
    return Evidence(start=start, end=end, quote=quote, confidence=1)


TIMED = spoken(("the freezer reads plus four", 10.0), ("and falling", 12.0), ("the door is fine", 20.0))
UNTIMED = spoken(("the freezer reads plus four, and falling", None), ("the door is fine", None))


@pytest.mark.parametrize(
    ("where", "transcript", "expected"),
    [
        (evidence("plus four", 10.75, 11.25), TIMED, "the freezer reads plus four / and falling"),
        (evidence("door", 20.25, 20.5), TIMED, "the door is fine"),
        (evidence("plus four", None, None), UNTIMED, "the freezer reads plus four, and falling"),
        (evidence("never said", None, None), UNTIMED, "never said"),
        (evidence("plus four", 10.75, 11.25), None, "plus four"),
    ],
    ids=["goes-on", "alone", "by-its-words", "nowhere", "no-transcript"],
)
def test_line_is_seen_in_its_breath(where: Evidence, transcript: Transcript | None, expected: str) -> None:
    assert said_around(where, transcript) == expected


@pytest.mark.parametrize(
    ("said", "judgement"),
    [
        ("freezer reads plus four and falling", "no limit known"),
        ("freezer reads plus four and holding there", "outside"),
    ],
    ids=["falling", "holding"],
)
def test_rest_of_the_breath_can_forbid_a_judgement(said: str, judgement: Judgement) -> None:
    one = reading("freezer temperature", 4, "degF", "freezer reads plus four")
    transcript = spoken((said, None))

    got = judged_readings(visit("freezer", readings=(one,)), transcript)

    assert [r.judgement for r in got] == [judgement]


def test_breath_with_two_readings_grants_neither_its_words() -> None:
    """ "Closed" belongs to one of the two, and nobody can say which."""
    said = "lid switch closed two ohms and door switch twelve ohms"
    pair = (
        reading("lid switch", 2, "ohm", "lid switch closed two ohms"),
        reading("door switch", 12, "ohm", "door switch twelve ohms"),
    )

    got = judged_readings(visit("washer", readings=pair), spoken((said, None)))

    assert [r.judgement for r in got] == ["outside", "no limit known"]


def test_whole_narration_tells_whose_english_it_is() -> None:
    one = visit(None, readings=(reading("supply", 210, "V", "two hundred and ten"),))
    transcript = spoken(("the mains is on and the earth is good", None), ("two hundred and ten", None))

    got = judged_readings(one, transcript)

    assert [r.judgement for r in got] == ["within"]
