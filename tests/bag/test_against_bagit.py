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

from fieldnotes.bag import verify
from fieldnotes.bag.tag_files import MANIFEST

from .bags import PAYLOAD, open_bag, sealed_bag


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


def test_bagit_writes_the_same_lines_of_the_manifest(tmp_path: Path, bagit: ModuleType) -> None:
    ours = open_bag(tmp_path / "ours")
    theirs = tmp_path / "theirs"
    for name, content in PAYLOAD.items():
        (theirs / name).parent.mkdir(parents=True, exist_ok=True)
        (theirs / name).write_bytes(content)
    bagit.make_bag(str(theirs), {"External-Identifier": "J-2041"}, checksums=["sha256"])

    # it lists the files of a folder before those of the folders in it; the order is free (RFC 8493, 2.1.3)
    lines = [(folder / MANIFEST).read_bytes().splitlines(keepends=True) for folder in (ours, theirs)]
    assert sorted(lines[0]) == sorted(lines[1])
    oxum = [line for line in (theirs / "bag-info.txt").read_text().splitlines() if "Oxum" in line]
    assert oxum[0] in (ours / "bag-info.txt").read_text().splitlines()


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
