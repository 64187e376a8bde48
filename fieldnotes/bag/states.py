"""Every state that a job folder was in, from the first version to the present one, held against its tag files."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from pydantic import ValidationError

from fieldnotes.bag.amendments import (
    AMENDMENT,
    EARLIER,
    RECORD,
    Amendment,
    version_folder,
    version_numbers,
)
from fieldnotes.bag.content import Content
from fieldnotes.bag.problems import Problem
from fieldnotes.bag.statements import json_of, utc_time
from fieldnotes.bag.tag_files import (
    DECLARATION,
    DECLARED,
    INFO,
    MANIFEST,
    PAYLOAD,
    TAG_FILES,
    TAG_MANIFEST,
    BadTagFile,
    Manifest,
    read_info,
    read_manifest,
    read_text,
)

_OTHER_MANIFEST = re.compile(r"(tag)?manifest-(?!sha256\.)\w+\.txt")


@dataclass(frozen=True, slots=True)
class State:
    """One version of the folder: where its tag files lie, and what its manifests list; None: it has none."""

    number: int
    tags: str  # folder of its tag files, with "/" at its end, or ""
    sealed_as: str  # the SHA-256 of its tag manifest, or ""
    payload: Manifest | None
    beside: Manifest | None  # the tag manifest, with the places where its files lie today

    def place(self, tag_file: str) -> str:
        return f"{self.tags}{tag_file}"


def states_of(content: Content) -> list[State]:
    """All states, the first first; there are as many as there are folders of versions."""
    inside = (name.split("/") for name in content.hashes if name.startswith(f"{PAYLOAD}/"))
    last = len(version_numbers({parts[1] for parts in inside if len(parts) > 2}))
    return [
        _state(content, number, f"{version_folder(number + 1)}/{EARLIER}/" if number < last else "")
        for number in range(1, last + 1)
    ]


def _state(content: Content, number: int, tags: str) -> State:
    def read(name: str, payload: bool) -> Manifest | None:
        # only plain files are opened: a pipe in their place would wait for ever
        return (
            read_manifest(content.folder / f"{tags}{name}", payload)
            if f"{tags}{name}" in content.hashes
            else None
        )

    beside = read(TAG_MANIFEST, payload=False)
    if beside:
        moved = {
            f"{tags}{name}" if name in TAG_FILES else name: sha256 for name, sha256 in beside.hashes.items()
        }
        beside = Manifest(moved, beside.fault, beside.every_line)
    return State(
        number, tags, content.hashes.get(f"{tags}{TAG_MANIFEST}", ""), read(MANIFEST, payload=True), beside
    )


def differences(content: Content, state: State) -> Iterator[Problem]:
    """What is no longer as the tag files of a state say."""
    yield from (Problem(place, "missing") for place in map(state.place, TAG_FILES) if content.lacks(place))
    for name, manifest in ((MANIFEST, state.payload), (TAG_MANIFEST, state.beside)):
        if manifest and manifest.fault:
            yield Problem(state.place(name), "not as it should be", manifest.fault)
        for file, sha256 in manifest.hashes.items() if manifest else ():
            if file in content.hashes and content.hashes[file] != sha256:
                yield Problem(file, "changed")
            elif content.lacks(file):
                yield Problem(file, "missing")
    if state.beside and state.beside.every_line:
        owed = {state.place(name) for name in (DECLARATION, INFO, MANIFEST)} - state.beside.hashes.keys()
        yield from (
            Problem(state.place(TAG_MANIFEST), "not as it should be", f"it does not list {name}")
            for name in sorted(owed)
        )
        yield from (
            Problem(name, "not as it should be", "only SHA-256 is supported; it was not looked at")
            for name in state.beside.hashes
            if _OTHER_MANIFEST.fullmatch(name)
        )
    yield from _described(content, state)


def _described(content: Content, state: State) -> Iterator[Problem]:
    """What the declaration and `bag-info.txt` say wrongly. Source: RFC 8493, 2.1.1 and 2.2.2."""
    declaration, info = state.place(DECLARATION), state.place(INFO)
    if declaration in content.hashes:
        try:
            if read_text(content.folder / declaration) != DECLARED:
                yield Problem(declaration, "not as it should be", "it does not declare BagIt 1.0 and UTF-8")
        except BadTagFile as fault:
            yield Problem(declaration, "not as it should be", str(fault))
    if info in content.hashes:
        try:
            stated = read_info(content.folder / info).get("Payload-Oxum")
        except BadTagFile as fault:
            yield Problem(info, "not as it should be", str(fault))
            return
        # where a file of the payload is not as it was, that is told already
        if state.payload and all(content.hashes.get(n) == h for n, h in state.payload.hashes.items()):
            octets = sum(content.octets[name] for name in state.payload.hashes)
            present = f"{octets}.{len(state.payload.hashes)}"
            if stated != present and state.payload.every_line:
                yield Problem(info, "not as it should be", f"it counts {stated}, there are {present}")


def unlisted(content: Content, present: State) -> Iterator[str]:
    """Files that the present state does not list. Nothing is said where its manifest cannot be read in full."""
    for manifest, payload in ((present.payload, True), (present.beside, False)):
        if manifest and manifest.every_line:
            yield from (
                name
                for name in content.hashes.keys() - manifest.hashes.keys() - {TAG_MANIFEST}
                if name.startswith(f"{PAYLOAD}/") is payload
            )


def broken_links(content: Content, states: Sequence[State]) -> Iterator[Problem]:
    """Versions that do not amend the one before, or that added something outside their own folder."""
    for before, state in pairwise(states):
        yield from _amended(content, before, state)
        if before.payload and state.payload and before.payload.every_line:
            yield from (
                Problem(name, "new", f"it came with version {state.number} but lies outside its folder")
                for name in state.payload.hashes.keys() - before.payload.hashes.keys()
                if not name.startswith(f"{version_folder(state.number)}/")
            )


def _amended(content: Content, before: State, state: State) -> Iterator[Problem]:
    name = f"{version_folder(state.number)}/{AMENDMENT}"
    if name not in content.hashes:
        if content.lacks(name):
            yield Problem(name, "missing")
        return
    try:
        written = (content.folder / name).read_bytes()
        said = Amendment.model_validate_json(written)
        utc_time(said.at)
    except (OSError, ValidationError, ValueError):
        yield Problem(name, "not as it should be", "it does not say which version it amends")
        return
    record = f"{version_folder(before.number)}/{RECORD}"
    stated = (said.version, said.record, said.record_sha256, said.tag_manifest_sha256)
    if stated != (state.number, record, content.hashes.get(record), before.sealed_as):
        yield Problem(name, "not as it should be", "it amends another version than the one before")
    elif written != json_of(said):
        yield Problem(name, "not as it should be", "it is not written as this program writes it")
