"""A printed document read back into the lines it holds, by its tags, with libraries that are not ours.

pikepdf gives the structure tree (ISO 32000-1, 14.7; the clauses are from memory), pdfminer.six the letters of each mark
that the tree points to. Only what cannot be seen is undone: places to break a long word at, and the isolates around
words from right to left.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from functools import cache
from typing import Any, NamedTuple

import pikepdf
from pdfminer.pdfdevice import PDFTextDevice
from pdfminer.pdfinterp import PDFPageInterpreter, PDFResourceManager
from pdfminer.pdfpage import PDFPage
from pdfminer.utils import decode_text

from .documents_read import NO_LINE, Line, Lines, Told, section_under

HEADINGS = {"H1", "H2"}
_INVISIBLE = dict.fromkeys(
    map(ord, "\N{ZERO WIDTH SPACE}\N{FIRST STRONG ISOLATE}\N{POP DIRECTIONAL ISOLATE}")
)
_TIME = re.compile(r"(?:\d+(?::\d\d)+)?")
_SAID_AGAIN = re.compile(r"also (?:[\d:]+ )?$")

Marks = dict[int | None, str]  # the letters of each mark of a page by its number; None: of no mark


class Tagged(NamedTuple):
    """An element of the structure tree; its letters, which have no element of their own, have the tag ""."""

    tag: str
    text: str
    parts: tuple[Tagged, ...] = ()

    def holds(self, tags: set[str]) -> bool:
        return self.tag in tags or any(part.holds(tags) for part in self.parts)


def pdf_lines(content: bytes) -> Lines:
    """What stands in each section: entries of rows and tables, and the paragraphs under cautions and notices."""
    lines: Lines = {}
    for heading, element in _under_headings(content):
        section = section_under(heading) if heading else None
        if section is not None:
            lines.setdefault(section, []).extend(_lines_of(section, element))
    return lines


def pdf_text(content: bytes) -> str:
    """All that can be read above and below the transcript, the footers and whatever has no tag as well."""
    tagged = [element.text for heading, element in _under_headings(content) if heading != "Transcript"]
    return _seen("\n".join([*tagged, _read(content)[1]]))


def pdf_told(content: bytes) -> Told:
    """The customer page below its head: the paragraphs under each heading. Fails on letters outside of both."""
    head, *below = _read(content)[0].parts
    assert head.holds({"Title"})
    told: Told = {}
    lines: list[str] = []
    for element in (each for part in below for each in _paragraphs(part)):
        if element.tag in HEADINGS:
            assert _seen(element.text) not in told
            lines = told[_seen(element.text)] = []
        else:
            lines = lines if told else told.setdefault("", [])
            lines.append(_seen(element.text))
    return {heading: found for heading, found in told.items() if found}


def _paragraphs(element: Tagged) -> Iterator[Tagged]:
    if element.tag in {"P", *HEADINGS}:
        yield element
    elif element.tag != "Figure":
        assert element.tag == "Div", f"{element} is neither a heading nor a paragraph"
        for part in element.parts:
            yield from _paragraphs(part)


def _under_headings(content: bytes) -> Iterator[tuple[str, Tagged]]:
    """Heading and element for all that stands outside of headings; "" above the first of them."""
    heading = ""
    for element in _outermost(_read(content)[0]):
        if element.tag in HEADINGS:
            heading = _seen(element.text)
        else:
            yield heading, element


def _outermost(element: Tagged) -> Iterator[Tagged]:
    """Headings, and the largest elements that hold none."""
    for part in element.parts:
        if part.tag not in HEADINGS and part.holds(HEADINGS):
            yield from _outermost(part)
        else:
            yield part


def _lines_of(section: str, element: Tagged) -> Iterator[Line]:
    if section == "verdict":
        yield from _verdict(*_entries(element))
    elif element.tag in {"Div", "Table"}:
        yield from (_line(cell) for cell in _entries(element))
    elif section in {"cautions", "notices"} and element.tag == "P":
        yield Line(_seen(element.text))
    else:
        assert element.text.startswith(NO_LINE), f"{element} is no line of the record"


def _entries(element: Tagged) -> Iterator[Tagged]:
    """Of each row the cell with the line: in a table the second, else the one before the time, which ends the row."""
    if element.tag == "Table":
        bodies = (part for part in element.parts if part.tag == "TBody")
        yield from (row.parts[1] for body in bodies for row in body.parts)
        return
    row: list[Tagged] = []
    for cell in element.parts:
        row.append(cell)
        if _TIME.fullmatch(cell.text):
            yield row[-2]
            row = []
    assert not row, f"{row} is no line of the record"


def _line(cell: Tagged) -> Line:
    """The paragraph of a cell, and the quotes in it but those of sums, which are neither its own nor said again."""
    (text,) = (part.text for part in cell.parts if part.tag == "P")
    quotes: list[str] = []
    before = ""
    for part in cell.parts:
        if part.tag != "Em":
            before += part.text
        else:
            if not quotes or _SAID_AGAIN.search(before):
                quotes.append(_quote(part))
            before = ""
    return Line(_seen(text), tuple(quotes))


def _verdict(cell: Tagged) -> Iterator[Line]:
    """What stands below the finding, as one line."""
    below = cell.parts[1:]
    quotes = [place for place, part in enumerate(below) if part.tag == "Em"]
    text = "".join(part.text for part in below[: quotes[0] if quotes else None])
    if text or quotes:
        yield Line(_seen(text), tuple(_quote(below[place]) for place in quotes))


def _quote(element: Tagged) -> str:
    quoted = re.fullmatch("“(.*)”", _seen(element.text))
    assert quoted, f"{element} is no quote"
    return quoted[1]


def _seen(text: str) -> str:
    """The text as it is seen. A line of paper ends in the blank at which it was broken, so that words stay apart."""
    return re.sub(" +", " ", text.translate(_INVISIBLE)).strip(" ")


@cache
def _read(content: bytes) -> tuple[Tagged, str]:
    """The document's element, and all letters that belong to none."""
    marks = dict(_marks(content))
    with pikepdf.open(io.BytesIO(content)) as file:
        (document,) = _elements(file.Root.StructTreeRoot.K, marks, None)
    return document, "\n".join(text for letters in marks.values() for text in letters.values())


def _elements(node: Any, marks: dict[int, Marks], page: int | None) -> Iterator[Tagged]:
    """`node`: an element, several, or the mark that holds its letters; each mark is taken away once it is read."""
    if isinstance(node, pikepdf.Array):
        for each in node:
            yield from _elements(each, marks, page)
    elif isinstance(node, int):
        assert page is not None
        yield Tagged("", marks[page].pop(node, ""))
    else:
        page = node.Pg.objgen[0] if "/Pg" in node else page
        if node.get("/Type") == "/MCR":
            yield from _elements(int(node.MCID), marks, page)
        elif "/S" in node:  # else it refers to a link or the like
            parts = tuple(_elements(node.K, marks, page)) if "/K" in node else ()
            shown = str(node.get("/Alt", ""))
            yield Tagged(str(node.S)[1:], shown + "".join(part.text for part in parts), parts)


def _marks(content: bytes) -> Iterator[tuple[int, Marks]]:
    resources = PDFResourceManager()
    for page in PDFPage.get_pages(io.BytesIO(content)):
        device = _Letters(resources)
        PDFPageInterpreter(resources, device).process_page(page)
        assert isinstance(page.pageid, int)
        yield page.pageid, device.marks


class _Letters(PDFTextDevice):
    """Sorts letters by the mark that they stand in; what a mark says its letters stand for counts in their place."""

    def __init__(self, resources: PDFResourceManager) -> None:
        super().__init__(resources)
        self.marks: Marks = {}
        self._open: list[tuple[int | None, bool]] = [
            (None, False)
        ]  # number, and whether its letters are replaced

    def begin_tag(self, tag: Any, props: Any = None) -> None:
        number, replaced = self._open[-1]
        number = (props or {}).get("MCID", number)
        if "ActualText" in (props or {}):
            if not replaced:
                self._add(number, decode_text(props["ActualText"]))
            replaced = True
        self._open.append((number, replaced))

    def end_tag(self) -> None:
        self._open.pop()

    def render_char(self, matrix: Any, font: Any, *place: Any, **more: Any) -> float:
        cid = place[3]
        number, replaced = self._open[-1]
        if not replaced:
            self._add(number, font.to_unichr(cid))
        return 0.0

    def _add(self, number: int | None, text: str) -> None:
        self.marks[number] = self.marks.get(number, "") + text
