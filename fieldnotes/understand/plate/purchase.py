"""When the unit was bought: as it was said, or a date among the breaths that read the plate."""

from __future__ import annotations

from fieldnotes.understand.plate.makes import PLATE_PART
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Narration

DATE_REACH = 4  # breaths after the plate in which a date is that of the purchase
YEARS = range(1950, 2100)


def purchase_in(narration: Narration, clauses: list[Clause]) -> tuple[str, int, int] | None:
    """The date or age, and the words that tell it."""
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
