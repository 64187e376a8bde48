"""What was tried, as tables for a terminal: one row a word, then one a line of the report."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from rich.text import Text

from fieldnotes.understand.words.clauses import Clause
from fieldnotes.vocabulary_bench.trying import Seen, Tried

PIPE_WIDTH = 132  # columns where the output is no terminal
GUARDS = ("not a thing",)  # labels that nearly every sentence meets, told without their place
_STYLES = {"name": "cyan", "rule": "green", "number": "magenta"}


def show(tried: Tried, console: Console | None = None) -> None:
    """Print to a terminal in colour, to a file or pipe as plain aligned text."""
    console = console or Console(highlight=False)
    if not console.is_terminal:
        console.width = max(console.width, PIPE_WIDTH)
    kind = f"{tried.kind} ({tried.kind_from})" if tried.kind else "not known; --kind gives one"
    console.print(Text.assemble("Kind of appliance: ", (kind, "bold")))
    console.print(_words(tried))
    if tried.reported:
        console.print("Would be reported:")
        console.print(_report(tried))
    else:
        console.print("Nothing would be reported.")
    told = tried.stances() - {"fact"}
    if told and not tried.reported:
        console.print(f"Only facts are checks, work or readings; here is said: {', '.join(sorted(told))}.")


def _words(tried: Tried) -> Table:
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")
    for heading in ("clause", "word", "name", "rule", "number"):
        table.add_column(heading, no_wrap=heading in ("clause", "word"), overflow="fold")
    for number, clause in enumerate(tried.clauses, 1):
        for word in range(clause.first, clause.last):
            cells = [_cell(tried.seen, sort, word) for sort in ("name", "rule", "number")]
            head = _head(number, clause) if word == clause.first else Text("")
            table.add_row(head, Text(tried.words[word], "bold"), *cells, end_section=word == clause.last - 1)
    return table


def _head(number: int, clause: Clause) -> Text:
    turn = ", turns" if clause.turn else ""
    return Text(f"{number} {clause.stance}{turn}", "yellow" if clause.stance != "fact" else "")


def _cell(seen: tuple[Seen, ...], sort: str, word: int) -> Text:
    """What starts at a word, longest first; a stroke under what goes on."""
    here = sorted((s for s in seen if s.sort == sort and s.first == word), key=lambda s: -s.last)
    lines = [_told(one) for one in here]
    if not lines and any(s.sort == sort and s.first < word < s.last for s in seen):
        return Text("│", _STYLES[sort])
    return Text("\n").join(lines)


def _told(one: Seen) -> Text:
    if one.sort == "rule" and one.text.startswith(GUARDS):
        return Text(one.text, "dim")
    where = f"  {one.where}" if one.where else ""
    return Text.assemble((one.text, _STYLES[one.sort]), (where, "dim"))


def _report(tried: Tried) -> Table:
    table = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), show_header=False)
    for heading in ("section", "about", "fields", "text"):
        table.add_column(heading, overflow="fold")
    for line in tried.reported:
        table.add_row(Text(f"  {line.section}"), Text(line.about, "bold"), Text(line.fields), Text(line.text))
    return table
