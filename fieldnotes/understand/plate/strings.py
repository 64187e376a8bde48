"""Model and serial number: which of the spelled strings they are, and how sure each is."""

from __future__ import annotations

import re
from dataclasses import dataclass

from fieldnotes.tidy.spelled import spell
from fieldnotes.tidy.text import Spelled
from fieldnotes.understand.evidence import GUESSED
from fieldnotes.understand.plate.makes import PLATE_PART
from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.vocabulary.measures import Measures

REACH = 20  # words between "model" and its first letter ("let me read it, it's under the lid, ...")
SHORTEST_MODEL = 4
SHORTEST_SERIAL = 6  # digits of a serial number that was said in pairs
PAIRS_REACH = 12  # words after "serial" in which such a number stands
NAMED_AFTER = 4  # words between a spelled string and "that's the model"
# Breaths behind a string in which it is given anew, or behind the model the serial number read.
NUMBER_WITHIN = 3
AGAIN_WITHIN = 6  # breaths within which a number is read once more without saying so
START = 3  # characters by which a string is known to be the same one
HEAD = 3  # words that the letters at the head of a string may have become


@dataclass(frozen=True, slots=True)
class PlateString:
    """The model or serial number, and the words [first, last) that tell it. `confidence` is that of its characters:
    that "model" was heard well says nothing of its letters."""

    text: str
    first: int
    last: int
    confidence: float


def strings_of(narration: Narration, measures: Measures) -> tuple[dict[str, PlateString], frozenset[Spelled]]:
    """What was read off the plate, by "model" and "serial", and every spelled string that was taken for either."""
    found: dict[str, PlateString] = {}
    told: dict[str, Spelled] = {}
    read_at: dict[str, int] = {}
    taken: set[Spelled] = set()

    def keep(name: str, spelled: Spelled, first: int, *, whole: bool = True) -> None:
        taken.add(spelled)
        told[name] = spelled
        heard = [token.confidence for token in narration.tokens[spelled.first : spelled.last]]
        sure = round(sum(heard) / len(heard), 3)
        if not whole or not spelled.sure or spelled.text.isalpha():
            sure = min(sure, GUESSED)
        found[name] = PlateString(spelled.text, first, spelled.last, sure)

    for name in ("serial", "model"):
        for mark in narration.marks.get(name, ()):
            spelled = _before(narration, mark, taken) or _after(narration, mark, taken)
            if not spelled and name == "serial" and name not in told:
                spelled = _in_pairs(narration, mark, measures)
            if not spelled or (name in told and _is_of_a_part(narration, mark, read_at[name])):
                continue
            read_at[name] = narration.breath_of(mark.first)
            keep(name, spelled, mark.first, whole=not _may_lack_its_head(narration, mark, spelled))
    for name, spelled in list(told.items()):
        if again := _given_anew(narration, spelled, taken):
            keep(name, again, again.first)
    if "model" not in told and (spelled := _unannounced_model(narration, taken)):
        keep("model", spelled, spelled.first)
    if "serial" not in told and "model" in told and (spelled := _second_number(narration, taken)):
        keep("serial", spelled, spelled.first)
    return found, frozenset(taken)


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
