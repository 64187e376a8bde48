"""Copies of pictures: upright, small, in plain colours, and with nothing in them but the picture."""

from __future__ import annotations

import hashlib
import io
from contextlib import suppress
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from fieldnotes.errors import PhotoError
from fieldnotes.photos.pictures import LONGEST_PX, prepared, times_in

from .made import (
    MAKE,
    ORIENTATION,
    exif,
    png_of_size,
    read_tiles,
    segments,
    swapped_profile,
    taken_at,
    tiles,
    with_segment,
    write,
)

UPRIGHT = ("AB", "CD", "EF")
# How the upright picture lies in the file: for each value of Orientation the side of it that is the first row and
# the side that is the first column (TIFF 6.0, section 8). Written by hand.
STORED = {
    1: ("AB", "CD", "EF"),  # top, left
    2: ("BA", "DC", "FE"),  # top, right
    3: ("FE", "DC", "BA"),  # bottom, right
    4: ("EF", "CD", "AB"),  # bottom, left
    5: ("ACE", "BDF"),  # left, top
    6: ("BDF", "ACE"),  # right, top
    7: ("FDB", "ECA"),  # right, bottom
    8: ("ECA", "FDB"),  # left, bottom
}
# SOI, JFIF, quantisation, one frame, Huffman tables, scan, EOI: all that a bare JPEG file needs (ITU-T T.81, table
# B.1). No APP1 (EXIF, XMP), APP2 (profile), APP13 (IPTC), COM.
BARE = {0xD8, 0xE0, 0xDB, 0xC0, 0xC4, 0xDA, 0xD9}


def pixel(jpeg: bytes, x: int = 0, y: int = 0) -> tuple[int, ...]:
    with Image.open(io.BytesIO(jpeg)) as image:
        found = image.convert("RGB").getpixel((x, y))
    assert isinstance(found, tuple)
    return tuple(round(part) for part in found)


@pytest.mark.parametrize("suffix", ["jpg", "heic", "png", "webp", "tif"])
@pytest.mark.parametrize("orientation", STORED, ids=lambda value: f"orientation {value}")
def test_picture_is_turned_upright(tmp_path: Path, orientation: int, suffix: str) -> None:
    path = write(tmp_path / f"p.{suffix}", tiles(*STORED[orientation]), exif({ORIENTATION: orientation}))

    made = prepared(path)

    assert read_tiles(made.jpeg) == UPRIGHT
    assert (made.width, made.height) == (64, 96)


@pytest.mark.parametrize("orientation", [0, 9, 65535], ids=str)
def test_picture_with_senseless_orientation_stays_as_it_lies(tmp_path: Path, orientation: Any) -> None:
    path = write(tmp_path / "p.jpg", tiles(*UPRIGHT), exif({ORIENTATION: orientation}))

    assert read_tiles(prepared(path).jpeg) == UPRIGHT


def test_copy_holds_no_place_no_name_and_no_camera(tmp_path: Path) -> None:
    gps = {1: "N", 2: (47.0, 22.0, 10.0), 3: "E", 4: (8.0, 32.0, 30.0)}
    path = write(
        tmp_path / "p.jpg",
        tiles(*UPRIGHT),
        exif({MAKE: "SECRET Cameraworks"}, gps=gps),
        icc_profile=swapped_profile(),
        comment="SECRET comment",
    )
    full = with_segment(path.read_bytes(), 0xE1, b"http://ns.adobe.com/xap/1.0/\0<x>SECRET place</x>")
    full = with_segment(full, 0xED, b"Photoshop 3.0\0" + b"8BIM\x04\x04\0\0\0\0\0\x08SECRET__")
    path.write_bytes(full + b"SECRET film behind the end")
    assert {0xE1, 0xE2, 0xED, 0xFE} <= {*full[: full.index(b"\xff\xda")]}  # they are there to begin with

    made = prepared(path)

    assert set(segments(made.jpeg)) == BARE
    assert b"SECRET" not in made.jpeg


def test_copy_of_a_telephones_heic_holds_its_time_beside_but_nothing_else(tmp_path: Path) -> None:
    held = exif({MAKE: "SECRET"}, {0x9003: "2026:03:02 14:05:33"}, gps={1: "N"})
    path = write(tmp_path / "p.heic", tiles(*UPRIGHT), held)
    assert b"SECRET" in path.read_bytes()

    made = prepared(path)

    assert times_in(path) == {"DateTimeOriginal": "2026:03:02 14:05:33"}
    assert (read_tiles(made.jpeg), set(segments(made.jpeg))) == (UPRIGHT, BARE)


def test_text_and_profile_of_a_png_do_not_come_along(tmp_path: Path) -> None:
    from PIL.PngImagePlugin import PngInfo

    told = PngInfo()
    told.add_text("Comment", "SECRET")
    told.add_itxt("XML:com.adobe.xmp", "<x>SECRET</x>")
    path = write(tmp_path / "p.png", tiles(*UPRIGHT), taken_at("2026:03:02 14:05:33"), pnginfo=told)

    made = prepared(path)

    assert set(segments(made.jpeg)) == BARE
    assert b"SECRET" not in made.jpeg


def test_second_picture_in_the_file_does_not_come_along(tmp_path: Path) -> None:
    path = tmp_path / "p.jpg"
    tiles(*UPRIGHT).save(path, format="MPO", save_all=True, append_images=[tiles("F")])

    made = prepared(path)

    assert (read_tiles(made.jpeg), set(segments(made.jpeg))) == (UPRIGHT, BARE)


def _see_through() -> Image.Image:
    return Image.new("RGBA", (16, 16), (255, 0, 0, 0))


def _palette() -> Image.Image:
    image = Image.new("P", (16, 16), 1)
    image.putpalette([0, 0, 0, 10, 200, 10])
    return image


def _sixteen_bits() -> Image.Image:
    return Image.frombytes("I;16", (16, 16), b"\x00\x80" * 256)  # 0x8000, little end first


@pytest.mark.parametrize(
    ("name", "image", "expected"),
    [
        ("clear.png", _see_through(), (255, 255, 255)),
        ("half.png", Image.new("RGBA", (16, 16), (255, 0, 0, 128)), (255, 127, 127)),
        ("clear.webp", _see_through(), (255, 255, 255)),
        ("grey-clear.png", Image.new("LA", (16, 16), (0, 0)), (255, 255, 255)),
        ("grey.jpg", Image.new("L", (16, 16), 90), (90, 90, 90)),
        ("grey.png", Image.new("L", (16, 16), 90), (90, 90, 90)),
        ("bits.png", Image.new("1", (16, 16), 1), (255, 255, 255)),
        ("palette.png", _palette(), (10, 200, 10)),
        ("ink.jpg", Image.new("CMYK", (16, 16), (0, 255, 255, 0)), (255, 0, 0)),
        ("ink.tif", Image.new("CMYK", (16, 16), (0, 0, 0, 255)), (0, 0, 0)),
        ("deep.png", _sixteen_bits(), (128, 128, 128)),
        ("deep.tif", _sixteen_bits(), (128, 128, 128)),
        ("plain.tif", Image.new("RGB", (16, 16), (200, 100, 50)), (200, 100, 50)),
        ("one.png", Image.new("RGB", (1, 1), (200, 100, 50)), (200, 100, 50)),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_colours_stay_what_they_look_like(
    tmp_path: Path, name: str, image: Image.Image, expected: tuple[int, ...]
) -> None:
    made = prepared(write(tmp_path / name, image))

    assert pixel(made.jpeg) == pytest.approx(expected, abs=3)
    assert (made.width, made.height) == image.size


@pytest.mark.parametrize(
    ("profile", "expected"),
    [
        (swapped_profile(), (0, 255, 0)),  # the profile says: this red is what others call green
        (b"no profile at all", (255, 0, 0)),
        (swapped_profile()[:200], (255, 0, 0)),
    ],
    ids=["red and green swapped", "rubbish", "cut off"],
)
def test_colour_profile_is_worked_into_the_pixels(
    tmp_path: Path, profile: bytes, expected: tuple[int, ...]
) -> None:
    path = write(tmp_path / "p.jpg", Image.new("RGB", (32, 32), (255, 0, 0)), icc_profile=profile)

    assert pixel(prepared(path).jpeg) == pytest.approx(expected, abs=4)


@pytest.mark.parametrize("suffix", ["png", "jpg", "tif"])
def test_grey_picture_with_a_profile_of_colours_is_still_a_picture(tmp_path: Path, suffix: str) -> None:
    path = write(tmp_path / f"p.{suffix}", Image.new("L", (16, 16), 90), icc_profile=swapped_profile())

    assert pixel(prepared(path).jpeg) == pytest.approx((90, 90, 90), abs=3)


@pytest.mark.parametrize(
    ("size", "expected"),
    [
        ((4000, 3000), (1600, 1200)),
        ((3000, 4000), (1200, 1600)),
        ((1600, 1200), (1600, 1200)),
        ((640, 480), (640, 480)),
        ((9000, 9), (1600, 2)),
        ((5000, 1), (1600, 1)),
    ],
    ids=str,
)
def test_longest_side_is_at_most_as_wide_as_a_page_needs(
    tmp_path: Path, size: tuple[int, int], expected: tuple[int, int]
) -> None:
    made = prepared(write(tmp_path / "p.jpg", Image.new("RGB", size, (90, 120, 200))))

    assert (made.width, made.height) == expected
    assert max(expected) <= LONGEST_PX
    with Image.open(io.BytesIO(made.jpeg)) as seen:
        assert seen.size == expected


def test_same_picture_gives_the_same_bytes_and_stays_untouched(tmp_path: Path) -> None:
    path = write(tmp_path / "p.jpg", tiles(*STORED[6]), exif({ORIENTATION: 6}))
    before = (hashlib.sha256(path.read_bytes()).hexdigest(), path.stat().st_mtime_ns)
    path.chmod(0o444)

    first, again = prepared(path), prepared(path)

    assert first == again
    assert (hashlib.sha256(path.read_bytes()).hexdigest(), path.stat().st_mtime_ns) == before
    assert [p.name for p in tmp_path.iterdir()] == ["p.jpg"]


def _cut_off() -> bytes:
    held = io.BytesIO()
    Image.effect_noise((200, 200), 60).convert("RGB").save(held, "JPEG")
    return held.getvalue()[:3000]


@pytest.mark.parametrize(
    ("name", "content", "told"),
    [
        ("a.jpg", b"", "a.jpg: is no picture that can be read here"),
        ("a.jpg", b"Dear customer,", "a.jpg: is no picture that can be read here"),
        ("a.jpg", b"\xff\xd8\xff\xe0", "a.jpg: is "),
        ("a.jpg", _cut_off(), "a.jpg: is damaged or cut off"),
        ("a.png", png_of_size(60_000, 60_000), "a.png: has more than 120 million pixels"),
        ("a.png", png_of_size(12_000, 10_001), "a.png: has more than 120 million pixels"),
        ("a.png", png_of_size(0, 10), "a.png: is "),
        ("a.png", png_of_size(100, 100), "a.png: is damaged or cut off"),
        ("a.gif", b"GIF89a\x01\0\x01\0\0\0\0;", "a.gif: is no picture that can be read here"),
        ("a.eps", b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 1 1\n", "a.eps: is no picture"),
    ],
    ids=[
        "empty",
        "text",
        "head",
        "cut off",
        "bomb",
        "just too large",
        "no width",
        "no rows",
        "gif",
        "script",
    ],
)
def test_what_cannot_be_copied_is_told(tmp_path: Path, name: str, content: bytes, told: str) -> None:
    path = tmp_path / name
    path.write_bytes(content)

    with pytest.raises(PhotoError) as caught:
        prepared(path)
    assert str(caught.value).startswith(told)


@cache  # the profile holds the time at which it was made
def whole_picture(suffix: str) -> bytes:
    with TemporaryDirectory() as folder:
        held = exif({ORIENTATION: 6, MAKE: "A"}, gps={1: "N"})
        path = Path(folder) / f"p.{suffix}"
        return write(path, tiles(*UPRIGHT), held, icc_profile=swapped_profile()).read_bytes()


@settings(max_examples=150, deadline=None)
@given(data=st.data(), suffix=st.sampled_from(["jpg", "heic", "png", "webp", "tif"]))
def test_damaged_picture_is_copied_or_told(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject, suffix: str
) -> None:
    path = tmp_path_factory.mktemp("damaged") / f"p.{suffix}"
    content = bytearray(whole_picture(suffix))
    for at in data.draw(st.lists(st.integers(0, len(content) - 1), min_size=1, max_size=6)):
        content[at] = data.draw(st.integers(0, 255))
    path.write_bytes(content[: data.draw(st.integers(len(content) // 2, len(content)))])

    for work in (times_in, prepared):
        with suppress(PhotoError):  # and nothing else
            work(path)
