"""Cuts fall into the longest pauses."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldnotes.hear.pieces import Stretch, full_slice_end, padded, pieces_of, slice_end


def stretches(*edges: float) -> list[Stretch]:
    return [Stretch(a, b) for a, b in zip(edges[::2], edges[1::2], strict=True)]


@st.composite
def speeches(draw: st.DrawFn) -> tuple[list[Stretch], float]:
    """Speech with pauses, and the length of the sound around it; times are multiples of 1/8 s."""
    at, found = 0.0, []
    for pause, long in draw(st.lists(st.tuples(st.integers(1, 60), st.integers(1, 200)), max_size=40)):
        at += pause / 8
        found.append(Stretch(at, at + long / 8))
        at += long / 8
    return found, at + draw(st.integers(0, 40)) / 8


@given(speeches())
def test_pieces_hold_all_speech_once_in_order(case: tuple[list[Stretch], float]) -> None:
    speech, length = case
    pieces = pieces_of(speech, length)

    assert [stretch for piece in pieces for stretch in piece] == padded(speech, length)
    assert all(sum(s.seconds for s in piece) <= 29.5 for piece in pieces)


@given(speeches())
def test_padding_keeps_stretches_apart_and_inside(case: tuple[list[Stretch], float]) -> None:
    speech, length = case
    edges = [edge for stretch in padded(speech, length) for edge in (stretch.start, stretch.end)]

    assert edges == sorted(edges)
    assert all(0 <= edge <= length for edge in edges)


def test_piece_ends_in_its_longest_late_pause() -> None:
    """The pause of 1 s after 27 s, not the 3 s after 5 s nor the 0.25 s after 29 s."""
    speech = stretches(0, 5, 8, 27, 28, 29, 29.25, 35)

    assert [piece[0].start for piece in pieces_of(speech, 35.0)] == [0.0, 27.6]


@pytest.mark.parametrize(
    ("speech", "length", "expected"),
    [
        pytest.param(
            stretches(0, 28, 30, 58, 60, 70), 80.0, 59.6, id="a short piece is left for the next slice"
        ),
        pytest.param(stretches(0, 28, 30, 58), 63.0, 60.5, id="all pieces are full"),
        pytest.param(stretches(0, 3), 63.0, 63.0, id="a lone short piece is heard"),
        pytest.param([], 63.0, 63.0, id="silence"),
    ],
)
def test_slice_leaves_no_short_piece_over(speech: list[Stretch], length: float, expected: float) -> None:
    assert full_slice_end(speech, length) == pytest.approx(expected)


def test_speech_without_pause_in_reach_is_cut_where_one_is() -> None:
    assert len(pieces_of(stretches(0, 3, 4, 31), 31.0)) == 2


@pytest.mark.parametrize(
    ("speech", "expected"),
    [
        pytest.param([], 300.0, id="silence"),
        pytest.param(stretches(0, 282, 284, 290, 291, 300), 283.0, id="longest late pause"),
        pytest.param(stretches(0, 100, 130, 286, 287, 300), 286.5, id="an early pause does not count"),
        pytest.param(stretches(0, 300), 300.0, id="no pause"),
    ],
)
def test_slice_ends_in_a_late_pause(speech: list[Stretch], expected: float) -> None:
    assert slice_end(speech, 300.0) == expected
