"""Which characters can be printed: those of the fonts that lie with the templates."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from fontTools.ttLib import TTCollection, TTFont, TTLibError

from fieldnotes.errors import TemplateError

ENDINGS = {".ttf", ".otf", ".ttc"}


def font_folders(templates: tuple[Path, ...]) -> tuple[Path, ...]:
    """The folders `fonts` that lie in folders of templates."""
    return tuple(folder / "fonts" for folder in templates if (folder / "fonts").is_dir())


@cache
def characters(folders: tuple[Path, ...]) -> tuple[frozenset[int], ...]:
    """The code points of each font in these folders. Raises TemplateError where a font cannot be read.

    Kept for the next visit, as a font seldom changes while the program runs.
    """
    files = [
        path for folder in folders for path in sorted(folder.iterdir()) if path.suffix.lower() in ENDINGS
    ]
    return tuple(points for path in files for points in _characters(path))


def _characters(path: Path) -> list[frozenset[int]]:
    try:
        with path.open("rb") as file:
            several = path.suffix.lower() == ".ttc"
            fonts = TTCollection(file, lazy=True).fonts if several else [TTFont(file, lazy=True)]
            return [_points(font) for font in fonts]
    except (TTLibError, OSError, KeyError) as fault:
        raise TemplateError(f"{path}: is no font that can be read; take it out of the folder") from fault


def _points(font: TTFont) -> frozenset[int]:
    # numbers for names: reading the glyphs' own names is most of the time, and nobody asks for them
    font.setGlyphOrder([f"glyph{n:05}" for n in range(font["maxp"].numGlyphs)])
    return frozenset(font.getBestCmap() or ())
