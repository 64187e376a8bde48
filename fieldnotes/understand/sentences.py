"""The report's sentences: third person, past tense, no more than the words behind them say.

The head of a sentence is ours ("Drive belt: good;"); what follows are the speaker's own words,
without "I", in the past tense, as service reports are written ("wasn't slipping").
"""

from __future__ import annotations

import itertools
import re

from fieldnotes.records import Certainty, Finding, Outcome, PartStatus, TrialOutcome
from fieldnotes.tidy.text import SENTENCE_ENDS
from fieldnotes.understand.words.narration import Narration

FOUND: dict[Outcome, str] = {
    "good": "good",
    "fault": "at fault",
    "unclear": "could not be judged",
    "not tested": "not tested",
}
SEEMED: dict[Outcome, str] = {"good": "seems good", "fault": "seems at fault"}
ENDED: dict[TrialOutcome, str] = {"passed": "passed", "failed": "failed", "unclear": "left unclear"}
CAUSES: dict[Certainty, str] = {"certain": "Cause", "likely": "Likely cause", "possible": "Possible cause"}
# Spoken in the present, written in the past. Of "'s" only what follows a pronoun is surely a verb.
PAST = {
    "is": "was",
    "are": "were",
    "isn't": "wasn't",
    "aren't": "weren't",
    "doesn't": "didn't",
    "don't": "didn't",
    "has": "had",
    "can": "could",
    "can't": "couldn't",
    "won't": "wouldn't",
    "'re": "were",
}
LONGEST_REPAIR = 12  # words between a number and the one that takes its place
BEFORE_WAS = ("it", "that", "there", "this", "everything", "nothing", "all")
SELF = ("i", "we")
TELLING, TOLD = ("told", "asked", "reminded", "advised", "warned"), ("her", "him", "them")
ADVISED_TO = re.compile(r"(not |never )?to ")
AFTER_SELF = ("'ve", "have", "'m", "am", "'d", "had", "just", "then", "also", "now", "got", "get")


def check_sentence(
    narration: Narration, about: str, outcome: Outcome, certainty: Certainty, stretches: list[tuple[int, int]]
) -> str:
    """`stretches` are the words that name the thing and those that tell its outcome."""
    verdict = FOUND[outcome] if certainty == "certain" else SEEMED.get(outcome, FOUND[outcome])
    told = ", ".join(part for first, last in stretches if (part := reported(narration, first, last)))
    return f"{capital(about)}: {verdict}; {_inside(told)}."


def reading_sentence(narration: Narration, about: str, value: float, unit: str, first: int, last: int) -> str:
    """The value as measured, and the words around it."""
    return f"{capital(about)} measured {value:g} {unit}: {reported(narration, first, last)}."


def trial_sentence(narration: Narration, about: str, outcome: TrialOutcome, first: int, last: int) -> str:
    """What was run and how it ended."""
    return f"{capital(about)} was run, {ENDED[outcome]}: {reported(narration, first, last)}."


def work_sentence(narration: Narration, about: str, action: str, first: int, last: int) -> str:
    """What was done."""
    return f"{capital(about)} {action}: {reported(narration, first, last)}."


def part_sentence(narration: Narration, about: str, status: PartStatus, first: int, last: int) -> str:
    """A part and whether it was fitted, ordered or is needed."""
    return f"{capital(about)} {status}: {reported(narration, first, last)}."


def complaint_sentence(narration: Narration, first: int, last: int) -> str:
    """What the customer reported, in the words in which it was passed on."""
    return f"Customer reported: {said(narration, first, last)}."


def code_sentence(code: str) -> str:
    """A code as displayed; never more than that none was reported as stored."""
    return "No fault codes were stored." if code == "none" else f"Fault code {code} was shown."


def cause_sentence(narration: Narration, certainty: Certainty, first: int, last: int) -> str:
    """What is held to have caused the complaint, and how sure that is."""
    first = _after_openers(narration, first, last)
    opening = narration.words[first : min(first + 3, last)]
    if opening[:2] == ("the", "cause") and not narration.grammar.being.isdisjoint(opening[2:]):
        first = min(first + 3, last - 1)  # the sentence has these words itself
    return f"{CAUSES[certainty]}: {reported(narration, first, last)}."


def verdict_sentence(finding: Finding) -> str:
    """The verdict in so many words."""
    return f"{capital(finding)}."


def advice_sentence(narration: Narration, first: int, last: int) -> str:
    """What the customer was told: "Customer was advised to ..." where it was said so, else in the words told."""
    told = reported(narration, behind_telling(narration, first, last), last, past=False)
    return f"Customer was advised{'' if ADVISED_TO.match(told) else ':'} {told}."


def follow_up_sentence(narration: Narration, first: int, last: int) -> str:
    """What is still to happen."""
    return f"Still to be done: {said(narration, first, last)}."


def safety_sentence(narration: Narration, first: int, last: int) -> str:
    """A safety step, a hazard or the state in which the unit was left."""
    return f"{capital(reported(narration, first, last))}."


def said(narration: Narration, first: int, last: int) -> str:
    """The words of [first, last) as they were said, without openers ("okay so")."""
    first = _after_openers(narration, first, last)
    return " ".join(t.heard for t in narration.tokens[first:last] if t.heard).strip(" ,;:.!?")


def reported(narration: Narration, first: int, last: int, past: bool = True) -> str:
    """The words of [first, last) as a report has them: without openers and without "I", in the past tense."""
    first = _after_openers(narration, first, last)
    words = narration.words
    if words[first] in SELF:
        first += 1
        while first < last - 1 and words[first] in AFTER_SELF:
            first += 1
    kept: list[str] = []
    gone = _taken_back(narration, first, last)
    for n in range(first, last):
        if n in gone:
            continue
        token = narration.tokens[n]
        if past and token.text in PAST and not _is_noun(narration, n):
            kept.append(PAST[token.text] + token.stop)
        elif (
            past
            and token.text == "'s"
            and n > first
            and words[n - 1] in BEFORE_WAS
            and _is_verb(narration, n, last)
        ):
            opens = len(kept) > 1 and kept[-2].endswith(SENTENCE_ENDS)
            kept[-1] = capital(words[n - 1]) if opens else words[n - 1]
            kept.append("was" + token.stop)
        elif token.heard:
            kept.append(token.heard)
    return " ".join(kept).strip(" ,;:.!?")


def _taken_back(narration: Narration, first: int, last: int) -> set[int]:
    """The words from a number that was put right to the one in its place ("| ten, no, sorry, | 11.2 ohms")."""
    gone: set[int] = set()
    numbers = narration.numbers(first, last)
    for number, next_one in itertools.pairwise(numbers):
        if number.replaced and next_one.first - number.last <= LONGEST_REPAIR:
            gone |= set(range(number.first, next_one.first))
    return gone


def _is_verb(narration: Narration, at: int, last: int) -> bool:
    """Whether "'s" is "is" rather than "has" ("it's been")."""
    return at + 1 >= last or narration.words[at + 1] not in ("been", "got", "gone", "had", "come", "taken")


def _after_openers(narration: Narration, first: int, last: int) -> int:
    words, grammar = narration.words, narration.grammar
    while first < last - 1 and words[first] in grammar.openers:
        if words[first] == "there" and words[first + 1] in grammar.being:
            break  # "there's a leak"
        first += 1
    return _after_heading(narration, first, last)


def _is_noun(narration: Narration, at: int) -> bool:
    """Whether "can" is a thing ("element can to chassis", "the can says", "a gas can"), not a verb."""
    if narration.words[at] != "can":
        return False
    before, behind = narration.words[at - 1] if at else "", narration.words[at + 1 : at + 2]
    ends = bool(narration.tokens[at].stop) or not behind
    one = before in ("the", "a", "this", "that") or narration.words[max(0, at - 2) : at - 1] == ("a",)
    return ends or one or behind[0] in narration.grammar.prepositions


def behind_telling(narration: Narration, first: int, last: int) -> int:
    """Behind "I told her" and "customer told", which the sentence has in its own words."""
    start = _after_openers(narration, first, last)
    said = list(narration.words[start:last])
    own = 1 if said[:1] and said[0] in SELF else 0
    own += 1 if own and said[own : own + 1] and said[own] in ("have", "'ve") else 0
    verb, whom = (*said[own : own + 2], "", "")[:2]
    told = (verb in TELLING and whom in TOLD) or (verb == "customer" and whom in TELLING)
    return start + own + 2 if told and start + own + 2 < last else start


def _after_heading(narration: Narration, first: int, last: int) -> int:
    """Behind a heading ("Cause: the element"), which the sentence has in its own words."""
    heading = narration.words[first] in narration.grammar.headings
    return (
        first + 1
        if heading and first + 1 < last and narration.tokens[first].stop in (",", ":", ".")
        else first
    )


def _inside(text: str) -> str:
    """The text as the latter half of a sentence: without the capital of a first word that needs none."""
    first, *_ = text.split(" ", 1)
    return text if first != first.capitalize() or first == "I" else text[:1].lower() + text[1:]


def capital(text: str) -> str:
    """The text with its first letter as a capital."""
    return text[:1].upper() + text[1:]
