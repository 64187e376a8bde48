"""Our bags against the Library of Congress' own program, the package bagit."""

from __future__ import annotations

import sys
import warnings
from importlib import import_module
from pathlib import Path
from types import ModuleType

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fieldnotes.bag import Problem, close_bag, verify
from fieldnotes.bag.tag_files import DECLARATION, MANIFEST, TAG_MANIFEST
from fieldnotes.bag.tag_files import INFO as INFO_FILE

from .bags import INFO, PAYLOAD, open_bag, sealed_bag


@pytest.fixture(scope="module")
def bagit() -> ModuleType:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it asks for its version in a way that is out of date
        return import_module("bagit")


@pytest.mark.parametrize("make", [open_bag, sealed_bag], ids=["open", "sealed and amended"])
def test_bagit_finds_our_bag_valid(tmp_path: Path, bagit: ModuleType, make: object) -> None:
    folder = make(tmp_path / "job")  # type: ignore[operator]
    bag = bagit.Bag(str(folder))

    bag.validate()
    assert bag.info["External-Identifier"] == "J-2041"
    assert bag.version_info == (1, 0)


def bag_of_theirs(folder: Path, bagit: ModuleType) -> Path:
    """The payload of tests/bag/bags.py in a bag made by the package bagit, with what we say of it."""
    for name, content in PAYLOAD.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
    # said by both, else it names itself
    bagit.make_bag(str(folder), INFO | {"Bag-Software-Agent": "fieldnotes"}, checksums=["sha256"])
    return folder


def test_bagit_writes_the_same_tag_files(tmp_path: Path, bagit: ModuleType) -> None:
    """But for what the standard leaves free: the order of a manifest's lines (RFC 8493, 2.1.3)."""
    theirs = bag_of_theirs(tmp_path / "theirs", bagit)
    ours = open_bag(tmp_path / "ours")
    close_bag(ours, INFO | {"Bag-Software-Agent": "fieldnotes"})

    lines = [(folder / MANIFEST).read_bytes().splitlines(keepends=True) for folder in (ours, theirs)]
    assert sorted(lines[0]) == sorted(lines[1])
    assert (ours / INFO_FILE).read_bytes() == (theirs / INFO_FILE).read_bytes()
    # it still declares the last draft before the standard (RFC 8493, 2.1.1)
    declared = (theirs / DECLARATION).read_bytes()
    assert (ours / DECLARATION).read_bytes() == declared.replace(b"Version: 0.97\n", b"Version: 1.0\n")
    assert (ours / DECLARATION).read_bytes() != declared


def test_bag_of_bagit_is_read_and_only_its_spelling_told(tmp_path: Path, bagit: ModuleType) -> None:
    """Of a bag made elsewhere every file is checked; that it is not written as ours are stays a problem."""
    folder = bag_of_theirs(tmp_path / "job", bagit)

    problems = verify(folder).problems
    assert {(problem.file, problem.trouble) for problem in problems} <= {
        (name, "not as it should be") for name in (DECLARATION, MANIFEST, TAG_MANIFEST)
    }
    assert (DECLARATION, "not as it should be") in {(problem.file, problem.trouble) for problem in problems}

    (folder / "data" / "report.html").write_bytes(b"<p>evil")
    (folder / "data" / "extra.txt").write_bytes(b"")
    assert set(verify(folder).problems) - set(problems) == {
        Problem("data/report.html", "changed"),
        Problem("data/extra.txt", "new"),
    }


def test_bag_of_bagit_is_whole_once_its_tag_files_are_ours(tmp_path: Path, bagit: ModuleType) -> None:
    folder = bag_of_theirs(tmp_path / "job", bagit)
    close_bag(folder, INFO)

    assert verify(folder).problems == ()


def test_bagit_sees_what_we_see(tmp_path: Path, bagit: ModuleType) -> None:
    folder = open_bag(tmp_path / "job")
    (folder / "data" / "report.html").write_bytes(b"<p>evil")

    assert [str(problem) for problem in verify(folder).problems] == ["changed: data/report.html"]
    with pytest.raises(bagit.BagValidationError, match=r"report\.html"):
        bagit.Bag(str(folder)).validate()


# "%" is left out, which bagit 1.9 does not read back (against RFC 8493, 2.1.3), and control characters and
# spaces at the end, which it strips off lines
NAMES = st.text(
    st.characters(exclude_categories=["C", "Z"], include_characters=" ", exclude_characters="/\\%"),
    min_size=1,
    max_size=12,
).filter(lambda name: name.strip(". ") == name and len(name.encode()) < 200)


@pytest.mark.skipif(sys.platform != "linux", reason="other systems forbid such names, or change them")
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sets(NAMES, min_size=1, max_size=4))
def test_any_file_name_is_listed_so_that_bagit_finds_it(
    tmp_path_factory: pytest.TempPathFactory, bagit: ModuleType, names: set[str]
) -> None:
    folder = open_bag(tmp_path_factory.mktemp("job") / "job", {name: name.encode() for name in names})

    assert verify(folder).problems == ()
    bagit.Bag(str(folder)).validate()


@pytest.mark.parametrize(
    ("name", "written"),
    [("50% done.txt", "50%25 done.txt"), ("a\nb.txt", "a%0Ab.txt"), ("a\rb.txt", "a%0Db.txt"), ("a%0Ab", "a%250Ab")],
    ids=["per cent", "line feed", "carriage return", "what looks encoded"],
)  # fmt: skip
def test_three_signs_are_encoded_and_no_others(tmp_path: Path, name: str, written: str) -> None:
    """Source: RFC 8493, 2.1.3: CR, LF and the per cent sign, "and only those"."""
    folder = open_bag(tmp_path / "job", {name: b"x", "visit.json": b""})

    assert f"  data/{written}\n" in (folder / MANIFEST).read_bytes().decode()
    assert verify(folder).problems == ()
