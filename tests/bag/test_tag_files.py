"""Tag files: one way of writing them, read back to the same."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from fieldnotes.bag import close_bag, verify
from fieldnotes.bag.tag_files import Manifest, info_text, manifest_text, read_info, read_manifest
from fieldnotes.errors import JobFolderError

from .bags import INFO, open_bag

# any name that a Linux file system takes and that is text
NAMES = st.text(
    st.characters(exclude_categories=["Cs"], exclude_characters="/\0"), min_size=1, max_size=20
).filter(lambda name: name not in {".", ".."} and len(name.encode()) < 200)
SUMS = st.text("0123456789abcdef", min_size=64, max_size=64)


@given(hashes=st.dictionaries(NAMES.map(lambda name: f"data/{name}"), SUMS, max_size=5))
@example(hashes={"data/%0A%250D\r\n%": "0" * 64})
def test_manifest_is_read_back_as_it_was(
    tmp_path_factory: pytest.TempPathFactory, hashes: dict[str, str]
) -> None:
    path = tmp_path_factory.mktemp("bag") / "manifest-sha256.txt"
    path.write_bytes(manifest_text(hashes).encode())

    assert read_manifest(path, payload=True) == Manifest(hashes)


@pytest.mark.skipif(sys.platform != "linux", reason="other systems forbid such names, or change them")
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(names=st.sets(NAMES, min_size=1, max_size=4))
@example(
    names={
        "a\nb",
        "a\rb",
        "50%",
        "%0A",
        "a\\b",
        " a ",
        "..a",
        "é",
        "e\u0301",
        "\u202egnp.exe",
        "\x85",
        "\u2028",
    }
)
def test_folder_with_any_file_names_is_whole(
    tmp_path_factory: pytest.TempPathFactory, names: set[str]
) -> None:
    folder = open_bag(tmp_path_factory.mktemp("bag") / "job", {name: name.encode() for name in names})

    assert verify(folder).problems == ()
    assert verify(folder).files == len(names) + 4


WORDS = st.text(st.characters(exclude_categories=["C", "Z"], exclude_characters=":"), min_size=1, max_size=9)


@given(
    info=st.dictionaries(WORDS, st.text(st.characters(exclude_categories=["Cs"]), max_size=30), max_size=5)
)
def test_labels_are_read_back_with_values_on_one_line(
    tmp_path_factory: pytest.TempPathFactory, info: dict[str, str]
) -> None:
    path = tmp_path_factory.mktemp("bag") / "bag-info.txt"
    path.write_bytes(info_text(info).encode())

    on_one_line = {label: " ".join(value.split()) for label, value in info.items() if value.split()}
    assert read_info(path) == on_one_line


@pytest.mark.parametrize("label", ["Contact: Name", "Contact\nName", " Contact", "Contact ", ""])
def test_label_that_would_not_be_read_back_is_refused(label: str) -> None:
    """Source: RFC 8493, 2.2.2: no colon, no line end, no white space around it."""
    with pytest.raises(ValueError, match="not a label"):
        info_text({label: "x"})


def test_same_folder_gives_the_same_bytes(tmp_path: Path) -> None:
    one, other = (open_bag(tmp_path / name) for name in ("one", "other"))
    names = ("bagit.txt", "bag-info.txt", "manifest-sha256.txt", "tagmanifest-sha256.txt")

    assert [(one / name).read_bytes() for name in names] == [(other / name).read_bytes() for name in names]


@pytest.mark.skipif(sys.platform != "linux", reason="other systems forbid such names")
def test_name_that_is_no_text_is_refused(tmp_path: Path) -> None:
    """Tag files are UTF-8 (RFC 8493, 2.3), so such a name cannot be listed."""
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / os.fsdecode(b"plate\xff.jpg")).write_bytes(b"")

    with pytest.raises(JobFolderError, match=r"data/plate\\udcff\.jpg: the file's name is not UTF-8"):
        close_bag(tmp_path, INFO)


def test_link_is_refused(tmp_path: Path) -> None:
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "plate.jpg").symlink_to(tmp_path / "elsewhere.jpg")

    with pytest.raises(JobFolderError, match=r"data/plate\.jpg is a link"):
        close_bag(tmp_path, INFO)
