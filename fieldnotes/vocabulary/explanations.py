"""Shape of vocab/explanations/: what the customer page explains where advice was given on it; and its drawings."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

from pydantic import Field, model_validator

from fieldnotes.errors import VocabularyError
from fieldnotes.vocabulary.packs import Entry, Phrases
from fieldnotes.vocabulary.quantities import Status, needs_source

SVG = "{http://www.w3.org/2000/svg}"
DRAWN_WITH = {
    "svg", "g", "title", "desc", "path", "line", "rect", "circle", "ellipse", "polyline", "polygon", "text",
    "tspan",
}  # fmt: skip
ATTRIBUTES = {
    "viewBox", "width", "height", "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "rx", "ry", "d", "points",
    "transform", "fill", "fill-opacity", "fill-rule", "stroke", "stroke-width", "stroke-opacity",
    "stroke-linecap", "stroke-linejoin", "stroke-dasharray", "opacity", "font-size", "font-family",
    "font-weight", "text-anchor",
}  # fmt: skip


class ExplanationRule(Entry):
    """One matter that is explained. `drawing` is a file of vocab/drawings/; `alt` says what it shows."""

    id: str
    title: str
    text: tuple[str, ...] = Field(min_length=1)  # one a paragraph
    drawing: str
    alt: str
    source: str = ""
    status: Status
    kinds: tuple[str, ...] = ()
    cues: Phrases = Field(min_length=1)
    not_cues: Phrases = ()
    gives: tuple[str, ...] = Field(min_length=1)
    spares: tuple[str, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _sourced(self) -> ExplanationRule:
        needs_source(self.source, self.status)
        return self


class ExplanationsFile(Entry):
    """A file of vocab/explanations/."""

    explanations: tuple[ExplanationRule, ...]


def read_drawing(path: Path) -> str:
    """A drawing that can stand in a page: an SVG element of shapes and words, nothing that acts or is fetched.

    Raises VocabularyError with what must be taken out, and the line where the file is not well-formed.
    """
    try:
        text = path.read_text(encoding="utf-8")
        root = ElementTree.fromstring(text)
    except OSError as fault:
        raise VocabularyError(f"{path}: there is no such drawing; check its name") from fault
    except UnicodeDecodeError as fault:
        raise VocabularyError(f"{path}: is not UTF-8 text; save it as UTF-8") from fault
    except ElementTree.ParseError as fault:
        raise VocabularyError(f"{path}, line {fault.position[0]}: is no well-formed SVG: {fault}") from fault
    if root.tag != f"{SVG}svg" or "viewBox" not in root.attrib:
        raise VocabularyError(f"{path}, line 1: a drawing is an <svg> with a viewBox")
    for element in root.iter():
        name = str(element.tag).removeprefix(SVG)
        if name not in DRAWN_WITH:
            raise VocabularyError(f"{path}: <{name}> may not stand in a drawing; draw it with shapes")
        for attribute, value in element.attrib.items():
            if attribute not in ATTRIBUTES or "url(" in value:
                raise VocabularyError(
                    f'{path}: {attribute}="{value}" may not stand in a drawing; take it out'
                )
    ElementTree.register_namespace("", SVG.strip("{}"))
    return ElementTree.tostring(root, encoding="unicode")
