"""What the recogniser is told before it hears, and which kind of appliance it guesses from the first words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from fieldnotes.trade_terms import kind_named, terms_heard_of, terms_of
from fieldnotes.transcript import Breath, Word
from fieldnotes.vocabulary.load import load_vocabulary

VOCABULARY = load_vocabulary()


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("this is job four a dishwasher that won't drain", "dishwasher"),
        ("I'm with the washer now it's a top loader", "top-load washer"),
        ("electric dryer in the basement beside the washer", "electric dryer"),
        ("a tumble dryer and a washing machine", "dryer"),
        ("the customer says it bangs", None),
    ],
)
def test_kind_is_the_one_named_first_or_a_sort_of_it(said: str, kind: str | None) -> None:
    assert kind_named(said, VOCABULARY) == kind


def test_terms_of_a_kind_are_its_own_and_its_wider_kinds_names() -> None:
    terms = terms_of(VOCABULARY, "top-load washer")

    assert "suspension rods" in terms.hotwords.split(", ")
    assert {"lid lock", "drain pump", "plug"} <= set(terms.names)
    assert "spray arm" not in terms.names
    assert all(name == name.lower() for name in terms.names)


def test_findings_are_listened_for_whatever_the_kind() -> None:
    """ "full found" was heard for "fault found": what a report turns on is looked for like the names of parts."""
    for kind in (None, "dishwasher"):
        assert {"fault found", "within tolerance", "megohms", "error history"} <= set(
            terms_of(VOCABULARY, kind).names
        )


def test_makes_of_the_shops_list_are_listened_for() -> None:
    assert "castle beat" in terms_of(replace(VOCABULARY, makes=("Castle Beat",)), "dishwasher").names


def test_better_terms_are_chosen_once_the_kind_is_heard() -> None:
    choose = terms_heard_of(VOCABULARY)

    def heard(text: str) -> tuple[Breath, ...]:
        return (Breath(words=tuple(Word(text=word) for word in text.split())),)

    assert choose(heard("Okay, I'm here.")) is None
    chosen = choose(heard("Okay. A dishwasher, and it leaks."))
    assert chosen is not None
    assert chosen.digest == terms_of(VOCABULARY, "dishwasher").digest
