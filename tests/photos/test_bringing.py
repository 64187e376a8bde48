"""From a folder of pictures to the record's photographs: which line each belongs to, and what is told."""

from __future__ import annotations

import hashlib
import json
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from fieldnotes.errors import FieldnotesError
from fieldnotes.photos import Brought, bring
from fieldnotes.records import Appliance, Check, Evidence, Item, MadeWith, Photo, Visit, Work
from fieldnotes.transcript import Breath, Recording, Transcript, Word
from fieldnotes.vocabulary.load import load_vocabulary
from fieldnotes.wall_clock import Started, WallClock, WallTime
from fieldnotes.write.schema import visit_json, visit_schema

from .made import png_of_size, taken_at, tiles, write

START = datetime(2026, 3, 2, 14, 0, 0)
RECORDING = Recording(file="visit.m4a", sha256="0" * 64, seconds=900.0)


def said(start: float, end: float, quote: str) -> Evidence:
    return Evidence(start=start, end=end, quote=quote, confidence=0.9)


VISIT = Visit(
    appliance=Appliance(
        kind="dishwasher", model="BK614", evidence={"model": said(20.0, 24.0, "model B K six one four")}
    ),
    complaints=(Item(about="standing water", text="", evidence=said(5.0, 9.0, "leaves water in the bottom")),),
    checks=(
        Check(about="drain pump", text="", outcome="fault", evidence=said(100.0, 104.0, "drain pump is jammed")),
        Check(about="drain hose", text="", outcome="good", evidence=said(300.0, 304.0, "drain hose is clear")),
        Check(about="door seal", text="", outcome="good", evidence=said(330.0, 333.0, "door seal's good")),
    ),
    work=(
        Work(about="drain pump", text="", action="replaced", evidence=said(600.0, 604.0, "fitted a new drain pump")),
    ),
    recording=(RECORDING,),
    made_with=MadeWith(program="fieldnotes 0", vocabulary="0"),
)  # fmt: skip


def transcript(*breaths: tuple[float, str]) -> Transcript:
    """Breaths at their times, two words a second."""
    made = [
        Breath(
            words=tuple(
                Word(text=text, start=at + n / 2, end=at + n / 2 + 0.5, confidence=0.9)
                for n, text in enumerate(words.split())
            )
        )
        for at, words in breaths
    ]
    return Transcript(breaths=tuple(made), recordings=(RECORDING,))


def snap(folder: Path, name: str, second: float, start: datetime = START) -> None:
    """A picture taken at a second of the visit, by a clock that is right."""
    time = start + timedelta(seconds=second)
    write(folder / name, tiles("A"), taken_at(time.strftime("%Y:%m:%d %H:%M:%S")))


def brought(
    folder: Path,
    words: Transcript | None = None,
    start: datetime | None = START,
    offset_s: float | None = None,
    visit: Visit = VISIT,
) -> Brought:
    clock = WallClock.of([RECORDING], [Started(WallTime(start), "its name") if start else None])
    return bring(folder, visit, words or transcript(), load_vocabulary(), clock, offset_s)


def places(found: Brought) -> list[tuple[str, float | None, str | None, int | None]]:
    return [(photo.taken_from, photo.at, photo.section, photo.index) for photo in found.photos]


def test_photographs_stand_in_order_of_time_with_all_that_is_known(tmp_path: Path) -> None:
    snap(tmp_path, "z.jpg", 106)
    snap(tmp_path, "b.jpg", 305)
    write(tmp_path / "a.png", tiles("AB"))
    before = {path.name: (path.read_bytes(), path.stat().st_mtime_ns) for path in tmp_path.iterdir()}

    found = brought(tmp_path)

    sums = [hashlib.sha256(found.files[f"photo-0{n}.jpg"]).hexdigest() for n in (1, 2, 3)]
    side = {"width": 32, "height": 32}
    assert found.photos == (
        Photo(file="photo-01.jpg", taken_from="z.jpg", sha256=sums[0], taken="2026-03-02T14:01:46", at=106.0,
              section="checks", index=0, **side),
        Photo(file="photo-02.jpg", taken_from="b.jpg", sha256=sums[1], taken="2026-03-02T14:05:05", at=305.0,
              section="checks", index=1, **side),
        Photo(file="photo-03.jpg", taken_from="a.png", sha256=sums[2], width=64, height=32),
    )  # fmt: skip
    assert list(found.files) == ["photo-01.jpg", "photo-02.jpg", "photo-03.jpg"]
    assert found.notices == ("a.png: holds no time at which it was taken; it stands at the end",)
    assert {path.name: (path.read_bytes(), path.stat().st_mtime_ns) for path in tmp_path.iterdir()} == before


@pytest.mark.parametrize(
    ("second", "place"),
    [
        (85, ("checks", 0)),  # 15 s before the words
        (275, (None, None)),  # 25 s before
        (102, ("checks", 0)),
        (163, ("checks", 0)),  # 59 s after
        (165, (None, None)),  # 61 s after
        (318, ("checks", 2)),  # 14 s after one, 12 s before the next
        (316, ("checks", 1)),
        (22, ("appliance", None)),
        (7, ("complaints", 0)),
        (602, ("work", 0)),
        (899, (None, None)),
    ],
    ids=str,
)
def test_picture_belongs_to_the_line_nearest_in_time(
    tmp_path: Path, second: int, place: tuple[str | None, int | None]
) -> None:
    snap(tmp_path, "p.jpg", second)

    (photo,) = brought(tmp_path).photos

    assert (photo.at, photo.section, photo.index) == (second, *place)


@pytest.mark.parametrize(
    ("words", "second", "place"),
    [
        ("taking a picture of the drain hose", 331, ("checks", 1)),  # though the seal is what is talked of
        ("taking a picture of the door seal", 305, ("checks", 2)),
        ("taking a picture of the rating plate", 331, ("appliance", None)),
        ("photo now", 331, ("checks", 2)),
        ("taking a picture of the inlet valve", 331, (None, None)),  # of which no line tells
        ("taking a picture of the drain pump", 500, ("work", 0)),  # the nearer of two
        ("I'll send you a picture of the drain hose", 331, ("checks", 2)),
    ],
    ids=["hose", "seal", "plate", "nothing named", "thing without line", "two lines", "no cue"],
)
def test_thing_that_was_named_wins(
    tmp_path: Path, words: str, second: int, place: tuple[str | None, int | None]
) -> None:
    snap(tmp_path, "p.jpg", second)
    found = brought(tmp_path, transcript((second - 4, words)))

    assert [(photo.section, photo.index) for photo in found.photos] == [place]
    assert found.notices == ()


def test_cue_is_for_several_pictures_until_another_line_is_nearer(tmp_path: Path) -> None:
    words = transcript((310, "taking a few photos of the drain pump"))
    for second in (314, 320, 324, 332):
        snap(tmp_path, f"{second}.jpg", second)

    assert [
        (photo.at, photo.section, photo.index, photo.cue is not None)
        for photo in brought(tmp_path, words).photos
    ] == [
        (314.0, "checks", 0, True),
        (320.0, "checks", 0, True),
        (324.0, "checks", 2, False),
        (332.0, "checks", 2, False),
    ]


def test_words_of_the_cue_stand_with_the_picture(tmp_path: Path) -> None:
    snap(tmp_path, "p.jpg", 331)

    (photo,) = brought(tmp_path, transcript((328, "Okay, taking a picture of the drain hose."))).photos

    assert photo.cue == Evidence(
        start=328.5, end=332.0, quote="taking a picture of the drain hose.", confidence=0.9
    )


def test_clock_that_is_off_is_set_by_what_was_said(tmp_path: Path) -> None:
    words = transcript(
        (100, "taking a picture of the drain pump"), (300, "taking a picture of the drain hose")
    )
    snap(tmp_path, "a.jpg", 105 - 3600)
    snap(tmp_path, "b.jpg", 305 - 3600)
    snap(tmp_path, "c.jpg", 335 - 3600)

    found = brought(tmp_path, words)

    assert [(photo.section, photo.index) for photo in found.photos] == [
        ("checks", 0),
        ("checks", 1),
        ("checks", 2),
    ]
    (notice,) = found.notices
    assert notice.startswith(
        "photographs: the camera's clock is taken to be 59 min 58 s slow, by 2 times at which"
    )
    assert found.photos[0].taken == "2026-03-02T13:01:45"  # as the camera showed it


def test_given_offset_is_taken_as_it_is(tmp_path: Path) -> None:
    words = transcript(
        (100, "taking a picture of the drain pump"), (300, "taking a picture of the drain hose")
    )
    snap(tmp_path, "a.jpg", 105 - 3600)
    snap(tmp_path, "b.jpg", 305 - 3600)

    assert places(brought(tmp_path, words, offset_s=3600 + 500)) == [
        ("a.jpg", 605.0, "work", 0),
        ("b.jpg", 805.0, None, None),
    ]


def test_pictures_of_another_day_stand_at_the_end_and_are_told(tmp_path: Path) -> None:
    snap(tmp_path, "a.jpg", 105)
    snap(tmp_path, "old.jpg", -86_400)

    found = brought(tmp_path)

    assert places(found) == [("old.jpg", None, None, None), ("a.jpg", 105.0, "checks", 0)]
    assert found.notices == ("photographs: 1 of 2 taken while nothing was recorded; they stand at the end",)


def test_unknown_start_is_told_and_spoken_words_can_stand_in_for_it(tmp_path: Path) -> None:
    words = transcript(
        (100, "taking a picture of the drain pump"), (300, "taking a picture of the drain hose")
    )
    snap(tmp_path, "a.jpg", 105)
    snap(tmp_path, "b.jpg", 305)

    without, with_words = brought(tmp_path, start=None), brought(tmp_path, words, start=None)

    assert [photo.section for photo in without.photos] == [None, None]
    assert without.notices == (
        "photographs: when the recording started is not known, so all stand at the end; give --started",
    )
    assert [(photo.section, photo.index) for photo in with_words.photos] == [("checks", 0), ("checks", 1)]
    assert with_words.notices == (
        "photographs: placed by 2 times at which one was spoken of, as it is not known when the recording started",
    )


def test_what_cannot_be_read_leaves_the_others_whole(tmp_path: Path) -> None:
    snap(tmp_path, "a.jpg", 105)
    (tmp_path / "notes.txt").write_text("x")
    (tmp_path / "short.png").write_bytes(png_of_size(100, 100))

    found = brought(tmp_path)

    assert places(found) == [("a.jpg", 105.0, "checks", 0)]
    assert found.notices == (
        "notes.txt: is no picture that can be read here; save it as JPEG if it is one",
        "short.png: is damaged or cut off; take it off the camera again",
    )


def test_more_than_99_pictures_still_sort_by_name(tmp_path: Path) -> None:
    for n in range(101):
        snap(tmp_path, f"{n}.jpg", n)

    found = brought(tmp_path)

    assert sorted(found.files) == [photo.file for photo in found.photos]
    assert found.photos[100].file == "photo-101.jpg"


def test_record_with_photographs_keeps_to_the_schema(tmp_path: Path) -> None:
    snap(tmp_path, "a.jpg", 105)
    write(tmp_path / "b.png", tiles("A"))
    words = transcript((103, "taking a picture of the drain pump"))
    visit = VISIT.model_copy(update={"photos": brought(tmp_path, words).photos})

    text = visit_json(visit)

    assert list(Draft202012Validator(visit_schema()).iter_errors(json.loads(text))) == []
    assert Visit.model_validate_json(text) == visit


def test_missing_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FieldnotesError, match="is not there"):
        brought(tmp_path / "gone")


def test_same_folder_gives_the_same_photographs(tmp_path: Path) -> None:
    snap(tmp_path, "a.jpg", 105)
    snap(tmp_path, "b.jpg", 105)  # of the same second: by name

    assert brought(tmp_path) == brought(tmp_path)
    assert [photo.taken_from for photo in brought(tmp_path).photos] == ["a.jpg", "b.jpg"]


@settings(max_examples=25, deadline=None)
@given(seconds=st.lists(st.integers(-60, 960), max_size=4, unique=True), moved=st.integers(-(10**7), 10**8))
def test_moving_start_and_pictures_alike_changes_nothing(
    tmp_path_factory: pytest.TempPathFactory, seconds: list[int], moved: int
) -> None:
    words = transcript((100, "taking a picture of the drain pump"), (300, "photo of the door seal"))
    here, there = tmp_path_factory.mktemp("here"), tmp_path_factory.mktemp("there")
    later = START + timedelta(seconds=moved)
    for n, second in enumerate(seconds):
        snap(here, f"{n}.jpg", second)
        snap(there, f"{n}.jpg", second, later)

    first, second_time = brought(here, words), brought(there, words, later)

    def timeless(found: Brought) -> list[Photo]:
        return [photo.model_copy(update={"taken": None}) for photo in found.photos]

    assert timeless(first) == timeless(second_time)
    assert first.files == second_time.files
    assert [n.replace(str(here), "") for n in first.notices] == [
        n.replace(str(there), "") for n in second_time.notices
    ]
