"""Shapes of what judging reads: vocab/limits.yaml, vocab/gaps.yaml and vocab/cautions.yaml."""

from __future__ import annotations

from typing import Literal, Self, get_args

from pydantic import Field, field_validator, model_validator

from fieldnotes.records import Action, Finding, NeededBy
from fieldnotes.vocabulary.packs import Entry, Phrases
from fieldnotes.vocabulary.quantities import UNITS, Quantity, Speech, SpeechHeard, Status, needs_source
from fieldnotes.vocabulary.sums import SampleReading, SumsFile
from fieldnotes.vocabulary.triggers import Trigger


class Range(Entry):
    """Inclusive; a missing end is open."""

    minimum: float | None = Field(default=None, alias="from")
    maximum: float | None = Field(default=None, alias="to")


class Possible(Range):
    """What can be measured at all at a point, by physics and not by the trade; and who says so."""

    source: str = ""
    status: Status

    @model_validator(mode="after")
    def _sourced(self) -> Self:
        needs_source(self.source, self.status)
        if self.minimum is None and self.maximum is None:
            raise ValueError("give from, to or both")
        return self


class LimitRule(Entry):
    """One limit and the readings that it holds for. Rules are tried in file order; the first to fit decides.

    `point` names what was measured; it must be in the reading's `about` (in its quote only where `about` is
    vague). Of every group in `also_said` one phrase must be in `about` or the quote, none of `not_said`.
    `heard` must be said somewhere on the visit. `only_between` (in `unit`) keeps out values that can hardly
    be this quantity at this point. Values that are not `possible` (in `unit`) were misheard for sure: they are not
    judged, and one that sounds like them and is possible is offered instead. A rule without bounds judges nothing
    and only adds its note.
    """

    id: str
    quantity: Quantity
    point: Phrases = Field(min_length=1)
    also_said: tuple[Phrases, ...] = ()
    not_said: Phrases = ()
    heard: Phrases = ()
    kinds: tuple[str, ...] = ()
    not_kinds: tuple[str, ...] = ()
    speech: tuple[SpeechHeard, ...] = ()
    only_between: Range = Range()
    possible: Possible | None = None
    minimum: float | None = None
    maximum: float | None = None
    nominal: float | None = None
    tolerance_percent: float | None = Field(default=None, gt=0)
    unit: str
    source: str = ""
    status: Status
    note: str | None = None
    holds_for: tuple[SampleReading, ...] = Field(min_length=1)
    not_for: tuple[SampleReading, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _whole(self) -> Self:
        needs_source(self.source, self.status)
        if self.unit not in UNITS[self.quantity]:
            raise ValueError(
                f'unit "{self.unit}" does not measure {self.quantity}: {", ".join(UNITS[self.quantity])}'
            )
        if (self.nominal is None) != (self.tolerance_percent is None):
            raise ValueError("nominal and tolerance_percent belong together")
        if self.nominal is not None and (self.minimum is not None or self.maximum is not None):
            raise ValueError("give minimum and maximum, or nominal and tolerance_percent, not both")
        if self.possible and self.only_between != Range():
            raise ValueError("give only_between or possible: what the first keeps out, the second never sees")
        low, high = self.bounds
        if low is None and high is None and not self.note:
            raise ValueError("a rule without bounds needs a note, for it has nothing else to say")
        if low is not None and high is not None and low > high:
            raise ValueError(f"minimum {low:g} is above maximum {high:g}")
        return self

    @property
    def bounds(self) -> tuple[float | None, float | None]:
        """Lowest and highest allowed value in `unit`; None: no bound on that side."""
        if self.nominal is None or self.tolerance_percent is None:
            return self.minimum, self.maximum
        band = abs(self.nominal) * self.tolerance_percent / 100
        return self.nominal - band, self.nominal + band


class QuantityName(Entry):
    """Words at the end of `about` that say which quantity it is ("supply voltage")."""

    quantity: Quantity
    ends_with: Phrases


class LimitsFile(Entry):
    """vocab/limits.yaml."""

    unit_does_not_fit: str  # note on a reading whose unit cannot belong to what was measured
    vague: Phrases  # wordings of `about` that name no point of measurement
    speech: dict[Speech, Phrases]
    quantity_names: tuple[QuantityName, ...]
    limits: tuple[LimitRule, ...]

    @field_validator("limits")
    @classmethod
    def _ids_once(cls, rules: tuple[LimitRule, ...]) -> tuple[LimitRule, ...]:
        _once([rule.id for rule in rules])
        return rules


# Fields of the record that a gap can be about, and conditions that need more than "is it there".
Place = Literal[
    "appliance.kind", "appliance.make", "appliance.model", "appliance.serial", "appliance.purchased",
    "job.number", "job.technician", "job.customer", "job.date",
    "complaints", "checks", "readings", "trials", "codes", "work", "causes", "advice", "verdict.finding",
]  # fmt: skip
Condition = Literal[
    "part without a number",
    "expected check not heard",
    "expected trial not heard",
    "expected check said not done",
    "check said not done",
    "fault without work or follow-up",
    "state on leaving not heard",
    "opened without isolation heard",
    "measured without a value",
    "no times",
]
FindingSaid = Finding | Literal["never said"]


class GapRule(Entry):
    """What a complete report has. `{things}` in `what` stands for the parts or checks in question.

    It lacks where a place in the record is empty (`missing`), a condition holds (`when`), or an item calls for
    it (`called_by`) and none answers (`answered_by`; `later`: only one that was said after it).
    `finding`: the rule holds only with one of these verdicts. `kinds`: only for these kinds of appliance.
    `needed_by`: who sends the report back, or is left without, where it lacks.
    """

    id: str
    missing: Place | None = None
    when: Condition | None = None
    called_by: tuple[Trigger, ...] = ()
    answered_by: tuple[Trigger, ...] = ()
    later: bool = False
    finding: tuple[FindingSaid, ...] = ()
    kinds: tuple[str, ...] = ()
    what: str
    why: str  # `{why}`: the reason that the vocabulary gives for an expected check
    needed_by: tuple[NeededBy, ...] = Field(min_length=1)
    status: Status = "common practice, no source"
    source: str = ""
    weight: Literal[1, 2, 3]

    @field_validator("weight", mode="before")
    @classmethod
    def _number(cls, weight: object) -> object:
        return int(weight) if isinstance(weight, str) and weight.isdigit() else weight

    @model_validator(mode="after")
    def _one_reason(self) -> Self:
        needs_source(self.source, self.status)
        if sum(map(bool, (self.missing, self.when, self.called_by))) != 1:
            raise ValueError("give either missing or when or called_by")
        if bool(self.called_by) != bool(self.answered_by):
            raise ValueError("called_by and answered_by belong together")
        return self


class GapsFile(Entry):
    """vocab/gaps.yaml. `isolation`, `left`: wordings; `opens`: actions that put hands into the machine;
    `codes_are`: names of expected checks that are made by reading the fault codes; `whole_cycles`: names
    of trials that go through every step; `measuring`: wordings of a measurement, `shown_without_value`: of what a
    meter shows without a number.
    """

    isolation: Phrases
    left: Phrases
    codes_are: Phrases
    whole_cycles: Phrases
    measuring: Phrases
    shown_without_value: Phrases
    opens: tuple[Action, ...]
    gaps: tuple[GapRule, ...]

    @field_validator("gaps")
    @classmethod
    def _all_conditions(cls, rules: tuple[GapRule, ...]) -> tuple[GapRule, ...]:
        _once([rule.id for rule in rules])
        unused = [name for name in get_args(Condition) if name not in {rule.when for rule in rules}]
        if unused:
            raise ValueError(f'no gap has when: "{unused[0]}"; add one')
        return rules


class CautionRule(Entry):
    """One caution. Any one trigger calls for it; `kinds` empty: on any kind of appliance."""

    id: str
    about: str
    text: str
    for_customer: str | None = None  # in words for the householder, who is told nothing without them
    source: str = ""
    status: Status
    kinds: tuple[str, ...] = ()
    triggers: tuple[Trigger, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _sourced(self) -> Self:
        needs_source(self.source, self.status)
        return self


class CautionsFile(Entry):
    """vocab/cautions.yaml. `deferral_about` and `deferral` come after all others, where there are any."""

    deferral_about: str
    deferral: str
    deferral_for_customer: str
    cautions: tuple[CautionRule, ...]

    @field_validator("cautions")
    @classmethod
    def _ids_once(cls, rules: tuple[CautionRule, ...]) -> tuple[CautionRule, ...]:
        _once([rule.id for rule in rules])
        return rules


def kinds_named(limits: LimitsFile, sums: SumsFile, gaps: GapsFile, cautions: CautionsFile) -> frozenset[str]:
    """All kinds of appliance that the four files name. A kind without a pack can never be met."""
    named: list[str] = []
    for limit in limits.limits:
        named += [*limit.kinds, *limit.not_kinds]
    for supply in sums.supplies:
        named += supply.kinds
    for rule in sums.sums:
        named += [*rule.kinds, *rule.not_kinds]
    for gap in gaps.gaps:
        named += gap.kinds
    for caution in cautions.cautions:
        named += caution.kinds
    return frozenset(named)


def _once(ids: list[str]) -> None:
    twice = [name for n, name in enumerate(ids) if name in ids[:n]]
    if twice:
        raise ValueError(f'id "{twice[0]}" stands here a second time')
