"""Which photographs stand beside which line, and what is said of them for those who cannot see them."""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.records import Evidence, Photo, Visit
from fieldnotes.write.wording import clock


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph on a page: its file, when it was taken, what it belongs to ("" for nothing), its size in pixels."""

    file: str
    clock: str
    about: str
    width: int
    height: int


def pictures(visit: Visit) -> tuple[dict[int, list[Picture]], list[Picture]]:
    """Photographs by the `id` of the evidence of their line, and those that belong to no line, in order of time."""
    beside: dict[int, list[Picture]] = {}
    alone: list[Picture] = []
    for photo in visit.photos:
        found = _line_of(visit, photo)
        if found is None:
            kind = visit.appliance.kind or ""
            alone.append(_picture(photo, kind if photo.section == "appliance" else ""))
        else:
            about, evidence = found
            beside.setdefault(id(evidence), []).append(_picture(photo, about))
    return beside, alone


def _line_of(visit: Visit, photo: Photo) -> tuple[str, Evidence] | None:
    if photo.section is None or photo.section == "appliance" or photo.index is None:
        return None
    items = getattr(visit, photo.section)
    if photo.index >= len(items):
        return None
    return items[photo.index].about, items[photo.index].evidence


def _picture(photo: Photo, about: str) -> Picture:
    return Picture(photo.file, "" if photo.at is None else clock(photo.at), about, photo.width, photo.height)
