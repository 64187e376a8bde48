"""Shapes of vocab/appliances/*.yaml (one kind of appliance each) and vocab/parts.yaml (for all kinds)."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, model_validator

from fieldnotes.vocabulary.phrases import parse
from fieldnotes.vocabulary.quantities import Status, needs_source


class Entry(BaseModel):
    """Base of all vocabulary entries: immutable, closed to unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid")


def _is_phrase(text: str) -> str:
    parse(text)
    return text


Phrase = Annotated[str, AfterValidator(_is_phrase)]
Phrases = tuple[Phrase, ...]


class Thermistor(Entry):
    """An NTC sensor by its maker's data: ohm at 25 degC, and B in kelvin. They differ from make to make."""

    r25_ohm: float = Field(gt=0)
    beta_k: float = Field(gt=0)
    source: str = ""
    status: Status

    @model_validator(mode="after")
    def _sourced(self) -> Self:
        needs_source(self.source, self.status)
        return self


class PartEntry(Entry):
    """Something that is looked at, measured or changed. Plurals of `spoken` are understood by themselves.

    `short`: said alone, it means this part on this appliance ("the pump" on a dishwasher).
    `misheard`: what speech recognition makes of it ("drain pomp"); mended, the original stays in the quote.
    `tells_kind`: naming it gives the kind of appliance away. `piece`: a small piece of some other part, which
    takes the finding when both are named in one breath ("terminal block, screws tight").
    `condition`: no part but a state that is checked ("level", "leaks").
    `measured_in`: units in which it is read, for numbers said without one; the first is the usual one.
    `thermistor`: with it a reading in ohm is shown as a temperature too.
    """

    name: str
    spoken: Phrases = ()
    short: Phrases = ()
    misheard: Phrases = ()
    tells_kind: bool = False
    piece: bool = False
    condition: bool = False
    measured_in: tuple[str, ...] = ()
    thermistor: Thermistor | None = None


class SymptomEntry(Entry):
    """A complaint as customers put it."""

    name: str
    spoken: Phrases


class TrialEntry(Entry):
    """A cycle, programme or service test that can be run."""

    name: str
    spoken: Phrases


class Expectation(Entry):
    """Checks that a complete diagnosis of a complaint covers, each with its reason."""

    complaint: tuple[str, ...]  # names of symptoms; empty: any complaint
    look_for: tuple[ExpectedCheck, ...]


class ExpectedCheck(Entry):
    about: tuple[str, ...]  # names of parts or trials, any of which will do
    why: str
    status: str = "common practice, no source"


class AppliancePack(Entry):
    """One kind of appliance. `wider`: the kind that it is a sort of ("electric dryer" -> "dryer")."""

    kind: str
    spoken: Phrases
    wider: str | None = None
    parts: tuple[PartEntry, ...] = ()
    symptoms: tuple[SymptomEntry, ...] = ()
    trials: tuple[TrialEntry, ...] = ()
    code_shapes: tuple[str, ...] = ()
    usual_causes: Phrases = ()
    expects: tuple[Expectation, ...] = ()
    hotwords: tuple[str, ...] = Field(default=())  # terms to tell the recogniser, most needed first


class PartsFile(Entry):
    """vocab/parts.yaml: parts and conditions, symptoms and trials that every kind of appliance shares."""

    parts: tuple[PartEntry, ...]
    symptoms: tuple[SymptomEntry, ...] = ()
    trials: tuple[TrialEntry, ...] = ()


Expectation.model_rebuild()
