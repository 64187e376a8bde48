"""Work that was done on this visit: deeds, each with its action and the thing that it was done to."""

from __future__ import annotations

import itertools
from typing import get_args

from fieldnotes.records import Action, Evidence, Work
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import work_sentence
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.noun_phrases import NounPhrase, is_introduced, is_known
from fieldnotes.understand.words.things import Thing, things_in
from fieldnotes.understand.work.deeds import Deed, deeds_in
from fieldnotes.understand.work.topics import Topics

WHOLE_UNIT = ("levelled", "calibrated")  # done to the appliance, unless a part is named after it
WIPES = ("cleaned", "removed", "reset")  # of codes: "there was a code stored and I've wiped it"
SAME_BREATH_S = 0.3
TAKEN = ("been", "was", "were", "i")  # behind these something was taken away, not only is gone
ON_THINGS = ("replaced", "repaired", "tightened", "lubricated", "reconnected")  # not done to a state
ON_PARTS = ("cleaned", "repaired", "tightened", "lubricated")
NEXT = 3  # words
ON_THE_SPOT = ("from", "off", "of", "under", "in", "inside", "behind", "on", "out")


def work_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> tuple[list[Work], dict[int, list[Thing]]]:
    """All work in order; and for each clause the things that were replaced in it, which are parts fitted."""
    work: list[Work] = []
    fitted: dict[int, list[Thing]] = {}
    dirt: list[Work] = []  # taken out of something that the words do not name
    topics = Topics(narration)
    done: dict[int, set[tuple[str, str]]] = {}  # by breath: said twice, done once
    for index, clause in enumerate(clauses):
        if index not in claimed and (clause.stance == "fact" or _is_told_of_now(narration, clause)):
            for deed in deeds_in(narration, clauses, index, topics, gone):
                listed = done.setdefault(clause.breath, set())
                action, things = _worked_on(narration, clause, deed)
                if action == "replaced":
                    things = _with_new_ones(narration, clauses, index, things)
                if not deed.named and any(a == action for a, _ in listed):
                    continue  # "brushed it, brushed it and vacuumed it" is one cleaning
                for thing in things:
                    if (action, thing.name) in listed or _is_wiped_after(deed, action, thing, listed):
                        continue
                    listed.add((action, thing.name))
                    work.append(_work(narration, clause, action, thing, deed.named))
                    if action == "removed" and not _place(narration, deed.objects[0], clause.last):
                        dirt.append(work[-1])
                    if action == "replaced":
                        fitted.setdefault(index, []).append(thing)
        topics.take_in(clause)
    return _less(work, dirt), fitted


def _is_wiped_after(deed: Deed, action: Action, thing: Thing, listed: set[tuple[str, str]]) -> bool:
    """Whether dirt that was taken out is cleaned off once more ("the ice I have melted out and wiped dry")."""
    return action == "cleaned" and deed.objects[0].matter and ("removed", thing.name) in listed


def _is_told_of_now(narration: Narration, clause: Clause) -> bool:
    """Whether a clause that sounds general tells what "I have" done ("I have put grease on them")."""
    words = narration.words[clause.first : clause.last]
    return clause.stance == "general" and any(
        pair in (("i", "have"), ("i", "'ve"), ("we", "have"), ("we", "'ve"))
        for pair in itertools.pairwise(words)
    )


def _less(work: list[Work], dirt: list[Work]) -> list[Work]:
    """Less the dirt taken out of what is listed as cleaned in the same breath ("rodded it and got the lint out")."""
    cleaned = [w.evidence for w in work if w.action == "cleaned"]
    return [w for w in work if w not in dirt or not any(_next_to(w.evidence, e) for e in cleaned)]


def _next_to(one: Evidence, other: Evidence) -> bool:
    if one.start is None or one.end is None or other.start is None or other.end is None:
        return False
    return max(one.start, other.start) - min(one.end, other.end) < SAME_BREATH_S


def _with_new_ones(
    narration: Narration, clauses: list[Clause], index: int, objects: list[Thing]
) -> list[Thing]:
    """The objects, and what else of the breath is called new ("new belt, new idler, and new rear rollers")."""
    breath = clauses[index].breath
    new = [
        t
        for c in clauses[index : index + 12]
        if c.breath == breath and c.stance == "fact"
        for t in things_in(narration, c.first, c.last)
        if "new" in narration.words[max(c.first, t.first - 2) : t.first]
        and t.name not in {o.name for o in objects}
    ]
    return [*objects, *new]


def _worked_on(narration: Narration, clause: Clause, deed: Deed) -> tuple[Action, list[Thing]]:
    """The action and its objects, as a report has them: codes are reset, dirt is cleaned off what it is on, and a
    part taken out to get at something is no work."""
    mark = deed.mark
    action: Action = next(value for value in get_args(Action) if value == mark.value)
    if action in WIPES and _of_codes(narration, clause, deed):
        return "reset", [Thing(_codes_named(narration, deed), mark.first, mark.last)]
    if action == "reconnected" and narration.words[mark.first] in ("plug", "plugged"):
        return action, [
            p.thing
            for p in deed.objects
            if p.thing and narration.trade.plugged_parts & set(p.thing.name.split())
        ]
    first = deed.objects[0].thing
    if (
        action == "adjusted"
        and first
        and first.name in narration.trade.heat_settings
        and ("offset" in first.name or _in_degrees(narration, mark, clause))
    ):
        return "calibrated", [first]
    if action in WHOLE_UNIT and not (first and first.name in narration.trade.levelled_parts):
        unit = narration.kind or "appliance"
        unit = "oven" if action == "calibrated" and unit.endswith("range") else unit
        return action, [Thing(unit, mark.first, mark.last)]
    things = [p.thing for p in deed.objects if p.thing and not (p.thing.condition and action in ON_THINGS)]
    if things and action in ("adjusted", "reconnected") and not mark.rule.object:
        action, things = _moved(narration, action, things, mark, named=deed.named)
    if (
        narration.words[mark.first] == "opened"
    ):  # a choked drain was; what else is opened is opened for a look
        choked = narration.trade.blocked & set(
            narration.words[narration.breaths[clause.breath][0] : mark.first]
        )
        return action, [t for t in things if choked and narration.trade.openings & set(t.name.split())]
    if (
        action == "removed"
        and narration.words[mark.first] in narration.trade.emptied
        and _is_place(narration, deed.objects[0])
    ):
        return "cleaned", things
    if action == "reconnected":
        return action, [p.thing for p in deed.objects if p.thing and not _is_put_back(narration, p)]
    if action == "removed":
        foreign = _is_stray if mark.rule.object == "before" else _is_foreign
        return action, [p.thing for p in deed.objects[:1] if p.thing and foreign(narration, mark, p)]
    if action == "cleaned" and deed.objects[0].matter:
        place = _place(narration, deed.objects[0], clause.last if deed.named else mark.first)
        washed = narration.words[mark.first] in narration.trade.washed_off
        return (action, [place]) if place else ("cleaned" if washed else "removed", things)
    return action, [_carrier(narration, t, clause.last) if action in ON_PARTS else t for t in things]


def _moved(
    narration: Narration, action: Action, things: list[Thing], mark: Mark, named: bool
) -> tuple[Action, list[Thing]]:
    """What moving or pushing something is called where it is a foot, a screw, or a button that had let go."""
    trade, verb, thing = narration.trade, narration.words[mark.first], things[0]
    if thing.name in trade.resettable and action == "reconnected":
        return "reset", things
    if action != "adjusted":
        return action, things
    if not trade.fastened.isdisjoint(narration.words[thing.first : thing.last]):
        return ("tightened", things) if verb in trade.driven else (action, things)
    if thing.name in trade.levelled_parts:
        if verb in trade.sideways and not named:
            return action, [Thing(narration.kind or "appliance", mark.first, mark.last)]
        return "levelled", things
    return action, [] if verb in trade.driven | trade.lowered else things


def _in_degrees(narration: Narration, mark: Mark, clause: Clause) -> bool:
    """Whether a setting was moved by so many degrees, which calibrates it."""
    return any(
        q.unit in ("degC", "degF") or "degrees" in narration.words[q.first : q.last + 1]
        for q in narration.numbers(mark.first, clause.last)
    )


def _carrier(narration: Narration, thing: Thing, end: int) -> Thing:
    """The part that a thing of no known name is on ("soldered the joint on | the oven control"), else the thing."""
    known = any(thing.first <= m.first and m.last <= thing.last for m in narration.mentions)
    if known or thing.last >= end or narration.words[thing.last] not in ON_THE_SPOT:
        return thing
    return next((t for t in things_in(narration, thing.last, end) if t.first - thing.last <= NEXT), thing)


def _of_codes(narration: Narration, clause: Clause, deed: Deed) -> bool:
    """Whether a code is what was wiped: it is named, or it was spoken of last ("E4 came up; I have erased it")."""
    words = narration.words
    if any(narration.trade.code_words & set(words[p.first : p.last]) for p in deed.objects[:1]):
        return True
    verb = next((w for w in words[deed.mark.first : deed.mark.last] if w in narration.trade.wiping), "")
    if deed.named or not verb:
        return False
    if verb in narration.trade.erasing:
        return True
    first = narration.breaths[max(0, clause.breath - 1)][0]
    cues = [m.last for label in ("code cue", "code") for m in narration.marked(label, first, deed.mark.first)]
    return bool(cues) and not things_in(narration, max(cues), deed.mark.first)


def _codes_named(narration: Narration, deed: Deed) -> str:
    """One code, where one was spoken of ("cleared that"), else all of them."""
    first, last = deed.mark.first, min(deed.mark.last + 3, len(narration.words))
    one = ("it", "that", "code", "entry", "error", "fault")
    return "fault code" if any(w in one for w in narration.words[max(0, first - 3) : last]) else "fault codes"


def _is_stray(narration: Narration, mark: Mark, phrase: NounPhrase) -> bool:
    """Whether what is said to be out is dirt, or was spoken of as a thing that does not belong there."""
    if phrase.matter:
        return True
    if is_known(narration, phrase):
        return False
    return is_introduced(narration, phrase) or (phrase.indefinite and narration.words[mark.first] in TAKEN)


def _is_foreign(narration: Narration, mark: Mark, phrase: NounPhrase) -> bool:
    """Whether what was taken out is dirt, water or an object that does not belong there."""
    if (
        phrase.thing
        and phrase.thing.name == "water"
        and narration.words[mark.first] not in narration.trade.poured_off
    ):
        return False
    if phrase.matter or (phrase.thing and phrase.thing.name in narration.trade.foreign_matter):
        return True
    if _is_access(narration, phrase) or is_known(narration, phrase):
        return False
    if narration.words[phrase.last - 1] in narration.trade.bites:
        return False
    return (
        phrase.indefinite
        or narration.words[mark.first] in narration.trade.picked_out
        or is_introduced(narration, phrase)
    )


def _is_access(narration: Narration, phrase: NounPhrase) -> bool:
    """Whether a panel, a lid or the like is meant, which is taken off and put back to get at something."""
    return any(m.last == phrase.last for m in narration.marked("access", phrase.first, phrase.last))


def _is_put_back(narration: Narration, phrase: NounPhrase) -> bool:
    """Whether a panel, a filter or the like is meant: what is taken out is put back."""
    name = phrase.thing.name if phrase.thing else ""
    return _is_access(narration, phrase) or name.split(" ")[-1] in narration.trade.put_back


def _is_place(narration: Narration, phrase: NounPhrase) -> bool:
    """Whether what was scooped out and the like is the place where the dirt was ("the sump's been scooped out")."""
    if phrase.matter or not phrase.thing or phrase.thing.name in narration.trade.foreign_matter:
        return False
    return (
        is_known(narration, phrase) or narration.words[phrase.thing.last - 1] in narration.trade.dirt_places
    )


def _place(narration: Narration, phrase: NounPhrase, end: int) -> Thing | None:
    """The thing that dirt was on: it stands behind a preposition after it ("the ice out of | the drain trough")."""
    for thing in things_in(narration, phrase.last, end):
        if any(word in ON_THE_SPOT for word in narration.words[phrase.last : thing.first]):
            return thing
    return None


def _work(narration: Narration, clause: Clause, action: Action, thing: Thing, named: bool) -> Work:
    """`named`: the words name the thing; otherwise the sentence says by which words it was spoken of before."""
    spoken = " ".join(narration.words[thing.first : thing.last])
    known = spoken == thing.name.replace("-", " ") or named or thing.last > clause.first
    aside = "" if known else f" ({spoken})"
    return Work(
        about=thing.name,
        text=work_sentence(narration, thing.name, f"{action}{aside}", clause.first, clause.last),
        evidence=evidence_of(narration, clause.first, clause.last),
        action=action,
    )
