"""Reads a finished page back with parsers that are not ours: html.parser, and markdown-it-py."""

from __future__ import annotations

from collections import Counter
from html.parser import HTMLParser
from itertools import pairwise

from markdown_it import MarkdownIt
from markdown_it.token import Token

VOID = {"meta", "col", "br", "hr", "link", "img", "input"}


class HtmlPage(HTMLParser):
    """`texts[class]`: the text of each element of that class, in order; `tags`: how often each tag stands."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: Counter[str] = Counter()
        self.links: list[tuple[str, str]] = []  # (address, classes) of all that is referred to
        self.texts: dict[str, list[str]] = {}
        self.headings: list[tuple[int, str]] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.visible = ""
        self._open: list[tuple[str, list[str], list[str]]] = []  # tag, classes, pieces of text
        self.feed(page)
        self.close()
        assert self._open == [], "every element is closed"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags[f"{tag} {' '.join(name for name, _ in attrs)}"] += 1
        named = dict(attrs)
        self.attributes += attrs
        self.links += [
            (named[key] or "", named.get("class") or "") for key in ("href", "src") if key in named
        ]
        if tag not in VOID:
            self._open.append((tag, (named.get("class") or "").split(), []))

    def handle_endtag(self, tag: str) -> None:
        opened, classes, pieces = self._open.pop()
        assert opened == tag, f"<{opened}> is closed by </{tag}>"
        text = "".join(pieces)
        inside = {name for _, names, _ in self._open for name in names}
        for name in classes:
            where = f"transcript {name}" if "transcript" in inside else name
            self.texts.setdefault(where, []).append(text)
        if tag in {"h1", "h2", "h3"}:
            self.headings.append((int(tag[1]), text))

    def handle_data(self, content: str) -> None:
        for _, _, pieces in self._open:
            pieces.append(content)
        if not any(tag in {"script", "style"} for tag, _, _ in self._open):
            self.visible += content


class MarkdownPage:
    """`paragraphs`: the plain text of each block of text; `shape`: the kinds of all blocks and inlines."""

    def __init__(self, page: str) -> None:
        tokens = MarkdownIt("commonmark").parse(page)
        self.paragraphs = [_inline_text(token) for token in tokens if token.type == "inline"]
        self.shape = [(t.type, tuple(child.type for child in t.children or ())) for t in tokens]
        self.headings = [
            _inline_text(after) for before, after in pairwise(tokens) if before.type == "heading_open"
        ]


def _inline_text(token: Token) -> str:
    breaks = {"softbreak": " ", "hardbreak": " "}
    return "".join(breaks.get(child.type, child.content) for child in token.children or ())
