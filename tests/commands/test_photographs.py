"""write with pictures: beside their lines in every document, without what the camera wrote into them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from PIL import Image

from fieldnotes.bag import verify

from .conftest import Run, files_in

CAPTIONS = """WEBVTT

00:00:02.000 --> 00:00:05.000
Dishwasher, it won't drain.

00:01:00.000 --> 00:01:04.000
The drain hose is not kinked, that's good.

00:03:00.000 --> 00:03:04.000
The filter is blocked.
"""
PRIVATE_PLACE = {1: "N", 2: (52.0, 31.0, 7.5)}  # GPSLatitudeRef, GPSLatitude: Exif 2.32, 4.6.6


@pytest.fixture
def pictures(here: Path) -> Path:
    """One half a minute after the hose was told of, one in the evening, one without a time."""
    (here / "visit.vtt").write_text(CAPTIONS)
    folder = here / "pictures"
    folder.mkdir()
    for name, taken in (
        ("hose.jpg", "2026:03:02 14:06:10"),
        ("street.jpg", "2026:03:02 20:00:00"),
        ("x.jpg", None),
    ):
        exif = Image.Exif()
        if taken:
            exif.get_ifd(0x8769)[0x9003] = taken  # DateTimeOriginal
        exif.get_ifd(0x8825).update(PRIVATE_PLACE)
        Image.new("RGB", (400, 300), "#88aacc").save(folder / name, exif=exif)
    return folder


def test_pictures_stand_beside_their_lines(run: Run, here: Path, pictures: Path) -> None:
    before = files_in(pictures)
    ran = run("write", "visit.vtt", "--out", "job", "--photos", "pictures", "--started", "2026-03-02 14:05")
    data = here / "job" / "data"
    record = json.loads((data / "visit.json").read_text())

    assert ran.code == 0
    assert (record["job"]["started"], record["job"]["date"]) == ("2026-03-02T14:05:00", "2026-03-02")
    told = [(each["taken_from"], each["at"], each["section"]) for each in record["photos"]]
    assert told == [("hose.jpg", 70.0, "checks"), ("street.jpg", None, None), ("x.jpg", None, None)]
    assert record["checks"][record["photos"][0]["index"]]["about"] == "drain hose"
    assert files_in(pictures) == before
    for photo in record["photos"]:
        with Image.open(data / photo["file"]) as picture:
            assert not picture.getexif()
    for page in ("report.html", "claim.html"):
        text = (data / page).read_text()
        assert text.index("not kinked") < text.index("photo-01.jpg") < text.index("photo-02.jpg")
        assert 'alt="Photograph at 01:10: drain hose"' in text
    for page in ("report.md", "report.txt"):
        assert "photo-01.jpg" in (data / page).read_text()
    assert "photo-" not in (data / "customer.html").read_text()
    assert verify(here / "job").problems == ()


def test_replacing_leaves_no_old_picture(run: Run, here: Path, pictures: Path) -> None:
    run("write", "visit.vtt", "--out", "job", "--photos", "pictures")
    run("write", "visit.vtt", "--out", "job", "--replace")

    assert [name for name in files_in(here / "job" / "data") if name.startswith("photo-")] == []


def test_copy_for_a_claim_has_the_pictures(run: Run, here: Path, pictures: Path) -> None:
    run("write", "visit.vtt", "--out", "job", "--photos", "pictures")
    ran = run("share", "job", "--for", "claim", "--out", "claim.zip")

    assert ran.code == 0
    assert (here / "claim.zip").stat().st_size > sum(
        path.stat().st_size for path in (here / "job" / "data").glob("photo-*")
    )


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (("--photos", "nowhere"), "nowhere: there is no such folder"),
        (("--started", "at noon"), "at noon"),
    ],
    ids=["folder", "start"],
)
def test_wrong_options_are_told_before_any_work(
    run: Run, here: Path, pictures: Path, options: tuple[str, ...], message: str
) -> None:
    ran = run("write", "visit.vtt", "--out", "job", *options)

    assert ran.code == 2
    assert message in ran.err
    assert not (here / "job").exists()
