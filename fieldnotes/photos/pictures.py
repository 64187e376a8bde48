"""The only module that opens pictures: what a camera noted in them, and copies that hold nothing but the picture.

A copy has no EXIF, XMP, IPTC, comment, thumbnail or colour profile, and so no place, no name and no camera.
"""

from __future__ import annotations

import io
import struct
import warnings
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from fieldnotes.errors import PhotoError

if TYPE_CHECKING:
    from PIL.Image import Image

# no others are tried: some have Pillow start other programs
FORMATS = ("JPEG", "HEIF", "PNG", "WEBP", "TIFF")
MEASURED = ("I", "F", "LAB", "HSV")  # modes of TIFF that no camera writes
LONGEST_PX = 1600  # a page's width at more than 200 dots an inch, about 400 kB
QUALITY = 85
MOST_PIXELS = 120_000_000  # decoded 360 MB; phones take up to 108 million
TIMES = {  # Exif 2.32 (CIPA DC-008), 4.6.4 and 4.6.5: the tags that tell when
    "DateTimeOriginal": 0x9003, "SubSecTimeOriginal": 0x9291, "OffsetTimeOriginal": 0x9011,
    "DateTimeDigitized": 0x9004, "SubSecTimeDigitized": 0x9292, "OffsetTimeDigitized": 0x9012,
    "DateTime": 0x0132, "SubSecTime": 0x9290, "OffsetTime": 0x9010,
}  # fmt: skip
_EXIF_IFD = 0x8769
# what Pillow 13 raised on some 24,000 pictures with bytes changed or cut off; a HEIC was only ever refused as a whole
_DAMAGE = (OSError, SyntaxError, ValueError, struct.error)
_ODD_EXIF = (*_DAMAGE, KeyError, TypeError)


class Prepared(NamedTuple):
    """A copy as it goes into the job folder, and its size in pixels."""

    jpeg: bytes
    width: int
    height: int


def times_in(path: Path) -> Mapping[str, str]:
    """What the picture's EXIF holds about the time, by the names of `TIMES`; empty without EXIF.

    Raises PhotoError where the file is no picture, is damaged at its head, or is too large.
    """
    with _opened(path) as image:
        try:
            exif = image.getexif()
            held = {**exif, **exif.get_ifd(_EXIF_IFD)}
        except _ODD_EXIF:  # as good as none
            return {}
    return {name: _text(held[tag]) for name, tag in TIMES.items() if tag in held}


def prepared(path: Path) -> Prepared:
    """The picture upright, at most LONGEST_PX on its longer side, in sRGB, on white where it is transparent.

    The same bytes each time, with one version of Pillow. Raises PhotoError where it is no picture, is damaged, or
    is too large.
    """
    from PIL import Image

    with _opened(path) as image:
        clean = _in_srgb(_reduced(_upright(image)))
        bare = Image.frombytes(clean.mode, clean.size, clean.tobytes())  # nothing comes along but the pixels
        jpeg = io.BytesIO()
        bare.save(jpeg, "JPEG", quality=QUALITY, optimize=True)
    return Prepared(jpeg.getvalue(), *bare.size)


@contextmanager
def _opened(path: Path) -> Iterator[Image]:
    from pi_heif import register_heif_opener
    from PIL import Image, UnidentifiedImageError

    register_heif_opener(thumbnails=False)
    too_large = f"{path.name}: has more than {MOST_PIXELS // 1_000_000} million pixels; save it smaller"
    try:
        with path.open("rb") as file, warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of odd EXIF, and of sizes that are judged here
            with Image.open(file, formats=FORMATS) as image:
                if image.width * image.height > MOST_PIXELS:
                    raise PhotoError(too_large)
                if image.mode in MEASURED:
                    raise PhotoError(
                        f"{path.name}: its colours are not those of a photograph; save it as JPEG"
                    )
                yield image
    except UnidentifiedImageError as fault:
        raise PhotoError(
            f"{path.name}: is no picture that can be read here; save it as JPEG if it is one"
        ) from fault
    except Image.DecompressionBombError as fault:
        raise PhotoError(too_large) from fault
    except _DAMAGE as fault:
        raise PhotoError(f"{path.name}: is damaged or cut off; take it off the camera again") from fault


def _upright(image: Image) -> Image:
    """Turned as its EXIF says (Exif 2.32, 4.6.4 A, Orientation), and in a mode that can be made smaller."""
    from PIL import ImageOps

    image.draft(None, (2 * LONGEST_PX, 2 * LONGEST_PX))  # a large JPEG is not decoded finer than is needed
    image.load()
    try:
        turned = ImageOps.exif_transpose(image)
    except _ODD_EXIF:
        turned = image
    return _eight_bits(turned)


def _eight_bits(image: Image) -> Image:
    """Grey, colour or CMYK of 8 bits, with or without transparency."""
    from PIL import Image as Images

    if image.mode.startswith("I;16"):
        import numpy as np

        grey = Images.fromarray((np.asarray(image).astype(np.uint16) >> 8).astype(np.uint8))
        grey.info.update(image.info)
        return grey
    if image.mode == "CMYK":
        return image
    if image.has_transparency_data:
        return image.convert("LA" if image.mode == "LA" else "RGBA")
    return image.convert("L" if image.mode in ("1", "L") else "RGB")


def _reduced(image: Image) -> Image:
    """Not larger than it may be, and on white paper."""
    from PIL import Image as Images

    image.thumbnail((LONGEST_PX, LONGEST_PX), Images.Resampling.LANCZOS, reducing_gap=3.0)
    if image.mode not in ("LA", "RGBA"):
        return image
    solid = Images.new(image.mode[:-1], image.size, "white")
    solid.paste(image.convert(solid.mode), mask=image.getchannel("A"))
    solid.info.update(image.info)
    return solid


def _in_srgb(image: Image) -> Image:
    """In grey or sRGB, by the picture's own colour profile where it has a sound one (ICC.1)."""
    from PIL import ImageCms

    profile = image.info.get("icc_profile")
    if isinstance(profile, bytes):
        try:
            changed = ImageCms.profileToProfile(
                image,
                ImageCms.ImageCmsProfile(io.BytesIO(profile)),
                ImageCms.createProfile("sRGB"),
                outputMode="RGB",
            )
            if changed is not None:
                return changed
        except (ImageCms.PyCMSError, OSError):  # damaged, or for another kind of picture
            pass
    return image if image.mode == "L" else image.convert("RGB")


def _text(value: object) -> str:
    """As text without padding; cameras also write bytes, and anything else."""
    text = value.decode("ascii", "replace") if isinstance(value, bytes) else str(value)
    return text.split("\0")[0].strip()
