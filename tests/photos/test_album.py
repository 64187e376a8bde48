"""When pictures were taken, by what the camera wrote (Exif 2.32, CIPA DC-008)."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from fieldnotes.errors import FieldnotesError
from fieldnotes.photos.album import Taken, read_photos
from fieldnotes.wall_clock import WallTime

from .made import DATE_TIME, DIGITIZED, FRACTION, OFFSET, ORIGINAL, exif, png_of_size, taken_at, tiles, write

FIVE_PAST_TWO = datetime(2026, 3, 2, 14, 5, 33)
NONE = "p.jpg: holds no time at which it was taken; it stands at the end"


def odd(text: str) -> str:
    return f'p.jpg: holds "{text}" for the time at which it was taken; it stands at the end'


@pytest.mark.parametrize(
    ("base", "detail", "time", "told"),
    [
        ({}, {ORIGINAL: "2026:03:02 14:05:33"}, WallTime(FIVE_PAST_TWO), ""),
        ({}, {ORIGINAL: "2026:03:02 14:05:33", FRACTION: "25"},
         WallTime(FIVE_PAST_TWO + timedelta(milliseconds=250)), ""),
        ({}, {ORIGINAL: "2026:03:02 14:05:33", FRACTION: "x"}, WallTime(FIVE_PAST_TWO), ""),
        ({}, {ORIGINAL: "2026:03:02 14:05:33", OFFSET: "+05:30"},
         WallTime(FIVE_PAST_TWO, timedelta(hours=5, minutes=30)), ""),
        ({}, {ORIGINAL: "2026:03:02 14:05:33", OFFSET: "-08:00"}, WallTime(FIVE_PAST_TWO, -timedelta(hours=8)), ""),
        ({}, {ORIGINAL: "2026:03:02 14:05:33", OFFSET: "   :  "}, WallTime(FIVE_PAST_TWO), ""),
        ({DATE_TIME: "2026:03:09 08:00:00"}, {ORIGINAL: "2026:03:02 14:05:33", DIGITIZED: "2026:03:03 10:00:00"},
         WallTime(FIVE_PAST_TWO), ""),
        ({DATE_TIME: "2026:03:09 08:00:00"}, {DIGITIZED: "2026:03:02 14:05:33"}, WallTime(FIVE_PAST_TWO), ""),
        ({DATE_TIME: "2026:03:02 14:05:33"}, {}, WallTime(FIVE_PAST_TWO),
         "p.jpg: tells only when it was last changed, which is taken for its time"),
        ({}, {ORIGINAL: "0000:00:00 00:00:00", DIGITIZED: "2026:03:02 14:05:33"}, WallTime(FIVE_PAST_TWO), ""),
        ({}, {ORIGINAL: "    :  :     :  :  "}, None, NONE),
        ({}, {ORIGINAL: "0000:00:00 00:00:00"}, None, NONE),
        ({}, {}, None, NONE),
        ({}, {ORIGINAL: "1904:01:01 00:00:00"}, None, odd("1904:01:01 00:00:00")),
        ({}, {ORIGINAL: "1970:01:01 00:00:00"}, None, odd("1970:01:01 00:00:00")),
        ({}, {ORIGINAL: "9999:12:31 23:59:59"}, None, odd("9999:12:31 23:59:59")),
        ({}, {ORIGINAL: "2026:02:30 14:05:33"}, None, odd("2026:02:30 14:05:33")),
        ({}, {ORIGINAL: "2026:03:02 24:61:00"}, None, odd("2026:03:02 24:61:00")),
        ({}, {ORIGINAL: "yesterday"}, None, odd("yesterday")),
        ({}, {ORIGINAL: "a\nb"}, None, odd("a?b")),
    ],
    ids=["original", "fraction", "odd fraction", "east", "west", "blank offset", "original counts first",
         "digitised next", "changed last", "noughts, then digitised", "blanks", "noughts", "none", "1904", "1970",
         "year 9999", "30 February", "24:61", "words", "line break"],
)  # fmt: skip
def test_time_is_read_from_the_best_tag(
    tmp_path: Path, base: dict[int, Any], detail: dict[int, Any], time: WallTime | None, told: str
) -> None:
    path = write(tmp_path / "p.jpg", tiles("A"), exif(base, detail))

    album = read_photos(tmp_path)

    assert album.pictures == (Taken(path, "p.jpg", time, told),)
    assert album.notices == ()


@pytest.mark.parametrize("suffix", ["jpg", "jpeg", "JPG", "png", "webp", "tif", "tiff"])
def test_every_format_tells_its_time(tmp_path: Path, suffix: str) -> None:
    write(tmp_path / f"p.{suffix}", tiles("A"), taken_at("2026:03:02 14:05:33", "+01:00"))

    (taken,) = read_photos(tmp_path).pictures

    assert taken.time == WallTime(FIVE_PAST_TWO, timedelta(hours=1))


def test_what_is_no_picture_is_told_and_the_rest_is_read(tmp_path: Path) -> None:
    write(tmp_path / "b.jpg", tiles("A"), taken_at("2026:03:02 14:05:33"))
    (tmp_path / "a.txt").write_text("notes")
    (tmp_path / "bomb.png").write_bytes(png_of_size(60_000, 60_000))
    (tmp_path / ".hidden").write_text("x")
    (tmp_path / "Thumbs.db").write_text("x")
    (tmp_path / "older").mkdir()

    album = read_photos(tmp_path)

    assert [taken.name for taken in album.pictures] == ["b.jpg"]
    assert album.notices == (
        "a.txt: is no picture that can be read here; save it as JPEG if it is one",
        "bomb.png: has more than 120 million pixels; save it smaller",
        "older: is a folder in that of the pictures, and is not looked into",
    )


def test_exif_of_rubbish_is_as_good_as_none(tmp_path: Path) -> None:
    path = tmp_path / "p.jpg"
    Image.new("RGB", (8, 8)).save(path, exif=b"Exif\0\0MM\0*\xff\xff\xff\xff rubbish")

    assert read_photos(tmp_path).pictures == (Taken(path, "p.jpg", None, NONE),)


def test_folder_without_pictures_is_told(tmp_path: Path) -> None:
    assert read_photos(tmp_path).notices == (f"{tmp_path}: holds no picture",)


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("gone", "is not there; check the name"),
        ("file", "is a file; give the folder that holds the pictures"),
    ],
    ids=["missing", "a file"],
)
def test_folder_that_is_none_is_refused(tmp_path: Path, name: str, told: str) -> None:
    (tmp_path / "file").write_text("x")

    with pytest.raises(FieldnotesError) as caught:
        read_photos(tmp_path / name)
    assert str(caught.value) == f"--photos {tmp_path / name}: {told}"
