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
    "name before what people do": "{name Ottoline} says it only does it on hot.",
    "name before what people do, without capitals": "{name ottoline} reckons the noise came back",
    "name with an adverb behind": "Wait. {name Ottoline} just texted, she is late.",
    "initial": "The bill goes to {name Dr. T. Quennell}, not the tenant.",
    "family": "{name Mr. Penhallow} is out, the {name Penhallows} have had it since new.",
    "household": "I'm off to the {name Oakhanger} place, fridge is warm.",
    "spelt": "{name Mrs. Penhallow}, that's {name P E N H A L L O W}, on the invoice.",
    "spoken to": "Right {name Tobin}, on your sheet, {name Lorcan}, you put ohms. / So what now, {name Ciara}?",
    "name before the end of a breath": "Spoke to {name Harrowgate} / and {name Harrowgate} says it leaks.",
    "telephone with an aside": "Her number's {telephone 312 555, hang on, 0144}, yes.",
    "telephone before other digits": "Her number is {telephone 312 555 0144}, 10 15.",
    "town and ZIP code in words": "send it to {address nine oh four corrigan avenue tarrow four three nine nine nine}",
    "postcode in letters": "It is {address 9 Tollgate Road, Marsham, M R 3 4 Q Z}.",
    "street without its kind": "I'm at {address 17 Wrenfield}, the white door.",
    "code beside a way in": "Big iron gates, the code is {code 5 5 1 9}.",
    "e-mail in one word behind a phrase": "Mail her the quote to be sure, {e-mail ida.p@post.example}, tonight.",
    "trap: code without a way in": "Key in 7 2 2 0 for the test mode, the code is 4 4 7 1.",
    "trap: pump says": "the plate says fifty hertz and the pomp says forty watts",
    "trap: relay": "the dr relay clicks, doctor the bracket",
    "trap: common words spoken to": "Right, the hose. Fine, good, you see.",
    "trap: number of a curve": "Pump curve says 555 0142, that is litres.",
    "alphabet": "Spoke to {name Victor}. / Model is Victor Victor 4, V for Victor.",
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


@pytest.mark.parametrize(
    "digits", ["4 1 5 5 5 5 0 1 2 6", "four one five five five five oh one two six", "(415) 555-0126"]
)
def test_number_counts_the_same_in_figures_and_in_words(digits: str) -> None:
    assert sample_fault(f"Call her on {{telephone {digits}}} today.", load_vocabulary()) is None


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
