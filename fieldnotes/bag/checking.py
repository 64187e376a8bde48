"""Whether a job folder is whole and unaltered: every file, every seal, every version of it.

Stricter than RFC 8493 asks for: tag files must be written exactly as this program writes them, so that one
flipped bit is found wherever it is, also in a tag file. Folders without files are not looked at (RFC 8493, 2.1.3).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from fieldnotes.bag.content import Content, content_of
from fieldnotes.bag.keys import key_sha256, read_public_key
from fieldnotes.bag.problems import Problem, SealSeen, Verified
from fieldnotes.bag.seals import (
    SEALS,
    BrokenSeal,
    read_seal,
    seal_numbers,
    signature_name,
    statement_name,
)
from fieldnotes.bag.states import State, broken_links, differences, states_of, unlisted
from fieldnotes.bag.tag_files import DECLARATION, INFO, MANIFEST, PAYLOAD, TAG_MANIFEST
from fieldnotes.errors import JobFolderError

_MANIFEST = re.compile(r"(tag)?manifest-\w+\.txt")


def verify(folder: Path, trusted: Path | None = None, *, now: datetime | None = None) -> Verified:
    """Checks a job folder through and through.

    Args:
        folder: the job folder.
        trusted: a public key; the present version must carry a seal made with it.
        now: with its time zone; no seal can be from later. None: what the clock says.

    Raises:
        JobFolderError: it is no job folder, or one of a kind that is not supported.
        KeyFileError: the trusted key cannot be read.
    """
    _check_kind(folder)
    wanted = key_sha256(read_public_key(trusted)) if trusted else None
    content, problems = content_of(folder)
    states = states_of(content)
    for state in states:
        problems += differences(content, state)
    problems += broken_links(content, states)
    seals, broken = _seals(content, states, now or datetime.now(UTC))
    problems += broken
    # a seal of the present state signs the tag manifest and thus cannot be listed in it
    earlier = {seal.number for seal in seals if seal.version < len(states)}
    of_now = set(seal_numbers(content.hashes)) - earlier
    allowed = {named(number) for number in of_now for named in (statement_name, signature_name)}
    problems += (Problem(name, "new") for name in unlisted(content, states[-1]) if name not in allowed)
    if wanted and not any(seal.key_sha256 == wanted and seal.version == len(states) for seal in seals):
        problems.append(
            Problem(SEALS, "not as it should be", f"the present version is not sealed with {trusted}")
        )
    return Verified(tuple(sorted(set(problems))), tuple(seals), len(states), len(content.hashes))


def _check_kind(folder: Path) -> None:
    if not folder.is_dir():
        raise JobFolderError(f"{folder}: there is no such folder; check the path")
    names = {path.name for path in folder.iterdir()}
    manifests = {name for name in names if _MANIFEST.fullmatch(name)}
    if not names & {DECLARATION, INFO} | manifests:
        lacks = f"no folder {PAYLOAD}" if PAYLOAD not in names else "no manifests"
        raise JobFolderError(f"{folder} is no job folder: it holds {lacks}; check the path")
    if "fetch.txt" in names:  # RFC 8493, 2.2.3
        raise JobFolderError(f"{folder}: a bag with parts elsewhere (fetch.txt) is not supported")
    if manifests and not manifests & {MANIFEST, TAG_MANIFEST}:  # RFC 8493, 2.4
        raise JobFolderError(
            f"{folder}: a bag with other check sums than SHA-256 ({min(manifests)}) is not supported; "
            "check it with the program that made it"
        )


def _seals(content: Content, states: Sequence[State], now: datetime) -> tuple[list[SealSeen], list[Problem]]:
    """The seals that hold, and what is wrong with the others. They are numbered without a gap."""
    versions = {state.sealed_as: state.number for state in states if state.sealed_as}
    numbers = seal_numbers(content.hashes)
    gaps = (statement_name(number) for number in range(1, len(numbers) + 1) if number not in numbers)
    problems = [Problem(name, "missing") for name in gaps if content.lacks(name)]
    seals = []
    for number in numbers:
        names = (statement_name(number), signature_name(number))
        if names[1] not in content.hashes:
            problems += [Problem(names[1], "missing")] if content.lacks(names[1]) else []
            continue
        try:
            statement, key = read_seal(content.folder / names[0], now)
        except BrokenSeal as fault:
            problems.append(Problem(names[0], "not as it should be", str(fault)))
            continue
        version = versions.get(statement.tag_manifest_sha256)
        if version is None:
            problems.append(Problem(names[0], "not as it should be", "it seals another state of the folder"))
            continue
        seals.append(SealSeen(number, statement.signer, statement.at, key, version))
    return seals, problems
