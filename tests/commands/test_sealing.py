"""`verify`, `seal` and `key new` as they are typed: what they say, and how they end."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from fieldnotes.bag import verify
from tests.bag.bags import open_bag, sealed_bag

from .conftest import Ran, Run

SEALED = "2026-03-10 at 12:00:00"  # SOURCE_DATE_EPOCH of the tests of commands


def test_folder_without_a_seal_is_whole_and_said_to_prove_little(here: Path, run: Run) -> None:
    open_bag(here / "job")

    assert run("verify", "job") == Ran(
        0,
        "job is whole: 8 files\n"
        "The present version carries no seal: "
        "this shows only that nothing changed by accident.\n",
        "",
    )


def test_key_is_made_folder_sealed_and_the_seal_shown(here: Path, run: Run) -> None:
    open_bag(here / "job")

    assert run("key", "new", "office.key") == Ran(0, "office.key.pub\n", "")
    assert run("seal", "job", "--key", "office.key", "--signer", "A. Lindqvist, office") == Ran(
        0, "job/seals/seal-1.json\n", ""
    )
    key = verify(here / "job").seals[0].fingerprint
    seal = f"seal 1 holds: A. Lindqvist, office sealed the folder on {SEALED} UTC with key {key}\n"
    whole = "job is whole: 10 files\n"
    assert run("verify", "job") == Ran(
        0,
        f"{seal}{whole}"
        "A seal says who made it in its own words: compare the key, or give the one that you trust with --key.\n",
        "",
    )
    assert run("verify", "job", "--key", "office.key.pub") == Ran(0, f"{seal}{whole}", "")


def test_seals_of_each_version_are_shown(here: Path, run: Run) -> None:
    sealed_bag(here / "job")

    said = run("verify", "job", "--key", "office.key.pub")

    assert said.code == 0
    assert [re.sub(r"key [0-9a-f ]{24}", "key K", line) for line in said.out.splitlines()] == [
        "seal 1 holds: technician of Harrowby sealed version 1 of 2 on 2026-03-02 at 18:30:00 UTC with key K",
        "seal 2 holds: office of Harrowby sealed version 1 of 2 on 2026-03-02 at 18:30:00 UTC with key K",
        "seal 3 holds: office of Harrowby sealed version 2 of 2 on 2026-03-03 at 09:15:00 UTC with key K",
        "job is whole: 21 files, 2 versions",
    ]


def test_each_problem_is_a_line_and_the_end_is_one(here: Path, run: Run) -> None:
    folder = open_bag(here / "job")
    (folder / "data" / "report.html").write_bytes(b"<p>evil")

    assert run("verify", "job") == Ran(1, "changed: data/report.html\n", "job is not as it was: 1 problem\n")

    (folder / "data" / "empty.txt").unlink()
    (folder / "note.txt").touch()
    assert run("verify", "job") == Ran(
        1,
        "missing: data/empty.txt\nchanged: data/report.html\nnew: note.txt\n",
        "job is not as it was: 3 problems\n",
    )


def test_folder_with_problems_is_not_sealed(here: Path, run: Run) -> None:
    folder = open_bag(here / "job")
    (folder / "data" / "report.html").write_bytes(b"<p>evil")
    run("key", "new", "office.key")

    assert run("seal", "job", "--key", "office.key", "--signer", "office") == Ran(
        2,
        "",
        "fieldnotes: job is not whole, so it is not sealed: changed: data/report.html; "
        "see: fieldnotes verify job\n",
    )


def _key_for_all(here: Path, run: Run) -> None:
    run("key", "new", "office.key")
    (here / "office.key").chmod(0o644)


@pytest.mark.parametrize(
    ("prepare", "arguments", "said"),
    [
        (
            lambda here, run: None,
            ("verify", "nothing"),
            "nothing: there is no such folder; check the path",
        ),
        (
            lambda here, run: (here / "empty").mkdir(),
            ("verify", "empty"),
            "empty is no job folder: it holds no folder data; check the path",
        ),
        (
            lambda here, run: None,
            ("verify", "job", "--key", "notes.txt"),
            "notes.txt: is no public key of a seal; it is the file that ends in .pub",
        ),
        (
            lambda here, run: None,
            ("seal", "job", "--key", "office.key", "--signer", "office"),
            "office.key: the key cannot be read: No such file or directory; check the path",
        ),
        (
            _key_for_all,
            ("seal", "job", "--key", "office.key", "--signer", "office"),
            "office.key: others on this device may read the key; close it with: chmod 600 office.key",
        ),
        (
            lambda here, run: run("key", "new", "office.key"),
            ("key", "new", "office.key"),
            "office.key is there already; a key is never written over, choose another name",
        ),
    ],
    ids=["no folder", "no bag", "no public key", "no key", "key open to others", "key there"],
)
def test_what_the_user_can_mend_ends_with_two(
    here: Path, run: Run, prepare: Callable[[Path, Run], object], arguments: tuple[str, ...], said: str
) -> None:
    open_bag(here / "job")
    prepare(here, run)

    assert run(*arguments) == Ran(2, "", f"fieldnotes: {said}\n")


def test_name_in_a_seal_cannot_steer_the_terminal(here: Path, run: Run) -> None:
    open_bag(here / "job")
    run("key", "new", "k")
    run("seal", "job", "--key", "k", "--signer", "office\x1b[2J\u202egnp")

    assert "seal 1 holds: office\\x1b[2J\\u202egnp sealed" in run("verify", "job").out
