"""The words of numbers, units, spelling and retraction, as records of the vocabulary files so named."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Annotated, Literal, get_args

from pydantic import AfterValidator, Field, model_validator

from fieldnotes.transcript import Plain
from fieldnotes.vocabulary.packs import Phrases as Wordings
from fieldnotes.vocabulary.yaml_file import load_yaml

UnitName = Literal[
    "ohm", "kohm", "Mohm", "V", "mV", "A", "mA", "uA", "W", "kW", "uF", "Hz", "rpm", "degF", "degC", "psi",
    "kPa", "mbar", "inH2O", "in", "ft", "mm", "m", "s", "min", "h", "ppm", "mW/cm2", "gal", "L", "lb", "kg",
    "%", "dB", "grain/gal",
]  # fmt: skip
UNITS: frozenset[str] = frozenset(get_args(UnitName))


def _lower(word: str) -> str:
    if word != word.lower():
        raise ValueError(f'"{word}" has a capital letter and could never match; write it in lower case')
    return word


Said = Annotated[str, AfterValidator(_lower), Field(min_length=1)]
Words = frozenset[Said]
Phrases = tuple[Said, ...]
Letter = Annotated[str, Field(pattern=r"^[A-Z]$")]
Letters = Annotated[str, Field(pattern=r"^[A-Z]{1,3}$")]


class NumberWords(Plain):
    """The words of numbers and of what stands around them. See the comments in `vocab/numbers.yaml`."""

    digits: dict[Said, Annotated[int, Field(ge=0, le=9)]]
    teens: dict[Said, Annotated[int, Field(ge=10, le=19)]]
    tens: dict[Said, Annotated[int, Field(ge=20, le=90, multiple_of=10)]]
    zero_in_a_row: Words
    zero_as_verb_before: Words
    zero_before_point: Words
    hundred: Words
    thousand: Words
    point: Words
    minus: Words
    plus: Words
    below: Words
    above: Words
    below_goes_on: Words
    fractions: dict[Said, Annotated[float, Field(gt=0, lt=1)]]
    not_a_decimal_after: Words
    counts: dict[Said, Annotated[int, Field(ge=1)]]
    ordinals: dict[Said, Annotated[int, Field(ge=1)]]
    labels: Words
    months: Words
    clock: Words
    year_after: Words
    some_of: Words
    thing_not_number: Words
    one_stands_for_thing_after: Words
    reading_goes_on: Words
    time_and_money: Words
    currency_signs: Words
    between_number_and_unit: Words
    side_by_side: Words
    leads_to_number: Words
    fillers: Words

    @model_validator(mode="after")
    def _one_value_a_word(self) -> NumberWords:
        groups = (set(self.digits), set(self.teens), set(self.tens), set(self.hundred), set(self.thousand))
        seen: set[str] = set()
        for group in groups:
            if twice := seen & group:
                raise ValueError(f"{sorted(twice)} stand for two different numbers")
            seen |= group
        return self


class Near(Plain):
    """Another meaning of the same unit word where one of `words` falls in the same breath."""

    unit: UnitName
    words: Phrases


class UnitWords(Plain):
    """One unit: how it is said and written; `times` turns what was said into `unit`."""

    unit: UnitName
    said: Phrases
    symbols: tuple[str, ...] = ()
    times: Annotated[float, Field(gt=0)] = 1
    near: Near | None = None
    usual_thing: str | None = None  # what a reading in this unit is about where nothing else was named


class DegreeWords(Plain):
    said: Phrases
    symbols: tuple[str, ...]
    usual_thing: str | None = None


class MisheardUnit(Plain):
    """What a unit's `word` is heard as. See the comments in `vocab/units.yaml`."""

    word: Said
    heard_as: Words
    no_count_from: Annotated[float, Field(gt=0)]
    near: Words = frozenset()
    near_from: Annotated[float, Field(ge=0)]
    said_short: bool = False


class Units(Plain):
    units: tuple[UnitWords, ...]
    degrees: DegreeWords
    fahrenheit: DegreeWords
    celsius: DegreeWords
    metric: frozenset[UnitName]
    customary: frozenset[UnitName]
    metric_speech: Words
    customary_speech: Words
    not_recorded: Phrases
    misheard: tuple[MisheardUnit, ...]

    @model_validator(mode="after")
    def _every_unit_once(self) -> Units:
        said = [word for unit in self.units for word in unit.said] + list(self.not_recorded)
        if twice := {word for word in said if said.count(word) > 1}:
            raise ValueError(f"{sorted(twice)} stand for two units")
        if missing := UNITS - {unit.unit for unit in self.units} - {"degF", "degC"}:
            raise ValueError(f"no words for the unit {sorted(missing)}")
        if unknown := {entry.word for entry in self.misheard}.difference(said):
            raise ValueError(f"{sorted(unknown)} are no units")
        return self


class DrawnToLetter(Plain):
    """What the recogniser draws to a letter from the words behind it: see `vocab/spelling.yaml`."""

    ends: Words
    joints: Words


class Spelling(Plain):
    """The words of spelled strings. See the comments in `vocab/spelling.yaml`."""

    code_words: dict[Letter, Phrases]
    letter_names: dict[Letter, Phrases]
    sound_alikes: dict[Letter, Phrases]
    digit_names: dict[Said, Annotated[int, Field(ge=0, le=9)]]
    times: dict[Said, Annotated[int, Field(ge=2, le=9)]]
    as_in: Phrases
    for_word: Phrases
    dropped: Phrases
    pauses: Phrases
    once_more: Phrases
    repeats: Words
    niner_ends: Words
    last_letter: Wordings
    not_that: Wordings
    one_more: Wordings
    on_the_end: Wordings
    no_letters: Words
    also_words: Words
    article_after: Words
    announced: dict[Said, Phrases]
    announced_past: Words
    rhyming: frozenset[Letter]
    plain_words: Words
    letter_guesses: dict[Letter, Phrases]
    as_in_guesses: Phrases
    outweighs_letter: Phrases
    drawn_to_letter: DrawnToLetter
    figures_for_letters: dict[Annotated[str, Field(pattern=r"^\d$")], Letter]
    letter_homophones: dict[Letters, Phrases]
    digit_homophones: dict[Said, Annotated[int, Field(ge=0, le=9)]]
    digits_between: dict[Said, Annotated[int, Field(ge=0, le=9)]]


class Retractions(Plain):
    """What takes words back. See the comments in `vocab/retractions.yaml`."""

    takes_back: Phrases
    keeps: frozenset[str]
    interrupts: Phrases
    settles: Phrases
    no: Words
    no_goes_on: Words
    calls: Words


@dataclass(frozen=True, eq=False)  # compared by identity, so that the tables built from it can be cached
class Measures:
    """All vocabulary that tidying needs."""

    numbers: NumberWords
    units: Units
    spelling: Spelling
    retractions: Retractions


@lru_cache(maxsize=4)
def load_measures(folder: Path) -> Measures:
    """The four files in a vocabulary folder. Raises VocabularyError with file, line and remedy."""
    return Measures(
        numbers=load_yaml(folder / "numbers.yaml", NumberWords),
        units=load_yaml(folder / "units.yaml", Units),
        spelling=load_yaml(folder / "spelling.yaml", Spelling),
        retractions=load_yaml(folder / "retractions.yaml", Retractions),
    )
