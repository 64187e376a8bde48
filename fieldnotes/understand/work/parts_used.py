"""Parts that were fitted, ordered or are needed, with their numbers and quantities."""

from __future__ import annotations

from typing import get_args

from fieldnotes.records import Part, PartStatus
from fieldnotes.tidy.spelled import spell
from fieldnotes.tidy.text import Spelled
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import part_sentence
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.noun_phrases import NounPhrase, is_known, is_plural, noun_phrases
from fieldnotes.understand.words.things import Thing, things_in
from fieldnotes.understand.work.topics import Topics, topics_of
from fieldnotes.vocabulary.measures import Measures

REACH = 12  # words of a part number at most
SHORTEST = 4  # characters; what is shorter may be a fault code
OTHER_NUMBERS = frozenset(
    ("model", "serial", "code", "codes", "error", "fault", "phone", "house", "breaker", "circuit")
)
POINTED = ("it", "that", "this", "those", "these", "them", "both")
COUNTS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "both": 2, "pair": 2}
DETAILS = ("quantity", "qty", "number", "part")
OF_THEM = ("them", "those", "these", "'em", "each")


def parts_in(
    narration: Narration,
    clauses: list[Clause],
    claimed: frozenset[int],
    gone: frozenset[int],
    fitted: dict[int, list[Thing]],
    measures: Measures,
) -> list[Part]:
    """All parts in order. `fitted`: by clause, the things that were replaced."""
    parts: list[Part] = []
    topics = Topics(narration)
    for index, clause in enumerate(clauses):
        parts += [_part(narration, clause, "fitted", thing) for thing in fitted.get(index, [])]
        if clause.stance in ("fact", "plan", "hypothetical"):
            parts += _wanted(narration, clauses, index, topics, gone, named=index in claimed)
        topics.take_in(clause)
    return _with_numbers(narration, _one_status(parts), measures)


def _wanted(
    narration: Narration, clauses: list[Clause], index: int, topics: Topics, gone: frozenset[int], named: bool
) -> list[Part]:
    """Parts ordered or needed. `named`: only those that the clause names, as it tells of something else too."""
    clause = clauses[index]
    found: list[Part] = []
    if narration.marked("bystander", clause.first, clause.last):
        return []  # "my van needs a new belt"
    if clause.stance == "hypothetical" and "if" in narration.words[clause.first : clause.last]:
        return []  # in "if it does it again | that's what it'll want" the clause behind counts
    end = next(
        (c.last for c in reversed(clauses[index : index + 6]) if c.sentence == clause.sentence), clause.last
    )
    for mark in narration.marked("part", clause.first, clause.last):
        before = narration.words[max(clause.first, mark.first - 3) : mark.first]
        if mark.first in gone or any(word in narration.grammar.negators for word in before):
            continue
        wanted = noun_phrases(narration, mark.last, end)
        known = wanted and is_known(narration, wanted[0])
        if (
            mark.value == "needed"
            and not known
            and "what" not in narration.words[mark.first : mark.last]
            and any(
                e.first < mark.last and mark.first < e.last
                for e in narration.marked("expected", clause.first, clause.last)
            )
        ):
            continue  # "the tech sheet wants one to two"
        status: PartStatus = next(value for value in get_args(PartStatus) if value == mark.value)
        if status == "ordered" and clause.stance != "fact":
            continue
        if narration.words[mark.last : mark.last + 1] == ("out",):
            continue  # "on its way out": worn
        things = [
            p.thing
            for p in _objects(narration, clauses, index, mark, None if named else topics, end)
            if p.thing and (is_known(narration, p) or (not named and _is_part_like(narration, p)))
        ]
        if status == "needed":
            things = [t for t in things if not _is_a_tool(narration, clause, t)]
        told = _counted_at(narration, mark, end)
        found += [_part(narration, clause, status, thing, told) for thing in things]
    return found


def _is_part_like(narration: Narration, phrase: NounPhrase) -> bool:
    """Whether a thing of the speaker's own name is called as parts are ("ice maker assembly"; not "sideways")."""
    return phrase.thing is not None and narration.words[phrase.thing.last - 1] in narration.nouns


def _objects(
    narration: Narration, clauses: list[Clause], index: int, mark: Mark, topics: Topics | None, end: int
) -> list[NounPhrase]:
    """What is ordered or needed: what stands behind the words, counted too ("it's on order, | one latch hook"), or
    in them, or before them; else what "it" means."""
    clause = clauses[index]
    after = noun_phrases(narration, mark.last, end)
    if after and after[0].thing:
        stopped = narration.tokens[mark.last - 1].stop
        counted = narration.words[mark.last] in ("one", "two", "three", "four", "a", "an")
        if not stopped or (stopped == "," and counted and _is_part_like(narration, after[0])):
            return after
    within = [NounPhrase(t.first, t.last, t) for t in things_in(narration, mark.first, mark.last)]
    before = topics_of(narration, clause.first, mark.first, alone=True)
    if within or before:
        return within or before[:1]
    pointed = next((n for n in range(clause.first, mark.last) if narration.words[n] in POINTED), None)
    earlier = (
        []
        if pointed is not None
        else [c for c in clauses[max(0, index - 5) : index] if c.sentence == clause.sentence]
    )
    for other in reversed(earlier):
        found = [t for t in things_in(narration, other.first, other.last) if not t.place]
        if found:  # "a coil kit, one, is what's needed"
            return [NounPhrase(found[-1].first, found[-1].last, found[-1])]
    meant = topics.before(clause, pointed or mark.first) if topics else None
    if (
        meant
        and pointed is not None
        and narration.words[pointed] in OF_THEM
        and not is_plural(narration, meant)
    ):
        return []  # "there's four of them wanted" is not said of one cap
    return [meant] if meant else []


def _is_a_tool(narration: Narration, clause: Clause, thing: Thing) -> bool:
    """Whether the speaker only wants something to work with ("I'll be wanting a bucket")."""
    wanted = {"i", "we"} & set(narration.words[clause.first : thing.first])
    named = narration.marked("not a thing", thing.first, thing.last)
    return bool(wanted) and any((m.first, m.last) == (thing.first, thing.last) for m in named)


def _counted_at(narration: Narration, mark: Mark, end: int) -> int | None:
    """How many "it" are, where the words of ordering count without a name ("clamps for it, I order two")."""
    words = narration.words
    at = mark.last
    while at < end and words[at] in ("a", "the", "another", "of", "'em", "them"):
        at += 1
    if words[at - 1] in COUNTS and at == mark.last and (at >= end or narration.tokens[at - 1].stop):
        return COUNTS[words[at - 1]]
    if at < end and words[at] in COUNTS and (at + 1 == end or narration.tokens[at].stop):
        return COUNTS[words[at]]
    inside = [
        COUNTS[words[n]]
        for n in range(mark.first, mark.last - 1)
        if words[n] in COUNTS and words[n + 1] == "of"
    ]
    return inside[0] if inside else None


def _part(
    narration: Narration, clause: Clause, status: PartStatus, thing: Thing, told: int | None = None
) -> Part:
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
        quantity=told
        or (int(counts[-1].value) if counts else _counted_behind(narration, thing, clause.breath)),
    )


def _counted_behind(narration: Narration, thing: Thing, breath: int) -> int:
    """How many, where it is said behind the name ("coils, both of them", "clamp set, | quantity two")."""
    words, last = narration.words, narration.breaths[breath][1]
    if _only_details(narration, breath + 1):
        last = narration.breaths[breath + 1][1]
    for n in range(thing.last, last - 1):
        if words[n] in ("quantity", "qty") and words[n + 1] in COUNTS:
            return COUNTS[words[n + 1]]
        if words[n] in COUNTS and words[n + 1] == "of" and n + 2 < last and words[n + 2] in OF_THEM:
            return COUNTS[words[n]]
    return 1


def _only_details(narration: Narration, breath: int) -> bool:
    """Whether a breath goes on with quantity or number of the part before it ("Quantity one, number D B 2044")."""
    if breath >= len(narration.breaths):
        return False
    first, last = narration.breaths[breath]
    opens = narration.words[first] in (*COUNTS, *DETAILS) and not narration.named(first, last)
    return opens and not OTHER_NUMBERS & set(narration.words[first:last])


def _one_status(parts: list[Part]) -> list[Part]:
    seen: dict[tuple[str, str], Part] = {}
    for part in parts:
        seen.setdefault((part.status, part.about), part)
    return list(seen.values())


def _with_numbers(narration: Narration, parts: list[Part], measures: Measures) -> list[Part]:
    """Part numbers: a spelled string belongs to the part that was named last before it, else, in the same breath, to
    the first behind it."""
    numbered = list(parts)
    for at, text, near_only in _numbers_said(narration, measures):
        first, last = narration.breaths[narration.breath_of(at)]
        start, end = narration.tokens[first].start, narration.tokens[last - 1].end
        here = narration.tokens[at].start
        if start is None or end is None or here is None:
            continue
        breath = narration.breath_of(at)
        since = start if near_only else start - 8
        if near_only and breath and _only_details(narration, breath):
            since = narration.tokens[narration.breaths[breath - 1][0]].start or 0.0
        open_parts = [
            (n, part.evidence.start or 0)
            for n, part in enumerate(numbered)
            if part.number is None and part.evidence.end is not None and since < part.evidence.end
        ]
        before = [n for n, begun in open_parts if begun <= here]
        behind = [n for n, begun in open_parts if here < begun <= end]
        if before or behind:
            n = before[-1] if before else behind[0]
            numbered[n] = numbered[n].model_copy(update={"number": text})
    return numbered


def _numbers_said(narration: Narration, measures: Measures) -> list[tuple[int, str, bool]]:
    """The part numbers with the words where they start; True where only their look tells what they are ("one relay,
    R L five oh nine"), so that they count next to a part only."""
    found: list[tuple[int, str, bool]] = []
    taken: set[int] = set()
    for mark in narration.marks.get("part number", ()):
        spelled = spell(narration.tokens, mark.last, mark.last + REACH, measures)
        if spelled is None or len(spelled.text) < SHORTEST:
            spelled = _behind_an_aside(narration, mark) or spelled
        if spelled is not None:
            found.append((mark.first, spelled.text, False))
            taken |= set(range(spelled.first, spelled.last))
    found += [(at, text, True) for at, text in _pointed_at(narration, measures) if at not in taken]
    for string in narration.spelled:
        before = narration.words[max(0, string.first - 4) : string.first]
        called = "number" in before
        mixed = any(c.isdigit() for c in string.text) and any(c.isalpha() for c in string.text)
        if string.first in taken or OTHER_NUMBERS & set(before) or len(string.text) < SHORTEST:
            continue
        if called or (mixed and len(string.text) > SHORTEST):
            found.append((string.first, string.text, True))
    return sorted(found)


def _behind_an_aside(narration: Narration, mark: Mark) -> Spelled | None:
    """The number that follows its announcement after a few words ("part number, if the office wants it, 71FC339")."""
    _, end = narration.breaths[narration.breath_of(mark.first)]
    behind = (s for s in narration.spelled if mark.last <= s.first < min(end, mark.last + REACH))
    return next((s for s in behind if len(s.text) >= SHORTEST and any(c.isdigit() for c in s.text)), None)


def _pointed_at(narration: Narration, measures: Measures) -> list[tuple[int, str]]:
    """Long numbers that "that's" points to right behind something done ("put a new block in, that's 110296")."""
    found: list[tuple[int, str]] = []
    for mark in (*narration.marks.get("work", ()), *narration.marks.get("result", ())):
        _, end = narration.breaths[narration.breath_of(mark.first)]
        for at in range(mark.last, end - 2):
            if narration.words[at : at + 2] not in (("that", "'s"), ("it", "'s")) or mark.value != "replaced":
                continue
            spelled = spell(narration.tokens, at + 2, end, measures)
            whole = spelled and spelled.first == at + 2 and spelled.last == end
            if spelled and whole and spelled.text.isdigit() and len(spelled.text) > SHORTEST:
                found.append((at + 2, spelled.text))
    return found
