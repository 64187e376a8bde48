"""Shapes of what judging reads: vocab/limits.yaml, vocab/gaps.yaml and vocab/cautions.yaml."""

from __future__ import annotations

from typing import Literal, Self, get_args

from pydantic import Field, field_validator, model_validator

from fieldnotes.records import Action, Finding, Judgement, Outcome, PartStatus
from fieldnotes.vocabulary.packs import Entry, Phrases
from fieldnotes.vocabulary.quantities import UNITS, Quantity, Speech, SpeechHeard, Status, needs_source
from fieldnotes.vocabulary.sums import SampleReading, SumsFile


class Range(Entry):
    """Inclusive; a missing end is open."""

    minimum: float | None = Field(default=None, alias="from")
    maximum: float | None = Field(default=None, alias="to")


class LimitRule(Entry):
    """One limit and the readings that it holds for. Rules are tried in file order; the first to fit decides.

    `point` names what was measured; it must be in the reading's `about` (in its quote only where `about` is
    vague). Of every group in `also_said` one phrase must be in `about` or the quote, none of `not_said`.
    `heard` must be said somewhere on the visit. `only_between` (in `unit`) keeps out values that can hardly
    be this quantity at this point. A rule without bounds judges nothing and only adds its note.
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
    "expected check said not done",
    "check said not done",
    "work without a later trial",
    "fault without work or follow-up",
    "state on leaving not heard",
    "opened without isolation heard",
]
FindingSaid = Finding | Literal["never said"]


class GapRule(Entry):
    """What a complete report has. `{things}` in `what` stands for the parts or checks in question.

    `finding`: the rule holds only with one of these verdicts. `kinds`: only for these kinds of appliance.
    """

    id: str
    missing: Place | None = None
    when: Condition | None = None
    finding: tuple[FindingSaid, ...] = ()
    kinds: tuple[str, ...] = ()
    what: str
    why: str  # `{why}`: the reason that the vocabulary gives for an expected check
    weight: Literal[1, 2, 3]

    @field_validator("weight", mode="before")
    @classmethod
    def _number(cls, weight: object) -> object:
        return int(weight) if isinstance(weight, str) and weight.isdigit() else weight

    @model_validator(mode="after")
    def _one_reason(self) -> Self:
        if (self.missing is None) == (self.when is None):
            raise ValueError("give either missing or when")
        return self


class GapsFile(Entry):
    """vocab/gaps.yaml. `isolation`, `left`: wordings; `opens`: actions that put hands into the machine;
    `proved_by_trial`: actions after which the machine has to be seen running; `codes_are`: names of expected
    checks that are made by reading the fault codes.
    """

    isolation: Phrases
    left: Phrases
    codes_are: Phrases
    opens: tuple[Action, ...]
    proved_by_trial: tuple[Action, ...]
    gaps: tuple[GapRule, ...]

    @field_validator("gaps")
    @classmethod
    def _all_conditions(cls, rules: tuple[GapRule, ...]) -> tuple[GapRule, ...]:
        _once([rule.id for rule in rules])
        unused = [name for name in get_args(Condition) if name not in {rule.when for rule in rules}]
        if unused:
            raise ValueError(f'no gap has when: "{unused[0]}"; add one')
        return rules


ItemList = Literal[
    "complaints", "checks", "readings", "trials", "work", "parts", "causes", "advice", "follow_ups", "safety",
]  # fmt: skip


class Trigger(Entry):
    """Items of the visit that call for a caution: all that is given must hold of one and the same item."""

    among: tuple[ItemList, ...] = Field(min_length=1)
    names: Phrases = ()  # in `about`
    says: Phrases = ()  # in `about` or the quote
    not_says: Phrases = ()
    outcome: tuple[Outcome | Literal["passed", "failed"], ...] = ()
    action: tuple[Action, ...] = ()
    status: tuple[PartStatus, ...] = ()
    quantity: Quantity | None = None
    unit: str | None = None  # of `at_least`
    at_least: float | None = None
    judgement: tuple[Judgement, ...] = ()

    @model_validator(mode="after")
    def _fits_its_lists(self) -> Self:
        fields = {"outcome": ("checks", "trials"), "action": ("work",), "status": ("parts",)}
        fields |= {"quantity": ("readings",), "judgement": ("readings",)}
        for name, lists in fields.items():
            if getattr(self, name) and not set(self.among) <= set(lists):
                raise ValueError(f"{name} can only be asked of {', '.join(lists)}")
        if (self.unit is None) != (self.at_least is None):
            raise ValueError("at_least and its unit belong together")
        if self.unit is not None and (self.quantity is None or self.unit not in UNITS[self.quantity]):
            raise ValueError(
                f'unit "{self.unit}" does not measure {self.quantity or "anything: give a quantity"}'
            )
        return self


class CautionRule(Entry):
    """One caution. Any one trigger calls for it; `kinds` empty: on any kind of appliance."""

    id: str
    about: str
    text: str
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
