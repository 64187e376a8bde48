"""hear: parts of a visit on one clock, slices, what is kept, and wrong input. The engine is a made-up one."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from pathlib import Path

import pytest

from fieldnotes.errors import RecordingError
from fieldnotes.hear import hear
from fieldnotes.hear.engine import Heard
from fieldnotes.hear.listening import ChooseTerms
from fieldnotes.hear.pieces import Piece
from fieldnotes.hear.sound import RATE, Sound
from fieldnotes.hear.terms import Terms
from fieldnotes.transcript import Breath, Recording, Transcript, Word

from .sounds import Beeper, beeps, write_sound

Make = Callable[..., Transcript]


class Watcher:
    """Progress that remembers."""

    def __init__(self) -> None:
        self.stages: list[str] = []
        self.done: list[float] = []

    def stage(self, name: str) -> None:
        self.stages.append(name)

    def heard(self, seconds_done: float, seconds_total: float | None) -> None:
        self.done.append(seconds_done)


class Room:
    """A model's folder, a cache, and the engines that were made."""

    def __init__(self, tmp_path: Path) -> None:
        self.folder = tmp_path
        self.model = tmp_path / "model"
        self.model.mkdir(parents=True)
        for name in ("model.bin", "config.json", "tokenizer.json", "vocabulary.txt"):
            (self.model / name).write_text(name)
        self.cache = tmp_path / "cache"
        self.engines: list[Beeper] = []
        self.doubtful_after: float | None = None
        self.watcher = Watcher()

    def hear(self, *sources: Path, hotwords: str = "", choose: ChooseTerms | None = None) -> Transcript:
        def make(folder: Path) -> Beeper:
            assert folder == self.model
            self.engines.append(Beeper(folder, self.doubtful_after))
            return self.engines[-1]

        return hear(
            sources,
            model=str(self.model),
            terms=Terms(hotwords),
            choose_terms=choose,
            progress=self.watcher,
            cache=self.cache,
            make_engine=make,
        )

    def sound(
        self, name: str, seconds: float, every_s: float = 2.0, spanish: tuple[float, float] = (0.0, 0.0)
    ) -> Path:
        samples = beeps(seconds, every_s=every_s, spanish=spanish)
        return write_sound(self.folder / name, samples, "pcm_s16le")

    def kept(self) -> list[Path]:
        return sorted(self.cache.rglob("*.json"))


@pytest.fixture
def room(tmp_path: Path) -> Room:
    return Room(tmp_path)


def starts(transcript: Transcript) -> list[float | None]:
    return [word.start for breath in transcript.breaths for word in breath.words]


def test_mixed_parts_stand_on_one_clock(room: Room) -> None:
    first = room.sound("hall.wav", 4.0)
    cues = room.folder / "notes.vtt"
    cues.write_text("WEBVTT\n\n00:01.000 --> 00:03.500\nhot\n")
    lines = room.folder / "plate.TXT"
    lines.write_bytes("\ufeffModel B K D\r\n\r\nno fault\r\n".encode())
    last = room.sound("cellar.wav", 2.0)

    got = room.hear(first, cues, lines, last)

    def digest(path: Path) -> str:
        return hashlib.sha256(path.read_bytes()).hexdigest()

    def word(text: str, start: float, end: float, sure: float = 0.9) -> Word:
        return Word(text=text, start=start, end=end, confidence=sure)

    model = hashlib.sha256(b"model.bin").hexdigest()
    assert got.model_copy(update={"settings": {}}) == Transcript(
        breaths=(
            Breath(words=(word("w0", 0.0, 1.0),)),
            Breath(words=(word("w2", 2.0, 3.0),)),
            Breath(words=(word("hot", 5.0, 7.5, 1.0),), part=1),
            Breath(words=(Word(text="Model"), Word(text="B"), Word(text="K"), Word(text="D")), part=2),
            Breath(words=(Word(text="no"), Word(text="fault")), part=2),
            Breath(words=(word("w0", 7.5, 8.5),), part=3),
        ),
        recordings=(
            Recording(file="hall.wav", sha256=digest(first), seconds=4.0, starts_at=0.0),
            Recording(file="notes.vtt", sha256=digest(cues), seconds=3.5, starts_at=4.0),
            Recording(file="plate.TXT", sha256=digest(lines), seconds=None, starts_at=7.5),
            Recording(file="cellar.wav", sha256=digest(last), seconds=2.0, starts_at=7.5),
        ),
        speech_model=f"model {model[:12]}",
    )


@pytest.mark.parametrize("cuts", [[4.5], [0.5], [4.5, 14.5], [4.2, 8.8, 12.3]], ids=str)
def test_recording_split_in_mid_word_is_heard_like_the_whole(room: Room, cuts: list[float]) -> None:
    """Beeps of a second every two: those cut in two come out once, with their whole length."""
    samples = beeps(20.0)
    edges = [0, *(round(cut * RATE) for cut in cuts), len(samples)]
    parts = [
        write_sound(room.folder / f"{n}.wav", samples[a:b], "pcm_s16le")
        for n, (a, b) in enumerate(pairwise(edges))
    ]
    got = room.hear(*parts)

    times = [time for breath in got.breaths for w in breath.words for time in (w.start, w.end)]
    assert times == pytest.approx([2.0 * n + end for n in range(10) for end in (0.0, 1.0)], abs=0.1)
    assert [breath.part for breath in got.breaths] == sorted(breath.part for breath in got.breaths)
    assert room.hear(*parts) == got
    assert len(room.engines) == 1


def test_recording_split_in_a_pause_is_not_heard_twice(room: Room) -> None:
    samples = beeps(12.0)
    cut = round(5.5 * RATE)
    parts = [
        write_sound(room.folder / name, half, "pcm_s16le")
        for name, half in (("a.wav", samples[:cut]), ("b.wav", samples[cut:]))
    ]

    assert starts(room.hear(*parts)) == [pytest.approx(2.0 * n, abs=0.1) for n in range(6)]
    assert [seconds for seconds, _ in room.engines[0].calls] == [5.5, 6.5]


def test_written_notes_need_no_model(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    path.write_text("Checked the pump.\n")

    def never(folder: Path) -> Beeper:
        raise AssertionError("an engine was made")

    got = hear([path], model="no such model", make_engine=never)

    assert (got.speech_model, got.settings, len(got.breaths)) == (None, {}, 1)


def test_long_sound_is_cut_in_pauses_and_loses_nothing(room: Room) -> None:
    """Beeps of 1 s every 7.3 s, some across the end of a slice: none is cut, and each keeps its place."""
    got = room.hear(room.sound("long.wav", 1100.0, every_s=7.3))

    assert starts(got) == [pytest.approx(7.3 * n, abs=0.11) for n in range(151)]
    assert all(
        word.end - word.start == pytest.approx(1.0, abs=0.11)
        for breath in got.breaths
        for word in breath.words
        if word.end is not None and word.start is not None
    )
    assert max(length for length, _ in room.engines[0].calls) <= 480.1
    assert room.watcher.done == pytest.approx(sorted(room.watcher.done))
    assert room.watcher.done[-1] == pytest.approx(1100.0)


def test_second_run_loads_no_engine_and_says_the_same(room: Room) -> None:
    path = room.sound("a.wav", 6.0)
    first, second = room.hear(path), room.hear(path)

    assert first == second
    assert len(room.engines) == 1


def test_same_sound_under_another_name_is_known(room: Room) -> None:
    path = room.sound("a.wav", 6.0)
    room.hear(path)
    room.hear(path.rename(path.with_name("b.wav")))

    assert len(room.engines) == 1


@pytest.mark.parametrize("change", ["hotwords", "model", "sound"])
def test_whatever_matters_is_heard_anew(room: Room, change: str) -> None:
    path = room.sound("a.wav", 6.0)
    room.hear(path)
    if change == "model":
        (room.model / "model.bin").write_text("another")
    if change == "sound":
        room.sound("a.wav", 8.0)
    room.hear(path, hotwords="drain pump" if change == "hotwords" else "")

    assert len(room.engines) == 2


def told_after(seconds: float, terms: str = "drain pump") -> ChooseTerms:
    """Chooses as soon as something was said so late in the visit."""
    return lambda breaths: Terms(terms) if (breaths[-1].words[-1].end or 0.0) >= seconds else None


def test_terms_of_the_kind_follow_once_it_is_known(room: Room) -> None:
    """The first slice is short, so that they come early, and is heard once more; they are then asked for no more."""
    asked: list[int] = []

    def choose(breaths: tuple[Breath, ...]) -> Terms | None:
        asked.append(len(breaths))
        return told_after(20.0)(breaths)

    got = room.hear(room.sound("a.wav", 400.0), room.sound("b.wav", 4.0), hotwords="all", choose=choose)

    first, again, *others = room.engines[0].calls
    assert (first[1], again[1], {terms for _, terms in others}) == ("all", "drain pump", {"drain pump"})
    assert first[0] == again[0] <= 45.0
    assert len(asked) == 1
    assert (got.settings["hotwords"], got.settings["chosen_hotwords"]) == ("all", "drain pump")


def test_choice_is_put_off_until_it_can_be_made(room: Room) -> None:
    room.hear(room.sound("a.wav", 1400.0), hotwords="all", choose=told_after(200.0))

    first, second, *others = [terms for _, terms in room.engines[0].calls]
    assert (first, second, set(others)) == ("all", "all", {"drain pump"})


def test_choice_of_terms_is_kept_with_the_slices(room: Room) -> None:
    path = room.sound("a.wav", 400.0)
    first = room.hear(path, hotwords="all", choose=told_after(20.0))

    assert room.hear(path, hotwords="all", choose=told_after(20.0)) == first
    assert len(room.engines) == 1


def test_other_choice_is_heard_anew_from_there_on(room: Room) -> None:
    path = room.sound("a.wav", 400.0)
    room.hear(path, hotwords="all", choose=told_after(20.0))
    room.hear(path, hotwords="all", choose=told_after(20.0, "door seal"))

    first, *others = [terms for _, terms in room.engines[1].calls]
    assert (first, set(others)) == ("all", {"door seal"})


@pytest.mark.parametrize("damage", [b"", b"{", b'{"start": 0, "end": 9}', b"\xff\xfe\x00"], ids=repr)
def test_damaged_kept_slice_is_heard_again_and_mended(room: Room, damage: bytes) -> None:
    path = room.sound("a.wav", 6.0)
    first = room.hear(path)
    (kept,) = room.kept()
    good = kept.read_bytes()
    kept.write_bytes(damage)

    assert room.hear(path) == first
    assert kept.read_bytes() == good


def test_stopped_run_goes_on_where_it_was(room: Room) -> None:
    path = room.sound("long.wav", 700.0, every_s=7.0)
    whole = room.hear(path)
    room.kept()[1].unlink()
    again = room.hear(path)

    assert again == whole
    first, second = room.engines
    assert [length for length, _ in second.calls] == [length for length, _ in first.calls][1:]


def test_unwritable_cache_is_told_and_does_no_harm(room: Room) -> None:
    room.cache.write_text("a file where a folder should be")
    got = room.hear(room.sound("a.wav", 6.0))

    assert starts(got) == [0.0, 2.0, 4.0]
    assert [notice.split(" in ")[0] for notice in got.notices] == ["what was heard could not be kept"]


def test_invented_text_is_left_out_and_told(room: Room) -> None:
    room.doubtful_after = 0.0
    got = room.hear(room.sound("a.wav", 4.0))

    assert got.breaths == ()
    assert got.notices == (
        "a.wav: some of what was heard from 0 s to 3 s made no sense and was left out",
        "a.wav: no speech found",
    )


def test_turn_in_another_language_is_left_out_and_told(room: Room) -> None:
    path = room.sound("a.wav", 120.0, spanish=(40.0, 70.0))
    got = room.hear(path)

    assert starts(got) == [pytest.approx(2.0 * n, abs=0.05) for n in range(60) if not 40 <= 2 * n < 70]
    assert got.notices == ("a.wav: from 40 s to 69 s the speech seems to be Spanish; it was left out",)
    assert room.hear(path) == got
    assert len(room.engines) == 1


def test_turn_across_slices_is_told_once(room: Room) -> None:
    got = room.hear(room.sound("a.wav", 400.0, spanish=(200.0, 300.0)))

    assert got.notices == ("a.wav: from 200 s to 299 s the speech seems to be Spanish; it was left out",)


def test_recording_wholly_in_another_language_gives_no_words(room: Room) -> None:
    got = room.hear(room.sound("a.wav", 60.0, spanish=(0.0, 60.0)))

    assert got.breaths == ()
    assert got.notices == (
        "a.wav: from 0 s to 59 s the speech seems to be Spanish; it was left out",
        "a.wav: no English speech found",
    )


class Stopped(Exception):
    """The user stops the run."""


def test_stop_within_a_slice_loses_only_the_piece_at_hand(
    room: Room, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Pieces of up to 28 s; the run stops in its fourth, and the next one hears that and what follows."""
    path = room.sound("a.wav", 150.0, every_s=1.5)
    whole = Room.hear(Room(path.parent / "other"), path)
    asked: list[float] = []
    recognise = Beeper.recognise

    def stops(self: Beeper, sound: Sound, pieces: Sequence[Piece], terms: Terms) -> Iterator[Heard]:
        for heard in recognise(self, sound, pieces, terms):
            if len(asked) == 3:
                raise Stopped
            asked.append(heard.piece[0].start)
            yield heard

    def counts(self: Beeper, sound: Sound, pieces: Sequence[Piece], terms: Terms) -> Iterator[Heard]:
        asked.extend(piece[0].start for piece in pieces)
        return recognise(self, sound, pieces, terms)

    monkeypatch.setattr(Beeper, "recognise", stops)
    with pytest.raises(Stopped):
        room.hear(path)
    monkeypatch.setattr(Beeper, "recognise", counts)

    assert room.hear(path) == whole
    assert asked == sorted(set(asked))
    assert len(asked) > 4


@pytest.mark.parametrize("damage", [b"", b"{", b'{"start": 0, "heard": []}', b"\xff\xfe\x00"], ids=repr)
def test_damaged_begun_slice_is_heard_from_its_start(room: Room, damage: bytes) -> None:
    path = room.sound("a.wav", 60.0)
    whole = room.hear(path)
    (kept,) = room.kept()
    kept.with_suffix(".begun").write_bytes(damage)
    kept.unlink()

    assert room.hear(path) == whole
    assert sorted(kept.parent.iterdir()) == [kept]


def test_recording_without_speech_gives_a_notice(room: Room) -> None:
    got = room.hear(room.sound("a.wav", 4.0, every_s=1e9), room.sound("b.wav", 2.0))

    assert got.notices == ()
    silent = write_sound(room.folder / "c.wav", beeps(3.0) * 0, "pcm_s16le")
    assert room.hear(silent).notices == ("c.wav: no speech found",)
    assert room.hear(silent).breaths == ()


@pytest.mark.parametrize(
    ("name", "text"),
    [("a.vtt", "WEBVTT\n\nNOTE nothing\n"), ("a.txt", " \n\n")],
    ids=["no cues", "blank lines"],
)
def test_notes_without_words_give_a_notice(tmp_path: Path, name: str, text: str) -> None:
    path = tmp_path / name
    path.write_text(text)

    assert hear([path]).notices == (f"{name}: no words in it",)


def test_utf16_notes_are_read(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    path.write_text("14 Ω", encoding="utf-16")

    assert [w.text for w in hear([path]).breaths[0].words] == ["14", "Ω"]


WRONG: dict[str, tuple[str, bytes | None, str]] = {
    "missing": ("a.wav", None, "there is no such file"),
    "missing notes": ("a.txt", None, "there is no such file"),
    "empty sound": ("a.wav", b"", r"is empty \(0 bytes\)"),
    "empty vtt": ("a.vtt", b"", r"is empty \(0 bytes\)"),
    "text named wav": ("a.wav", b"Checked the pump.\n" * 99, "is no recording"),
    "latin-1 vtt": (
        "a.vtt",
        "WEBVTT\n\n00:01.000 --> 00:02.000\n20 °C\n".encode("latin-1"),
        "is not UTF-8 text",
    ),
    "binary vtt": ("a.vtt", b"WEBVTT\n\n\x00\x00\x00", "holds binary data"),
    "sound named vtt": ("a.vtt", b"RIFF\xff\xff\xff\x00WAVE", "is not UTF-8 text"),
    "not WebVTT": ("a.vtt", b"1\n00:00:01,000 --> 00:00:02,000\nhot\n", "line 1: is no WebVTT file"),
}


@pytest.mark.parametrize(("name", "raw", "message"), WRONG.values(), ids=WRONG.keys())
def test_wrong_source_is_refused_before_anything_is_heard(
    room: Room, name: str, raw: bytes | None, message: str
) -> None:
    path = room.folder / name
    if raw is not None:
        path.write_bytes(raw)

    with pytest.raises(RecordingError, match=f"{name}.*{message}"):
        room.hear(room.sound("good.wav", 2.0), path)
    assert room.engines == []


def test_folder_is_refused(room: Room) -> None:
    with pytest.raises(RecordingError, match="is a folder"):
        room.hear(room.folder)


def test_cut_off_recording_keeps_its_notice_in_the_cache(room: Room) -> None:
    whole = write_sound(room.folder / "a.flac", beeps(60.0), "flac")
    raw = whole.read_bytes()
    whole.write_bytes(raw[: len(raw) // 2])
    first, second = room.hear(whole), room.hear(whole)

    assert first == second
    assert [notice.split(",")[0] for notice in first.notices] == ["a.flac: ends early"]
