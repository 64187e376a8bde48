"""The whole stage: its speed, and that it reads nothing but the transcript and the measures."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from fieldnotes.errors import VocabularyError
from fieldnotes.places import data_folder
from fieldnotes.tidy import tidy
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.measures import Units, load_measures
from fieldnotes.vocabulary.yaml_file import load_yaml
from tests.tidy.speech import MEASURES, transcript

VISIT = (
    "Outlet, leg to leg, two forty one point six volts. | Model P X W, five oh four two, W. | I checked the "
    "belt and it looks all right to me. | Pump, a hundred and sixty, sorry, a hundred and sixty two ohms. | "
)


def test_long_visit_is_tidied_in_a_fifth_of_a_second() -> None:
    """4,500 words, half an hour's speech, in processor time; the best of three, for the machine may be busy."""
    visit = transcript(VISIT * (4500 // len(VISIT.replace("|", "").split())))
    seconds = []
    for _ in range(3):
        start = time.process_time()
        tidy(visit, MEASURES)
        seconds.append(time.process_time() - start)

    assert min(seconds) < 0.2


def test_empty_transcript_gives_empty_text() -> None:
    text = tidy(Transcript(breaths=(), recordings=()), MEASURES)

    assert (text.tokens, text.quantities, text.spelled, text.breaths) == ((), (), (), ())


@pytest.mark.parametrize(
    ("change", "complaint"),
    [
        (("said: [watt, watts]", "said: [Watt, watts]"), "has a capital letter"),
        (("said: [watt, watts]", "said: [watt, volts]"), "stand for two units"),
        (("unit: rpm,", "unit: rpms,"), 'Did you mean "rpm"'),
        (("metric:", "imperial:"), "unknown key 'imperial'"),
    ],
    ids=["capital", "word twice", "unknown unit", "unknown key"],
)
def test_mistake_in_the_units_file_is_reported(
    tmp_path: Path, change: tuple[str, str], complaint: str
) -> None:
    file = tmp_path / "units.yaml"
    file.write_text((data_folder("vocab") / "units.yaml").read_text("utf-8").replace(*change), "utf-8")

    with pytest.raises(VocabularyError, match=complaint):
        load_yaml(file, Units)


def test_measures_are_read_once() -> None:
    assert load_measures(data_folder("vocab")) is MEASURES
