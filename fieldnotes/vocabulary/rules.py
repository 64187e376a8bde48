"""Shape of vocab/rules/*.yaml: phrases that say how words stand to the facts and what they are about."""

from __future__ import annotations

from functools import cached_property
from typing import Literal

from pydantic import Field

from fieldnotes.vocabulary.packs import Entry, Phrases

Label = Literal[
    # how a clause stands to the facts of this visit
    "plan", "hypothetical", "general", "history", "expected", "bound", "customer", "question", "off record", "pseudo",
    "turn", "denied",
    # what was found
    "outcome", "hedge", "not a thing", "bystander", "soil", "matter",
    # what a clause is about
    "work", "result", "new part", "taken out", "access", "part", "complaint", "cause", "verdict", "advice", "follow_up",
    "later", "safety", "trial",
    "code", "code cue", "blinks", "model", "serial", "make", "plate", "purchased", "part number", "timed", "measuring",
    "instrument", "ending", "load",
]  # fmt: skip


class Rule(Entry):
    """One idea, the phrases that carry it, sentences in which it must be found, and near misses.

    `value`: what the label says more exactly (an outcome, an action, a certainty); `name`: what the report
    calls it ("gas leak test"), where that is not the speaker's words.
    `strength`: how sure an outcome word is; `form`: whether a verb of doing is past, bare or
    still going on ("I'm turning it down").
    `object`: where the thing done stands when it is not the verb's own object: `within` or before the phrase
    ("new diode in"), only `before` it ("the rollers | got a drop of oil"), right `behind` it ("ran the brush
    through | the duct"), or it is what was called `new` around it ("one switch, new, | that's in").
    `closes`: the phrase counts only at the end of a sentence or breath ("new diode in.").
    """

    id: str
    label: Label
    value: str | None = None
    name: str | None = None
    strength: Literal["firm", "state", "word", "verb", "noun", "supply"] | None = None
    form: Literal["done", "bare", "doing"] | None = None
    object: Literal["within", "behind", "before", "new"] | None = None
    closes: bool = False
    phrases: Phrases
    finds: tuple[str, ...] = Field(min_length=1)
    misses: tuple[str, ...] = Field(min_length=1)

    @cached_property
    def holds_part(self) -> bool:
        """Whether a phrase has a place for a part in it."""
        return any("<part>" in phrase for phrase in self.phrases)


class RuleFile(Entry):
    rules: tuple[Rule, ...]
