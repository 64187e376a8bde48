"""Whatever is altered in a job folder is found, and told by its name."""

from __future__ import annotations

import errno
import os
import shutil
import tracemalloc
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from fieldnotes.bag import Verified, close_bag, verify
from fieldnotes.bag.tag_files import files_in, sha256_of
from fieldnotes.errors import JobFolderError, KeyFileError

from .bags import INFO, open_bag, sealed_bag

MANY_BITS = 200 * 8  # of larger files every 101st bit is tried, of smaller ones every 11th


@pytest.fixture(scope="module")
def sealed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return sealed_bag(tmp_path_factory.mktemp("sealed") / "job")


@pytest.fixture
def job(tmp_path: Path, sealed: Path) -> Path:
    return Path(shutil.copytree(sealed, tmp_path / "job"))


def told(folder: Path) -> list[str]:
    return [str(problem) for problem in verify(folder).problems]


def test_whole_folder_has_no_problems(job: Path) -> None:
    found = verify(job)

    assert (found.problems, found.versions) == ((), 2)
    assert [(seal.number, seal.signer, seal.at, seal.version) for seal in found.seals] == [
        (1, "technician of Harrowby", "2026-03-02T18:30:00Z", 1),
        (2, "office of Harrowby", "2026-03-02T18:30:00Z", 1),
        (3, "office of Harrowby", "2026-03-03T09:15:00Z", 2),
    ]
    assert found.seals[1].fingerprint == found.seals[2].fingerprint != found.seals[0].fingerprint


def test_one_flipped_bit_is_found_in_every_file_and_told_by_name(job: Path) -> None:
    """Every bit of small files, many of larger ones; the empty file has none.

    The tag manifest is listed nowhere: what it says of another file, or the seal of it, no longer holds. A seal
    that does not fit its signature may be the one or the other, so the statement is told.
    """
    tried = 0
    for name in files_in(job):
        path = job / name
        content = path.read_bytes()
        bits = len(content) * 8
        for bit in range(0, bits, 1 if bits <= 64 else 11 if bits <= MANY_BITS else 101):
            flipped = bytearray(content)
            flipped[bit // 8] ^= 1 << bit % 8
            path.write_bytes(flipped)
            told_of = {problem.file for problem in verify(job).problems}
            named = {"tagmanifest-sha256.txt": "seals/seal-3.json", "seals/seal-3.sig": "seals/seal-3.json"}
            assert named.get(name, name) in told_of, f"{name}, bit {bit}: {told_of}"
            tried += 1
        path.write_bytes(content)
    assert verify(job).problems == ()
    assert tried > 500


@pytest.mark.parametrize("make", [open_bag, sealed_bag], ids=["open", "sealed"])
def test_every_file_is_missed_when_it_is_gone(tmp_path: Path, make: Callable[[Path], Path]) -> None:
    folder = make(tmp_path / "job")
    for name in list(files_in(folder)):
        content = (folder / name).read_bytes()
        (folder / name).unlink()
        if name == "seals/seal-3.json":  # the last seal as a whole can be taken off, its half cannot
            assert "new: seals/seal-3.sig" in told(folder)
        assert verify(folder).problems, name
        (folder / name).write_bytes(content)
    assert verify(folder).problems == ()


def test_every_file_is_missed_when_it_grows_or_is_cut(job: Path) -> None:
    for name in list(files_in(job)):
        content = (job / name).read_bytes()
        for altered in (content + b"\n", content[:-1]):
            (job / name).write_bytes(altered)
            assert verify(job).problems or altered == content, name
        (job / name).write_bytes(content)


def _swap(job: Path) -> None:
    one, other = job / "data" / "visit.json", job / "data" / "report.html"
    first, second = one.read_bytes(), other.read_bytes()
    one.write_bytes(second)
    other.write_bytes(first)


def _link(job: Path) -> None:
    (job / "data" / "report.html").rename(job.parent / "elsewhere.html")
    (job / "data" / "report.html").symlink_to(job.parent / "elsewhere.html")


def _pipe(job: Path) -> None:
    (job / "manifest-sha256.txt").unlink()
    os.mkfifo(job / "manifest-sha256.txt")


def _write(name: str, content: str = "") -> Callable[[Path], object]:
    def write(job: Path) -> None:
        (job / name).parent.mkdir(exist_ok=True)
        (job / name).write_text(content)

    return write


def _remove(name: str) -> Callable[[Path], object]:
    return lambda job: (job / name).unlink()


LINK = "(a link or a device, not a file)"
ALTERED: dict[str, tuple[Callable[[Path], object], list[str]]] = {
    "added to the payload": (_write("data/extra.txt", "x"), ["new: data/extra.txt"]),
    "added beside the payload": (_write("note.txt", "x"), ["new: note.txt"]),
    "added and empty": (_write("data/extra.txt"), ["new: data/extra.txt"]),
    "added where earlier tag files lie": (
        _write("data/version-2/earlier/x"),
        ["new: data/version-2/earlier/x"],
    ),
    "added name on two lines": (
        _write("data/a\nchanged: \x1b[31m"),
        ["new: data/a\\nchanged: \\x1b[31m"],
    ),
    "added name that is no text": (_write(os.fsdecode(b"\xff.txt")), ["new: \\udcff.txt"]),
    "half a seal": (_write("seals/seal-9.sig"), ["new: seals/seal-9.sig"]),
    "taken from the payload": (_remove("data/report.html"), ["missing: data/report.html"]),
    "taken and empty": (_remove("data/empty.txt"), ["missing: data/empty.txt"]),
    "declaration taken": (_remove("bagit.txt"), ["missing: bagit.txt"]),
    "manifest taken": (_remove("manifest-sha256.txt"), ["missing: manifest-sha256.txt"]),
    "tag manifest taken": (
        _remove("tagmanifest-sha256.txt"),
        [
            "not as it should be: seals/seal-3.json (it seals another state of the folder)",
            "missing: tagmanifest-sha256.txt",
        ],
    ),
    "earlier seal taken": (_remove("seals/seal-2.json"), ["missing: seals/seal-2.json"]),
    "signature taken": (_remove("seals/seal-3.sig"), ["missing: seals/seal-3.sig"]),
    "renamed": (
        lambda job: (job / "data" / "empty.txt").rename(job / "data" / "blank.txt"),
        ["new: data/blank.txt", "missing: data/empty.txt"],
    ),
    "swapped": (
        _swap,
        [
            "changed: data/report.html",
            "not as it should be: data/version-2/amendment.json (it amends another version than the one before)",
            "changed: data/visit.json",
        ],
    ),
    "version out of order": (
        _write("data/version-7/x"),
        [
            "missing: data/version-3/amendment.json",
            "missing: data/version-3/earlier/bag-info.txt",
            "missing: data/version-3/earlier/bagit.txt",
            "missing: data/version-3/earlier/manifest-sha256.txt",
            "missing: data/version-3/earlier/tagmanifest-sha256.txt",
            "new: data/version-7/x",
        ],
    ),
    "link": (_link, [f"not as it should be: data/report.html {LINK}"]),
    "pipe": (_pipe, [f"not as it should be: manifest-sha256.txt {LINK}"]),
    "declaration that is no text": (
        lambda job: (job / "bagit.txt").write_bytes(b"\xff"),
        ["changed: bagit.txt", "not as it should be: bagit.txt (it is no UTF-8 text)"],
    ),
}


@pytest.mark.parametrize(("alter", "expected"), ALTERED.values(), ids=ALTERED.keys())
def test_what_happened_is_told_by_name(
    job: Path, alter: Callable[[Path], object], expected: list[str]
) -> None:
    alter(job)

    assert told(job) == expected


@pytest.mark.parametrize(
    ("manifest", "line", "message"),
    [
        ("manifest-sha256.txt", "data/../../other.txt", "names a file outside the folder"),
        ("manifest-sha256.txt", "/etc/hostname", "names a file outside the folder"),
        ("manifest-sha256.txt", "note.txt", "belongs into the other manifest"),
        ("tagmanifest-sha256.txt", "data/visit.json", "belongs into the other manifest"),
    ],
    ids=["climbs out", "absolute", "payload lists a tag file", "tags list the payload"],
)
def test_manifest_lists_only_what_is_its_own(job: Path, manifest: str, line: str, message: str) -> None:
    """Source: RFC 8493, 2.1.3, 2.2.1 and 5.1."""
    path = job / manifest
    path.write_text(f"{'0' * 64}  {line}\n" + path.read_text())

    assert f"not as it should be: {manifest} (line 1 {message})" in told(job)


def _rewritten(old: str, new: str) -> Callable[[Path], object]:
    """A tag file of the first bag rewritten, and whatever lists it with it."""

    def rewrite(job: Path) -> None:
        for name in ("bag-info.txt", "manifest-sha256.txt"):
            path = job / name
            path.write_bytes(path.read_bytes().replace(old.encode(), new.encode()))
        relist(job)

    return rewrite


def relist(job: Path) -> None:
    """A tag manifest that fits the tag files again, as a forger would write it."""
    path = job / "tagmanifest-sha256.txt"
    names = sorted(line.split("  ")[1] for line in path.read_text().splitlines())
    path.write_text("".join(f"{sha256_of(job / name)}  {name}\n" for name in names))


@pytest.mark.parametrize(
    ("alter", "expected"),
    [
        (
            _rewritten("Payload-Oxum: 12.4", "Payload-Oxum: 13.4"),
            ["not as it should be: bag-info.txt (it counts 13.4, there are 12.4)"],
        ),
        (
            _rewritten("Payload-Oxum: 12.4\n", ""),
            ["not as it should be: bag-info.txt (it counts None, there are 12.4)"],
        ),
        (
            _rewritten("Bagging-Date: 2026-03-02\n", "Bagging-Date: 2026-03-02\r\n"),
            [
                "not as it should be: bag-info.txt (its lines are not in order, or not written as they should be)"
            ],
        ),
        (
            _rewritten("  data/", " data/"),
            [
                "not as it should be: manifest-sha256.txt "
                "(its lines are not in order, or not written as they should be)"
            ],
        ),
    ],
    ids=["counts wrongly", "counts nothing", "other line ends", "one space"],
)
def test_tag_files_are_written_in_one_way_only(
    tmp_path: Path, alter: Callable[[Path], object], expected: list[str]
) -> None:
    """12 octets in 4 files: 3 + 7 + 2 + 0 of tests/bag/bags.py."""
    folder = open_bag(tmp_path / "job")
    alter(folder)

    assert told(folder) == expected


def test_every_problem_is_told_at_once(job: Path) -> None:
    (job / "data" / "report.html").write_bytes(b"<p>evil")
    (job / "data" / "empty.txt").unlink()
    (job / "data" / "version-2" / "report.html").write_bytes(b"<p>worse")
    (job / "note.txt").write_text("x")
    tag_manifest = job / "tagmanifest-sha256.txt"
    tag_manifest.write_text(tag_manifest.read_text() + "torn line\n")

    assert told(job) == [
        "missing: data/empty.txt",
        "changed: data/report.html",
        "changed: data/version-2/report.html",
        "not as it should be: seals/seal-3.json (it seals another state of the folder)",
        "not as it should be: tagmanifest-sha256.txt (line 8 is no check sum and name)",
    ]  # what is new beside the payload cannot be said while its list is torn


def test_what_cannot_be_read_is_told_and_the_rest_is_checked(
    job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The refusals are made up: who runs the tests may be allowed to read everything."""
    listing, opening = Path.iterdir, Path.open

    def iterdir(path: Path) -> Iterator[Path]:
        if path.name == "photos":
            raise PermissionError(errno.EACCES, "Permission denied")
        return iter(list(listing(path)))

    def open_(path: Path, *given: Any, **named: Any) -> Any:
        if path == job / "data" / "visit.json":
            raise OSError(errno.EIO, "Input/output error")
        return opening(path, *given, **named)

    monkeypatch.setattr(Path, "iterdir", iterdir)
    monkeypatch.setattr(Path, "open", open_)
    (job / "data" / "empty.txt").write_text("full")

    assert told(job)[:3] == [
        "changed: data/empty.txt",
        "unreadable: data/photos (Permission denied)",
        "not as it should be: data/version-2/amendment.json (it amends another version than the one before)",
    ]
    assert told(job)[3:] == ["unreadable: data/visit.json (Input/output error)"]


def test_capital_hex_digits_are_not_as_written(job: Path) -> None:
    """A reader that folds capitals would not see this flipped bit."""
    path = job / "tagmanifest-sha256.txt"
    path.write_text(path.read_text().replace("a", "A", 1))

    assert any("tagmanifest" in line for line in told(job))


def test_file_from_before_an_amendment_cannot_be_altered_with_new_manifests(job: Path) -> None:
    """Who rewrites all present check sums still does not get past the earlier ones."""
    (job / "data" / "report.html").write_bytes(b"<p>forged")
    close_bag(job, {})

    assert "changed: data/report.html" in told(job)


def test_file_added_outside_its_version_is_told(job: Path) -> None:
    (job / "data" / "later.txt").write_bytes(b"x")
    close_bag(job, {})

    assert "new: data/later.txt (it came with version 2 but lies outside its folder)" in told(job)


def test_trusted_key_must_have_sealed_the_present_version(job: Path, sealed: Path) -> None:
    office, technician = (sealed.parent / f"{name}.key.pub" for name in ("office", "technician"))

    assert verify(job, office).problems == ()
    assert [str(problem) for problem in verify(job, technician).problems] == [
        f"not as it should be: seals (the present version is not sealed with {technician})"
    ]


def _other_sums(folder: Path) -> None:
    open_bag(folder)
    (folder / "tagmanifest-sha256.txt").unlink()
    (folder / "manifest-sha256.txt").rename(folder / "manifest-sha512.txt")


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda folder: None, "there is no such folder"),
        (lambda folder: folder.mkdir(), "holds no folder data"),
        (lambda folder: (folder / "data").mkdir(parents=True), "holds no manifests"),
        (lambda folder: (open_bag(folder) / "fetch.txt").write_text(""), "parts elsewhere"),
        (_other_sums, r"other check sums than SHA-256 \(manifest-sha512.txt\) is not supported"),
    ],
    ids=["nothing", "no payload", "no manifests", "fetch.txt", "other check sums"],
)
def test_folder_of_another_kind_is_refused(
    tmp_path: Path, make: Callable[[Path], object], message: str
) -> None:
    make(tmp_path / "job")

    with pytest.raises(JobFolderError, match=message):
        verify(tmp_path / "job")


def test_second_kind_of_check_sums_is_not_passed_over_in_silence(tmp_path: Path) -> None:
    folder = open_bag(tmp_path / "job")
    (folder / "manifest-sha512.txt").write_text("")
    close_bag(folder, INFO)

    assert told(folder) == [
        "not as it should be: manifest-sha512.txt (only SHA-256 is supported; it was not looked at)"
    ]


def test_memory_does_not_grow_with_the_files(tmp_path: Path) -> None:
    """64 MiB are hashed within 4 MiB."""
    folder = open_bag(tmp_path / "job")
    with (folder / "data" / "long.wav").open("wb") as file:
        file.truncate(64 << 20)
    close_bag(folder, INFO)

    tracemalloc.start()
    try:
        problems = verify(folder).problems
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()

    assert problems == ()
    assert peak < 4 << 20


def test_trusted_key_must_be_one(job: Path, tmp_path: Path) -> None:
    (tmp_path / "not.pub").write_text("key")

    with pytest.raises(KeyFileError, match="is no public key"):
        verify(job, tmp_path / "not.pub")


def test_found_is_a_plain_record(tmp_path: Path) -> None:
    assert verify(open_bag(tmp_path / "job")) == Verified(problems=(), seals=(), versions=1, files=8)
