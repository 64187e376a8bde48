"""The tag files of a bag: how they are written, and read back. Source: RFC 8493, 2.1 and 2.2."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from fieldnotes.staging import write_through

PAYLOAD = "data"
DECLARATION, INFO = "bagit.txt", "bag-info.txt"
MANIFEST, TAG_MANIFEST = "manifest-sha256.txt", "tagmanifest-sha256.txt"
TAG_FILES = (DECLARATION, INFO, MANIFEST, TAG_MANIFEST)
DECLARED = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"

_ENCODED = {"%": "%25", "\n": "%0A", "\r": "%0D"}  # these and only these: RFC 8493, 2.1.3
_LINE = re.compile(r"([0-9a-f]{64})  (.+)")


class BadTagFile(Exception):
    """A tag file that does not read as this program writes it; the text says where."""


def close_bag(folder: Path, info: Mapping[str, str]) -> None:
    """Makes a bag of a folder whose payload lies in `data/`: writes its tag files over what there was.

    Args:
        folder: every file in it but the tag manifest is listed in one of the two manifests.
        info: labels and values of `bag-info.txt` (RFC 8493, 2.2.2); Payload-Oxum is added.
    """
    payload = {name: folder / name for name in files_in(folder) if name.startswith(f"{PAYLOAD}/")}
    octets = sum(path.stat().st_size for path in payload.values())
    write_through(folder / DECLARATION, DECLARED.encode())
    write_through(folder / INFO, info_text({**info, "Payload-Oxum": f"{octets}.{len(payload)}"}).encode())
    write_through(folder / MANIFEST, manifest_text(digests(payload)).encode())
    tags = {name: folder / name for name in files_in(folder) if name not in payload and name != TAG_MANIFEST}
    write_through(folder / TAG_MANIFEST, manifest_text(digests(tags)).encode())


def files_in(folder: Path) -> Iterator[str]:
    """Names of all files below a folder, with "/", in order; links are named, not followed."""
    for path in sorted(folder.iterdir()):
        if path.is_dir() and not path.is_symlink():
            yield from (f"{path.name}/{below}" for below in files_in(path))
        else:
            yield path.name


def digests(files: Mapping[str, Path]) -> dict[str, str]:
    """The SHA-256 of each file by its name."""
    return {name: sha256_of(path) for name, path in files.items()}


def sha256_of(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def info_text(info: Mapping[str, str]) -> str:
    """`bag-info.txt`: one line a label, in order of labels; line ends in a value become spaces."""
    return "".join(f"{label}: {' '.join(value.split())}\n" for label, value in sorted(info.items()) if value)


def manifest_text(hashes: Mapping[str, str]) -> str:
    """A manifest: check sum and name, in order of names."""
    return "".join(f"{sha256}  {_encoded(name)}\n" for name, sha256 in sorted(hashes.items()))


def read_manifest(path: Path) -> dict[str, str]:
    """Check sum by name. Raises BadTagFile unless it is written exactly as `manifest_text` does."""
    text = read_text(path)
    hashes: dict[str, str] = {}
    for number, line in enumerate(text.split("\n")[:-1], start=1):
        entry = _LINE.fullmatch(line)
        if entry is None:
            raise BadTagFile(f"line {number} is no check sum and name")
        name = _decoded(entry[2])
        if name.startswith("/") or ".." in name.split("/") or "\\" in name:
            raise BadTagFile(f"line {number} names a file outside the folder")
        hashes[name] = entry[1]
    if manifest_text(hashes) != text:
        raise BadTagFile("its lines are not in order, or not written as they should be")
    return hashes


def read_info(path: Path) -> dict[str, str]:
    """Labels and values. Raises BadTagFile unless it is written exactly as `info_text` does."""
    text = read_text(path)
    info = dict(line.split(": ", 1) for line in text.split("\n")[:-1] if ": " in line)
    if info_text(info) != text:
        raise BadTagFile("its lines are not in order, or not written as they should be")
    return info


def read_text(path: Path) -> str:
    """Raises BadTagFile where it cannot be read as UTF-8."""
    try:
        return path.read_bytes().decode("utf-8")
    except UnicodeDecodeError as fault:
        raise BadTagFile("it is no UTF-8 text") from fault
    except OSError as fault:
        raise BadTagFile(f"it cannot be read: {fault.strerror}") from fault


def _encoded(name: str) -> str:
    return "".join(_ENCODED.get(sign, sign) for sign in name)


def _decoded(name: str) -> str:
    for sign, code in reversed(_ENCODED.items()):
        name = name.replace(code, sign)
    return name
