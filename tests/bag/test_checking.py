"""Whatever is altered in a job folder is found, and told by its name."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from fieldnotes.bag import Verified, verify
from fieldnotes.bag.tag_files import files_in
from fieldnotes.errors import JobFolderError, KeyFileError

from .bags import open_bag, sealed_bag

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


def test_one_flipped_bit_is_found_in_every_file(job: Path) -> None:
    """Every bit of small files, many of larger ones; the empty file has none."""
    tried = 0
    for name in files_in(job):
        path = job / name
        content = path.read_bytes()
        bits = len(content) * 8
        for bit in range(0, bits, 1 if bits <= 64 else 11 if bits <= MANY_BITS else 101):
            flipped = bytearray(content)
            flipped[bit // 8] ^= 1 << bit % 8
            path.write_bytes(flipped)
            assert verify(job).problems, f"{name}, bit {bit}"
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


@pytest.mark.parametrize(
    ("alter", "expected"),
    [
        (lambda job: (job / "data" / "extra.txt").write_text("x"), ["new: data/extra.txt"]),
        (lambda job: (job / "note.txt").write_text("x"), ["new: note.txt"]),
        (lambda job: (job / "data" / "extra.txt").write_text(""), ["new: data/extra.txt"]),
        (lambda job: (job / "seals" / "seal-9.sig").write_text(""), ["new: seals/seal-9.sig"]),
        (lambda job: (job / "data" / "empty.txt").unlink(), ["missing: data/empty.txt"]),
        (
            lambda job: (job / "data" / "empty.txt").rename(job / "data" / "blank.txt"),
            ["new: data/blank.txt", "missing: data/empty.txt"],
        ),
        (
            _swap,
            [
                "changed: data/report.html",
                "not as it should be: data/version-2/amendment.json (it amends another version than the one before)",
                "changed: data/visit.json",
            ],
        ),
        (
            _link,
            ["missing: data/report.html", "not as it should be: data/report.html (a link or a device, not a file)"],
        ),
    ],
    ids=["payload", "beside the payload", "empty", "half a seal", "gone", "renamed", "swapped", "link"],
)  # fmt: skip
def test_what_happened_is_told_by_name(
    job: Path, alter: Callable[[Path], object], expected: list[str]
) -> None:
    alter(job)

    assert told(job) == expected


def test_manifest_that_climbs_out_is_refused(job: Path) -> None:
    path = job / "manifest-sha256.txt"
    path.write_text(f"{'0' * 64}  data/../../other.txt\n" + path.read_text())

    assert any("names a file outside the folder" in line for line in told(job))


def test_capital_hex_digits_are_not_as_written(job: Path) -> None:
    """A reader that folds capitals would not see this flipped bit."""
    path = job / "tagmanifest-sha256.txt"
    path.write_text(path.read_text().replace("a", "A", 1))

    assert any("tagmanifest" in line for line in told(job))


def test_file_from_before_an_amendment_cannot_be_altered_with_new_manifests(job: Path) -> None:
    """Who rewrites all present check sums still does not get past the earlier ones."""
    from fieldnotes.bag import close_bag

    (job / "data" / "report.html").write_bytes(b"<p>forged")
    close_bag(job, {})

    assert "changed: data/report.html" in told(job)


def test_file_added_outside_its_version_is_told(job: Path) -> None:
    from fieldnotes.bag import close_bag

    (job / "data" / "later.txt").write_bytes(b"x")
    close_bag(job, {})

    assert "new: data/later.txt (it came with version 2 but lies outside its folder)" in told(job)


def test_trusted_key_must_have_sealed_the_present_version(job: Path, sealed: Path) -> None:
    office, technician = (sealed.parent / f"{name}.key.pub" for name in ("office", "technician"))

    assert verify(job, office).problems == ()
    assert [p.detail for p in verify(job, technician).problems] == [
        f"the present version is not sealed with {technician}"
    ]


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda folder: folder.mkdir(), "holds no folder data"),
        (lambda folder: (folder / "data").mkdir(parents=True), "holds no manifests"),
        (lambda folder: (open_bag(folder) / "fetch.txt").write_text(""), "parts elsewhere"),
    ],
    ids=["no payload", "no manifests", "fetch.txt"],
)
def test_folder_of_another_kind_is_refused(
    tmp_path: Path, make: Callable[[Path], object], message: str
) -> None:
    make(tmp_path / "job")

    with pytest.raises(JobFolderError, match=message):
        verify(tmp_path / "job")


def test_trusted_key_must_be_one(job: Path, tmp_path: Path) -> None:
    (tmp_path / "not.pub").write_text("key")

    with pytest.raises(KeyFileError, match="is no public key"):
        verify(job, tmp_path / "not.pub")


def test_found_is_a_plain_record(tmp_path: Path) -> None:
    assert verify(open_bag(tmp_path / "job")) == Verified(problems=(), seals=(), versions=1, files=8)
