"""Reads a finished PDF back with libraries that are not ours: pdfminer.six for letters, pikepdf for all else."""

from __future__ import annotations

import io
import unicodedata
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from functools import cached_property
from pathlib import Path
from typing import Any

import pikepdf
from pdfminer.converter import PDFPageAggregator
from pdfminer.layout import LTChar, LTContainer, LTPage
from pdfminer.pdfinterp import PDFPageInterpreter, PDFResourceManager
from pdfminer.pdfpage import PDFPage
from pdfminer.utils import decode_text

from fieldnotes.records import Visit
from fieldnotes.settings import PageSettings, Settings, Shop
from fieldnotes.transcript import Transcript
from fieldnotes.write import Contents
from fieldnotes.write.checklist import checklist_csv
from fieldnotes.write.pdf import render_pdf
from fieldnotes.write.schema import visit_json

from .visits import FULL, FULL_TRANSCRIPT

FOOTER = 45.0  # points from the lower edge: what stands below is the footer
WRITTEN = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)


def contents_of(
    visit: Visit = FULL,
    transcript: Transcript = FULL_TRANSCRIPT,
    templates: Path | None = None,
    **settings: Any,
) -> Contents:
    """`settings` are a shop's, or `paper`."""
    pages = PageSettings(templates=templates, paper=settings.pop("paper", "letter"))
    return Contents(visit, transcript, Settings(shop=Shop(**settings), pages=pages), written=WRITTEN)


def attached(visit: Visit) -> dict[str, bytes]:
    return {"visit.json": visit_json(visit).encode(), "checklist.csv": checklist_csv(visit).encode()}


def file_of(name: str, contents: Contents | None = None) -> bytes:
    contents = contents or contents_of()
    return render_pdf(name, contents, attached(contents.visit))


def pdf_of(name: str, contents: Contents | None = None) -> Pdf:
    return Pdf(file_of(name, contents))


def squeezed(text: str) -> str:
    """What of a text is printed: no blanks, and no invisible signs (format and control characters)."""
    return "".join(
        c for c in text if not c.isspace() and unicodedata.category(c) not in {"Cc", "Cf", "Cn", "Cs"}
    )


class Pdf:
    """`text`: all that is printed, squeezed, in the order of the file, without the footers."""

    def __init__(self, content: bytes) -> None:
        self.content = content
        self.layouts = list(_layouts(content))
        self.sizes = [(round(page.width), round(page.height)) for page in self.layouts]
        self.letters = [list(_letters(page)) for page in self.layouts]
        self.text = squeezed("".join(self.pages))

    @property
    def pages(self) -> list[str]:
        return [_lines(each for each in page if each.y0 > FOOTER) for page in self.letters]

    @property
    def footers(self) -> list[str]:
        return [_lines(each for each in page if each.y0 <= FOOTER) for page in self.letters]

    @cached_property
    def headings(self) -> list[str]:
        with self.opened() as file, file.open_outline() as outline:
            return [str(entry.title) for entry in _flat(outline.root)]

    def section(self, heading: str) -> str:
        """The text between this heading and the next of its rank or above; headings stand once each."""
        titles = [squeezed(title) for title in self.headings]
        number = titles.index(squeezed(heading))
        begins = self._place(titles, number) + len(titles[number])
        ends = self._place(titles, number + 1) if number + 1 < len(titles) else len(self.text)
        return self.text[begins:ends]

    def _place(self, titles: list[str], number: int) -> int:
        place = 0
        for title in titles[: number + 1]:
            place = self.text.index(title, place)
        return place

    def opened(self) -> pikepdf.Pdf:
        return pikepdf.open(io.BytesIO(self.content))


class _Reader(PDFPageAggregator):
    """Takes the text that a mark says its signs stand for, where there is one (ISO 32000-1, 14.9.4, ActualText)."""

    _stands_for: str | None = None

    def begin_tag(self, tag: Any, props: Any = None) -> None:
        actual = (props or {}).get("ActualText")
        self._stands_for = None if actual is None else decode_text(actual)

    def end_tag(self) -> None:
        self._stands_for = None

    def render_char(self, *place: Any, **more: Any) -> float:
        width = super().render_char(*place, **more)
        if self._stands_for is not None:
            letter = self.cur_item._objs[-1]
            assert isinstance(letter, LTChar)
            letter._text = self._stands_for
            self._stands_for = ""  # by the first of the signs
        return width


def _layouts(content: bytes) -> Iterator[LTPage]:
    """The pages with their letters in the file's own order, which is that of reading."""
    resources = PDFResourceManager()
    device = _Reader(resources, laparams=None)
    for page in PDFPage.get_pages(io.BytesIO(content)):
        PDFPageInterpreter(resources, device).process_page(page)
        yield device.get_result()


def _letters(element: LTContainer[Any] | LTChar) -> Iterator[LTChar]:
    if isinstance(element, LTChar):
        yield element
    elif isinstance(element, LTContainer):
        for inner in element:
            yield from _letters(inner)


def _lines(letters: Iterable[LTChar]) -> str:
    """Their text, with a line's end wherever the next letter stands somewhere else."""
    text, place = "", None
    for letter in letters:
        if place is not None and (abs(letter.y0 - place[1]) > 4 or not -8 < letter.x0 - place[0] < 8):
            text += "\n"
        text, place = text + letter.get_text(), (letter.x1, letter.y0)
    return text


def _flat(entries: Iterable[pikepdf.OutlineItem]) -> Iterator[pikepdf.OutlineItem]:
    for entry in entries:
        yield entry
        yield from _flat(entry.children)
