"""Terms as a recogniser writes them: mended where the context fits, the words kept as heard."""

from __future__ import annotations

import pytest

from fieldnotes.write.wording import PLEASE_CHECK_BELOW

from .spoken import Facts, Row, Trap, Understood, checks, rows, visit

ROWS: list[Row] = [
    (
        "with intolerance",
        "dishwasher",
        "Circulation pump, with intolerance.",
        {"check circulation pump: good"},
    ),
    ("bear ring", "top load washer", "The bear ring is noisy.", {"check bearing: fault"}),
    ("drain pomp", "dishwasher", "The drain pomp is good.", {"check drain pump: good"}),
    ("thermo mister", "dryer", "The thermo mister is open.", {"check thermistor: fault"}),
    ("thermal few", "dryer", "Thermal few's is blown.", {"check thermal fuse: fault"}),
    ("link screen", "dryer", "The link screen is torn.", {"check lint screen: fault"}),
    ("idle a pulley", "dryer", "The idle a pulley is worn.", {"check idler pulley: fault"}),
    ("gas kit", "refrigerator", "Door gas kit is torn.", {"check door seal: fault"}),
    ("exhaust duck", "dryer", "The exhaust duck is clear.", {"check exhaust duct: good"}),
    ("circuit bored", "refrigerator", "Control bored is fried.", {"check control board: fault"}),
    (
        "electrode",
        "gas range",
        "The left front elect rode is cracked.",
        {"check left front electrode: fault"},
    ),
    ("door lash", "dryer", "The door lash is broken.", {"check door latch: fault"}),
    ("drain hoes", "dishwasher", "Drain hoes is kinked.", {"check drain hose: fault"}),
]

TRAPS: list[Trap] = [
    ("bear in the woods", "top load washer", "There's a bear ringing the bins out here, good lord."),
    ("ducks", "dryer", "Lovely ducks on the pond, good ones."),
    ("a few", "dryer", "Had a thermal on, few layers, good and warm."),
    ("bored", "refrigerator", "The kids are bored, fine by me."),
]

NOT_YET: set[str] = {
    "electrode",
}


@pytest.mark.parametrize(("kind", "said", "expected"), rows(ROWS, NOT_YET))
def test_misheard_term_names_the_part(kind: str, said: str, expected: Facts, understood: Understood) -> None:
    found = understood(visit(kind, said))

    assert checks(found) == expected
    assert all(check.evidence.quote in said for check in found.checks)


@pytest.mark.parametrize(("kind", "said"), rows(TRAPS, NOT_YET))
def test_words_with_a_meaning_of_their_own_stay(kind: str, said: str, understood: Understood) -> None:
    assert checks(understood(visit(kind, said))) == set()


@pytest.mark.parametrize(
    ("said", "sure"),
    [
        ("I had 238 bolts at the outlet.", False),
        ("It reads 1.19.3 volts at the outlet.", False),
        ("I had 238 volts at the outlet.", True),
    ],
)
def test_reading_that_rests_on_a_guess_asks_to_be_checked(
    said: str, sure: bool, understood: Understood
) -> None:
    (reading,) = understood(visit("dryer", said)).readings

    assert (reading.evidence.confidence >= PLEASE_CHECK_BELOW) == sure
