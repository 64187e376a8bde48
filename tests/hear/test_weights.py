"""Which model is taken, that it is unaltered, and what is said when it cannot be had."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from pathlib import Path

import pytest

from fieldnotes.errors import WeightsError
from fieldnotes.hear import packed, weights
from fieldnotes.hear.packed import PACKED, Packed, Source, installed_folder, is_installed, packed_folder
from fieldnotes.hear.weights import KNOWN, find_weights

Where = Callable[[str], Path | None]
FILES = ("model.bin", "config.json", "tokenizer.json", "vocabulary.txt")


class Watcher:
    def __init__(self) -> None:
        self.stages: list[str] = []

    def stage(self, name: str) -> None:
        self.stages.append(name)

    def heard(self, seconds_done: float, seconds_total: float | None) -> None: ...


def _sha(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()


def _source(module: str, path: str) -> Source:
    return Source(module, path, _sha(f"{module}/{path}".encode()), f"{module}==1.0")


def _put(site: Path, model: Packed) -> None:
    """Install an invented package: each file's content is its own place, so that its hash is known."""
    for source in (source for sources in model.files.values() for source in sources):
        file = site / source.module / source.path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(f"{source.module}/{source.path}".encode())


BIG = Packed(
    "base",
    _sha(b"one/a.part1two/a.part2"),
    {
        "model.bin": (_source("one", "a.part1"), _source("two", "a.part2")),
        "config.json": (_source("two", "config.json"),),
        "tokenizer.json": (_source("two", "tokenizer.json"),),
        "vocabulary.txt": (_source("two", "vocabulary.txt"),),
    },
)
SMALL = Packed(
    "tiny.en",
    _sha(b"small/m/model.bin"),
    {name: (_source("small", f"m/{name}"),) for name in FILES},
)


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A place for invented packages; the hub's cache is empty and the hub out of reach."""
    monkeypatch.setattr(weights, "PACKED", (BIG, SMALL))

    def nothing(name: str, *, online: bool) -> Path:
        raise OSError("no network")

    monkeypatch.setattr(weights, "hub_folder", nothing)
    return tmp_path / "site"


def found_in(site: Path) -> Where:
    return lambda module: site / module if (site / module).is_dir() else None


def find(site: Path, model: str | None = None, watcher: Watcher | None = None) -> weights.Weights:
    joined = site.parent / "joined"
    return find_weights(model, joined=joined, progress=watcher or Watcher(), folder_of=found_in(site))


def test_better_package_is_taken_and_joined(site: Path) -> None:
    _put(site, BIG)
    _put(site, SMALL)
    got = find(site)
    folder = got.folder()

    assert (got.name, got.sha256) == ("base", BIG.sha256)
    assert (folder / "model.bin").read_bytes() == b"one/a.part1two/a.part2"
    assert sorted(file.name for file in folder.iterdir()) == sorted(FILES)
    assert [each.name for each in folder.parent.iterdir()] == [
        folder.name
    ]  # nothing half-done lies beside it


def test_half_a_package_is_no_package(site: Path) -> None:
    _put(site, BIG)
    _put(site, SMALL)
    for file in sorted((site / "one").iterdir()):
        file.unlink()
    (site / "one").rmdir()

    assert find(site).name == "tiny.en"


def test_whole_package_is_used_where_it_lies(site: Path) -> None:
    _put(site, SMALL)

    assert find(site, "tiny.en").folder() == site / "small" / "m"
    assert not (site.parent / "joined").exists()


def test_joined_copy_is_not_made_twice(site: Path) -> None:
    _put(site, BIG)
    first = find(site).folder() / "model.bin"
    inode = first.stat().st_ino

    assert (find(site).folder() / "model.bin").stat().st_ino == inode


@pytest.mark.parametrize("name", FILES)
def test_spoilt_joined_copy_is_made_anew(site: Path, name: str) -> None:
    _put(site, BIG)
    file = find(site).folder() / name
    good = file.read_bytes()
    file.write_bytes(good[:-1] + bytes([good[-1] ^ 1]))

    assert find(site).folder() / name == file
    assert file.read_bytes() == good


@pytest.mark.parametrize(
    ("model", "place"),
    [
        ("base", "one/a.part1"),
        ("base", "two/a.part2"),
        ("base", "two/config.json"),
        ("tiny.en", "small/m/model.bin"),
    ],
)
def test_altered_package_is_named_with_its_remedy(site: Path, model: str, place: str) -> None:
    _put(site, BIG)
    _put(site, SMALL)
    (site / place).write_bytes(b"tampered")

    with pytest.raises(
        WeightsError, match=rf"{place}: .*altered.*--force-reinstall .*{place.split('/')[0]}==1\.0"
    ):
        find(site, model).folder()


def test_lost_file_of_a_package_is_named(site: Path) -> None:
    _put(site, SMALL)
    (site / "small/m/tokenizer.json").unlink()

    with pytest.raises(WeightsError, match=r"tokenizer\.json of small==1\.0 is missing"):
        find(site).folder()


def test_full_disk_leaves_no_half_model(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _put(site, BIG)

    def full(files: list[Path], target: Path) -> None:
        target.write_bytes(b"half")
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(packed, "_put_together", full)

    with pytest.raises(WeightsError, match="No space left"):
        find(site).folder()
    assert list((site.parent / "joined").iterdir()) == []


def model_folder(path: Path) -> Path:
    path.mkdir(parents=True)
    for name in FILES:
        (path / name).write_bytes(name.encode())
    return path


def test_any_folder_of_the_same_layout_is_taken(site: Path) -> None:
    folder = model_folder(site / "mine")
    got = find(site, str(folder))

    assert (got.name, got.sha256, got.folder()) == ("mine", _sha(b"model.bin"), folder)


@pytest.mark.parametrize("name", ["model.bin", "config.json", "tokenizer.json", "vocabulary.txt"])
def test_folder_that_lacks_a_file_is_refused(site: Path, name: str) -> None:
    (model_folder(site / "mine") / name).unlink()

    with pytest.raises(WeightsError, match=f"lacks {name.replace('txt', 'json or vocabulary.txt')}"):
        find(site, str(site / "mine"))


def test_path_that_is_not_there_is_refused(site: Path) -> None:
    with pytest.raises(WeightsError, match="is no folder"):
        find(site, "./nowhere")


def test_unknown_name_lists_the_known_ones(site: Path) -> None:
    with pytest.raises(WeightsError, match=r'"bas" is no known .*base, base\.en, .*Did you mean "base"\?'):
        find(site, "bas")


def test_model_in_the_hub_cache_is_taken_before_fetching(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = model_folder(site / "snapshot")

    def cached(name: str, *, online: bool) -> Path:
        if name != "small.en" or online:
            raise OSError("not here")
        return folder

    monkeypatch.setattr(weights, "hub_folder", cached)
    watcher = Watcher()

    assert find(site, None, watcher).name == "small.en"
    assert watcher.stages == []


@pytest.mark.parametrize("name", KNOWN)
def test_known_name_is_asked_of_the_hub_cache_alone(
    site: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    folder = model_folder(site / "snapshot")
    asked: list[tuple[str, bool]] = []

    def cached(wanted: str, *, online: bool) -> Path:
        asked.append((wanted, online))
        return folder

    monkeypatch.setattr(weights, "hub_folder", cached)

    assert find(site, name).name == name
    assert asked == [(name, False)]


@pytest.mark.parametrize(
    ("asked", "meant"), [("distil-small", "distil-small.en"), ("large-v3-turb", "large-v3-turbo")]
)
def test_mistyped_name_brings_the_nearest_known_one(site: Path, asked: str, meant: str) -> None:
    with pytest.raises(WeightsError, match=rf'"{asked}" is no known .*Did you mean "{meant}"\?'):
        find(site, asked)


def test_altered_file_in_the_hub_cache_is_refused(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The hub's cache names a large file by its SHA-256 and links to it."""
    folder = model_folder(site / "snapshot")
    blob = site / _sha(b"good weights")
    blob.write_bytes(b"bad weights")
    (folder / "model.bin").unlink()
    (folder / "model.bin").symlink_to(blob)
    monkeypatch.setattr(weights, "hub_folder", lambda name, *, online: folder)

    with pytest.raises(WeightsError, match="altered or damaged; delete"):
        find(site)
    blob.write_bytes(b"good weights")
    assert find(site).sha256 == _sha(b"good weights")


def test_fetching_is_told_first_and_its_failure_has_a_remedy(site: Path) -> None:
    watcher = Watcher()

    with pytest.raises(
        WeightsError, match=r'"base" \(150 MB\) is not on this device .*pip install "fieldnotes\[weights\]"'
    ):
        find(site, None, watcher)
    assert watcher.stages == ['fetching the speech model "base" from the Hugging Face hub, 150 MB, once']


def test_known_names_are_those_of_the_engine() -> None:
    from faster_whisper import available_models  # type: ignore[import-untyped]

    assert set(KNOWN) <= set(available_models())


@pytest.mark.speech
@pytest.mark.parametrize("model", PACKED, ids=lambda model: model.name)
def test_installed_packages_hold_what_is_pinned(model: Packed, tmp_path: Path) -> None:
    """Recomputed here over the packages' own files, not by the code under test."""
    if not is_installed(model):
        pytest.skip(f"the weights package of {model.name} is not installed")
    digest = hashlib.sha256()
    for source in model.files["model.bin"]:
        file = source.file(installed_folder)
        assert file is not None
        digest.update(file.read_bytes())
    folder = packed_folder(model, tmp_path)

    assert digest.hexdigest() == model.sha256
    assert _sha((folder / "model.bin").read_bytes()) == model.sha256
