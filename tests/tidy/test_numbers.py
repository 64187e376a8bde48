"""Laws of the number grammar: what an independent writer of numbers (num2words) spells out is read back."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from num2words import num2words  # type: ignore[import-untyped]

from tests.tidy.speech import quantities

SMALL = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]


def words(number: int | str, lang: str) -> str:
    return str(num2words(number, lang=lang))


def value_of(said: str) -> list[float]:
    return [float(text.split()[0]) for text in quantities(f"{said} ohms")]


@pytest.mark.parametrize("lang", ["en", "en_GB", "en_IN"])
def test_every_spelled_whole_number_is_read_back(lang: str) -> None:
    """All of 0 to 1,999, and every 37th up to 99,999."""
    numbers = [*range(2000), *range(2000, 100_000, 37)]
    wrong = [(n, words(n, lang)) for n in numbers if value_of(words(n, lang)) != [float(n)]]

    assert wrong == []


@given(st.integers(0, 99_999))
@settings(max_examples=200, deadline=None)
def test_american_form_without_and_is_read_back(number: int) -> None:
    said = words(number, "en").replace(" and ", " ").replace(",", "")

    assert value_of(said) == [float(number)]


@given(st.integers(0, 999), st.integers(0, 999), st.sampled_from([1, 2, 3]))
@settings(max_examples=200, deadline=None)
def test_decimals_to_three_places_are_read_back(whole: int, fraction: int, places: int) -> None:
    digits = f"{fraction % 10**places:0{places}d}"
    said = f"{words(whole, 'en')} point {' '.join(SMALL[int(digit)] for digit in digits)}"

    assert value_of(said) == [float(f"{whole}.{digits}")]


@given(st.integers(1, 9), st.integers(10, 99), st.integers(0, 9))
def test_hundreds_said_as_two_numbers_are_read_back(head: int, tail: int, tenth: int) -> None:
    """ "Two forty one point six"; our own generator, for num2words has no such form."""
    said = f"{words(head, 'en')} {words(tail, 'en')} point {SMALL[tenth]}"

    assert value_of(said) == [float(f"{head}{tail}.{tenth}")]


@given(st.integers(11, 99).filter(lambda n: n % 10))
def test_hundreds_above_ten_are_read_back(head: int) -> None:
    assert value_of(f"{words(head, 'en')} hundred") == [float(head * 100)]


@given(st.integers(10, 18), st.integers(25, 99))
def test_thousands_said_as_two_numbers_are_read_back(head: int, tail: int) -> None:
    assert value_of(f"{words(head, 'en')} {words(tail, 'en')}") == [float(head * 100 + tail)]


@given(st.integers(1990, 2049))
def test_years_as_said_are_no_measurements(year: int) -> None:
    said = str(num2words(year, to="year"))

    assert quantities(f"bought in {said}") == [f"{year} (count)"]


@given(st.lists(st.integers(2, 999), min_size=2, max_size=5, unique=True))
def test_commas_keep_numbers_apart(numbers: list[int]) -> None:
    """A lone "one" is left out: without a unit it is mostly the word ("the other one")."""
    said = ", ".join(words(number, "en") for number in numbers)
    got = [float(text.split()[0]) for text in quantities(f"{said} ohms")]

    assert got == [float(number) for number in numbers]


@given(st.decimals(min_value=0, max_value=9999, places=2, allow_nan=False))
def test_figures_keep_their_value(number: object) -> None:
    assert value_of(str(number)) == [float(str(number))]
