"""Several outcomes of one thing in one breath -> one check."""

from __future__ import annotations

from dataclasses import dataclass

from fieldnotes.records import Certainty, Check, Outcome
from fieldnotes.understand.checks.outcomes import Found
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import check_sentence
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration
from fieldnotes.understand.words.things import Thing

NEAR = 1  # breaths between a thing and its outcome that one quote may span


@dataclass(frozen=True, slots=True)
class Link:
    """A thing and an outcome that was said of it in a clause."""

    thing: Thing
    found: Found
    clause: Clause

    @property
    def names_itself(self) -> bool:
        """The outcome's own words are the thing ("no leaks")."""
        return self.thing.first < self.found.last and self.found.first < self.thing.last


def merged(narration: Narration, links: list[Link]) -> list[Check]:
    """One check for each thing and breath; what was said of it there is taken together."""
    groups: dict[tuple[int, str], list[Link]] = {}
    parts = {(link.clause.breath, link.found.outcome) for link in links if not link.names_itself}
    for link in links:
        if link.names_itself and (link.clause.breath, link.found.outcome) in parts:
            continue  # "the pump's dry, no drips off it" is about the pump
        groups.setdefault((link.clause.breath, link.thing.name), []).append(link)
    return [_check(narration, name, group) for (_, name), group in groups.items()]


def _check(narration: Narration, name: str, group: list[Link]) -> Check:
    outcome, certainty = _together([link.found for link in group])
    first = min(_begin(narration, link) for link in group)
    last = max(_end(link) for link in group)
    opening = group[0]
    stretches = [(opening.thing.first, opening.thing.last)] * (opening.thing.last <= opening.clause.first)
    stretches += [(link.clause.first, _end(link)) for link in group]
    return Check(
        about=name,
        text=check_sentence(narration, name, outcome, certainty, list(dict.fromkeys(stretches))),
        evidence=evidence_of(narration, first, last),
        outcome=outcome,
        certainty=certainty,
    )


def _end(link: Link) -> int:
    """Where the words of a link end; a finding may reach over a comma ("sniffed the joints, not a chirp")."""
    return max(link.clause.last, link.found.last)


def _begin(narration: Narration, link: Link) -> int:
    """Where the evidence begins: at the thing, where it was named in this breath or the one before."""
    near = 0 <= link.clause.breath - narration.breath_of(link.thing.first) <= NEAR
    if near:
        return min(link.thing.first, link.clause.first)
    return narration.sentence_begins(link.clause.first)  # "| it's 240 ohms, and that is far too high"


def _together(found: list[Found]) -> tuple[Outcome, Certainty]:
    """Several outcomes of one thing in one breath: what was not tested wins over all but a judgement that it is good,
    then doubt, then the last judgement, then a fault."""
    certainty: Certainty = "likely" if any(f.certainty == "likely" for f in found) else "certain"
    judged = [f for f in found if f.outcome != "not tested"]
    left = [f for f in found if f.outcome == "not tested"]
    if judged and left and not any(f.firm for f in left):
        left = []  # "it's worn a little, I'm leaving it"
        found = judged
    if left and not any(f.firm and f.outcome == "good" for f in judged):
        return (
            "not tested",
            "certain",
        )  # the rest is the reason, or how it looks: "seized, so I left it alone"
    if found[-1].firm and found[-1].outcome == "good":
        return "good", certainty  # "neither here nor there, it's as it should be"
    if any(f.outcome == "unclear" for f in found):
        return "unclear", certainty
    firm = [f for f in judged if f.firm]
    if firm:
        return firm[-1].outcome, certainty
    return ("fault" if any(f.outcome == "fault" for f in judged) else "good"), certainty
