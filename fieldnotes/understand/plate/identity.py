"""The unit: kind, make, model, serial, and when it was bought."""

from __future__ import annotations

import re

from fieldnotes.records import Appliance, Evidence
from fieldnotes.tidy.spelled import spell
from fieldnotes.tidy.text import Spelled
from fieldnotes.understand.evidence import evidence_of
from fieldnotes.understand.plate.listed_makes import ListedMakes
from fieldnotes.understand.plate.makes import make_in
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.vocabulary.measures import Measures

REACH = 20  # words between "model" and its first letter ("let me read it, it's under the lid, ...")
PLATE_PART = 0.5  # share of the visit in which the plate is read
SHORTEST_MODEL = 4
SHORTEST_SERIAL = 6  # digits of a serial number that was said in pairs
PAIRS_REACH = 12  # words after "serial" in which such a number stands
NAMED_AFTER = 4  # words between a spelled string and "that's the model"
NUMBER_WITHIN = (
    3  # breaths behind a string in which it is given anew, or behind the model the serial number read
)
AGAIN_WITHIN = 6  # breaths within which a number is read once more without saying so
START = 3  # characters by which a string is known to be the same one
DATE_REACH = 4  # breaths after the plate in which a date is that of the purchase
HEAD = 3  # words that the letters at the head of a string may have become
UNSURE = 0.5  # confidence of a string that may lack its head: the report asks to check it
YEARS = range(1950, 2100)


def identity_in(
    narration: Narration,
    clauses: list[Clause],
    familiar: frozenset[str],
    listed: ListedMakes,
    measures: Measures,
) -> tuple[Appliance, frozenset[int]]:
    """The appliance, and the indices of the clauses that only identify it. `familiar`: words that are no
    make; `listed`: the shop's own."""
    fields: dict[str, str | None] = {}
    evidence: dict[str, Evidence] = {}
    used: set[int] = set()

    def keep(name: str, value: str, first: int, last: int) -> None:
        fields[name] = value
        evidence[name] = evidence_of(narration, first, last)
        used.update(n for n, c in enumerate(clauses) if c.first < last and first < c.last)

    def keep_string(name: str, spelled: Spelled, first: int) -> None:
        keep(name, spelled.text, first, spelled.last)
        heard = [token.confidence for token in narration.tokens[spelled.first : spelled.last]]
        sure = round(sum(heard) / len(heard), 3)  # that "model" was heard well says nothing of its letters
        evidence[name] = evidence[name].model_copy(update={"confidence": sure})
        if not spelled.sure or spelled.text.isalpha():
            lower(name)

    def lower(name: str) -> None:
        sure = min(evidence[name].confidence, UNSURE)
        evidence[name] = evidence[name].model_copy(update={"confidence": sure})

    taken: set[Spelled] = set()
    read_at: dict[str, int] = {}
    for name in ("serial", "model"):
        for mark in narration.marks.get(name, ()):
            spelled = (
                _before(narration, mark, taken)
                or _after(narration, mark, taken)
                or (_in_pairs(narration, mark, measures) if name == "serial" and name not in fields else None)
            )
            if spelled and name in fields and _is_of_a_part(narration, mark, read_at[name]):
                continue
            if spelled:
                read_at[name] = narration.breath_of(mark.first)
                taken.add(spelled)
                keep_string(name, spelled, mark.first)
                if _may_lack_its_head(narration, mark, spelled):
                    lower(name)
    for spelled in list(taken):
        if again := _given_anew(narration, spelled, taken):
            taken.add(again)
            name = next(name for name, value in fields.items() if value == spelled.text)
            keep_string(name, again, again.first)
    if "model" not in fields and (spelled := _unannounced_model(narration, taken)):
        taken.add(spelled)
        keep_string("model", spelled, spelled.first)
    if "serial" not in fields and "model" in fields and (number := _second_number(narration, taken)):
        taken.add(number)
        keep_string("serial", number, number.first)
    make = make_in(narration, familiar)
    if known := listed.told_in(narration, make):
        keep("make", known.make, known.first, known.last)
        if not known.sure:
            lower("make")
    elif make:
        keep("make", _name(narration, *make), *make)
    if bought := _purchase(narration, clauses):
        value, first, last = bought
        keep("purchased", value, first, last)
    plates = {narration.breath_of(s.first) for s in taken}
    used |= {n for n, c in enumerate(clauses) if c.breath in plates and not narration.named(c.first, c.last)}
    if narration.kind_at:
        evidence["kind"] = evidence_of(narration, narration.kind_at.first, narration.kind_at.last)
    appliance = Appliance(
        kind=narration.kind,
        kind_inferred=narration.kind is not None and narration.kind_at is None,
        make=fields.get("make"),
        model=fields.get("model"),
        serial=fields.get("serial"),
        purchased=fields.get("purchased"),
        evidence=evidence,
    )
    return appliance, frozenset(used)


def _is_of_a_part(narration: Narration, cue: Mark, told: int) -> bool:
    """Whether a number long after the plate was read is a part's ("on this model only the whole pump, ..."): it is
    not said to be read anew. `told`: the breath in which the unit's was read."""
    breath = narration.breath_of(cue.first)
    opening = narration.words[slice(*narration.breaths[breath])][:3]
    return breath > told + AGAIN_WITHIN and narration.trade.given_anew.isdisjoint(opening)


def _after(narration: Narration, cue: Mark, taken: set[Spelled]) -> Spelled | None:
    """The spelled string that a cue announces: the next one, unless another cue comes before it."""
    others = [
        m.first
        for label in ("model", "serial", "part number")
        for m in narration.marks.get(label, ())
        if m.first > cue.last
    ]
    for spelled in narration.spelled:
        if spelled.first >= cue.last and spelled not in taken:
            near = spelled.first - cue.last <= REACH
            between = [n for n in others if n <= spelled.first]
            return spelled if near and not between and len(spelled.text) >= 3 else None
    return None


def _may_lack_its_head(narration: Narration, cue: Mark, spelled: Spelled) -> bool:
    """Whether words that are no plain English stand between the cue and the string: letters that were misheard
    ("serial, Amazon mic, 441920")."""
    grammar, plain = narration.grammar, narration.trade.around_the_plate
    between = [
        w
        for w in narration.words[cue.last : max(cue.last, spelled.first)]
        if w not in grammar.openers and w not in grammar.determiners and w not in grammar.being
    ]
    return 0 < len(between) <= HEAD and not any(w in grammar.verbs or w in plain for w in between)


def _before(narration: Narration, cue: Mark, taken: set[Spelled]) -> Spelled | None:
    """The spelled string that a cue names afterwards: "seven four one G R, that's the model"."""
    first, last = narration.breaths[narration.breath_of(cue.first)]
    ended = cue.last == last or bool(narration.tokens[cue.last - 1].stop)
    ahead = [s for s in narration.spelled if first <= s.first and 0 <= cue.first - s.last <= NAMED_AFTER]
    opens = ahead and not any(
        first <= m.first < ahead[-1].first
        for label in ("model", "serial", "part number", "code cue")
        for m in narration.marks.get(label, ())
    )
    return ahead[-1] if ended and opens and ahead[-1] not in taken else None


def _given_anew(narration: Narration, spelled: Spelled, taken: set[Spelled]) -> Spelled | None:
    """The string as it is given again soon behind it, where a word between the two takes the first one back."""
    breath = narration.breath_of(spelled.first)
    for other in narration.spelled:
        near = 0 < narration.breath_of(other.first) - breath <= NUMBER_WITHIN
        if near and other.first >= spelled.last and other not in taken and _is_same(spelled, other):
            first, _ = narration.breaths[breath + 1]
            between = narration.words[first : other.first + 1]
            return None if narration.trade.given_anew.isdisjoint(between) else other
    return None


def _is_same(spelled: Spelled, other: Spelled) -> bool:
    """Whether a string can be another one said again, perhaps with other characters behind its start."""
    return other.text[:START] == spelled.text[:START] and len(other.text) >= len(spelled.text) - 1


def _second_number(narration: Narration, taken: set[Spelled]) -> Spelled | None:
    """A long string that no word announces, right after the model: the serial number."""
    after = max(s.last for s in taken)
    breath = narration.breath_of(after - 1)
    for spelled in narration.spelled:
        at = narration.breath_of(spelled.first)
        if spelled.first < after or at > breath + NUMBER_WITHIN:
            continue
        first, last = narration.breaths[at]
        other = (
            narration.marked("part number", first, last)
            or narration.marked("code cue", first, last)
            or not narration.trade.other_numbers.isdisjoint(narration.words[first : spelled.first])
        )
        digits = sum(map(str.isdigit, spelled.text))
        return spelled if not other and len(spelled.text) > SHORTEST_SERIAL and digits >= 5 else None
    return None


def _in_pairs(narration: Narration, cue: Mark, measures: Measures) -> Spelled | None:
    """A serial number of nothing but digits, said in pairs: "sixty one, sixty six, oh seven four"."""
    _, end = narration.breaths[narration.breath_of(cue.first)]
    spelled = spell(narration.tokens, cue.last, min(cue.last + PAIRS_REACH, end), measures)
    return spelled if spelled and len(spelled.text) >= SHORTEST_SERIAL else None


def _unannounced_model(narration: Narration, taken: set[Spelled]) -> Spelled | None:
    """A string of letters and digits said beside the make or the plate without the word "model"."""
    end = int(len(narration.breaths) * PLATE_PART) + 1
    for spelled in narration.spelled:
        breath = narration.breath_of(spelled.first)
        mixed = bool(re.search(r"[A-Z]", spelled.text)) and bool(re.search(r"\d", spelled.text))
        known = spelled in taken or any(_is_same(other, spelled) for other in taken)
        if known or breath > end or not mixed or len(spelled.text) < SHORTEST_MODEL:
            continue
        first, last = narration.breaths[breath]
        if narration.marked("part number", first, last) or narration.marked("code cue", first, last):
            continue
        return spelled
    return None


def _name(narration: Narration, first: int, last: int) -> str:
    """A name as it is written, with a capital."""
    heard = [token.heard.strip(".,;:!?'\"").removesuffix("'s") for token in narration.tokens[first:last]]
    name = " ".join(word if word == "and" else word[:1].upper() + word[1:] for word in heard)
    several = narration.words[max(0, first - 2) : first] in (("of", "them"), ("of", "those"), ("of", "these"))
    return name.removesuffix("s") if several else name


def _purchase(narration: Narration, clauses: list[Clause]) -> tuple[str, int, int] | None:
    for mark in narration.marks.get("purchased", ()):
        clause = next(c for c in clauses if c.first <= mark.first < c.last)
        if clause.stance in ("hypothetical", "question") or narration.named(clause.first, mark.first):
            continue  # "the compressor is two years old" says nothing of the unit
        aged = narration.words[mark.last - 1] in narration.trade.aged
        if aged and (
            clause.breath > len(narration.breaths) * PLATE_PART
            or narration.words[clause.first] == "i"
            or narration.marked("bystander", clause.first, mark.last)
        ):
            continue  # nor does "I'm sixty years old"
        first, last = narration.breaths[clause.breath]
        value, end = _date_in(narration, max(first, mark.first - 8), last)
        if value:
            return value, mark.first if mark.first < end else first, max(end, mark.last)
    return _dated_near_plate(narration, clauses)


def _dated_near_plate(narration: Narration, clauses: list[Clause]) -> tuple[str, int, int] | None:
    """A month or season with its year, said among the breaths that read the plate: when it was bought, where nothing
    says that it is the date of something else."""
    plates = [
        narration.breath_of(m.first) for label in ("model", "serial") for m in narration.marks.get(label, ())
    ]
    for clause in clauses:
        if not any(0 <= clause.breath - plate <= DATE_REACH for plate in plates) or clause.stance != "fact":
            continue
        first, last = narration.breaths[clause.breath]
        words = narration.words[first:last]
        if any(w in narration.trade.other_dates for w in words) or narration.named(first, last):
            continue
        dated = any(w in narration.grammar.months or w in narration.grammar.seasons for w in words)
        value, end = _date_in(narration, clause.first, clause.last)
        if dated and value and value.split()[-1].isdigit():
            return value, clause.first, end
    return None


def _period(narration: Narration, at: int, last: int) -> tuple[int, int] | None:
    """The words of "three years ago", or of "six years" where the breath ends with it, around the word "years"."""
    count = next((q.first for q in narration.quantities if q.last == at), None)
    if not narration.trade.ago.isdisjoint(narration.words[at + 1 : at + 2]):
        return (at - 1 if count is None else count), at + 2
    return (count, at + 1) if count is not None and at + 1 == last else None


def _date_in(narration: Narration, first: int, last: int) -> tuple[str, int]:
    """A month, season or year, or an age, as it would be written: "March 2021", "three years ago"."""
    words, grammar = narration.words, narration.grammar
    kept: list[str] = []
    end = first
    at = first
    while at < last:
        year = next(
            (q for q in narration.quantities if q.first == at and q.value in YEARS and q.unit is None), None
        )
        if year:
            kept.append(str(int(year.value)))
            at = end = year.last
        elif words[at] in grammar.months or words[at] in grammar.seasons:
            kept.append(words[at].capitalize())
            at = end = at + 1
        elif (
            words[at] in narration.trade.periods and at > first and (counted := _period(narration, at, last))
        ):
            kept += words[max(first, counted[0]) : counted[1]]
            at = end = counted[1]
        elif (
            words[at] in ("last", "this", "early", "late")
            and words[at + 1 : at + 2]
            and (
                words[at + 1] in grammar.months or words[at + 1] in grammar.seasons or words[at + 1] == "year"
            )
        ):
            kept.append(words[at])
            if words[at + 1] == "year":
                kept.append("year")
                end = at + 2
            at += 1
        else:
            at += 1
    return " ".join(kept), end
