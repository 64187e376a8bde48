"""Where the recogniser wrote nothing but commas, a rest is a full stop."""

from __future__ import annotations

from fieldnotes.hear.breaths import breaths_of
from fieldnotes.hear.pieces import Stretch
from fieldnotes.hear.stops import stopped
from fieldnotes.transcript import Word


def said(text: str) -> list[Word]:
    return [Word(text=w, start=float(n), end=n + 0.9) for n, w in enumerate(text.split())]


def texts(words: list[Word]) -> str:
    return " ".join(word.text for word in words)


def test_comma_at_a_rest_becomes_a_stop_in_an_endless_list() -> None:
    words = said("pump winding, 16.2 ohms, normal, pump harness to the board, half an ohm, good,")

    assert texts(stopped(words, {4: 0.5, 10: 0.5})) == (
        "pump winding, 16.2 ohms, normal. pump harness to the board, half an ohm, good,"
    )


def test_commas_stay_where_the_recogniser_writes_stops() -> None:
    words = said("When I push the tub, it settles. The belt, which is new, is fine.")

    assert stopped(words, {4: 0.9, 8: 0.9}) == words


def test_few_stops_need_a_long_rest() -> None:
    """One stop in 22 words: too many for a short rest to be one, too few for a long one to be none."""
    words = said(
        "the tank is dry. water pressure, 68, strike that, the gauge was climbing, 74 psi, eighty is the most that you"
        " would want, I think"
    )
    long, short = stopped(words, {14: 0.8}), stopped(words, {14: 0.5})

    assert (texts(long[13:16]), texts(short[13:16])) == ("74 psi. eighty", "74 psi, eighty")


def test_other_words_at_a_rest_stay_as_they_are() -> None:
    words = said("pump winding 16.2 ohms normal")

    assert stopped(words, {3: 0.5}) == words


def test_breaths_of_an_endless_list_end_in_stops() -> None:
    words = said("lid lock, holds, belt, fine,")

    breaths = breaths_of(words, [Stretch(0.0, 2.4), Stretch(2.95, 4.9)])

    assert [texts(list(b.words)) for b in breaths] == ["lid lock, holds.", "belt, fine,"]
