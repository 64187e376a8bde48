"""A shop's settings: where they are found, what may stand in them, and how mistakes are told."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldnotes.errors import SettingsError
from fieldnotes.settings import PageSettings, Settings, Shop, _luminance, load_settings

FULL = """
[shop]
name = "Harrowby Appliance Care"
address = ["12 Mill Lane", "Harrowby"]
telephone = "555 0134"
email = "office@harrowby.example"
licence = "AC 1187"
logo = "pictures/logo.svg"
colour = "#0A5A78"

[pages]
documents = ["office", "claim"]
paper = "A4"
templates = "our-pages"
vocab = "our-words"
"""


def settings_of(tmp_path: Path, text: str) -> Settings:
    path = tmp_path / "shop.toml"
    path.write_text(text, encoding="utf-8")
    return load_settings(path, tmp_path, tmp_path)


def test_everything_can_be_set(tmp_path: Path) -> None:
    (tmp_path / "pictures").mkdir()
    (tmp_path / "pictures" / "logo.svg").write_text("<svg/>")

    assert settings_of(tmp_path, FULL) == Settings(
        shop=Shop(
            name="Harrowby Appliance Care",
            address=("12 Mill Lane", "Harrowby"),
            telephone="555 0134",
            email="office@harrowby.example",
            licence="AC 1187",
            logo=tmp_path / "pictures" / "logo.svg",
            colour="#0a5a78",
        ),
        pages=PageSettings(
            documents=("office", "claim"),
            paper="A4",
            templates=tmp_path / "our-pages",
            vocab=tmp_path / "our-words",
        ),
    )


@pytest.mark.parametrize(
    ("files", "named", "expected"),
    [
        ([], None, None),
        (["home"], None, "home"),
        (["home", "here"], None, "here"),
        (["home", "here", "elsewhere"], "elsewhere", "elsewhere"),
    ],
    ids=["none", "home", "present folder before home", "named before all"],
)
def test_nearest_file_is_taken(
    tmp_path: Path, files: list[str], named: str | None, expected: str | None
) -> None:
    for name in ("home", "here", "elsewhere"):
        (tmp_path / name).mkdir()
    for name in files:
        (tmp_path / name / "fieldnotes.toml").write_text(f'[shop]\nname = "{name}"\n')
    path = tmp_path / named / "fieldnotes.toml" if named else None

    assert load_settings(path, tmp_path / "here", tmp_path / "home").shop.name == expected


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("[shop]\nname = 'A'\nfax = '1'\n", r"shop\.toml, line 3: shop\.fax: is not a setting"),
        ("[shop]\nname = 12\n", r"shop\.toml, line 2: shop\.name: input should be a valid string"),
        ("[shops]\nname = 'A'\n", r"shop\.toml, line 1: shops: is not a setting"),
        ("[shop]\nname = \n", r"shop\.toml: Invalid value \(at line 2, column 8\)"),
        ("[pages]\npaper = 'A5'\n", r"line 2: pages\.paper: input should be 'letter' or 'a4'"),
        ("[pages]\ndocuments = ['office', 'bill']\n", r"line 2: pages\.documents: input should be 'office'"),
        ("[shop]\ncolour = 'red'\n", r"line 2: shop\.colour: write the colour as"),
        ("[shop]\n\ncolour = '#ffcc00'\n", r"line 3: .*stands out from white by 1\.5 : 1 only"),
        ("[shop]\nlogo = 'logo.gif'\n", r"logo\.gif is none of PNG, JPEG and SVG"),
        ("[shop]\nlogo = 'logo.png'\n", r"there is no file \S*logo\.png"),
        ("[shop]\nfax = '1'\nmail = '2'\n", r"line 2: shop\.fax: .*; .*line 3: shop\.mail: "),
    ],
    ids=[
        "unknown key", "wrong type", "unknown table", "syntax", "paper", "document", "colour's form",
        "colour too light", "kind of logo", "logo missing", "two mistakes",
    ],
)  # fmt: skip
def test_mistake_is_told_with_file_and_line(tmp_path: Path, text: str, message: str) -> None:
    with pytest.raises(SettingsError, match=message):
        settings_of(tmp_path, text)


def test_large_logo_is_refused(tmp_path: Path) -> None:
    (tmp_path / "logo.png").write_bytes(b"x" * 500_001)

    with pytest.raises(SettingsError, match="larger than 500 kB"):
        settings_of(tmp_path, "[shop]\nlogo = 'logo.png'\n")


def test_file_that_is_not_utf8_is_refused(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_bytes(b"[shop]\nname = 'caf\xe9'\n")

    with pytest.raises(SettingsError, match="not UTF-8"):
        load_settings(tmp_path / "shop.toml", tmp_path, tmp_path)


def test_named_file_that_is_missing_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SettingsError, match=r"gone\.toml: there is no such file"):
        load_settings(tmp_path / "gone.toml", tmp_path, tmp_path)


@pytest.mark.parametrize(
    ("colour", "luminance"),
    [("#000000", 0.0), ("#ffffff", 1.0), ("#ff0000", 0.2126), ("#777777", 0.1845)],
    ids=["black", "white", "red", "grey"],
)
def test_luminance_is_that_of_the_standard(colour: str, luminance: float) -> None:
    """Source: WCAG 2.2, relative luminance: white 1, black 0, red its weight. Grey #777777 reaches 4.48 : 1 on white
    (WebAIM's table, from memory), so (1.05 / 4.48) - 0.05."""
    assert _luminance(colour) == pytest.approx(luminance, abs=5e-4)


@given(st.integers(0, 0xFFFFFF).map("#{:06x}".format))
def test_darker_colours_are_readable_and_lighter_are_not(colour: str) -> None:
    readable = 1.05 / (_luminance(colour) + 0.05) >= 4.5
    try:
        Shop(colour=colour)
        taken = True
    except ValueError:
        taken = False

    assert taken == readable
