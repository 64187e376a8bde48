"""WebVTT parts of a visit. Sources: W3C WebVTT, sections 4 and 6; the independent parser webvtt-py."""

from __future__ import annotations

from pathlib import Path

import pytest
import webvtt
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fieldnotes.errors import RecordingError
from fieldnotes.hear import hear
from fieldnotes.hear.captions import read_captions
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.write.captions import webvtt as written

HERE = Path("kitchen.vtt")


def said(text: str) -> list[tuple[str, float | None, float | None]]:
    """All words with their times."""
    return [(w.text, w.start, w.end) for breath in read_captions(HERE, text)[0] for w in breath.words]


# a cue of 5 s whose text has 10 characters: two characters a second
CASES = {
    "words share the cue by characters": (
        "WEBVTT\n\n00:01.000 --> 00:06.000\nfour fives\n",
        [("four", 1.0, 3.0), ("fives", 3.5, 6.0)],
    ),
    "hours": ("WEBVTT\n\n01:00:01.000 --> 01:00:02.000\nhot\n", [("hot", 3601.0, 3602.0)]),
    "three-digit hours": ("WEBVTT\n\n100:00:01.000 --> 100:00:02.000\nhot\n", [("hot", 360001.0, 360002.0)]),
    "settings after the times": (
        "WEBVTT\n\n00:01.000 --> 00:02.000 align:start line:0%\nhot\n",
        [("hot", 1, 2)],
    ),
    "identifier": ("WEBVTT\n\nsecond - 7\n00:01.000 --> 00:02.000\nhot\n", [("hot", 1.0, 2.0)]),
    "text after the head": (
        "WEBVTT - visit 12\nKind: captions\n\n00:01.000 --> 00:02.000\nhot\n",
        [("hot", 1.0, 2.0)],
    ),
    "carriage returns": ("WEBVTT\r\n\r\n00:01.000 --> 00:02.000\r\nhot\r\n", [("hot", 1.0, 2.0)]),
    "note, style and region": (
        "WEBVTT\n\nSTYLE\n::cue { color: red }\n\nREGION\nid:a\n\nNOTE not said"
        "\n\n00:01.000 --> 00:02.000\nhot\n",
        [("hot", 1.0, 2.0)],
    ),
    "voice and class spans": (
        "WEBVTT\n\n00:01.000 --> 00:02.000\n<v.loud The Technician><c.red>h<b>o</b>t</c></v>\n",
        [("hot", 1.0, 2.0)],
    ),
    "entities": (
        "WEBVTT\n\n00:01.000 --> 00:02.000\n&lt;5&nbsp;&amp;&#x3A9;\n",
        [("<5", 1.0, 1.4), ("&Ω", 1.6, 2.0)],
    ),
    "no blank line before a timing": (
        "WEBVTT\n\n00:01.000 --> 00:02.000\nhot\n00:03.000 --> 00:04.000\ncold\n",
        [("hot", 1.0, 2.0), ("cold", 3.0, 4.0)],
    ),
    "inline time stamps": (
        "WEBVTT\n\n00:00.000 --> 00:09.000\nit <00:02.000>is <00:08.000><c>hot</c>\n",
        [("it", 0.0, 1.333), ("is", 2.0, 6.0), ("hot", 8.0, 9.0)],
    ),
    "inline time stamp outside the cue": (
        "WEBVTT\n\n00:00.000 --> 00:03.000\n<00:07.000>hot\n",
        [("hot", 0.0, 3.0)],
    ),
    "cues out of order": (
        "WEBVTT\n\n00:03.000 --> 00:04.000\ncold\n\n00:01.000 --> 00:02.000\nhot\n",
        [("hot", 1.0, 2.0), ("cold", 3.0, 4.0)],
    ),
    "empty cue": ("WEBVTT\n\n00:01.000 --> 00:02.000\n\n00:03.000 --> 00:04.000\nhot\n", [("hot", 3.0, 4.0)]),
}


@pytest.mark.parametrize(("text", "expected"), CASES.values(), ids=CASES.keys())
def test_words_and_times_of_cues(text: str, expected: list[tuple[str, float, float]]) -> None:
    assert said(text) == expected


MISTAKES = {
    "no head": ("00:01.000 --> 00:02.000\nhot\n", "line 1: is no WebVTT file"),
    "head runs on": ("WEBVTTX\n\n", "line 1: is no WebVTT file"),
    "comma for the point": ("WEBVTT\n\n00:01,000 --> 00:02,000\nhot\n", "line 3: .* is no cue timing"),
    "sixty seconds": ("WEBVTT\n\n00:60.000 --> 01:02.000\nhot\n", "line 3: .* is no cue timing"),
    "backwards": ("WEBVTT\n\nx\n00:05.000 --> 00:02.000\nhot\n", "line 4: the cue ends before it starts"),
}


@pytest.mark.parametrize(("text", "message"), MISTAKES.values(), ids=MISTAKES.keys())
def test_mistakes_are_told_with_file_and_line(text: str, message: str) -> None:
    with pytest.raises(RecordingError, match=rf"^kitchen\.vtt, {message}"):
        read_captions(HERE, text)


_WORD = st.text(st.characters(codec="utf-8", categories=("L", "N"), include_characters="'.,?-°%"), min_size=1)
_CUE = st.tuples(st.integers(0, 400_000_000), st.integers(1, 60_000), st.lists(_WORD, min_size=1, max_size=8))


def _stamp(thousandths: int) -> str:
    seconds, rest = divmod(thousandths, 1000)
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}.{rest:03d}"


def _stamped(text: str) -> float:
    hours, minutes, seconds = text.split(":")
    return round(int(hours) * 3600 + int(minutes) * 60 + float(seconds), 3)


@given(st.lists(_CUE, min_size=1, max_size=6))
@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_webvtt_py_reads_the_same_cues(cues: list[tuple[int, int, list[str]]]) -> None:
    cues = sorted(cue for cue in cues if "-->" not in " ".join(cue[2]))
    text = "WEBVTT\n\n" + "\n\n".join(
        f"{_stamp(start)} --> {_stamp(start + long)}\n<v Someone>{' '.join(words)}"
        for start, long, words in cues
    )
    theirs = [
        (_stamped(cue.start), _stamped(cue.end), cue.text.split())
        for cue in webvtt.from_string(text).captions
    ]
    breaths, length = read_captions(HERE, text)

    assert [(b.words[0].start, b.words[-1].end, [w.text for w in b.words]) for b in breaths] == theirs
    assert length == pytest.approx(max((s + long for s, long, _ in cues), default=0) / 1000)


@given(
    st.lists(st.tuples(st.integers(0, 9), st.lists(_WORD, min_size=1, max_size=5)), min_size=1, max_size=6)
)
def test_word_times_rise_within_their_cue(cues: list[tuple[int, list[str]]]) -> None:
    text = "WEBVTT\n\n" + "\n\n".join(
        f"{_stamp(1000)} --> {_stamp(9000)}\n{words[0]} <{_stamp(at * 1000)}>{' '.join(words)}"
        for at, words in cues
    )
    for breath in read_captions(HERE, text)[0]:
        times = [t for word in breath.words for t in (word.start or 0.0, word.end or 0.0)]

        assert times == sorted(times)
        assert (times[0], times[-1]) == (1.0, 9.0)


def test_own_transcript_reads_back(tmp_path: Path) -> None:
    breaths = (
        Breath(words=(Word(text="Under", start=4.0, end=4.4), Word(text="5 < 6 & 7.", start=4.5, end=5.25))),
        Breath(words=(Word(text="Good.", start=3700.5, end=3701.0),)),
    )
    path = tmp_path / "transcript.vtt"
    path.write_text(written(Transcript(breaths=breaths, recordings=())), encoding="utf-8")

    got = hear([path])

    assert [" ".join(w.text for w in b.words) for b in got.breaths] == ["Under 5 < 6 & 7.", "Good."]
    assert [(b.words[0].start, b.words[-1].end) for b in got.breaths] == [(4.0, 5.25), (3700.5, 3701.0)]
    assert got.recordings[0].seconds == 3701.0
