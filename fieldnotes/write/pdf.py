"""The printed pages: Typst sets a `.typ` template with the visit as data, as PDF/A-3 with the record attached.

Nothing of the visit becomes part of a template: Typst reads it from data.json, where all is text. The compiler's whole
disk is a folder of its own that holds the templates, the data and what is attached, and is gone afterwards.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType
from typing import Literal

import typst

from fieldnotes.errors import SettingsError, TemplateError
from fieldnotes.write.contents import Contents, shown_explanations
from fieldnotes.write.glyphs import characters, font_folders
from fieldnotes.write.legible import legible
from fieldnotes.write.pages import TIMELINE, template_folders, timeline_svg, words_of
from fieldnotes.write.printed import logo_file, printed
from fieldnotes.write.typ_files import read_typ_files, typ_files

MAIN, DATA = "_document.typ", "data.json"
# ISO 19005-3 conformance level A: what it looks like, what its text says, and how it is built; and ISO 14289-1
STANDARDS: list[typst.PDFStandard] = ["a-3a", "ua-1"]
# ISO 19005-3, annex E: what an attached file is to the document. By ending: relationship, media type (RFC 8259,
# 7111), what it is
ATTACHED: Mapping[str, tuple[Literal["source", "data"], str, str]] = MappingProxyType(
    {
        ".json": ("source", "application/json", "The visit record that this document was made from"),
        ".csv": ("data", "text/csv", "The check list as a table"),
    }
)
_SEARCHED = re.compile(r"\(searched at [^)]*?([^/\\)]+)\)")  # in the compiler's own folder
_PLACE = re.compile(r"┌─ (?:\S.*/)?([^/\n]+\.typ):(\d+):\d+")


def render_pdf(name: str, contents: Contents, attachments: Mapping[str, bytes]) -> bytes:
    """The document `name` ("report.pdf") from the template of the same name ("report.typ").

    Args:
        name: the file's name.
        contents: the visit; `written` becomes the document's date, so that the same input gives the same bytes.
        attachments: what is attached, by file name; .json and .csv.

    Raises:
        TemplateError: a template or a font is wrong, with file and line.
        SettingsError: the shop's logo cannot be read.
    """
    own, logo = contents.settings.pages.templates, contents.settings.shop.logo
    folders = template_folders(own)
    templates = typ_files(folders)
    template = Path(name).with_suffix(".typ").name
    if template not in templates:
        raise TemplateError(f"{name}: there is no template {template}")
    files = read_typ_files(templates) | dict(contents.photos) | dict(attachments)
    files[TIMELINE] = timeline_svg(contents).encode()  # drawn, in the place of its template
    if logo is not None:
        files[logo_file(logo) or ""] = _picture(logo)
    for n, each in enumerate(shown_explanations(contents)):
        files[f"drawing-{n}.svg"] = each.drawing.encode()
    fonts = font_folders(folders)
    points = characters(fonts)
    data = printed(contents, words_of(own), lambda text: legible(text, points))
    files[DATA] = json.dumps(data, ensure_ascii=False).encode("utf-8", "replace")
    files[MAIN] = _main(template, attachments).encode()
    try:
        return _compile(files, fonts, int(contents.written.timestamp()))
    except typst.TypstError as fault:
        raise _told(fault, template, templates, logo) from fault


def _main(template: str, attachments: Mapping[str, bytes]) -> str:
    """The template, and behind it the attached files, which so are there whatever a shop's own template does."""
    lines = [f'#include "{template}"']
    for name in attachments:
        relationship, media_type, description = ATTACHED[Path(name).suffix]
        lines.append(
            f'#pdf.attach("{name}", relationship: "{relationship}", mime-type: "{media_type}", '
            f'description: "{description}")'
        )
    return "\n".join(lines)


def _compile(files: Mapping[str, bytes], fonts: tuple[Path, ...], timestamp: int) -> bytes:
    with TemporaryDirectory() as made:
        folder = Path(made)
        for name, content in files.items():
            (folder / name).write_bytes(content)
        return typst.compile(
            folder / MAIN, root=folder, package_path=folder, package_cache_path=folder, font_paths=_fonts(fonts),
            ignore_system_fonts=True, format="pdf", pdf_standards=STANDARDS, timestamp=timestamp,
        )  # fmt: skip


@cache
def _fonts(folders: tuple[Path, ...]) -> typst.Fonts:
    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(each) for each in folders]
    )


def _picture(logo: Path) -> bytes:
    try:
        return logo.read_bytes()
    except OSError as fault:
        raise SettingsError(f"shop.logo: {logo} cannot be read: {fault.strerror}; check the path") from fault


def _told(
    fault: typst.TypstError, template: str, templates: Mapping[str, Path], logo: Path | None
) -> TemplateError | SettingsError:
    """Typst's own words, with the first place in a template that it names."""
    hints = [hint for hint in fault.hints if "--root" not in hint]  # an option of Typst's own command
    message = _SEARCHED.sub(r"(\1)", "; ".join([fault.message, *hints]))
    if logo is not None and re.search("decode image|parse SVG|parse image", fault.message):
        return SettingsError(f"shop.logo: {logo} is no picture that can be printed: {message}")
    places = [(name, line) for name, line in _PLACE.findall(fault.diagnostic) if name in templates]
    if not places:
        return TemplateError(f"{templates[template]}: {message}")
    name, line = places[0]
    return TemplateError(f"{templates[name]}, line {line}: {message}")
