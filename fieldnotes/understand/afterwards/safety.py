"""Safety: steps taken, hazards found, tests for leaks, and the state in which the unit was left."""

from __future__ import annotations

from fieldnotes.records import Item
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.sentences import reported, safety_sentence
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.understand.words.things import things_in

STATE = ("isolated", "restored", "left", "going")  # one item a breath for all of these together
CLOSING = 0.8  # share of the visit after which a supply that is on tells how the unit was left
LEAVING = 0.93  # share of the visit after which "it's running" does
# "it's on order", "record it on his phone": not a supply that is on.
COLD = ("refrigerator", "freezer")
ON_WHAT = frozenset(
    (
        "order",
        "his",
        "her",
        "my",
        "their",
        "its",
        "your",
        "the",
        "a",
        "an",
        "site",
        "warranty",
        "loan",
        "this",
    )
)


def safety_in(
    narration: Narration, clauses: list[Clause], claimed: frozenset[int], gone: frozenset[int]
) -> list[Item]:
    """All safety items in order: one a breath for the state of the supplies, one for each hazard or test."""
    items: list[Item] = []
    groups: dict[tuple[int, str], list[tuple[Clause, Mark]]] = {}
    closing = int(len(narration.breaths) * CLOSING)
    leaving = int(len(narration.breaths) * LEAVING)
    left = {narration.breath_of(m.first) for m in narration.marks.get("safety", ()) if m.value == "left"}
    gas = any(word in narration.trade.gases for word in narration.words)
    for index, clause in enumerate(clauses):
        for mark in narration.marked("safety", clause.first, clause.last):
            if narration.words[mark.first] == "left" and mark.first in narration.measured:
                continue  # "twelve millimetres left on it"
            if clause.stance != "fact" and not _threatens(narration, clause, mark):
                continue
            if (
                _taken_back(narration, mark, gone)
                or (index in claimed and mark.value not in ("hazard", "test"))
                or _denied(narration, clause, mark)
                or (mark.rule.form == "bare" and not _heads_a_survey(narration, clause, mark))
                or (mark.rule.id == "safety-leak-test" and not gas)
            ):
                continue
            if mark.value == "restored" and clause.breath < closing and clause.breath not in left:
                continue
            if mark.value == "going" and clause.breath < leaving:
                continue
            sort = "state" if mark.value in STATE else mark.rule.name or mark.value
            groups.setdefault((clause.breath, sort), []).append((clause, mark))
    for (breath, _), group in groups.items():
        first, last = group[0][0].first, max(group[-1][0].last, group[-1][1].last)
        if group[0][1].value == "hazard":
            first = _what_is_hazardous(narration, breath, first, last)
        if group[0][1].value == "test":
            last = _with_its_reading(narration, clauses, group[-1][0], last)
        names = [m.rule.name or reported(narration, m.first, m.last) for _, m in group]
        about = "; ".join(dict.fromkeys(names))
        items.append(
            Item(
                about=about,
                text=safety_sentence(narration, first, last),
                evidence=evidence_of(narration, first, last),
            )
        )
    return items


def _with_its_reading(narration: Narration, clauses: list[Clause], tested: Clause, last: int) -> int:
    """Where a test's words end: with what was read, which its sentence may tell in a clause of its own ("Carbon
    monoxide in the kitchen | after a quarter of an hour is two parts per million")."""
    if narration.numbers(tested.first, last):
        return last
    behind = next((c for c in clauses if c.first == last and c.sentence == tested.sentence), None)
    read = behind is not None and behind.stance == "fact" and narration.numbers(behind.first, behind.last)
    return behind.last if behind and read else last


def _threatens(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a hazard is told as what will come of it ("somebody's going to get scalded"), which is no plan."""
    return (
        mark.value == "hazard"
        and clause.stance in ("plan", "general")
        and narration.words[mark.first] in ("going", "gonna", "goin")
    )


def _taken_back(narration: Narration, mark: Mark, gone: frozenset[int]) -> bool:
    """Whether a mark was taken back. Of a test whose breath goes on, only the number was put right."""
    _, last = narration.breaths[narration.breath_of(mark.first)]
    return mark.first in gone and (mark.value != "test" or last - 1 in gone)


def _heads_a_survey(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether "leakage" announces a microwave's survey ("Leakage, door edge, point six milliwatts ...")."""
    first, last = narration.breaths[clause.breath]
    at_head = all(
        word in narration.grammar.openers or word in narration.grammar.articles
        for word in narration.words[clause.first : mark.first]
    )
    return narration.kind == "microwave" and at_head and bool(narration.numbers(first, last))


def _what_is_hazardous(narration: Narration, breath: int, first: int, last: int) -> int:
    """Where a hazard's words start: with its thing, which may have been named before ("Lint. ..., a fire risk")."""
    begin, _ = narration.breaths[breath]
    if things_in(narration, first, last):
        return first
    return begin if things_in(narration, begin, first) or narration.marked("soil", begin, first) else first


def _denied(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether it is denied, only spoken of, said of a part, or somebody else did it ("she's turned it off")."""
    before = narration.words[max(clause.first, mark.first - 3) : mark.first]
    after = narration.words[mark.last : mark.last + 2]
    if mark.rule.name == "anti-tip device":
        return "new" in before or not {"needed", "needs", "wanted"}.isdisjoint(after)  # a part, not a test
    if mark.rule.id == "safety-leak-test" and before[-1:] in (("she",), ("he",), ("they",), ("nobody",)):
        return True  # "she never smelled gas"
    if mark.rule.id == "safety-leak-test" and narration.kind in COLD:
        return True  # the sniffer looks for what cools
    if mark.value not in STATE:
        return False
    if any(m.first == mark.first for m in narration.marked("instrument", mark.first, mark.first + 1)):
        return True  # "the plug-in tester"
    stop = narration.tokens[mark.last - 1].stop
    if (
        narration.words[mark.last - 1] == "wall"
        and not stop
        and not narration.grammar.part_nouns.isdisjoint(after[:1])
    ):
        return True  # "lint out of the wall duct"
    if "before" in before[-2:] or (
        "with" in before
        and not {"left", "leave", "leaving", "kept", "keep"} & set(narration.words[clause.first : mark.first])
    ):
        return True  # "before I pull the plug", "one drip with the power off"
    if (
        mark.value == "restored"
        and narration.words[mark.last - 1] == "on"
        and after[:1]
        and after[0] in ON_WHAT
    ):
        return narration.tokens[mark.last - 1].stop == ""
    if narration.words[mark.first : mark.last] in (("unplugged",), ("unplugged", "it")) and _of_a_part(
        narration, clause, mark
    ):
        return True
    if "even" in before or after[:1] == ("from",):
        return True  # "it holds a charge even with the plug out", "isolated from the cabinet"
    if narration.words[mark.first] in ("pull", "unplug") and after in (("on", "a"), ("on", "any")):
        return True  # "pull the plug on a gas appliance too"
    if narration.words[mark.first] == "unplugged" and any(
        mark.first - m.last <= 1 and not {"plug", "cord"} & set(m.name.name.split())
        for m in narration.named(clause.first, mark.first)
    ):
        return True  # "display harness unplugged"
    subject = narration.words[clause.first : mark.first]
    others = (
        any(word in narration.grammar.others for word in subject)
        and "i" not in subject
        and mark.value == "isolated"
    )
    return others or any(word in narration.grammar.negators for word in before[-2:])


def _of_a_part(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether "unplugged it" speaks of a part with which the sentence began ("Water valve, I unplugged it")."""
    begin = narration.sentence_begins(mark.first)
    named = narration.named(begin, mark.first)
    return (
        bool(named)
        and all(
            word in narration.grammar.openers or word in narration.grammar.articles
            for word in narration.words[begin : named[0].first]
        )
        and narration.words[mark.first : mark.first + 2] == ("unplugged", "it")
    )
