"""One kind of appliance as the program knows it: parts.yaml, the wider kind's pack and its own in one."""

from __future__ import annotations

from difflib import get_close_matches
from pathlib import Path

from rich.console import Console
from rich.table import Table
from rich.text import Text

from fieldnotes.errors import VocabularyError
from fieldnotes.vocabulary_bench.names import SECTIONS, Variant, layers_of, variants
from fieldnotes.vocabulary_bench.opened import open_vocabulary
from fieldnotes.vocabulary_bench.tried_page import PIPE_WIDTH


def show_kind(kind: str, shop: Path | None = None, console: Console | None = None) -> None:
    """Print every part, symptom and trial of a kind and how it is said. Raises VocabularyError if unknown."""
    opened = open_vocabulary(shop)
    if kind not in opened.packs:
        near = get_close_matches(kind, opened.packs, 1)
        hint = f' Did you mean "{near[0]}"?' if near else ""
        raise VocabularyError(
            f'no kind of appliance is called "{kind}" ({", ".join(sorted(opened.packs))}).{hint}'
        )
    console = console or Console(highlight=False)
    if not console.is_terminal:
        console.width = max(console.width, PIPE_WIDTH)
    layers = layers_of(opened, kind)
    console.print(f"{kind}: {' under '.join(source.name for source, _ in layers)}")
    for section in SECTIONS:
        entries: dict[str, list[Variant]] = {}
        for variant in variants(layers, section):
            entries.setdefault(variant.name, []).append(variant)
        table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")
        for heading in (f"{section} ({len(entries)})", "said", "misheard", "in"):
            table.add_column(heading, overflow="fold")
        for name in sorted(entries, key=str.lower):
            said = [v.phrase for v in entries[name] if not v.misheard and v.phrase != name]
            misheard = [v.phrase for v in entries[name] if v.misheard]
            where = entries[name][0].source.name
            table.add_row(
                Text(name, "bold"), Text(", ".join(said)), Text(", ".join(misheard)), Text(where, "dim")
            )
        console.print(table)
