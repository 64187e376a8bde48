"""The customer page, on screen and in print, tells each line of the record that it should once, and nothing else.

What it should tell is worked out from the record by the page's rules, which are stated here once more: nothing of what
was heard unclearly, no quotes, times, figures, codes, gaps or notices, nothing on steps of safety that matter to the
technician alone; each thing that was looked at once, as it was found last; a single part not again whose replacing is
told. A line says what the record says, less the words to the office around it; which of those words may go is told in
`retold`, and that they go where they should, in test_customer_page.py. Not looked at here: head and foot of the page,
and the drawings.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from typing import NamedTuple

import pytest

from fieldnotes.records import Check, Item, Part, Visit
from fieldnotes.write.findings import ITEM_SECTIONS

from .documents_made import CHANGES, NAMES, documents_of, documents_of_changed, visit_called, vocabulary
from .documents_read import Told, html_text, html_told
from .pdf_lines import pdf_text, pdf_told
from .visits import FULL

READERS: dict[str, tuple[Callable[[bytes], Told], Callable[[bytes], str]]] = {
    "customer.html": (html_told, html_text),
    "customer.pdf": (pdf_told, pdf_text),
}
CLEAR = 0.6  # the confidence from which nobody has to check what was heard
STEPS = {"power disconnected", "proved dead", "supply shut"}  # of the technician
FOUND = {
    None: [],
    "fault found": ["We found a fault."],
    "no fault found": ["We found no fault: as far as we tested it, the appliance works as it should."],
    "intermittent": ["The fault comes and goes."],
    "not determined": ["We could not yet tell what is wrong."],
}
CERTAINTY = {"certain": "", "likely": "Most likely: ", "possible": "Possibly: "}
OUTCOME = {
    "good": "✓ in order",
    "fault": "✗ fault found",
    "unclear": "? not clear",
    "not tested": "– not tested",
}
NOTHING = "This page could not be filled in from the recording of the visit. Please ask us for the report."


class Retold(NamedTuple):
    """A line of the record in plain words, and what stands before and behind it as it is."""

    text: str
    before: str = ""
    behind: str = ""


Wanted = dict[str, list[str | Retold]]


def wanted_of(visit: Visit) -> Wanted:
    """What the page should say, by heading."""
    clear = {section: [*filter(_is_clear, getattr(visit, section))] for section in ITEM_SECTIONS}
    said = visit.verdict.evidence
    finding = FOUND[visit.verdict.finding] if said is None or said.confidence >= CLEAR else []
    fitted, to_come = (
        [part for part in clear["parts"] if (part.status == "fitted") == yes] for yes in (True, False)
    )
    replaced = [work.about for work in clear["work"] if work.action == "replaced"]
    fitted = [part for part in fitted if part.quantity > 1 or part.about not in replaced]
    wanted: Wanted = {
        "Safety": [_line(item) for item in clear["safety"] if not STEPS.issuperset(item.about.split("; "))],
        "What you told us": [_line(item) for item in clear["complaints"]],
        "What we found": [*finding, *(_line(item, CERTAINTY[item.certainty]) for item in clear["causes"])],
        "What we did": [_line(item) for item in (*clear["work"], *fitted)],
        "What is still to come": [_line(item) for item in (*to_come, *clear["follow_ups"])],
        "What you can do, and what to watch for": [_line(item) for item in clear["advice"]],
        "What we looked at": [*_looked_at(clear["checks"])],
    }
    if not any(wanted.values()):
        wanted[""] = [NOTHING]
    cautions = [caution.for_customer for caution in visit.cautions if caution.for_customer]
    wanted["Cautions"] = [*cautions] if len(cautions) > 1 else []  # the last only refers to the manual
    advised = {item.about for item in clear["advice"]}
    for rule in (vocabulary().explanations[each.topic] for each in visit.explained if each.about in advised):
        wanted[rule.title] = [*rule.text]
    return {heading: lines for heading, lines in wanted.items() if lines}


def _is_clear(item: Item) -> bool:
    return item.evidence.confidence >= CLEAR


def _line(item: Item, before: str = "") -> Retold:
    behind = f" ({item.quantity} ×)" if isinstance(item, Part) and item.quantity != 1 else ""
    return Retold(item.text or item.about, before, behind)


def _looked_at(checks: list[Check]) -> list[str]:
    last = {check.about: place for place, check in enumerate(checks)}
    shown = [checks[place] for place in sorted(last.values())]
    names = ("Tightness against leaks" if each.about == "leaks" else each.about for each in shown)
    return [
        f"{OUTCOME[each.outcome]} {name[:1].upper()}{name[1:]}"
        for each, name in zip(shown, names, strict=True)
    ]


# Words to the office in front of a line, and who said it in the midst of it. "Not" and "never" are never among them.
_OFFICE = (
    "(?:(?:customer|reported|was|is|advised|still|to|be|done|likely|possible|most|probably|cause|the|and|so|i|we|i've"
    "|we've|told|asked|reminded|warned|her|him|them|owner|lady|gentleman|tenant):? )*?"
)
_WHO = "(?:(?:she|he|they) (?:says?|said|tells me|told me|reports?|reported) (?:that )?)?"
_BETWEEN = f" {_WHO}(?:(?<=not )to |(?<=never )to )?"


def retold(line: str, wanted: str | Retold) -> bool:
    """Whether the line says the same in plain words: "do not overload it" for "told her not to overload it"."""
    if isinstance(wanted, str):
        return line == wanted
    if not line.startswith(wanted.before) or not line.endswith(wanted.behind):
        return False
    text = line.removeprefix(wanted.before).removesuffix(wanted.behind)
    if text[:1] != text[:1].upper():
        return False
    first, *others = text.removeprefix("Do ").split(" ") if text.startswith("Do not ") else text.split(" ")
    words = [f"(?i:{re.escape(first)})", *map(re.escape, others)]
    return re.fullmatch(f"(?i:{_OFFICE}{_WHO}){_BETWEEN.join(words)}", wanted.text) is not None


@pytest.mark.parametrize(
    ("line", "text", "same"),
    [
        ("Do not overload it.", "Customer was advised: told her not to overload it.", True),
        ("It leaks, it is old.", "Customer reported: she says it leaks, she says it is old.", True),
        ("The hose.", "Likely cause: The cause was most likely the hose.", True),
        ("Overload it.", "Customer was advised: told her not to overload it.", False),
        ("Use it.", "Never use it.", False),
        ("It leaks", "Customer reported: it leaks badly.", False),
        ("It leaks badly.", "Customer reported: it leaks.", False),
        ("it leaks.", "Customer reported: it leaks.", False),
        ("Customer reported: It leaks twice.", "Customer reported: it leaks.", False),
        ("", "Customer reported: it leaks.", False),
    ],
)
def test_plain_words_are_told_from_other_words(line: str, text: str, same: bool) -> None:
    assert retold(line, Retold(text)) == same


@pytest.mark.parametrize("file", READERS)
@pytest.mark.parametrize("name", NAMES)
def test_page_tells_every_line_in_its_order_and_no_other(name: str, file: str) -> None:
    wanted = wanted_of(visit_called(name)[0])
    found = READERS[file][0](documents_of(name)[file])

    assert list(found) == list(wanted)
    for heading, lines in wanted.items():
        assert len(found[heading]) == len(lines), heading
        assert [pair for pair in zip(found[heading], lines, strict=True) if not retold(*pair)] == [], heading


@pytest.mark.parametrize("name", NAMES)
def test_screen_and_paper_tell_the_same_in_the_same_order(name: str) -> None:
    made = documents_of(name)
    screen, paper = html_told(made["customer.html"]), pdf_told(made["customer.pdf"])

    assert list(paper.items()) == list(screen.items())


@pytest.mark.parametrize("file", READERS)
def test_words_of_a_line_stand_once_if_they_were_clear_and_nothing_else_does(file: str) -> None:
    """Of checks the page names only the thing, so that their words stand nowhere."""
    visit = visit_called("eighty")[0]
    told = [
        item
        for section in ("safety", "complaints", "causes", "work", "parts", "follow_ups", "advice")
        for item in getattr(visit, section)
    ]
    clear = [item for item in told if _is_clear(item)]
    wanted = Counter(token for item in clear for token in re.findall(r"zz\d+t", item.text))

    assert len(wanted) == len(clear) < len(told)
    assert Counter(re.findall(r"zz\d+[tq]?", READERS[file][1](documents_of("eighty")[file]))) == wanted


@pytest.mark.parametrize("file", READERS)
@pytest.mark.parametrize("change", CHANGES)
def test_disagreement_would_be_seen(file: str, change: str) -> None:
    """The readers themselves: a page of another record never passes for this one."""
    found = READERS[file][0](documents_of_changed("work", change)[file])["What we did"]
    wanted = wanted_of(FULL)["What we did"]

    assert len(found) != len(wanted) or not all(map(retold, found, wanted))
