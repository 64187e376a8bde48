"""hear: recordings and notes of one visit -> Transcript. Adds words, breaths, times and notices."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from fieldnotes.errors import RecordingError
from fieldnotes.hear.breaths import moved
from fieldnotes.hear.captions import read_captions
from fieldnotes.hear.digest import sha256_of
from fieldnotes.hear.engine import Engine
from fieldnotes.hear.languages import told
from fieldnotes.hear.listening import ChooseTerms, Cut, Ear
from fieldnotes.hear.notes import read_notes, read_text
from fieldnotes.hear.pieces import Stretch
from fieldnotes.hear.progress import Progress, Unwatched
from fieldnotes.hear.seams import Side, rejoined, runs_on, stretch_across
from fieldnotes.hear.sound import SoundFile
from fieldnotes.hear.terms import Terms
from fieldnotes.hear.weights import find_weights
from fieldnotes.hear.whisper import Whisper
from fieldnotes.places import USER_CACHE
from fieldnotes.transcript import Breath, Recording, Transcript

WRITTEN = (".vtt", ".txt")
NO_TERMS = Terms()


@dataclass(frozen=True, slots=True)
class _Part:
    """One source as heard, on its own clock. `seconds` None: it has no times."""

    breaths: tuple[Breath, ...]
    seconds: float | None
    notices: tuple[str, ...] = ()
    speech: Stretch | None = None  # from the first to the last that is said in sound


def hear(
    sources: Sequence[Path],
    *,
    model: str | None = None,
    terms: Terms = NO_TERMS,
    choose_terms: ChooseTerms | None = None,
    progress: Progress | None = None,
    cache: Path | None = USER_CACHE,
    make_engine: Callable[[Path], Engine] = Whisper,
) -> Transcript:
    """The words of one visit, whose sources are consecutive parts of it: sound, .vtt or .txt, also mixed.

    Args:
        model: name of a known speech model or folder of one; None: the best at hand.
        terms: what the recogniser is told of the trade.
        choose_terms: is shown the breaths heard so far, first those of about the first minute, and gives
            better terms for all that follows, or None as long as it cannot tell. Not asked again after that.
        progress: is told how far it is.
        cache: where finished slices are kept; None keeps none.
        make_engine: another recogniser than the usual, given the model's folder.

    Raises:
        RecordingError: a source that is missing, empty, damaged or not what its name says.
        WeightsError: no speech model, an altered one, or an unknown name.
    """
    for source in sources:
        _check(source)
    written = {source: _read(source) for source in sources if source.suffix.lower() in WRITTEN}
    watcher = progress or Unwatched()
    ear: Ear | None = None
    if len(written) < len(set(sources)):
        weights = find_weights(model, joined=(cache or USER_CACHE) / "weights", progress=watcher)
        ear = Ear(weights, terms, cache, watcher, make_engine, choose_terms)
    parts, recordings, begin = [], [], 0.0
    for source in sources:
        sha256 = sha256_of(source)
        part = written[source] if ear is None or source in written else _listen(ear, source, sha256)
        parts.append(part)
        recordings.append(
            Recording(file=source.name, sha256=sha256, seconds=part.seconds, starts_at=round(begin, 3))
        )
        begin += part.seconds or 0.0
    if ear is not None:
        _read_on(ear, sources, parts, recordings)
    return Transcript(
        breaths=tuple(
            moved(breath, recording.starts_at, index)
            for index, (part, recording) in enumerate(zip(parts, recordings, strict=True))
            for breath in part.breaths
        ),
        recordings=tuple(recordings),
        speech_model=f"{ear.weights.name} {ear.weights.sha256[:12]}" if ear else None,
        settings=ear.settings if ear else {},
        notices=tuple(notice for part in parts for notice in part.notices),
    )


def _check(source: Path) -> None:
    """What can be said against a source before any long work begins."""
    if source.is_dir():
        raise RecordingError(f"{source}: is a folder; name the recordings in it")
    try:
        with source.open("rb") as file:
            empty = not file.read(1)
    except FileNotFoundError as fault:
        raise RecordingError(f"{source}: there is no such file; check the name") from fault
    except OSError as fault:
        raise RecordingError(f"{source}: cannot be read: {fault.strerror}") from fault
    if empty:
        raise RecordingError(f"{source}: is empty (0 bytes); the recording was perhaps never saved")
    if source.suffix.lower() not in WRITTEN:
        with SoundFile(source):
            pass


def _read(source: Path) -> _Part:
    text = read_text(source)
    if source.suffix.lower() == ".vtt":
        breaths, seconds = read_captions(source, text)
        return _Part(tuple(breaths), seconds, () if breaths else (f"{source.name}: no words in it",))
    notes = read_notes(text)
    return _Part(tuple(notes), None, () if notes else (f"{source.name}: no words in it",))


def _listen(ear: Ear, source: Path, sha256: str) -> _Part:
    slices = ear.listen(source, sha256)
    notices = [notice for each in slices for notice in each.notices]
    foreign = [f"{source.name}: {each}" for each in told([turn for each in slices for turn in each.foreign])]
    if not any(each.breaths for each in slices):
        notices.append(f"{source.name}: no {'English ' if foreign else ''}speech found")
    said = [each.speech for each in slices if each.speech]
    return _Part(
        tuple(breath for each in slices for breath in each.breaths),
        round(slices[-1].end, 3),
        tuple(dict.fromkeys([*foreign, *notices])),  # each slice may tell the same
        Stretch(said[0][0], said[-1][1]) if said else None,
    )


def _read_on(ear: Ear, sources: Sequence[Path], parts: list[_Part], recordings: Sequence[Recording]) -> None:
    """Hear again across the cuts that go through speech, and put what is heard there into the parts."""
    for n in range(1, len(parts)):
        before, after = (
            Side(part.breaths, part.seconds or 0.0, part.speech) for part in parts[n - 1 : n + 1]
        )
        if not runs_on(before, after):
            continue
        begin, until = stretch_across(before, after)
        across = ear.listen_across(
            Cut(sources[n - 1], recordings[n - 1].sha256, begin), Cut(sources[n], recordings[n].sha256, until)
        )
        first, second = rejoined(before, after, across, begin, until)
        parts[n - 1], parts[n] = replace(parts[n - 1], breaths=first), replace(parts[n], breaths=second)
