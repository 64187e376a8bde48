"""A later version adds to a job folder, changes nothing of before, and is there whole or not at all."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from fieldnotes.bag import amend, close_bag, record_paths, verify
from fieldnotes.bag.tag_files import TAG_FILES, files_in
from fieldnotes.errors import JobFolderError

from .bags import INFO, PAYLOAD, TUESDAY, open_bag, sealed_bag

LATER = {"visit.json": b'{"later": 1}\n', "drawings/plate.svg": b"<svg/>"}


def amended(folder: Path) -> Path:
    return amend(folder, LATER, reason="serial number", by="A. Lindqvist", at=TUESDAY, info=INFO)


def contents(folder: Path) -> dict[str, bytes]:
    return {name: (folder / name).read_bytes() for name in files_in(folder)}


def sha256(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def test_version_adds_its_folder_and_keeps_the_earlier_tag_files(tmp_path: Path) -> None:
    folder = open_bag(tmp_path / "job")
    before = contents(folder)

    added = amended(folder)

    after = contents(folder)
    payload = {f"data/{name}": content for name, content in PAYLOAD.items()}
    assert added == folder / "data" / "version-2"
    assert {name: after[name] for name in payload} == payload
    assert {name: after[f"data/version-2/earlier/{name}"] for name in TAG_FILES} == {
        name: before[name] for name in TAG_FILES
    }
    assert {name: after[f"data/version-2/{name}"] for name in LATER} == LATER
    assert set(after) == {
        *before,
        *(f"data/version-2/{name}" for name in (*LATER, "amendment.json")),
        *(f"data/version-2/earlier/{name}" for name in TAG_FILES),
    }
    assert json.loads(after["data/version-2/amendment.json"]) == {
        "schema": "fieldnotes-amendment/1",
        "version": 2,
        "reason": "serial number",
        "by": "A. Lindqvist",
        "at": "2026-03-03T09:15:00Z",
        "record": "data/visit.json",
        "record_sha256": sha256(before["data/visit.json"]),
        "tag_manifest_sha256": sha256(before["tagmanifest-sha256.txt"]),
    }
    assert verify(folder).problems == ()


def test_records_of_all_versions_are_found_in_their_order(tmp_path: Path) -> None:
    folder = open_bag(tmp_path / "job")
    for _ in range(10):  # past 9, where names no longer sort as numbers do
        amended(folder)

    assert record_paths(folder) == [
        folder / "data" / "visit.json",
        *(folder / "data" / f"version-{number}" / "visit.json" for number in range(2, 12)),
    ]
    assert (verify(folder).problems, verify(folder).versions) == ((), 11)


def test_one_byte_of_any_version_breaks_the_chain(tmp_path: Path) -> None:
    """What was there before the last amendment is vouched for by two manifests at least."""
    folder = sealed_bag(tmp_path / "job")
    amended(folder)
    for name in files_in(folder):
        if not name.startswith(("data/", "seals/")):
            continue
        content = (folder / name).read_bytes()
        (folder / name).write_bytes(content + b"x")
        assert f"changed: {name}" in [str(problem) for problem in verify(folder).problems]
        (folder / name).write_bytes(content)
    assert verify(folder).problems == ()


def test_last_version_taken_off_as_a_whole_is_noticed_by_its_seal(tmp_path: Path) -> None:
    """Without its seal the folder is that of before: nothing in it can tell, only a copy kept elsewhere."""
    folder = sealed_bag(tmp_path / "job")
    earlier = folder / "data" / "version-2" / "earlier"
    for name in TAG_FILES:
        (earlier / name).replace(folder / name)
    shutil.rmtree(folder / "data" / "version-2")

    assert [str(problem) for problem in verify(folder).problems] == [
        "not as it should be: seals/seal-3.json (it seals another state of the folder)"
    ]


def _laid_out(said: dict[str, Any]) -> str:
    return json.dumps(said, ensure_ascii=False, indent=2) + "\n"


@pytest.mark.parametrize(
    ("alter", "detail"),
    [
        (json.dumps, "it is not written as this program writes it"),
        (lambda said: _laid_out(said | {"extra": 1}), "it does not say which version it amends"),
        (lambda said: _laid_out(said | {"at": "today"}), "it does not say which version it amends"),
        (lambda said: _laid_out(said | {"version": 3}), "it amends another version than the one before"),
        (
            lambda said: _laid_out(said | {"tag_manifest_sha256": "0" * 64}),
            "it amends another version than the one before",
        ),
    ],
    ids=["other layout", "another field", "no time", "another version", "another state"],
)
def test_amendment_must_lead_to_the_version_before(
    tmp_path: Path, alter: Callable[[dict[str, Any]], str], detail: str
) -> None:
    """Also where the present tag files were made to fit it."""
    folder = open_bag(tmp_path / "job")
    path = amended(folder) / "amendment.json"
    path.write_text(alter(json.loads(path.read_bytes())))
    close_bag(folder, INFO)

    assert [str(problem) for problem in verify(folder).problems] == [
        f"not as it should be: data/version-2/amendment.json ({detail})"
    ]


@pytest.mark.parametrize(
    ("reason", "by"), [("", "A. Lindqvist"), ("serial number", " \n")], ids=["why", "who"]
)
def test_version_says_why_and_who(tmp_path: Path, reason: str, by: str) -> None:
    folder = open_bag(tmp_path / "job")

    with pytest.raises(JobFolderError, match="needs a reason and the name"):
        amend(folder, LATER, reason=reason, by=by, at=TUESDAY, info=INFO)
    assert verify(folder).versions == 1


@pytest.mark.parametrize(
    "names",
    [["report.html"], ["visit.json", "../x"], ["visit.json", "/x"], ["visit.json", "earlier/bagit.txt"],
     ["visit.json", "amendment.json"]],
    ids=["no record", "climbs out", "absolute", "earlier tag file", "the amendment itself"],
)  # fmt: skip
def test_version_writes_nothing_but_its_own_files(tmp_path: Path, names: list[str]) -> None:
    folder = open_bag(tmp_path / "job")
    before = contents(folder)

    with pytest.raises(ValueError, match=r"version needs|is no name"):
        amend(folder, dict.fromkeys(names, b""), reason="r", by="b", at=TUESDAY, info=INFO)
    assert contents(folder) == before


# Everything by which an amendment changes the disk
STEPS: list[tuple[Any, str]] = [
    (os, "link"), (os, "fsync"), (Path, "rename"), (Path, "mkdir"), (shutil, "rmtree"),
]  # fmt: skip


def stop_at(step: int, monkeypatch: pytest.MonkeyPatch, stop: Callable[[], None]) -> list[int]:
    """Calls `stop` in place of the n-th step; returns a list that counts the steps."""
    count = [0]

    def watched(act: Callable[..., Any]) -> Callable[..., Any]:
        def acting(*given: Any, **named: Any) -> Any:
            count[0] += 1
            if count[0] == step:
                stop()
            return act(*given, **named)

        return acting

    for owner, name in STEPS:
        monkeypatch.setattr(owner, name, watched(getattr(owner, name)))
    return count


def steps_of_an_amendment(tmp_path: Path) -> int:
    folder = open_bag(tmp_path / "counted")
    with pytest.MonkeyPatch.context() as patch:
        count = stop_at(0, patch, lambda: None)
        amended(folder)
    return count[0]


def test_amendment_that_is_stopped_leaves_the_old_folder_or_the_new_one(tmp_path: Path) -> None:
    def stop() -> None:
        raise KeyboardInterrupt

    versions = []
    for step in range(1, steps_of_an_amendment(tmp_path) + 1):
        folder = open_bag(tmp_path / str(step) / "job")
        with pytest.MonkeyPatch.context() as patch:
            stop_at(step, patch, stop)
            with pytest.raises(KeyboardInterrupt):
                amended(folder)
        found = verify(folder)
        assert found.problems == (), step
        versions.append(found.versions)

    assert versions == sorted(versions)
    assert set(versions) == {1, 2}


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a process that can be ended hard")
def test_power_cut_leaves_a_whole_folder(tmp_path: Path) -> None:
    """Nothing is tidied up after a hard stop. Between two renames the whole folder bears a hidden name."""
    hidden = []
    for step in range(1, steps_of_an_amendment(tmp_path) + 1):
        folder = open_bag(tmp_path / str(step) / "job")
        if (child := os.fork()) == 0:
            try:
                stop_at(step, pytest.MonkeyPatch(), lambda: os._exit(9))
                amended(folder)
            finally:
                os._exit(0)  # came to its end, which it must not
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 9
        if not folder.exists():
            hidden.append(step)
            folder = next(folder.parent.glob(".job.*.old"))
        assert verify(folder).problems == (), step

    assert len(hidden) == 1


@pytest.mark.skipif(sys.platform == "win32", reason="links are made otherwise there")
def test_folder_is_amended_where_files_cannot_be_linked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As on the file systems of memory cards."""

    def link(*given: Any, **named: Any) -> None:
        raise PermissionError("Operation not permitted")

    monkeypatch.setattr(os, "link", link)
    folder = sealed_bag(tmp_path / "job")

    assert (verify(folder).problems, verify(folder).versions) == ((), 2)
