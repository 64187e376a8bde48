"""Whether a job folder is whole and unaltered: every file, every seal, every version of it.

Stricter than RFC 8493 asks for: tag files must be written exactly as this program writes them, so that one
flipped bit is found wherever it is, also in a tag file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from pydantic import ValidationError

from fieldnotes.bag.amendments import AMENDMENT, EARLIER, Amendment, record_paths, version_folder
from fieldnotes.bag.keys import fingerprint, read_public_key
from fieldnotes.bag.seals import SEALS, BrokenSeal, numbered, read_seal
from fieldnotes.bag.tag_files import (
    DECLARATION,
    DECLARED,
    INFO,
    MANIFEST,
    PAYLOAD,
    TAG_FILES,
    TAG_MANIFEST,
    BadTagFile,
    files_in,
    read_info,
    read_manifest,
    read_text,
    sha256_of,
)
from fieldnotes.errors import JobFolderError

Trouble = Literal["changed", "missing", "new", "unreadable", "not as it should be"]


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One file that is not as it was: its name in the folder, and what is wrong."""

    file: str
    trouble: Trouble
    detail: str = ""

    def __str__(self) -> str:
        return f"{self.trouble}: {self.file}{f' ({self.detail})' if self.detail else ''}"


@dataclass(frozen=True, slots=True)
class SealSeen:
    """A seal that holds. `at` is UTC; `version` is the version of the folder that it vouches for."""

    number: int
    signer: str
    at: str
    fingerprint: str
    version: int


@dataclass(frozen=True, slots=True)
class Verified:
    """All that was found. The folder is whole where there are no problems."""

    problems: tuple[Problem, ...]
    seals: tuple[SealSeen, ...]
    versions: int
    files: int


@dataclass(frozen=True, slots=True)
class _Version:
    """One state of the folder: where its tag files lie, and the SHA-256 of its tag manifest."""

    number: int
    tags: str  # folder of its tag files, with "/" at its end, or ""
    sealed_as: str


def verify(folder: Path, trusted: Path | None = None) -> Verified:
    """Checks a job folder through and through.

    Args:
        folder: the job folder.
        trusted: a public key; the present version must carry a seal made with it.

    Raises:
        JobFolderError: it is no job folder, or one of a kind that is not supported.
        KeyFileError: the trusted key cannot be read.
    """
    _check_kind(folder)
    wanted = fingerprint(read_public_key(trusted)) if trusted else None
    files, problems = _hashed(folder)
    versions, found = _versions(folder, files)
    problems += found
    seals, broken = _seals(folder, versions)
    problems += broken
    for version in versions:
        problems += _state(
            folder, version, files, [seal.number for seal in seals if seal.version == version.number]
        )
    problems += _additions(folder, versions)
    if wanted and not any(seal.fingerprint == wanted and seal.version == len(versions) for seal in seals):
        problems.append(
            Problem(folder.name, "not as it should be", f"the present version is not sealed with {trusted}")
        )
    return Verified(tuple(sorted(set(problems))), tuple(seals), len(versions), len(files))


def _check_kind(folder: Path) -> None:
    if not (folder / PAYLOAD).is_dir():
        raise JobFolderError(f"{folder} is no job folder: it holds no folder {PAYLOAD}; check the path")
    if (folder / "fetch.txt").exists():
        raise JobFolderError(f"{folder}: a bag with parts elsewhere (fetch.txt) is not supported")
    if not any((folder / name).exists() for name in TAG_FILES):
        raise JobFolderError(f"{folder} is no job folder: it holds no manifests; check the path")


def _hashed(folder: Path) -> tuple[dict[str, str], list[Problem]]:
    """SHA-256 of every file by name; links and what cannot be read are problems."""
    hashes: dict[str, str] = {}
    problems = []
    for name in files_in(folder):
        path = folder / name
        if path.is_symlink() or not path.is_file():
            problems.append(Problem(name, "not as it should be", "a link or a device, not a file"))
            continue
        try:
            hashes[name] = sha256_of(path)
        except OSError as fault:
            problems.append(Problem(name, "unreadable", fault.strerror or ""))
    return hashes, problems


def _versions(folder: Path, files: dict[str, str]) -> tuple[list[_Version], list[Problem]]:
    """Every state from the first to the present one, with what breaks the chain between them."""
    last = len(record_paths(folder))
    versions, problems = [], []
    for number in range(1, last + 1):
        tags = "" if number == last else f"{version_folder(number + 1)}/{EARLIER}/"
        versions.append(_Version(number, tags, files.get(f"{tags}{TAG_MANIFEST}", "")))
    for version, before in zip(versions[1:], versions, strict=False):
        name = f"{version_folder(version.number)}/{AMENDMENT}"
        try:
            said = Amendment.model_validate_json((folder / name).read_bytes())
        except (OSError, ValidationError):
            problems.append(Problem(name, "not as it should be", "it does not say which version it amends"))
            continue
        record = f"{version_folder(before.number)}/visit.json"
        stated = (said.version, said.record, said.record_sha256, said.tag_manifest_sha256)
        if stated != (version.number, record, files.get(record), before.sealed_as):
            problems.append(
                Problem(name, "not as it should be", "it amends another version than the one before")
            )
    return versions, problems


def _seals(folder: Path, versions: list[_Version]) -> tuple[list[SealSeen], list[Problem]]:
    states = {version.sealed_as: version.number for version in versions}
    seals, problems = [], []
    for number, path in numbered(folder):
        name = path.relative_to(folder).as_posix()
        try:
            statement, mark = read_seal(path)
        except BrokenSeal as fault:
            problems.append(Problem(name, "changed", str(fault)))
            continue
        if statement.tag_manifest_sha256 not in states:
            problems.append(Problem(name, "not as it should be", "it seals another state of the folder"))
            continue
        version = states[statement.tag_manifest_sha256]
        seals.append(SealSeen(number, statement.signer, statement.at, mark, version))
    return seals, problems


def _state(folder: Path, version: _Version, files: dict[str, str], seals: list[int]) -> Iterator[Problem]:
    """What differs from the state that a version's tag files describe; only the present one allows nothing more."""
    tags = {name: f"{version.tags}{name}" for name in TAG_FILES}
    manifests: dict[str, dict[str, str]] = {}
    for name in (MANIFEST, TAG_MANIFEST):
        try:
            manifests[name] = read_manifest(folder / tags[name])
        except BadTagFile as fault:
            yield Problem(
                tags[name], "missing" if tags[name] not in files else "not as it should be", str(fault)
            )
    if len(manifests) < 2:
        return
    tagged = {tags.get(name, name): sha256 for name, sha256 in manifests[TAG_MANIFEST].items()}
    listed = manifests[MANIFEST] | tagged
    yield from _differing(listed, files)
    if unlisted := {tags[name] for name in (DECLARATION, INFO, MANIFEST)} - tagged.keys():
        yield Problem(tags[TAG_MANIFEST], "not as it should be", f"it does not list {min(unlisted)}")
    if not version.tags:
        outside = {
            TAG_MANIFEST,
            *(f"{SEALS}/seal-{number}.{end}" for number in seals for end in ("json", "sig")),
        }
        yield from (Problem(name, "new") for name in sorted(files.keys() - listed.keys() - outside))
    yield from _described(folder, tags, manifests[MANIFEST])


def _differing(listed: dict[str, str], files: dict[str, str]) -> Iterator[Problem]:
    for name, sha256 in listed.items():
        if name not in files:
            yield Problem(name, "missing")
        elif files[name] != sha256:
            yield Problem(name, "changed")


def _described(folder: Path, tags: dict[str, str], payload: dict[str, str]) -> Iterator[Problem]:
    """What the declaration and the sum of the payload say wrongly."""
    octets = sum((folder / name).stat().st_size for name in payload if (folder / name).is_file())
    present = f"{octets}.{len(payload)}"
    try:
        if read_text(folder / tags[DECLARATION]) != DECLARED:
            yield Problem(tags[DECLARATION], "not as it should be", "it does not declare BagIt 1.0 and UTF-8")
        stated = read_info(folder / tags[INFO]).get("Payload-Oxum")
        if stated != present:
            yield Problem(tags[INFO], "not as it should be", f"it counts {stated}, there are {present}")
    except BadTagFile as fault:
        yield Problem(tags[INFO], "not as it should be", str(fault))


def _additions(folder: Path, versions: list[_Version]) -> Iterator[Problem]:
    """A version adds its own folder to the payload and nothing else."""
    listed = []
    for version in versions:
        try:
            listed.append(read_manifest(folder / f"{version.tags}{MANIFEST}").keys())
        except BadTagFile:
            return  # told already
    for version, before, after in zip(versions[1:], listed, listed[1:], strict=False):
        own = re.compile(re.escape(version_folder(version.number)) + "/")
        yield from (
            Problem(name, "new", f"it came with version {version.number} but lies outside its folder")
            for name in sorted(after - before)
            if not own.match(name)
        )
