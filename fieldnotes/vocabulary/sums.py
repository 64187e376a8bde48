"""Shape of the part of vocab/limits.yaml that says which limits can be worked out from what was said."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import Field, model_validator

from fieldnotes.records import Judgement
from fieldnotes.vocabulary.packs import Entry, Phrases
from fieldnotes.vocabulary.quantities import Quantity, SpeechHeard, Status, needs_source


class SampleReading(Entry):
    """A reading by which a rule is tried: what was said, and what must come of it."""

    about: str
    said: str = ""
    value: float
    unit: str
    kind: str | None = None
    heard: str = ""  # said elsewhere on the visit
    judgement: Judgement = "within"


class RatingSum(Entry):
    """A limit worked out from a rating that was said in the same breath ("right for a 5400 watt").

    `resistance from power`: supply voltage squared over the rating, in `ohm`. `as rated`: the rating itself,
    said after one of `SumsPart.rated`. The band is the result with `low_percent` and `high_percent` added.
    """

    id: str
    formula: Literal["resistance from power", "as rated"]
    quantity: Quantity
    point: Phrases = Field(min_length=1)
    not_said: Phrases = ()
    not_kinds: tuple[str, ...] = ()
    low_percent: float = Field(le=0)
    high_percent: float = Field(ge=0)
    source: str = ""
    status: Status
    note: str
    holds_for: tuple[SampleReading, ...] = Field(min_length=1)
    not_for: tuple[SampleReading, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _sourced(self) -> Self:
        needs_source(self.source, self.status)
        return self


class DuctSum(Entry):
    """Longest duct less its elbows, in ft. Judged only where mitred and smooth elbows come to the same."""

    point: Phrases
    kinds: tuple[str, ...]
    elbows: Phrases  # words after a count: "two elbows"
    not_said: Phrases
    longest_ft: float
    mitred_ft: float
    smooth_ft: float
    source: str
    status: Status
    note: str
    holds_for: tuple[SampleReading, ...] = Field(min_length=1)
    not_for: tuple[SampleReading, ...] = Field(min_length=1)


class Supply(Entry):
    """The voltage on which heating elements of these kinds of appliance work."""

    volts: float
    kinds: tuple[str, ...] = ()  # empty: any kind
    speech: tuple[SpeechHeard, ...] = ()


class SumsPart(Entry):
    """What limits can be worked out from. `beyond`: further from the result than this factor, something else
    was measured or misheard, and nothing is said."""

    rated: Phrases
    beyond: float = Field(gt=1)
    supplies: tuple[Supply, ...]
    ratings: tuple[RatingSum, ...]
    duct: DuctSum
