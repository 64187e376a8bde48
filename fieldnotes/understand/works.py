"""Work that was done on this visit, and parts that were fitted, ordered or are needed."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import get_args

from fieldnotes.records import Action, Part, PartStatus, Work
from fieldnotes.tidy.spelled import spell
from fieldnotes.understand.clauses import Clause
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.narration import Mark, Narration
from fieldnotes.understand.sentences import part_sentence, work_sentence
from fieldnotes.understand.things import Thing, heads_of, own_words, things_in
from fieldnotes.vocabulary.measures import Measures

WHOLE_UNIT = ("levelled", "calibrated")  # done to the appliance, unless a part is named after it
WIPES = ("cleaned", "removed")  # "there was a code stored and I've wiped it"
REACH = 12  # words of a part number at most
NAMES_ONLY = 3  # words besides the names in "and the high limit"


def work_in(
    narration: Narration,
    clauses: list[Clause],
    claimed: frozenset[int],
    gone: frozenset[int],
    measures: Measures,
) -> tuple[list[Work], list[Part]]:
    """All work and parts in order."""
    work: list[Work] = []
    parts: list[Part] = []
    spoken_of = _SpokenOf()
    for index, clause in enumerate(clauses):
        spoken_of.enter(clause.breath)
        things = things_in(narration, clause.first, clause.last)
        if index not in claimed and clause.stance == "fact":
            for mark in _done(narration, clause, gone):
                objects, named = _objects(narration, clauses, index, mark, things, spoken_of)
                if mark.value == "removed" and _only_gets_at(narration, objects):
                    continue
                if not named and spoken_of.was_done(mark.value):
                    continue  # "brushed it, brushed it and vacuumed it" is one cleaning
                spoken_of.did(mark.value)
                if (
                    not named
                    and mark.value in WIPES
                    and narration.marked("code cue", *narration.breaths[clause.breath])
                ):
                    mark, objects = (
                        replace(mark, rule=mark.rule.model_copy(update={"value": "reset"})),
                        [_codes(mark)],
                    )
                if mark.value == "replaced":
                    objects = _with_new_ones(narration, clauses, index, objects)
                objects = [t for t in objects if (mark.value, t.name) not in spoken_of.listed]
                spoken_of.listed |= {(mark.value, t.name) for t in objects}
                work += [_work(narration, clause, mark, thing) for thing in objects]
                if mark.value == "replaced":
                    parts += [_part(narration, clause, "fitted", thing) for thing in objects]
        if index not in claimed and clause.stance in ("fact", "plan", "hypothetical"):
            parts += _wanted(narration, clause, things, spoken_of.it(), gone)
        if clause.stance in ("fact", "question"):
            spoken_of.name(heads_of(narration, things))
    return _once(work), _with_numbers(narration, _one_status(parts), measures)


def _codes(mark: Mark) -> Thing:
    return Thing("fault codes", mark.first, mark.last)


def _with_new_ones(
    narration: Narration, clauses: list[Clause], index: int, objects: list[Thing]
) -> list[Thing]:
    """The objects, and what else of the breath is called new ("new belt, new idler, and new rear rollers")."""
    breath = clauses[index].breath
    new = [
        t
        for c in clauses
        if c.breath == breath and c.stance == "fact"
        for t in things_in(narration, c.first, c.last)
        if "new" in narration.words[max(c.first, t.first - 2) : t.first]
        and t.name not in {o.name for o in objects}
    ]
    return [*objects, *new] if len(new) > 1 or not objects else objects


@dataclass
class _SpokenOf:
    """What "it" means: the first head named in this breath, else what was named last before it."""

    breath: int = -1
    here: list[Thing] = field(default_factory=list)
    before: list[Thing] = field(default_factory=list)
    done: set[str] = field(default_factory=set)
    listed: set[tuple[str, str]] = field(default_factory=set)  # work of this breath: said twice, done once

    def enter(self, breath: int) -> None:
        if breath != self.breath:
            self.before = self.here or self.before
            self.breath, self.here, self.done, self.listed = breath, [], set(), set()

    def name(self, things: list[Thing]) -> None:
        self.here += [t for t in things if not t.place or not self.here]

    def it(self) -> list[Thing]:
        return self.here[:1] or self.before[-1:]

    def did(self, action: str) -> None:
        self.done.add(action)

    def was_done(self, action: str) -> bool:
        return action in self.done


def _done(narration: Narration, clause: Clause, gone: frozenset[int]) -> list[Mark]:
    """Marks of doing that tell of something done here: not denied, not taken back."""
    marks = [m for m in narration.marked("work", clause.first, clause.last) if m.first not in gone]
    denied = narration.marked("denied", clause.first, clause.last)
    grammar = narration.grammar
    kept: list[Mark] = []
    for mark in marks:
        if mark.rule.form == "bare" and narration.tokens[mark.first].stop:
            continue  # "just grease, the plug ...": the verb has no object
        if (
            any(narration.tokens[n].stop for n in range(mark.first, mark.last - 1))
            and mark.last > clause.last
        ):
            continue  # the words do not belong together
        before = narration.words[max(clause.first, mark.first - 3) : mark.first]
        if any(word in grammar.negators for word in before) or any(d.last == mark.first for d in denied):
            continue
        subject = narration.words[clause.first : mark.first]
        if any(word in narration.grammar.others for word in subject) and "i" not in subject:
            continue
        if subject[-1:] == ("it",) and mark.rule.form == "done":
            continue  # "it reseated": by itself
        if mark.rule.form == "bare" and any(
            word in ("to", "you", "they", "people", "it", "customer", "he", "she") for word in before
        ):
            continue
        if not any(k.value == mark.value for k in kept):
            kept.append(mark)
    return kept


def _objects(
    narration: Narration,
    clauses: list[Clause],
    index: int,
    mark: Mark,
    things: list[Thing],
    spoken_of: _SpokenOf,
) -> tuple[list[Thing], bool]:
    """What was worked on, and whether it was named here: after the verb, else before it, else "it"."""
    clause = clauses[index]
    if mark.value in WHOLE_UNIT and not any(not t.place for t in things if t.first >= mark.first):
        return [Thing(narration.kind or "appliance", mark.first, mark.last)], True
    after = [t for t in things if t.first >= mark.first]
    direct = [t for t in after if not t.place]
    inside = own_words(narration, mark.first + 1, mark.last) if mark.last - mark.first > 2 else None
    if inside and not any(t.first < mark.last for t in direct):
        return [inside], True  # "bailed the water out of the tub"
    before = [t for t in things if t.last <= mark.first and not t.place]
    if direct:
        return [*_main_things(narration, direct), *_joined(narration, clauses, index)], True
    if before:
        return _main_things(narration, before), True
    if not any(
        word in narration.grammar.pronouns for word in narration.words[mark.first + 1 : mark.last + 1]
    ):
        said = own_words(narration, mark.last - 1, clause.last) or own_words(
            narration, mark.last, clause.last
        )
        said = said or own_words(narration, clause.first, _subject_at(narration, clause, mark))
        if said:
            return [said], True
    if after and not spoken_of.here:
        return after[:1], True
    return spoken_of.it(), False


def _subject_at(narration: Narration, clause: Clause, mark: Mark) -> int:
    """Where "I have" stands before a verb of doing ("all that ice I have melted out"), else the verb."""
    own = [n for n in range(clause.first, mark.first) if narration.words[n] in ("i", "we")]
    return own[-1] if own else mark.first


def _joined(narration: Narration, clauses: list[Clause], index: int) -> list[Thing]:
    """Objects in following clauses that are nothing but "and the high limit"."""
    found: list[Thing] = []
    for clause in clauses[index + 1 :]:
        things = things_in(narration, clause.first, clause.last)
        words = narration.words[clause.first : clause.last]
        if clause.sentence != clauses[index].sentence or not things or words[0] not in ("and", "plus"):
            break
        if len(words) - sum(t.last - t.first for t in things) > NAMES_ONLY or any(
            narration.marked(label, clause.first, clause.last) for label in ("work", "outcome", "trial")
        ):
            break
        found += heads_of(narration, things)
    return found


def _main_things(narration: Narration, things: list[Thing]) -> list[Thing]:
    """Things joined by "and"; a thing behind a preposition ("with a metal one", "on the left") is none of them."""
    kept = [things[0]]
    for thing in things[1:]:
        between = narration.words[kept[-1].last : thing.first]
        if len(between) <= 2 and any(word in ("and", "plus") for word in between):
            kept.append(thing)
    return kept


def _only_gets_at(narration: Narration, objects: list[Thing]) -> bool:
    return bool(objects) and all(
        any(m.first <= t.last - 1 < m.last for m in narration.marks.get("access", ())) for t in objects
    )


def _wanted(
    narration: Narration, clause: Clause, things: list[Thing], topic: list[Thing], gone: frozenset[int]
) -> list[Part]:
    """Parts ordered or needed."""
    found: list[Part] = []
    if narration.marked("bystander", clause.first, clause.last):
        return []  # "my van needs a new belt"
    for mark in narration.marked("part", clause.first, clause.last):
        before = narration.words[max(clause.first, mark.first - 3) : mark.first]
        if mark.first in gone or any(word in narration.grammar.negators for word in before):
            continue
        status: PartStatus = next(value for value in get_args(PartStatus) if value == mark.value)
        if any(
            e.first < mark.last and mark.first < e.last
            for e in narration.marked("expected", clause.first, clause.last)
        ):
            continue  # "the tech sheet wants one to two"
        if clause.stance == "hypothetical" and "if" in narration.words[clause.first : clause.last]:
            continue
        if status == "ordered" and clause.stance != "fact":
            continue
        after = [t for t in things if t.first >= mark.first]
        named = (
            after
            or things
            or ([said] if (said := own_words(narration, mark.last, clause.last)) else topic[:1])
        )
        found += (
            [_part(narration, clause, status, thing) for thing in _main_things(narration, named)]
            if named
            else []
        )
    return found


def _work(narration: Narration, clause: Clause, mark: Mark, thing: Thing) -> Work:
    action: Action = next(value for value in get_args(Action) if value == mark.value)
    return Work(
        about=thing.name,
        text=work_sentence(narration, thing.name, action, clause.first, clause.last),
        evidence=evidence_of(narration, clause.first, clause.last),
        action=action,
    )


def _part(narration: Narration, clause: Clause, status: PartStatus, thing: Thing) -> Part:
    counts = [
        q
        for q in narration.numbers(clause.first, thing.last)
        if q.ordinal_or_count and q.value == int(q.value) and 0 < q.value < 20 and thing.first - q.last <= 2
    ]
    return Part(
        about=thing.name,
        text=part_sentence(narration, thing.name, status, clause.first, clause.last),
        evidence=evidence_of(narration, clause.first, clause.last),
        status=status,
        quantity=int(counts[-1].value) if counts else 1,
    )


def _once(work: list[Work]) -> list[Work]:
    """The same work on the same thing in one breath counts once."""
    seen: dict[tuple[str, str, float | None], Work] = {}
    for item in work:
        seen.setdefault((item.action, item.about, item.evidence.start), item)
    return list(seen.values())


def _one_status(parts: list[Part]) -> list[Part]:
    seen: dict[tuple[str, str], Part] = {}
    for part in parts:
        seen.setdefault((part.status, part.about), part)
    return list(seen.values())


def _with_numbers(narration: Narration, parts: list[Part], measures: Measures) -> list[Part]:
    """Part numbers: a spelled string behind "part number" belongs to the part that was named last before it."""
    numbered = list(parts)
    for mark in narration.marks.get("part number", ()):
        spelled = spell(narration.tokens, mark.last, mark.last + REACH, measures)
        if spelled is None:
            continue
        breath = narration.breaths[narration.breath_of(mark.first)]
        start = narration.tokens[breath[0]].start
        near = [
            n
            for n, part in enumerate(numbered)
            if part.number is None
            and start is not None
            and part.evidence.end is not None
            and part.evidence.end > start - 8
            and (part.evidence.start or 0) <= (narration.tokens[mark.first].start or 0)
        ]
        if near:
            numbered[near[-1]] = numbered[near[-1]].model_copy(update={"number": spelled.text})
    return numbered
