"""A turn in another language is found where it begins and ends; accents, noise and short words are no language."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from fieldnotes.hear.languages import Foreign, foreign_turns, told, without
from fieldnotes.hear.pieces import Piece, Stretch, pieces_of

Said = list[tuple[str, float]]  # what each stretch is, and its seconds
KINDS: Mapping[str, Mapping[str, float]] = {
    "en": {"en": 0.995, "cy": 0.005},
    "es": {"en": 0.005, "es": 0.9, "la": 0.095},
    "de": {"en": 0.01, "de": 0.97, "nl": 0.02},
    "German in noise": {"en": 0.25, "de": 0.6, "nl": 0.15},
    "accent": {"en": 0.3, "cy": 0.6, "nl": 0.1},
    "noise": {"en": 0.02, "zh": 0.2, "ja": 0.2, "ko": 0.2, "nn": 0.38},
    "dead": {"en": 0.01, "la": 0.98, "it": 0.01},
}


class Room:
    """Speech of known languages, half a second of pause between stretches."""

    def __init__(self, said: Said) -> None:
        self.said: dict[float, str] = {}
        self.speech, at = [], 0.5
        for kind, seconds in said:
            self.speech.append(Stretch(at, at + seconds))
            self.said[at] = kind
            at += seconds + 0.5
        self.length_s = at
        self.looked_at = 0.0  # seconds that were looked at closer

    def kind(self, stretch: Stretch) -> str:
        """What a stretch is; pieces carry them with some of the pauses around."""
        return next(kind for start, kind in self.said.items() if stretch.start <= start < stretch.end)

    def share(self, piece: Piece) -> dict[str, float]:
        """As the model does, roughly: each language by how much of it there is."""
        whole: dict[str, float] = {}
        for stretch in piece:
            for code, much in KINDS[self.kind(stretch)].items():
                whole[code] = whole.get(code, 0.0) + much * stretch.seconds
        return {code: much / sum(whole.values()) for code, much in whole.items()}

    def likely(self, piece: Piece) -> Mapping[str, float]:
        self.looked_at += sum(stretch.seconds for stretch in piece)
        return self.share(piece)

    def turns(self) -> list[Foreign]:
        pieces = pieces_of(self.speech, self.length_s)
        return foreign_turns([(piece, self.share(piece)["en"]) for piece in pieces], self.likely)


# id: what is said, and the first and last stretch and the language of each turn
CASES: dict[str, tuple[Said, list[tuple[int, int, str]]]] = {
    "English": ([("en", 4.0)] * 20, []),
    "half a minute of Spanish": ([("en", 4.0)] * 6 + [("es", 5.0)] * 6 + [("en", 4.0)] * 6, [(6, 11, "es")]),
    "Spanish first": ([("es", 5.0)] * 3 + [("en", 4.0)] * 6, [(0, 2, "es")]),
    "Spanish last": ([("en", 4.0)] * 6 + [("es", 3.0)] * 4, [(6, 9, "es")]),
    "all in German": ([("de", 4.0)] * 20, [(0, 19, "de")]),
    "short sentences of both": ([("en", 2.0)] * 9 + [("es", 2.0)] * 8 + [("en", 2.0)] * 9, [(9, 16, "es")]),
    "two customers": (
        [("en", 4.0)] * 6 + [("es", 6.0)] * 2 + [("en", 4.0)] * 6 + [("de", 6.0)] * 2 + [("en", 4.0)] * 3,
        [(6, 7, "es"), (14, 15, "de")],
    ),
    "German that a machine comes into": (
        [("en", 4.0)] * 6 + [("de", 5.0)] * 2 + [("German in noise", 5.0)] * 3 + [("en", 4.0)] * 6,
        [(6, 10, "de")],
    ),
    "short words inside a turn": (
        [("en", 4.0)] * 6
        + [("es", 5.0), ("es", 0.5), ("es", 2.0), ("es", 0.4), ("es", 3.0)]
        + [("en", 4.0)] * 6,
        [(6, 10, "es")],
    ),
    "a foreign word": ([("en", 4.0)] * 5 + [("es", 1.5)] + [("en", 4.0)] * 5, []),
    "accent": ([("accent", 4.0)] * 20, []),
    "noise": ([("noise", 4.0)] * 20, []),
    "what nobody speaks at home": ([("dead", 4.0)] * 20, []),
    "too short to tell": ([("es", 3.0)], []),
    "no speech": ([], []),
}


@pytest.mark.parametrize(("said", "expected"), CASES.values(), ids=CASES.keys())
def test_foreign_turns_are_found_from_stretch_to_stretch(
    said: Said, expected: list[tuple[int, int, str]]
) -> None:
    room = Room(said)
    sounds = [stretch for piece in pieces_of(room.speech, room.length_s) for stretch in piece]

    assert room.turns() == [
        Foreign(start=sounds[a].start, end=sounds[b].end, language=code) for a, b, code in expected
    ]


def test_clear_english_is_not_looked_at_closer() -> None:
    room = Room([("en", 4.0)] * 50)

    assert (room.turns(), room.looked_at) == ([], 0.0)


def test_only_pieces_near_foreign_speech_cost_time() -> None:
    room = Room([("en", 4.0)] * 100 + [("es", 5.0)] * 6 + [("en", 4.0)] * 100)

    assert len(room.turns()) == 1
    assert room.looked_at < 4 * 28 * 1.5


def test_model_that_knows_english_only_calls_nothing_foreign() -> None:
    pieces = pieces_of([Stretch(0.0, 20.0)], 20.0)

    assert foreign_turns([(piece, None) for piece in pieces], lambda piece: pytest.fail("was asked")) == []


def test_rest_of_a_piece_is_what_lies_outside_the_turns() -> None:
    piece = (Stretch(0, 4), Stretch(4, 8), Stretch(8, 12))

    assert without(piece, [Foreign(start=4, end=8, language="es")]) == (piece[0], piece[2])
    assert without(piece, []) == piece
    assert without(piece, [Foreign(start=0, end=20, language="es")]) == ()


@pytest.mark.parametrize(
    ("turns", "sentences"),
    [
        pytest.param([], [], id="none"),
        pytest.param(
            [(62.2, 90.7, "es")],
            ["from 62 s to 91 s the speech seems to be Spanish; it was left out"],
            id="one",
        ),
        pytest.param(
            [(62, 91, "es"), (95, 110, "es"), (300, 310, "de"), (400, 420, "es")],
            [
                "from 62 s to 110 s and from 400 s to 420 s the speech seems to be Spanish; it was left out",
                "from 300 s to 310 s the speech seems to be German; it was left out",
            ],
            id="joined over a short pause, one sentence a language",
        ),
    ],
)
def test_turns_are_told_with_their_times(turns: list[tuple[float, float, str]], sentences: list[str]) -> None:
    assert told([Foreign(start=a, end=b, language=code) for a, b, code in turns]) == sentences


def test_piece_that_is_foreign_as_a_whole_counts_as_one_window() -> None:
    """Noise blurs its parts, as measured: each looks half English, all together do not."""
    pieces = [(Stretch(0.0, 6.0), Stretch(6.5, 13.0)), (Stretch(14.0, 20.0), Stretch(20.5, 26.0))]
    clear, blurred = {"en": 0.01, "de": 0.97}, {"en": 0.4, "de": 0.3, "lv": 0.3}

    def likely(piece: Piece) -> Mapping[str, float]:
        if piece[0].start < 14:
            return KINDS["en"]
        return clear if len(piece) == 2 else blurred

    turns = foreign_turns([(pieces[0], 0.99), (pieces[1], 0.01)], likely)

    assert turns == [Foreign(start=14.0, end=26.0, language="de")]
