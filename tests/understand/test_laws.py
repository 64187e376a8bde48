"""Laws of understanding, whatever is said: what it may rest on, and what must not change it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st

from fieldnotes.records import Evidence, Item
from fieldnotes.tidy import tidy
from fieldnotes.transcript import Transcript, Word
from fieldnotes.understand.understanding import Findings, Understanding
from fieldnotes.vocabulary.load import Vocabulary

from .spoken import Facts, facts, transcript, verdict, visit

Read = Callable[[Transcript], Findings]

# Each stands on its own: none leans on the one before it.
FINDINGS = (
    "I cleaned the filter under the tap.",
    "The drain hose is clear, no kinks.",
    "Drain pump is fourteen point five ohms, that's good.",
    "The float switch is sticking.",
    "Replaced the inlet valve, part number V A six six one.",
    "Ran the drain cycle and it passed.",
    "It's showing an E three.",
    "No codes stored.",
    "The cause was the float switch, no doubt.",
    "I told her to clean the filter every week.",
    "Office to call her Monday about the part.",
    "I've unplugged it.",
    "Left it plugged in and running.",
    "The belt, I mean the door seal, is torn.",
    "Door latch seems fine.",
    "I couldn't test the heating element.",
    "Next I'll check the spray arm.",
    "If the sump was blocked it would hum.",
    "The last fellow put a circulation pump in.",
    "So that's a fault found.",
)
CHAT = (
    "Thanks, milk and two sugars please.",
    "They've painted the hallway since I was here.",
    "Terrible traffic on the ring road this morning.",
    "What a lovely garden you've got.",
    "The cat has sat on my toolbag.",
    "My knees aren't what they were.",
)

NARRATIONS = sorted((Path(__file__).parents[1] / "narrations").glob("[hnpqrtvw]*.yaml"))
BREATHS = [
    line["say"] for path in NARRATIONS for line in yaml.safe_load(path.read_text(encoding="utf-8"))["lines"]
]


@st.composite
def torn_visits(draw: st.DrawFn) -> str:
    """Breaths of any visits in any order, the first of them perhaps cut off, its words perhaps shuffled."""
    said = draw(st.lists(st.sampled_from(BREATHS), min_size=1, max_size=4))
    words = said[0].split()[draw(st.integers(0, 8)) :] or ["Okay."]
    if draw(st.booleans()):
        words = draw(st.permutations(words))
    return " | ".join([" ".join(words), *said[1:]])


sentences = st.lists(st.sampled_from(FINDINGS), min_size=1, max_size=8, unique=True)
law = settings(max_examples=60, deadline=None, derandomize=True, database=None)


@pytest.fixture(scope="session")
def read(vocabulary: Vocabulary) -> Read:
    """Transcript -> findings."""
    understanding = Understanding(vocabulary)
    return lambda spoken: understanding.findings(tidy(spoken, vocabulary.measures))


def spoken_visit(said: list[str]) -> Transcript:
    return transcript(visit("dishwasher", " | ".join(said)))


def in_two_parts(spoken: Transcript, at: int) -> Transcript:
    """The same visit as two recordings, the second from breath `at` on."""
    breaths = [b.model_copy(update={"part": int(n >= at)}) for n, b in enumerate(spoken.breaths)]
    seam = spoken.breaths[at].words[0].start or 0.0
    (whole,) = spoken.recordings
    first = whole.model_copy(update={"file": "one.vtt", "seconds": seam})
    second = whole.model_copy(update={"file": "two.vtt", "starts_at": seam})
    return spoken.model_copy(update={"breaths": tuple(breaths), "recordings": (first, second)})


def all_facts(found: Findings) -> Facts:
    """What `facts` shows, and how many lines there are of what is told in the speaker's own words."""
    loose = {"complaints": found.complaints, "advice": found.advice, "follow-ups": found.follow_ups}
    counts = {f"{len(items)} {name}" for name, items in (loose | {"safety": found.safety}).items()}
    return facts(found) | counts | {f"verdict {verdict(found.verdict)}"}


def items_of(found: Findings) -> Iterator[Item]:
    for name in ("complaints", "checks", "readings", "trials", "codes", "work", "parts", "causes"):
        yield from getattr(found, name)
    yield from (*found.advice, *found.follow_ups, *found.safety)


def evidence_in(found: Findings) -> Iterator[Evidence]:
    yield from (item.evidence for item in items_of(found))
    yield from found.appliance.evidence.values()
    if found.verdict.evidence:
        yield found.verdict.evidence


def words_of(spoken: Transcript, evidence: Evidence) -> list[Word]:
    """The words that lie within the evidence's time."""
    start, end = evidence.start or 0.0, evidence.end or 0.0
    words = (word for breath in spoken.breaths for word in breath.words)
    return [w for w in words if start <= (w.start or 0.0) and (w.end or 0.0) <= end]


@law
@given(said=sentences, chat=st.sampled_from(CHAT), place=st.floats(0, 1))
def test_unrelated_chat_changes_no_finding(said: list[str], chat: str, place: float, read: Read) -> None:
    at = round(place * len(said))

    assert all_facts(read(spoken_visit([*said[:at], chat, *said[at:]]))) == all_facts(
        read(spoken_visit(said))
    )


@law
@given(said=sentences)
def test_quote_is_what_was_said_in_its_time(said: list[str], read: Read) -> None:
    spoken = spoken_visit(said)
    for evidence in evidence_in(read(spoken)):
        words = words_of(spoken, evidence)
        assert " ".join(w.text for w in words).strip(" ,;:") == evidence.quote
        assert (words[0].start, words[-1].end) == (evidence.start, evidence.end)


@law
@given(said=sentences, place=st.floats(0, 1))
def test_two_recordings_tell_what_one_tells(said: list[str], place: float, read: Read) -> None:
    spoken = spoken_visit(said)
    at = 1 + round(place * (len(spoken.breaths) - 2))

    assert read(in_two_parts(spoken, at)) == read(spoken)


@law
@given(said=sentences)
def test_understanding_twice_gives_equal_findings(said: list[str], read: Read) -> None:
    spoken = spoken_visit(said)

    assert read(spoken) == read(spoken)


@settings(law, max_examples=150)
@example(said="It came out barely warm, so that's a eh. fail,")
@example(said="The one, two zero by the wall, is fine.")
@example(said="Okay, no, E21 is showing.")
@example(said="It goes on in place of the foil. | Terminal block's clean, no browning on the lugs.")
@given(said=torn_visits())
def test_whatever_is_said_is_read_and_quoted(said: str, read: Read) -> None:
    """No order of breaths makes understanding fail, and every quote has words of its time in their order; what it
    leaves out are fillers and what the speaker began anew."""
    spoken = transcript(said)
    for evidence in evidence_in(read(spoken)):
        words = iter(w.text.strip(" ,;:") for w in words_of(spoken, evidence))
        assert all(word.strip(" ,;:") in words for word in evidence.quote.split())


def test_order_of_visits_leaves_nothing_behind(vocabulary: Vocabulary) -> None:
    """An understanding that has read other visits reads the next one as a fresh one does."""
    used, fresh = Understanding(vocabulary), Understanding(vocabulary)
    for sentence in FINDINGS:
        used.findings(tidy(spoken_visit([sentence]), vocabulary.measures))
    text = tidy(spoken_visit(list(FINDINGS)), vocabulary.measures)

    assert used.findings(text) == fresh.findings(text)


@pytest.mark.parametrize("sentence", FINDINGS)
def test_stops_and_capitals_change_no_finding(sentence: str, read: Read) -> None:
    """Punctuation from a recogniser can't be trusted."""
    plain = sentence.lower().translate(str.maketrans("", "", ".,"))

    assert all_facts(read(spoken_visit([plain]))) == all_facts(read(spoken_visit([sentence])))


# What a recording may break off with.
LAST_WORDS = (
    "Now the lid lock. | Right.",
    "Cause.",
    "I see also hole",
    "I've taken the",
    "The reading is",
    "So that's",
)


@pytest.mark.parametrize("said", [*FINDINGS, *LAST_WORDS])
def test_visit_that_breaks_off_anywhere_is_understood(said: str, read: Read) -> None:
    words = said.split()
    for count in range(1, len(words) + 1):
        read(transcript(visit("dishwasher", " ".join(words[:count]))))
