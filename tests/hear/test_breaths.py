"""Breaths begin and end at the voice's pauses."""

from __future__ import annotations

from fieldnotes.hear.breaths import breaths_of, moved
from fieldnotes.hear.pieces import Stretch
from fieldnotes.transcript import Breath, Word


def word(text: str, start: float, end: float) -> Word:
    return Word(text=text, start=start, end=end, confidence=0.8)


def test_words_that_reach_out_of_speech_are_cut_off() -> None:
    speech = [Stretch(0.0, 2.0), Stretch(3.0, 4.0)]
    heard = [
        word("fourteen", 0.0, 1.0),
        word("ohms", 1.0, 2.6),
        word("that's", 2.6, 3.5),
        word("good", 3.5, 4.2),
    ]

    assert breaths_of(heard, speech, 100.0) == [
        Breath(words=(word("fourteen", 100.0, 101.0), word("ohms", 101.0, 102.0))),
        Breath(words=(word("that's", 103.0, 103.5), word("good", 103.5, 104.0))),
    ]


def test_short_rest_does_not_end_a_breath() -> None:
    speech = [Stretch(0.0, 2.0), Stretch(2.3, 4.0)]

    assert len(breaths_of([word("a", 0.0, 2.0), word("b", 2.3, 4.0)], speech)) == 1


def test_short_rest_behind_a_full_stop_ends_a_breath() -> None:
    speech = [Stretch(0.0, 2.0), Stretch(2.3, 4.0)]
    heard = [word("It's", 0.0, 1.0), word("tight.", 1.0, 2.0), word("Next.", 2.3, 4.0)]

    assert [len(breath.words) for breath in breaths_of(heard, speech)] == [2, 1]


def test_long_breath_ends_at_a_full_stop() -> None:
    said = [*["on"] * 24, "on.", *["and"] * 9, "on."]
    heard = [word(text, n / 4, (n + 1) / 4) for n, text in enumerate(said)]

    assert [len(b.words) for b in breaths_of(heard, [Stretch(0.0, 9.0)])] == [25, 10]


def test_no_words_give_no_breath() -> None:
    assert breaths_of([], [Stretch(0.0, 1.0)]) == []


def test_words_without_times_stay_so_when_moved() -> None:
    breath = Breath(words=(Word(text="plain"),))

    assert moved(breath, 60.0, 2) == Breath(words=(Word(text="plain"),), part=2)
