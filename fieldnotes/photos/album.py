"""The pictures of a folder, each with the time at which it was taken, as far as it holds one."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from fieldnotes.errors import PhotoError
from fieldnotes.photos.pictures import times_in
from fieldnotes.wall_clock import WallTime, believable

# Exif 2.32 (CIPA DC-008), 4.6.5 F: "YYYY:MM:DD HH:MM:SS" in local time; some programs write other signs between.
_WRITTEN = re.compile(r"(\d{4})[:/.-](\d\d)[:/.-](\d\d)[ T](\d\d):(\d\d):(\d\d)")
_OFFSET = re.compile(r"([+-])(\d\d):(\d\d)")
_UNKNOWN = re.compile(r"[\s:0-]*")  # blanks between the colons, or noughts: the clock was not set
_KINDS = ("Original", "Digitized", "")  # of DateTime..., SubSecTime..., OffsetTime...; the last: last changed


@dataclass(frozen=True, slots=True)
class Taken:
    """One picture. `time` is what the camera's clock showed; None: unknown. `odd`: what should be known of it."""

    path: Path
    name: str
    time: WallTime | None
    odd: str = ""


@dataclass(frozen=True, slots=True)
class Album:
    """The pictures of a folder by name, and what should be known about what else is in it."""

    pictures: tuple[Taken, ...]
    notices: tuple[str, ...]


def read_photos(folder: Path) -> Album:
    """What a folder holds; folders in it are not looked into, and hidden files are passed over.

    Only heads are read here: that a picture was cut off shows when it is made ready.

    Raises PhotoError where there is no such folder.
    """
    if not folder.is_dir():
        wrong = "is a file; give the folder that holds the pictures" if folder.exists() else "is not there"
        raise PhotoError(f"--photos {folder}: {wrong}{'' if folder.exists() else '; check the name'}")
    pictures: list[Taken] = []
    notices: list[str] = []
    for path in sorted(folder.iterdir(), key=lambda path: path.name):
        name = os.fsencode(path.name).decode("utf-8", "replace")
        if name.startswith(".") or name.lower() in ("thumbs.db", "desktop.ini"):
            continue
        if not path.is_file():
            notices.append(f"{name}: is a folder in that of the pictures, and is not looked into")
            continue
        try:
            time, told = time_taken(times_in(path))
        except PhotoError as fault:
            notices.append(str(fault))
            continue
        pictures.append(Taken(path, name, time, odd=f"{name}: {told}" if told else ""))
    if not pictures:
        notices.append(f"{folder}: holds no picture")
    return Album(tuple(pictures), tuple(notices))


def time_taken(exif: Mapping[str, str]) -> tuple[WallTime | None, str]:
    """When a picture was taken, by its EXIF times (names as in `pictures.TIMES`), and what is odd about that."""
    odd = ""
    for kind in _KINDS:
        text = exif.get(f"DateTime{kind}", "")
        if _UNKNOWN.fullmatch(text):
            continue
        if (at := _moment(text, exif.get(f"SubSecTime{kind}", ""))) is None:
            odd = odd or text
            continue
        time = WallTime(at, _offset(exif.get(f"OffsetTime{kind}", "")))
        return time, "" if kind else "tells only when it was last changed, which is taken for its time"
    if odd:
        shown = "".join(c if c.isprintable() else "?" for c in odd[:40])
        return None, f'holds "{shown}" for the time at which it was taken; it stands at the end'
    return None, "holds no time at which it was taken; it stands at the end"


def _moment(text: str, fraction: str) -> datetime | None:
    found = _WRITTEN.fullmatch(text)
    if found is None:
        return None
    try:
        at = datetime(*map(int, found.groups()))  # type: ignore[arg-type]  # six numbers
    except ValueError:  # the 30th of February
        return None
    digits = fraction.strip()
    part = float(f"0.{digits}") if re.fullmatch(r"[0-9]{1,9}", digits) else 0.0
    return at + timedelta(seconds=part) if believable(at) else None


def _offset(text: str) -> timedelta | None:
    found = _OFFSET.fullmatch(text)
    if found is None:
        return None
    size = timedelta(hours=int(found[2]), minutes=int(found[3]))
    return (-size if found[1] == "-" else size) if size < timedelta(hours=15) else None
