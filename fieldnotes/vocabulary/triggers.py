"""Shape of what points to items of a visit, in vocab/cautions.yaml and vocab/gaps.yaml."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import Field, model_validator

from fieldnotes.records import Action, Judgement, Outcome, PartStatus
from fieldnotes.vocabulary.packs import Entry, Phrases
from fieldnotes.vocabulary.quantities import UNITS, Quantity

ItemList = Literal[
    "complaints", "checks", "readings", "trials", "codes", "work", "parts", "causes", "advice", "follow_ups",
    "safety",
]  # fmt: skip


class Trigger(Entry):
    """Items of the visit that call for a caution or a gap: all that is given must hold of one and the same item."""

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
