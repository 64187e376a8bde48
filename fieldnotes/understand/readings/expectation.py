"""Words of expectation that tell no limit: they judge what was read, or speak of the part that was just fitted."""

from __future__ import annotations

from fieldnotes.understand.words.narration import Mark, Narration

FITTED_REACH = 4  # breaths over which "new one" is the part that was fitted


def judges(narration: Narration, mark: Mark) -> bool:
    """Whether words of expectation judge what was read, and do not tell what should be ("..., which is what it ought to
    pull", "... and that's what you'd want")."""
    words, at = narration.words, mark.first
    at -= words[at - 1] == "that"
    return words[at - 1] in ("which", "and")


def is_the_fitted_one(narration: Narration, mark: Mark) -> bool:
    """Whether "new one reads" tells of a part that was just fitted, not of how a new one is."""
    words = narration.words
    if words[mark.first : mark.first + 2] not in (("new", "one"), ("new", "ones")):
        return False
    if words[mark.first - 1] in ("a", "any", "some"):
        return False
    breath = narration.breath_of(mark.first)
    begin, _ = narration.breaths[max(0, breath - FITTED_REACH)]
    return any(
        m.value == "replaced"
        for label in ("work", "result")
        for m in narration.marked(label, begin, mark.first)
    )
