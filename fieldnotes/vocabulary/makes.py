"""Shape of vocab/makes.yaml: the makes that a shop sees."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import StringConstraints, model_validator

from fieldnotes.vocabulary.packs import Entry

# Letters and single signs between them: a name is one to three words that can be said.
Make = Annotated[str, StringConstraints(pattern=r"^[^\W\d_]+([ '&-][^\W\d_]+){0,2}$")]


class MakesFile(Entry):
    """`makes`: names of makers, spelt as the report shall spell them."""

    makes: tuple[Make, ...] = ()

    @model_validator(mode="after")
    def _each_once(self) -> Self:
        known = [make.lower() for make in self.makes]
        if twice := {make for make in known if known.count(make) > 1}:
            raise ValueError(f"makes: listed twice: {', '.join(sorted(twice))}")
        return self
