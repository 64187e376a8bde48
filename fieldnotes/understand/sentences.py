"""The report's sentences: third person, past tense, no more than the words behind them say."""

from __future__ import annotations

from fieldnotes.records import Action, Certainty, Finding, Outcome, PartStatus, TrialOutcome
from fieldnotes.understand.narration import Narration

FOUND = {
    "good": "found good",
    "fault": "found at fault",
    "unclear": "could not be judged",
    "not tested": "not tested",
}
ENDED = {"passed": "passed", "failed": "failed", "unclear": "result unclear"}


def said(narration: Narration, first: int, last: int) -> str:
    """The words of [first, last) as a remark: without openers, as they were said."""
    while first < last - 1 and narration.words[first] in narration.grammar.openers:
        first += 1
    heard = [t.heard for t in narration.tokens[first:last] if t.heard]
    return " ".join(heard).strip(" ,;:.!?")


def check_sentence(
    narration: Narration, about: str, outcome: Outcome, certainty: Certainty, stretches: list[tuple[int, int]]
) -> str:
    """`stretches` are the words that name the thing and those that tell its outcome."""
    seemed = FOUND[outcome]
    if certainty != "certain":
        seemed = {"good": "seemed good", "fault": "seemed at fault"}.get(outcome, seemed)
    told = " … ".join(part for first, last in stretches if (part := said(narration, first, last)))
    return f"{_capital(about)} {seemed}: {told}."


def reading_sentence(narration: Narration, about: str, value: float, unit: str, first: int, last: int) -> str:
    return f"{_capital(about)}: {value:g} {unit} ({said(narration, first, last)})."


def trial_sentence(narration: Narration, about: str, outcome: TrialOutcome, first: int, last: int) -> str:
    return f"{_capital(about)} run, {ENDED[outcome]}: {said(narration, first, last)}."


def work_sentence(narration: Narration, about: str, action: Action, first: int, last: int) -> str:
    return f"{_capital(about)} {action}: {said(narration, first, last)}."


def part_sentence(narration: Narration, about: str, status: PartStatus, first: int, last: int) -> str:
    return f"{_capital(about)} {status}: {said(narration, first, last)}."


def complaint_sentence(narration: Narration, first: int, last: int, bare: bool = False) -> str:
    words = said(narration, first, last)
    return words if bare else f"Customer reported: {words}."


def code_sentence(code: str) -> str:
    return "No fault codes stored." if code == "none" else f"Fault code {code}."


def cause_sentence(narration: Narration, certainty: Certainty, first: int, last: int) -> str:
    sure = {"certain": "Cause", "likely": "Likely cause", "possible": "Possible cause"}[certainty]
    return f"{sure}: {said(narration, first, last)}."


def verdict_sentence(finding: Finding) -> str:
    return f"{_capital(finding)}."


def advice_sentence(narration: Narration, first: int, last: int) -> str:
    return f"Customer advised: {said(narration, first, last)}."


def follow_up_sentence(narration: Narration, first: int, last: int) -> str:
    return f"To do: {said(narration, first, last)}."


def safety_sentence(narration: Narration, first: int, last: int) -> str:
    return f"{_capital(said(narration, first, last))}."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
