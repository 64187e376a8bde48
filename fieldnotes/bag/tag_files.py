"""The tag files of a bag: how they are written, and read back. Source: RFC 8493, 2.1 and 2.2."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from fieldnotes.bag.problems import shown
from fieldnotes.errors import JobFolderError
from fieldnotes.staging import write_through

PAYLOAD = "data"
DECLARATION, INFO = "bagit.txt", "bag-info.txt"
MANIFEST, TAG_MANIFEST = "manifest-sha256.txt", "tagmanifest-sha256.txt"
TAG_FILES = (DECLARATION, INFO, MANIFEST, TAG_MANIFEST)
DECLARED = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"

_ENCODED = {"%": "%25", "\n": "%0A", "\r": "%0D"}  # these and only these: RFC 8493, 2.1.3
_LINE = re.compile(r"([0-9a-fA-F]{64})[ \t]+(.+)")  # as the standard has it; ours is narrower
_LABEL = re.compile(r"[^\s:]+( [^\s:]+)*")


@dataclass(frozen=True, slots=True)
class Manifest:
    """Check sum by name, of the lines that can be read.

    `fault` says how it differs from what this program writes; `every_line`: all of its lines were read.
    """

    hashes: dict[str, str]
    fault: str | None = None
    every_line: bool = True


class BadTagFile(Exception):
    """A tag file that does not read as this program writes it; the text says where."""


def close_bag(folder: Path, info: Mapping[str, str]) -> None:
    """Makes a bag of a folder whose payload lies in `data/`: writes its tag files over what there was.

    Args:
        folder: every file in it but the tag manifest is listed in one of the two manifests.
        info: labels and values of `bag-info.txt` (RFC 8493, 2.2.2); Payload-Oxum is added.

    Raises:
        JobFolderError: a file's name is not UTF-8, in which manifests are written, or it is a link.
    """
    names = list(files_in(folder))
    for name in names:
        if not _is_unicode(name):
            raise JobFolderError(f"{shown(name)}: the file's name is not UTF-8 text; give it another name")
        if (folder / name).is_symlink():
            raise JobFolderError(f"{shown(name)} is a link; put the file itself into the job folder")
    payload = {name: folder / name for name in names if name.startswith(f"{PAYLOAD}/")}
    octets = sum(path.stat().st_size for path in payload.values())
    write_through(folder / DECLARATION, DECLARED.encode())
    write_through(folder / INFO, info_text({**info, "Payload-Oxum": f"{octets}.{len(payload)}"}).encode())
    write_through(folder / MANIFEST, manifest_text(digests(payload)).encode())
    tags = {name: folder / name for name in files_in(folder) if name not in payload and name != TAG_MANIFEST}
    write_through(folder / TAG_MANIFEST, manifest_text(digests(tags)).encode())


def files_in(folder: Path, closed: Callable[[str, OSError], None] | None = None) -> Iterator[str]:
    """Names of all files below a folder, with "/", in order; links are named, not followed.

    `closed` is called with a folder that cannot be read; without it the OSError is raised.
    """
    try:
        paths = sorted(folder.iterdir())
    except OSError as fault:
        if closed is None:
            raise
        closed("", fault)
        return
    for path in paths:
        if path.is_dir() and not path.is_symlink():
            inside = closed and _below(path.name, closed)
            yield from (f"{path.name}/{below}" for below in files_in(path, inside))
        else:
            yield path.name


def _below(name: str, closed: Callable[[str, OSError], None]) -> Callable[[str, OSError], None]:
    return lambda below, fault: closed(f"{name}/{below}" if below else name, fault)


def digests(files: Mapping[str, Path]) -> dict[str, str]:
    """The SHA-256 of each file by its name."""
    return {name: sha256_of(path) for name, path in files.items()}


def sha256_of(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def info_text(info: Mapping[str, str]) -> str:
    """`bag-info.txt`: one line a label, in order of labels; line ends in a value become spaces.

    Raises ValueError for a label that would not be read back as it is (RFC 8493, 2.2.2).
    """
    if wrong := [label for label in info if not _LABEL.fullmatch(label)]:
        raise ValueError(f"not a label of bag-info.txt: {wrong[0]!r}")
    return "".join(
        f"{label}: {' '.join(value.split())}\n" for label, value in sorted(info.items()) if value.strip()
    )


def manifest_text(hashes: Mapping[str, str]) -> str:
    """A manifest: check sum and name, in order of names."""
    return "".join(f"{sha256}  {_encoded(name)}\n" for name, sha256 in sorted(hashes.items()))


def read_manifest(path: Path, payload: bool) -> Manifest:
    """Reads a manifest of the payload, or of what lies beside it, as far as it can be read. Never raises."""
    try:
        text = read_text(path)
    except BadTagFile as fault:
        return Manifest({}, str(fault), every_line=False)
    hashes: dict[str, str] = {}
    unread: str | None = None
    for number, line in enumerate(text.removesuffix("\n").split("\n") if text else (), start=1):
        entry = _LINE.fullmatch(line)
        name = _decoded(entry[2]) if entry else ""
        if entry is None:
            unread = unread or f"line {number} is no check sum and name"
        elif name.startswith("/") or ".." in name.split("/"):  # RFC 8493, 5.1
            unread = unread or f"line {number} names a file outside the folder"
        elif name.startswith(f"{PAYLOAD}/") is not payload:  # RFC 8493, 2.1.3 and 2.2.1
            unread = unread or f"line {number} belongs into the other manifest"
        else:
            hashes[name] = entry[1].lower()
    if unread is None and manifest_text(hashes) != text:
        return Manifest(hashes, "its lines are not in order, or not written as they should be")
    return Manifest(hashes, unread, every_line=unread is None)


def read_info(path: Path) -> dict[str, str]:
    """Labels and values. Raises BadTagFile unless it is written exactly as `info_text` does."""
    text = read_text(path)
    info = dict(line.split(": ", 1) for line in text.split("\n")[:-1] if ": " in line)
    try:
        written = info_text(info)
    except ValueError:
        written = None
    if written != text:
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


def _is_unicode(name: str) -> bool:
    """False for a name whose bytes are no UTF-8; Python keeps such bytes as lone surrogates (PEP 383)."""
    return not any("\ud800" <= sign <= "\udfff" for sign in name)


def _encoded(name: str) -> str:
    return "".join(_ENCODED.get(sign, sign) for sign in name)


def _decoded(name: str) -> str:
    for sign, code in reversed(_ENCODED.items()):
        name = name.replace(code, sign)
    return name
