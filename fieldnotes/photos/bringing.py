"""The stage itself: a folder of pictures -> the record's photographs, and their copies for the job folder."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from fieldnotes.errors import PhotoError
from fieldnotes.photos.album import Album, Taken, read_photos
from fieldnotes.photos.clocks import aligned
from fieldnotes.photos.cues import photo_cues
from fieldnotes.photos.matching import Matcher, Place
from fieldnotes.photos.pictures import Prepared, prepared
from fieldnotes.photos.things import Things
from fieldnotes.records import Photo, Visit
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.wall_clock import WallClock


@dataclass(frozen=True, slots=True)
class Brought:
    """The photographs in the order in which they were taken, those of unknown time last; the copies' bytes by
    their names in the job folder; and what should be known."""

    photos: tuple[Photo, ...]
    files: dict[str, bytes]
    notices: tuple[str, ...]


def bring(
    folder: Path,
    visit: Visit,
    transcript: Transcript,
    vocabulary: Vocabulary,
    clock: WallClock | None,
    offset_s: float | None = None,
) -> Brought:
    """The pictures of a folder, each beside the line that it belongs to. The folder is only read.

    Args:
        folder: holds the pictures.
        visit: judged, with all its lines; the photographs refer to them.
        transcript: for words such as "taking a picture of the plate".
        vocabulary: has these words, and the names of things.
        clock: when the recordings were made; None: not known.
        offset_s: seconds to add to the camera's times; None: by the words, if they agree on some, else none.

    Raises PhotoError where there is no such folder.
    """
    album = read_photos(folder)
    ready, notices = _ready(album)
    times = [taken.time for taken, _ in ready if taken.time]
    cues = photo_cues(transcript, vocabulary)
    alike, of_clock = aligned(clock, visit.recording, times, cues, offset_s)
    places = [Place() for _ in ready]
    if alike is not None:
        things = Things(vocabulary, visit.appliance.kind)
        matcher = Matcher(visit, cues, things, vocabulary.grammar, alike.clock)
        places = matcher.places([alike.wall_s(taken.time) for taken, _ in ready])
        inside = sum(place.at is not None for place in places)
        notices += [of_clock, _left_out(len(times), inside)]
    else:
        notices.append(of_clock)
    names = _names(len(ready))
    return Brought(
        photos=tuple(
            _photo(name, *each, place) for name, each, place in zip(names, ready, places, strict=True)
        ),
        files={name: made.jpeg for name, (_, made) in zip(names, ready, strict=True)},
        notices=tuple(notice for notice in notices if notice),
    )


def _ready(album: Album) -> tuple[list[tuple[Taken, Prepared]], list[str]]:
    """The pictures in order of time with their copies, and what should be known of them and of the rest."""
    ready: list[tuple[Taken, Prepared]] = []
    notices = list(album.notices)
    for taken in sorted(album.pictures, key=_by_time):
        try:
            ready.append((taken, prepared(taken.path)))
            notices.append(taken.odd)
        except PhotoError as fault:
            notices.append(str(fault))
    return ready, notices


def _by_time(taken: Taken) -> tuple[bool, datetime, str]:
    return taken.time is None, taken.time.at if taken.time else datetime.min, taken.name


def _left_out(timed: int, inside: int) -> str:
    if inside == timed:
        return ""
    if inside == 0:
        return (
            "photographs: none was taken while something was recorded, so all stand at the end;"
            " if the camera's clock is off, give --photo-offset"
        )
    return f"photographs: {timed - inside} of {timed} taken while nothing was recorded; they stand at the end"


def _names(count: int) -> list[str]:
    digits = max(2, len(str(count)))
    return [f"photo-{n:0{digits}}.jpg" for n in range(1, count + 1)]


def _photo(name: str, taken: Taken, made: Prepared, place: Place) -> Photo:
    return Photo(
        file=name,
        taken_from=taken.name,
        sha256=hashlib.sha256(made.jpeg).hexdigest(),
        taken=taken.time.text() if taken.time else None,
        at=place.at,
        section=place.section,
        index=place.index,
        width=made.width,
        height=made.height,
        cue=place.cue,
    )
