"""Each document read back into the lines it holds, with parsers that are not ours; printed ones: pdf_lines.py.

A reader takes the bytes of the file. It gives, for each section of the record that it finds, its lines in their order.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable, Iterator
from itertools import takewhile
from typing import NamedTuple
from xml.etree.ElementTree import Element

import html5lib
import webvtt
from markdown_it import MarkdownIt
from markdown_it.tree import SyntaxTreeNode

SECTION_UNDER = {
    "Safety and state of the unit": "safety", "Complaint": "complaints", "Cause": "causes", "Work done": "work",
    "Correction": "work",  # of the printed claim sheet; elsewhere nothing stands between it and the headings below it
    "Parts": "parts", "Verdict": "verdict", "Check list": "checks", "Readings": "readings",
    "Cycles and service tests": "trials", "Fault codes": "codes", "Advice to the customer": "advice",
    "Follow-up": "follow_ups", "What is missing": "gaps", "Cautions": "cautions",
    "Notes on the recording": "notices", "Needed by the warranty desk": "gaps", "Needed by others": "gaps",
}  # fmt: skip
OTHER_HEADINGS = {
    "Visit report", "Warranty claim", "Unit and job", "Unit and visit", "Timeline", "Open points",
    "Transcript", "How this report was made",
}  # fmt: skip
# sentences of the pages themselves
NO_LINE = (
    "Not heard",
    "Nothing that this report asks for is missing.",
    "The usual cautions for what was named",
)


class Line(NamedTuple):
    """What a document says in one line, perhaps with a label in front, and the words that it quotes for it."""

    text: str
    quotes: tuple[str, ...] = ()


Lines = dict[str, list[Line]]
Told = dict[str, list[str]]  # what the customer page says under each of its headings, in order


def section_under(heading: str) -> str | None:
    """The section of the record under a heading; None for one that holds no lines. Fails on an unknown one."""
    assert heading in SECTION_UNDER or heading in OTHER_HEADINGS, f"unknown heading {heading!r}"
    return SECTION_UNDER.get(heading)


def html_lines(page: bytes) -> Lines:
    """What stands in each section: list entries and rows of tables, without what is folded under them."""
    lines: Lines = {}
    body = _body(page)
    for part in body.iter("section"):
        section: str | None = None
        for element in part.iter():
            if element.tag in {"h2", "h3"}:
                section = section_under(_text(element))
            elif section is not None and (element.tag in {"li", "tr"} or _is_verdict(part, element)):
                lines.setdefault(section, []).extend(_line_of(element))
    return lines


def _body(page: bytes) -> Element:
    body = html5lib.parse(page.decode(), namespaceHTMLElements=False).find("body")
    assert body is not None
    return body


def _is_verdict(part: Element, element: Element) -> bool:
    return part.get("class") == "verdict" and element.get("class") == "lines"


def _line_of(element: Element) -> Iterator[Line]:
    if element.tag == "li" and element.find("div/details") is not None:
        return
    own = list(_outside_folds(element))
    texts = [_text(each) for each in own if each.get("class") == "text"]
    if not texts and element.tag == "li" and "class" not in element[0].attrib and not len(element[0]):
        texts = [_text(element)]  # a notice is nothing but its text
    quotes = tuple(_text(each) for each in own if each.get("class") == "quote")
    assert len(texts) <= 1, texts
    yield from (Line(text, quotes) for text in texts)


def _outside_folds(element: Element) -> Iterator[Element]:
    for child in element:
        if child.tag != "details":
            yield child
            yield from _outside_folds(child)


def _text(element: Element) -> str:
    return " ".join("".join(element.itertext()).split())


def html_text(page: bytes) -> str:
    """All that can be read on the page above the transcript."""
    return _text(
        _without(_body(page), lambda part: part.get("class") == "transcript" or part.tag == "script")
    )


def html_told(page: bytes) -> Told:
    """The customer page below its head: list entries and paragraphs by heading. Fails on words outside of them."""
    main = _without(_body(page), lambda part: part.tag == "figure").find("main")
    assert main is not None
    told: Told = {"": []}
    lines = told[""]
    for element in main.iter():
        if element.tag in {"h2", "h3"}:
            assert _text(element) not in told
            lines = told[_text(element)] = []
        elif element.tag in {"li", "p"}:
            lines.append(_text(element))
    read = "".join(heading + "".join(found) for heading, found in told.items())
    assert read.replace(" ", "") == _text(main).replace(" ", "")
    return {heading: found for heading, found in told.items() if found}


def _without(body: Element, left_out: Callable[[Element], bool]) -> Element:
    for part in list(body.iter()):
        for child in [each for each in part if left_out(each)]:
            part.remove(child)
    return body


def markdown_lines(page: bytes) -> Lines:
    """List entries by heading: their first paragraph, and what is quoted right in them."""
    lines: Lines = {}
    section = None
    for node in SyntaxTreeNode(MarkdownIt("commonmark").parse(page.decode())).children:
        if node.type == "heading":
            section = section_under(_inline(node))
        elif section == "verdict":
            lines.setdefault(section, []).append(_markdown_verdict(node))
        elif section is not None and node.type == "bullet_list":
            lines.setdefault(section, []).extend(_markdown_line(entry) for entry in node.children)
    return {
        section: _joined_verdict(found) if section == "verdict" else found for section, found in lines.items()
    }


def _markdown_line(entry: SyntaxTreeNode) -> Line:
    quoted = [
        _inline(part) for block in entry.children if block.type == "blockquote" for part in block.children
    ]
    return Line(_inline(entry.children[0]), tuple(found for text in quoted for found in _quoted(text)))


def _markdown_verdict(node: SyntaxTreeNode) -> Line:
    text = " ".join(_inline(part) for part in (node.children if node.type == "blockquote" else [node]))
    return Line("", _quoted(text)) if node.type == "blockquote" else Line(text)


def _joined_verdict(parts: list[Line]) -> list[Line]:
    """Finding, text and quote of the verdict, which stand below each other, as one line."""
    texts = [part.text for part in parts[1:] if part.text]
    quotes = tuple(quote for part in parts for quote in part.quotes)
    return [Line(" ".join(texts), quotes)] if texts or quotes else []


def _inline(node: SyntaxTreeNode) -> str:
    breaks = {"softbreak": " ", "hardbreak": " "}
    return "".join(breaks.get(leaf.type, leaf.content) for leaf in node.walk() if not leaf.children)


def _quoted(text: str) -> tuple[str, ...]:
    found = re.match(r"(?:also )?“(.*)”", text)
    return (found[1],) if found else ()


def markdown_text_read(page: bytes) -> str:
    """All that can be read on the page above the transcript."""
    nodes = SyntaxTreeNode(MarkdownIt("commonmark").parse(page.decode())).children
    above = takewhile(lambda node: not (node.type == "heading" and _inline(node) == "Transcript"), nodes)
    return "\n".join(_inline(node) for node in above)


def plain_lines(page: bytes) -> Lines:
    """Lines with a time in front by heading, and the quotes indented below them."""
    lines: Lines = {}
    section, headings = None, {heading.upper(): heading for heading in {*SECTION_UNDER, *OTHER_HEADINGS}}
    untimed = {"gaps", "cautions", "notices"}
    for row in page.decode().splitlines():
        if heading := headings.get(row) or (row if row in {"Work done", "Parts"} else None):
            section = section_under(heading)
        elif section is not None and row and not row.startswith(NO_LINE):
            _add_row(lines.setdefault(section, []), row, section in untimed, section == "verdict")
    if "verdict" in lines:
        lines["verdict"] = _joined_verdict(lines["verdict"])
    return {section: found for section, found in lines.items() if found}


def _add_row(found: list[Line], row: str, untimed: bool, verdict: bool) -> None:
    timed = re.fullmatch(r"\d+(?::\d\d)+ +(.*)", row)
    quoted = re.fullmatch(r" {8}(?:also [\d:]+ +)?“(.*)”(?: ⚠.*)?", row)
    if verdict:
        found.append(Line("", _quoted(timed[1])) if timed else Line(row))
    elif quoted:
        found[-1] = found[-1]._replace(quotes=(*found[-1].quotes, quoted[1]))
    elif timed or untimed:
        found.append(Line(timed[1] if timed else row))
    else:
        assert row.startswith(" " * 8), f"{row!r} is no line of the record and belongs to none"


def table_lines(page: bytes) -> Lines:
    rows = csv.DictReader(io.StringIO(page.decode(), newline=""), strict=True)
    return {"checks": [Line(row["text"], (row["quote"],)) for row in rows]}


def track_lines(page: bytes) -> Lines:
    """Cues and comments by the place in the record that they name."""
    track = page.decode()
    comments = [block[5:] for block in track.split("\n\n") if block.startswith("NOTE ")]
    told = [json.loads(cue.text) for cue in webvtt.from_string(track).captions] + [
        json.loads(c) for c in comments
    ]
    told.sort(key=lambda finding: finding.get("index", 0))
    lines: Lines = {}
    for finding in told:
        if finding["section"] != "appliance":
            found = lines.setdefault(finding["section"], [])
            assert finding.get("index", 0) == len(found)
            found.append(Line(finding["text"], (finding["quote"],)))
    return lines


def track_text(page: bytes) -> str:
    """Only what is said: `about` and the numbers of the record may well be repeated."""
    found = track_lines(page)
    return "\n".join(" ".join([line.text, *line.quotes]) for lines in found.values() for line in lines)
