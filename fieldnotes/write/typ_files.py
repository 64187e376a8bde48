"""The `.typ` templates and the pictures beside them, with the shop's own laid over; none may reach outside.

Typst fetches a package as soon as an import names one, and its compiler has no switch against it. So a template may
import and include nothing but the literal name of another template, and may not use what could make an import out
of text.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path

from fieldnotes.errors import TemplateError

PICTURES = {".svg", ".png", ".jpg", ".jpeg"}
# Words are looked for everywhere, also in comments, texts and beside digits and underscores: telling those apart would
# take Typst's own parser, and one mistake in it would open the door.
_LOADS = re.compile(r"(?<![a-zA-Z])(import|include)(?![a-zA-Z])")
_NAME = re.compile(r'\s*"([^"\\]*)"')
_COMMENT = re.compile(r"\s+|//[^\n\v\f\r\x85\u2028\u2029]*|/\*(?:[^*/]|\*(?!/)|/(?!\*))*\*/")
# `eval` runs text as a template; `std` is the one name behind which `eval` could be had under another
_FORBIDDEN = re.compile(r"(?<![a-zA-Z])(eval|std)(?![a-zA-Z])")


def typ_files(folders: tuple[Path, ...]) -> dict[str, Path]:
    """Templates and pictures by file name; a folder further to the front comes first."""
    wanted = {".typ", *PICTURES}
    return {
        path.name: path
        for folder in reversed(folders)
        for path in sorted(folder.iterdir())
        if path.suffix.lower() in wanted and path.is_file()
    }


def read_typ_files(files: Mapping[str, Path]) -> dict[str, bytes]:
    """What stands in them. Raises TemplateError, with file and line, where one could reach outside."""
    names = {name for name in files if name.endswith(".typ")}
    contents: dict[str, bytes] = {}
    for name, path in files.items():
        contents[name] = path.read_bytes()
        if name in names:
            _check(path, _text(path, contents[name]), names)
    return contents


def _text(path: Path, content: bytes) -> str:
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as fault:
        raise TemplateError(f"{path}: the template is not UTF-8 text; save it as UTF-8") from fault


def _check(path: Path, text: str, names: set[str]) -> None:
    for place, fault in _faults(text, names):
        raise TemplateError(f"{path}, line {text.count(chr(10), 0, place) + 1}: {fault}")


def _faults(text: str, names: set[str]) -> Iterator[tuple[int, str]]:
    for found in _FORBIDDEN.finditer(text):
        yield found.start(), f'"{found[1]}" is not allowed in a template; say it without'
    for found in _LOADS.finditer(text):
        named = _NAME.match(text, found.end())
        if named is None or named[1] not in names or _goes_on(text, named.end()):
            yield (
                found.start(),
                f'"{found[1]}" may only stand before the name of a template in quotes, one of '
                f"{', '.join(sorted(names))}; no packages, and not as a word of a text",
            )


def _goes_on(text: str, place: int) -> bool:
    """Whether a dot follows, behind blanks and comments: `"a.typ".replace(...)` would be another name."""
    while gap := _COMMENT.match(text, place):
        place = gap.end()
    return text.startswith((".", "/*"), place)
