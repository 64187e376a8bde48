"""Pictures made on the spot, with what cameras write into them, and JPEG taken apart by hand."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from PIL import Image, ImageCms
from pillow_heif import from_pillow

COLOURS = {
    "A": (220, 30, 30), "B": (30, 200, 40), "C": (40, 60, 220),
    "D": (230, 220, 40), "E": (240, 240, 240), "F": (20, 20, 20),
}  # fmt: skip
TILE = 32  # pixels; two blocks of JPEG's colour, so that edges stay where they are
MAKE, ORIENTATION, DATE_TIME = 0x010F, 0x0112, 0x0132
EXIF_IFD, GPS_IFD = 0x8769, 0x8825
ORIGINAL, DIGITIZED, OFFSET, FRACTION = 0x9003, 0x9004, 0x9011, 0x9291


def tiles(*rows: str) -> Image.Image:
    """A picture of coloured tiles, a letter each: `tiles("AB", "CD")`."""
    image = Image.new("RGB", (len(rows[0]), len(rows)))
    image.putdata([COLOURS[letter] for row in rows for letter in row])
    return image.resize((len(rows[0]) * TILE, len(rows) * TILE), Image.Resampling.NEAREST)


def read_tiles(jpeg: bytes) -> tuple[str, ...]:
    """The letters of a picture of tiles, each by the nearest colour in the middle of its tile."""
    with Image.open(io.BytesIO(jpeg)) as image:
        seen = image.convert("RGB")
    middles = range(TILE // 2, max(seen.size), TILE)
    return tuple(
        "".join(_letter(seen.getpixel((x, y))) for x in middles if x < seen.width)
        for y in middles
        if y < seen.height
    )


def _letter(colour: Any) -> str:
    return min(
        COLOURS,
        key=lambda letter: sum(abs(a - b) for a, b in zip(COLOURS[letter], colour, strict=True)),
    )


def exif(
    base: Mapping[int, Any] | None = None,
    detail: Mapping[int, Any] | None = None,
    gps: Mapping[int, Any] | None = None,
) -> Image.Exif:
    """EXIF with tags in its main part, in the camera's part and in that of the place."""
    made = Image.Exif()
    made.update(dict(base or {}))
    for part, tags in ((EXIF_IFD, detail), (GPS_IFD, gps)):
        if tags:  # Pillow's writers look in either place
            made.get_ifd(part).update(dict(tags))
            made[part] = dict(tags)
    return made


def taken_at(text: str, offset: str = "") -> Image.Exif:
    """EXIF of a picture taken at "2026:03:02 14:05:33"."""
    return exif(detail={ORIGINAL: text, **({OFFSET: offset} if offset else {})})


def write(path: Path, image: Image.Image, held: Image.Exif | None = None, **options: Any) -> Path:
    """The picture as a file in the format that its name tells."""
    if held is not None:
        options["exif"] = held
    if path.suffix == ".heic":
        options["exif"] = options["exif"].tobytes() if "exif" in options else None
        from_pillow(image).save(path, quality=-1, chroma=444, **options)
    else:
        image.save(path, **options)
    return path


def swapped_profile() -> bytes:
    """The profile of a screen whose red and green primaries have changed places."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    assert b"rXYZ" in profile
    return profile.replace(b"rXYZ", b"....").replace(b"gXYZ", b"rXYZ").replace(b"....", b"gXYZ")


def png_of_size(width: int, height: int) -> bytes:
    """A PNG file that claims a size and holds next to nothing."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        return (
            struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\0" * 100))
        + chunk(b"IEND", b"")
    )


def with_segment(jpeg: bytes, marker: int, content: bytes) -> bytes:
    """The JPEG file with one more segment right behind its start."""
    return jpeg[:2] + struct.pack(">BBH", 0xFF, marker, len(content) + 2) + content + jpeg[2:]


def segments(jpeg: bytes) -> list[int]:
    """The markers of a JPEG file up to its sound end (ITU-T T.81, B.1.1), read from its bytes alone."""
    assert jpeg[:2] == b"\xff\xd8"
    at, found = 2, [0xD8]
    while True:
        assert jpeg[at] == 0xFF, f"no marker at {at}"
        marker = jpeg[at + 1]
        found.append(marker)
        at += 2
        if marker == 0xD9:
            assert at == len(jpeg), "something stands behind the end"
            return found
        at += struct.unpack(">H", jpeg[at : at + 2])[0]
        if marker == 0xDA:  # what is coded follows: up to a marker that is neither a stuffed 0 nor a restart
            while jpeg[at] != 0xFF or jpeg[at + 1] == 0 or 0xD0 <= jpeg[at + 1] <= 0xD7:
                at += 1
