"""Private words are found, each row with what is private in braces and its kind."""

from __future__ import annotations

import pytest

from fieldnotes.private.finding import PrivateWords, find_private
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.vocabulary.load import load_vocabulary
from fieldnotes.vocabulary_bench.marked import sample_fault

SAID = {
    "titled name": "Explained it to {name Ms. Corvalho}, she agreed.",
    "name behind a relation": "Her daughter {name Philippa} let me in.",
    "name again without its title": "{name Mrs Wexley} was out. / Later {name Wexley} rang the office.",
    "possessive": "It stands in {name Mr. Dunmore's} cellar.",
    "lower case name": "my name is {name ottoline brack} i rent it out",
    "telephone after text": "Text her, {telephone 646 555 0188}, she answers.",
    "telephone by its plan alone": "that was {telephone oh one six three two nine six oh three two one} she told me",
    "telephone in triples": "call him on {telephone triple five oh one double four}",
    "address with a flat behind": "Deliver it to {address 88 Marrowby Road, Flat 2}.",
    "address said aloud": "she lives at {address one oh six candlewick avenue} opposite the park",
    "street without a number": "They moved it from {address Pellbrook Avenue} last year.",
    "e-mail written": "Quote goes to {e-mail ann_b@post.example} today.",
    "code for a place": "The code for the gate is {code 7 7 1 9}.",
    "keypad": "keypad {code nine one four two} at the side door",
    "card by its check digit": "Number she read me was {card 5555 5555 5555 4444}.",
    "check number": "the cvv is {card 737}",
    "trap: plan": "Will that belt run? Mark the hose, then bill the parts.",
    "trap: reading": "Called for 240 volts, got 238 volts, 12 amps, 555 ohms.",
    "trap: unannounced run of readings": "book has thirteen sixty five seventy twelve twenty but cold",
    "trap: drive": "The 4 inch drive motor and a 3 way valve close by.",
    "trap: serial behind an aside": "Serial, let me get down there, 3398 112 6045.",
    "trap: make": "It's a Quorndale, an older Quorndale.",
    "trap: letter spelt": "T as in Tom, N for Nancy, double four.",
    "trap: code on the display": "The code on the display is 4471, flashing code 21.",
    "trap: dial": "Turn the dial to two, then three at dot two.",
}  # fmt: skip


@pytest.mark.parametrize("said", SAID.values(), ids=SAID.keys())
def test_what_is_private_is_found_and_nothing_else(said: str) -> None:
    assert sample_fault(said, load_vocabulary()) is None


def test_words_carry_their_times_and_breaths() -> None:
    said = [["Her", "number's", "202", "555"], ["0142,", "call."]]
    breaths = tuple(
        Breath(words=tuple(Word(text=w, start=10 * b + n, end=10 * b + n + 0.5) for n, w in enumerate(words)))
        for b, words in enumerate(said)
    )

    found = find_private(Transcript(breaths=breaths, recordings=()), load_vocabulary())

    assert found == (
        PrivateWords(kind="telephone", breath=0, first=2, last=4, start=2, end=3.5),
        PrivateWords(kind="telephone", breath=1, first=0, last=1, start=10, end=10.5),
    )


def test_known_name_is_found_without_any_phrase_and_a_make_is_kept() -> None:
    words = tuple(
        Word(text=word) for word in ["Then", "Ostrander", "came", "over", "at", "the", "Brunholm", "again"]
    )
    transcript = Transcript(breaths=(Breath(words=words),), recordings=())

    found = find_private(transcript, load_vocabulary(), ["R. Ostrander"], makes=["Brunholm"])

    assert found == (PrivateWords(kind="name", breath=0, first=1, last=2, start=None, end=None),)
