"""Shape of vocab/sums.yaml: what can be worked out from the readings and from the numbers that were said."""

from __future__ import annotations

from typing import Any, Literal, Self

from pydantic import Field, field_validator, model_validator

from fieldnotes.records import Judgement
from fieldnotes.vocabulary.formulas import FORMULAS, REFRIGERANT, FormulaName
from fieldnotes.vocabulary.packs import Entry, Phrases
from fieldnotes.vocabulary.quantities import QUANTITY_OF, Quantity, Speech, SpeechHeard, Status, needs_source


class SampleReading(Entry):
    """A reading by which a rule is tried: what was said, and what must come of it."""

    about: str
    said: str = ""
    value: float
    unit: str
    kind: str | None = None
    heard: str = ""  # said elsewhere on the visit
    judgement: Judgement = "within"


class OtherReading(Entry):
    """A further reading of the visit that a sum is tried on; `said` empty: in the same words as the first."""

    about: str
    said: str = ""
    value: float
    unit: str


class SumSample(SampleReading):
    """The reading that a sum is about, the others of that visit, and the sum's value; none: no such sum."""

    others: tuple[OtherReading, ...] = ()
    gives: float | None = None
    judgement: Judgement = "no limit known"  # of the reading


class ReadRule(Entry):
    """Readings that a sum may take. `point` stands in what the reading is about, or, where that is vague, in the
    words of its breath.

    `beside`: of every group one phrase must be in what it is about or in the words right at its number, which
    tells "suction five" from "head one thirty" in one breath; none of `not_beside` may be in those words.
    `also_said` and `not_said` look at the whole breath. `minimum` and `maximum` are in the unit of the formula.
    """

    read: Quantity
    point: Phrases = Field(min_length=1)
    units: tuple[str, ...] = ()  # empty: any unit of the quantity
    beside: tuple[Phrases, ...] = ()
    not_beside: Phrases = ()
    also_said: tuple[Phrases, ...] = ()
    not_said: Phrases = ()
    minimum: float | None = Field(default=None, alias="from")
    maximum: float | None = Field(default=None, alias="to")


class Subject(ReadRule):
    """The reading that a sum is about: it stands behind that reading's line, once for each that fits.

    `as`: the formula's name for it; left out where the formula does not take it.
    """

    as_: str | None = Field(default=None, alias="as")


class InputRule(Entry):
    """Where one input of a formula comes from: one of `read`, `said`, `figure`, `supply`, `part`, `named`.

    Tried one after the other; the first that is there gives it. Two different values: no sum.

    `read`: another reading, of the same breath if one is there; `here`: only of the same breath; `same`: about
    the same thing; `like_supply`: a voltage within a fifth of what the appliance works on.
    `said`: a number with one of these units, or without one before one of `after` ("two elbows"), with one of
    `before` in front of it, with one phrase of every group of `beside` in the words right at it, and of every
    group of `around` in its breath. It is looked for in
    the breath of the reading, which has to be the only one of its quantity there unless `shared`; `anywhere`:
    in the whole visit.
    `figure`: a number of the trade, in the formula's unit. `supply`: what such an appliance works on; `to earth`
    and `frequency` only where it is clear whose English is spoken.
    `part`: of the pack's `thermistor`. `named`: a refrigerant said by name.
    """

    what: str = ""  # for the report; a reading says itself what it is of
    read: ReadRule | None = None
    here: bool = False
    same: bool = False
    like_supply: bool = False
    said: tuple[str, ...] | None = None
    before: Phrases = ()
    after: Phrases = ()
    beside: tuple[Phrases, ...] = ()
    around: tuple[Phrases, ...] = ()
    not_said: Phrases = ()
    shared: bool = False
    anywhere: bool = False
    minimum: float | None = Field(default=None, alias="from")
    maximum: float | None = Field(default=None, alias="to")
    figure: float | None = None
    supply: Literal["across", "to earth", "frequency"] | None = None
    part: Literal["r25_ohm", "beta_k"] | None = None
    named: Literal["refrigerant"] | None = None

    @model_validator(mode="after")
    def _one_origin(self) -> Self:
        origins = (self.read, self.said, self.figure, self.supply, self.part, self.named)
        if sum(origin is not None for origin in origins) != 1:
            raise ValueError("give one of read, said, figure, supply, part, named")
        if (self.said is not None or self.figure is not None) and not self.what:
            raise ValueError("what is missing: it names the number in the report")
        if self.said is not None and (wrong := set(self.said) - set(QUANTITY_OF)):
            raise ValueError(f"{sorted(wrong)} are no units")
        if self.said == () and not self.after:
            raise ValueError("a number without a unit needs after: the words behind it")
        return self


class Bounds(Entry):
    """The limit that a sum sets its reading: percent from the result, or from the input `of`; none: open.

    `says`: which judgements it is sure enough for; another is left to the next rule.
    """

    low_percent: float | None = None
    high_percent: float | None = None
    of: str | None = None
    says: Literal["within", "outside"] | None = None


class SumRule(Entry):
    """One sum. Of the rules with `bounds` the first in the file that judges a reading decides.

    `heard`, `not_heard`: said, or not, anywhere on the visit. `minimum` and `maximum` judge the result, in its
    unit.
    """

    id: str
    what: str
    formula: FormulaName
    about: Subject
    inputs: dict[str, tuple[InputRule, ...]]
    kinds: tuple[str, ...] = ()
    not_kinds: tuple[str, ...] = ()
    heard: Phrases = ()
    not_heard: Phrases = ()
    bounds: Bounds | None = None
    minimum: float | None = None
    maximum: float | None = None
    source: str = ""
    status: Status
    note: str | None = None
    holds_for: tuple[SumSample, ...] = Field(min_length=1)
    not_for: tuple[SumSample, ...] = Field(min_length=1)

    @field_validator("inputs", mode="before")
    @classmethod
    def _one_or_several(cls, inputs: Any) -> Any:
        if not isinstance(inputs, dict):
            return inputs
        return {name: rules if isinstance(rules, list) else [rules] for name, rules in inputs.items()}

    @model_validator(mode="after")
    def _whole(self) -> Self:
        needs_source(self.source, self.status)
        shape = FORMULAS[self.formula]
        given = [*self.inputs, *([self.about.as_] if self.about.as_ else [])]
        if sorted(given) != sorted(shape.inputs):
            raise ValueError(f'"{self.formula}" takes {", ".join(shape.inputs)}, and gets {", ".join(given)}')
        reads: list[tuple[str, ReadRule]] = [(self.about.as_, self.about)] if self.about.as_ else []
        reads += [(name, rule.read) for name, rules in self.inputs.items() for rule in rules if rule.read]
        for name, read in reads:
            if read.read != QUANTITY_OF.get(unit := shape.inputs[name][1]):
                raise ValueError(
                    f'"{name}" is reckoned in {unit or "no unit"}, which does not measure {read.read}'
                )
        for name, rules in self.inputs.items():
            if any((rule.named is not None) != (name == REFRIGERANT) for rule in rules):
                raise ValueError(f"{name}: a refrigerant is named, all else is a number")
        if self.bounds and self.bounds.of and self.bounds.of not in self.inputs:
            raise ValueError(f'bounds are of "{self.bounds.of}", which is no input')
        if any(sample.gives is None for sample in self.holds_for):
            raise ValueError("each reading of holds_for needs gives: what the sum comes to")
        return self


class Supply(Entry):
    """The voltage on which heating elements of these kinds of appliance work, and that of a live wire to earth."""

    volts: float
    to_earth: float
    kinds: tuple[str, ...] = ()  # empty: any kind
    speech: tuple[SpeechHeard, ...] = ()


class Refrigerant(Entry):
    """A refrigerant by CoolProp's name ("R134a") and as people say it."""

    name: str
    spoken: Phrases = Field(min_length=1)


class SumsFile(Entry):
    """vocab/sums.yaml. `beyond`: further from the middle of its bounds than this factor, something else was
    measured or misheard, and the sum is not made. `needs_coolprop`: note where CoolProp is not installed."""

    beyond: float = Field(gt=1)
    supplies: tuple[Supply, ...]
    frequency: dict[Speech, float]
    refrigerants: tuple[Refrigerant, ...]
    needs_coolprop: str
    sums: tuple[SumRule, ...]

    @field_validator("sums")
    @classmethod
    def _ids_once(cls, rules: tuple[SumRule, ...]) -> tuple[SumRule, ...]:
        ids = [rule.id for rule in rules]
        if twice := {name for name in ids if ids.count(name) > 1}:
            raise ValueError(f"ids stand here a second time: {sorted(twice)}")
        return rules
