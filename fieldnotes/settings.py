"""A shop's settings: its name on the pages, its colour and paper, and where its own words and pages lie.

One small file, `fieldnotes.toml`: the one that was named, else the one in the present folder, else the one in
the home configuration. Paths in it are taken from where the file lies.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, StringConstraints, ValidationError

from fieldnotes.errors import SettingsError
from fieldnotes.transcript import Plain

FILE_NAME = "fieldnotes.toml"
Document = Literal["office", "customer", "claim"]
DOCUMENTS: tuple[Document, ...] = ("office", "customer", "claim")
LOGO_KINDS = {".png": "image/png", ".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".svg": "image/svg+xml"}
LARGEST_LOGO_BYTES = 500_000  # it is copied into every page
LEAST_CONTRAST = 4.5  # WCAG 2.2, success criterion 1.4.3


def _readable(colour: str) -> str:
    """A colour such as #0a5a78 that can be read on white paper."""
    if not re.fullmatch(r"#[0-9a-fA-F]{6}", colour):
        raise ValueError('write the colour as "#" and six hexadecimal digits, e.g. "#0a5a78"')
    if (contrast := 1.05 / (_luminance(colour) + 0.05)) < LEAST_CONTRAST:
        raise ValueError(f"{colour} stands out from white by {contrast:.1f} : 1 only; 4.5 : 1 is needed")
    return colour.lower()


def _luminance(colour: str) -> float:
    """0 (black) to 1 (white). Source: WCAG 2.2, definition of relative luminance."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


class Shop(Plain):
    """Who stands on the pages. All of it may be missing."""

    name: str | None = None
    address: tuple[str, ...] = ()  # line by line
    telephone: str | None = None
    email: str | None = None
    licence: str | None = None
    region: Annotated[str, StringConstraints(pattern="^[A-Z]{2}$")] = (
        "US"  # whose telephone numbers are spoken: ISO 3166-1
    )
    logo: Path | None = None  # PNG, JPEG or SVG
    colour: Annotated[str, AfterValidator(_readable)] = "#0a5a78"  # of headings and rules


class PageSettings(Plain):
    """How documents are made. `templates` and `vocab` are the shop's own folders."""

    documents: tuple[Document, ...] = DOCUMENTS
    paper: Literal["letter", "A4"] = "letter"
    templates: Path | None = None
    vocab: Path | None = None


class Settings(Plain):
    """All of `fieldnotes.toml`."""

    shop: Shop = Shop()
    pages: PageSettings = PageSettings()


def load_settings(named: Path | None, present_folder: Path, home_configuration: Path) -> Settings:
    """The shop's settings, or the defaults where no file is found.

    Raises SettingsError: the named file is missing; any mistake in a file, with its line.
    """
    if named is not None and not named.is_file():
        raise SettingsError(f"{named}: there is no such file; --settings takes a {FILE_NAME}")
    for path in (named, present_folder / FILE_NAME, home_configuration / FILE_NAME):
        if path is not None and path.is_file():
            return _read(path)
    return Settings()


def _read(path: Path) -> Settings:
    try:
        text = path.read_text(encoding="utf-8")
        settings = Settings.model_validate(tomllib.loads(text))
    except UnicodeDecodeError as fault:
        raise SettingsError(f"{path}: is not UTF-8 text; save it as UTF-8") from fault
    except tomllib.TOMLDecodeError as fault:
        raise SettingsError(f"{path}: {fault}") from fault
    except ValidationError as fault:
        raise SettingsError("; ".join(_told(path, text, dict(each)) for each in fault.errors())) from fault
    shop, pages = settings.shop, settings.pages
    placed = Settings(
        shop=shop.model_copy(update={"logo": _beside(path, shop.logo)}),
        pages=pages.model_copy(
            update={"templates": _beside(path, pages.templates), "vocab": _beside(path, pages.vocab)}
        ),
    )
    _check_logo(path, placed.shop.logo)
    return placed


def _beside(path: Path, named: Path | None) -> Path | None:
    return None if named is None else path.absolute().parent / named.expanduser()


def _told(path: Path, text: str, fault: dict[str, Any]) -> str:
    """One mistake with its line: the first that sets the wrong key, below its table's name."""
    key = ".".join(str(part) for part in fault["loc"] if not isinstance(part, int))
    message = "is not a setting" if fault["type"] == "extra_forbidden" else fault["msg"].lower()
    if fault["type"] == "value_error":
        message = str(fault["ctx"]["error"])
    table, _, name = key.rpartition(".")
    lines = text.splitlines()
    begin = next((n for n, line in enumerate(lines) if line.strip() == f"[{table}]"), 0)
    numbers = [n + 1 for n in range(begin, len(lines)) if re.match(rf"\s*\[?{re.escape(name)}\b", lines[n])]
    return f"{path}{f', line {numbers[0]}' if numbers else ''}: {key}: {message}"


def _check_logo(path: Path, logo: Path | None) -> None:
    if logo is None:
        return
    if logo.suffix.lower() not in LOGO_KINDS:
        raise SettingsError(f"{path}: shop.logo: {logo.name} is none of PNG, JPEG and SVG")
    if not logo.is_file():
        raise SettingsError(f"{path}: shop.logo: there is no file {logo}; check the path")
    if logo.stat().st_size > LARGEST_LOGO_BYTES:
        raise SettingsError(f"{path}: shop.logo: {logo.name} is larger than 500 kB; make it smaller")
