"""The make: the name that the speaker gives to the unit's maker.

A make is no word of the vocabulary, so where it stands decides: behind a word that announces one ("the make is"), as
the unit's name ("it's a ..., model ..."), or right before the model. It bears a capital wherever the text has any; in
text without capitals it is a word that the vocabulary does not know.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from fieldnotes.understand.words.narration import Mark, Narration
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.packs import AppliancePack, PartsFile

PLATE_PART = 0.5  # share of the visit in which the plate is read
SHORTEST = 4  # letters of a make's first word
LONGEST = 3  # words
REACH = 3  # words between an announcement and the make
AGAIN_REACH = 12  # words within which a name is given again
ALIKE = 3  # letters that two wordings of a name begin with
PLATE = ("model", "serial", "plate")


def familiar_words(vocabulary: Vocabulary) -> frozenset[str]:
    """Every word that the vocabulary's phrases use: no make is likely among them."""
    phrases: list[str] = [phrase for rule in vocabulary.rules for phrase in rule.phrases]
    packs: tuple[PartsFile | AppliancePack, ...] = (vocabulary.parts, *vocabulary.packs.values())
    for pack in packs:
        for part in pack.parts:
            phrases += [part.name, *part.spoken, *part.short, *part.misheard]
        for symptom in pack.symptoms:
            phrases += [symptom.name, *symptom.spoken]
        for trial in pack.trials:
            phrases += [trial.name, *trial.spoken]
    phrases += [phrase for pack in vocabulary.packs.values() for phrase in pack.spoken]
    measures = vocabulary.measures
    phrases += [word for unit in measures.units.units for word in unit.said]
    phrases += [word for words in measures.spelling.code_words.values() for word in words]
    phrases += [word for words in vocabulary.grammar.model_dump().values() for word in words]
    for words in (measures.numbers.digits, measures.numbers.teens, measures.numbers.tens):
        phrases += words
    return frozenset(word for phrase in phrases for word in re.findall(r"[a-z']+", phrase.lower()))


def make_in(narration: Narration, familiar: frozenset[str]) -> tuple[int, int] | None:
    """The words [first, last) that name the make; None where none was named."""
    names = _Names(narration, familiar)
    marks = narration.marks.get("make", ())
    found = [
        n
        for m in marks
        if (m.value == "named" or (m.value == "heading" and names.heads(m))) and (n := names.after(m))
    ]
    found += [n for m in marks if m.value == "within" and (n := names.within(m))]
    found += [n for m in marks if m.value == "after" and (n := names.before(m.first))]
    likely = [n for m in marks if m.value == "is a" and (n := names.after(m)) and names.ends_well(n[1])]
    likely += [n for m in marks if m.value == "says" and (n := names.after(m))]
    likely += [n for m in narration.marks.get("model", ()) if (n := names.before(m.first))]
    likely += [
        n for s in narration.spelled if (n := names.before(s.first)) and not names.of_a_serial(s.first)
    ]
    alone = names.alone()
    found = found or sorted(n for n in (*likely, *alone) if names.near_plate(n))
    found = found or sorted(n for n in likely if names.near_plate(n, 1))
    found = found or sorted(n for n in alone if names.heads_plate(n))
    found = found or [n for n in likely if names.before_kind(n[1])]
    end = int(len(narration.breaths) * PLATE_PART) + 1
    made = next((n for n in found if narration.breath_of(n[0]) < end), None)
    return names.mended(made) if made else None


class _Names:
    """Where a make's name can stand in one narration."""

    def __init__(self, narration: Narration, familiar: frozenset[str]) -> None:
        self._narration, self._familiar = narration, familiar
        self._capitals = any(t.capital and len(t.text) > 1 for t in narration.tokens)
        known: Iterable[tuple[int, int]] = [
            *((s.first, s.last) for s in narration.spelled),
            *((q.first, q.last) for q in narration.quantities),
            *((m.first, m.last) for m in (*narration.mentions, *narration.symptoms)),
            *((m.first, m.last) for label in PLATE for m in narration.marks.get(label, ())),
        ]
        self._known = {n for first, last in known for n in range(first, last)}
        if narration.kind_at:
            self._known |= set(range(narration.kind_at.first, narration.kind_at.last))

    def after(self, mark: Mark) -> tuple[int, int] | None:
        """The name that an announcement is followed by: "the make is a ...", "brand name ..."."""
        grammar, words = self._narration.grammar, self._narration.words
        at = mark.last
        if mark.value == "named" and (spoken := self._up_to_model(at)):
            return at, spoken
        while at < min(len(words), mark.last + REACH) and self._same_breath(mark.first, at):
            if self._is_name(at, firm=mark.value in ("named", "heading")):
                return at, self._end(at)
            if words[at] not in grammar.determiners and words[at] not in grammar.openers:
                return None
            at += 1
        return None

    def within(self, mark: Mark) -> tuple[int, int] | None:
        """The name inside of an announcement: "says ... on the fascia"."""
        found = [n for n in range(mark.first + 1, mark.last) if self._is_name(n, firm=False)]
        return (found[0], self._end(found[0])) if found else None

    def mended(self, name: tuple[int, int]) -> tuple[int, int]:
        """The name as it is given again in the same breath ("Fenright, no, Fenwright")."""
        words = self._narration.words
        _, end = self._narration.breaths[self._narration.breath_of(name[0])]
        again = [
            n
            for n in range(name[1], min(end, name[1] + AGAIN_REACH))
            if self._is_name(n, firm=False)
            and words[n] != words[name[0]]
            and words[n][:ALIKE] == words[name[0]][:ALIKE]
        ]
        return (again[-1], self._end(again[-1])) if again else name

    def _up_to_model(self, at: int) -> int | None:
        """Where a name of some words without capitals ends: right before the model ("the make is castle
        beat model ...")."""
        if not self._same_breath(at - 1, at) or self._narration.tokens[at].capital:
            return None
        ends = [m.first for m in self._narration.marked("model", at + 1, at + LONGEST)]
        grammar = self._narration.grammar
        plain = (
            all(
                n not in self._known and w not in grammar.determiners and w not in grammar.prepositions
                for n, w in enumerate(self._narration.words[at : ends[0]], at)
            )
            if ends
            else False
        )
        return ends[0] if plain else None

    def before(self, at: int) -> tuple[int, int] | None:
        """The name that ends at a word, past "and the", "its"."""
        words = self._narration.words
        last = at
        while last > 0 and at - last < REACH and words[last - 1] in ("and", "the", "its", "it", "'s", "that"):
            last -= 1
        if not last or (not self._same_breath(at, last - 1) and not self._sentence(last - 1, last)):
            return None
        if not self._is_name(last - 1, firm=False):
            return None
        first = last - 1
        while self._capitals and self._same_breath(first, first - 1) and self._joins(first - 1):
            first -= 1
        return first, last

    def alone(self) -> list[tuple[int, int]]:
        """Names that are all that stands between two stops, or right behind the kind of appliance."""
        found: list[tuple[int, int]] = []
        kind_at = self._narration.kind_at
        for at in range(len(self._narration.words)):
            if not self._is_name(at, firm=False):
                continue
            end = self._end(at)
            if (
                end < len(self._narration.words)
                and self._narration.words[end] in self._narration.grammar.pronouns
            ):
                continue  # "electric water heater, tall one"
            article = at > 0 and self._narration.words[at - 1] in ("a", "an")
            whole = self._sentence(at - 1, end) if article else self._sentence(at, end)
            if (whole and self._capitals) or (kind_at and kind_at.last == at):
                found.append((at, end))
        return found

    def heads(self, mark: Mark) -> bool:
        """Whether a single word opens its sentence or stands behind "the" ("Make, ...", "the make ...")."""
        words, tokens = self._narration.words, self._narration.tokens
        before = mark.first - 1
        return (
            not self._same_breath(mark.first, before) or words[before] == "the" or bool(tokens[before].stop)
        )

    def ends_well(self, at: int) -> bool:
        """Whether what follows a name lets it be one: a stop, the kind of appliance, or word of the model."""
        narration = self._narration
        if (
            at >= len(narration.words)
            or narration.tokens[at - 1].stop
            or at in self._known
            or self.before_kind(at)
        ):
            return True
        return narration.words[at] in ("and", "it", "that", "with", "so") or not self._same_breath(at - 1, at)

    def before_kind(self, at: int) -> bool:
        """Whether the kind of appliance follows: "it's a Fenwright dishwasher"."""
        kind = (self._narration.kind or "").split()
        return (
            self._capitals and bool(kind) and self._narration.words[at : at + 1] in ((kind[0],), (kind[-1],))
        )

    def of_a_serial(self, at: int) -> bool:
        """Whether a spelled string at a word is a serial number: what stands before it names nothing."""
        first, _ = self._narration.breaths[self._narration.breath_of(at)]
        return bool(self._narration.marked("serial", first, at))

    def near_plate(self, name: tuple[int, int], ahead: int = 0) -> bool:
        """Whether the plate or the model is spoken of in the breath of a name, or up to `ahead` breaths later."""
        narration = self._narration
        breath = narration.breath_of(name[0])
        first = narration.breaths[breath][0]
        last = narration.breaths[min(breath + ahead, len(narration.breaths) - 1)][1]
        spoken = any(narration.marked(label, first, last) for label in ("model", "plate"))
        return spoken or any(name[1] <= s.first < last for s in narration.spelled)

    def heads_plate(self, name: tuple[int, int]) -> bool:
        """Whether the model follows in the next breath on a name that is a breath of its own or said with the kind."""
        narration, kind_at = self._narration, self._narration.kind_at
        first, last = narration.breaths[narration.breath_of(name[0])]
        with_kind = kind_at is not None and first <= kind_at.first < last
        return (name == (first, last) or with_kind) and self.near_plate(name, 1)

    def _is_name(self, at: int, firm: bool) -> bool:
        """`firm`: it was announced in so many words."""
        narration = self._narration
        token, grammar = narration.tokens[at], narration.grammar
        if len(token.text) < SHORTEST or not token.text.isalpha() or at in self._known:
            return False
        if token.text in grammar.months or token.text in grammar.days or token.text in grammar.seasons:
            return False
        strange = token.text not in self._familiar and token.text.removesuffix("s") not in self._familiar
        if firm:
            return token.capital or strange
        return strange and (token.capital or not self._capitals)

    def _joins(self, at: int) -> bool:
        """Whether a word belongs to the name that follows it: it has a capital, and no stop parts them."""
        token = self._narration.tokens[at]
        opens = at == 0 or bool(self._narration.tokens[at - 1].stop) or not self._same_breath(at, at - 1)
        named = self._is_name(at, firm=not opens)  # at the head of a sentence any word has a capital
        return token.capital and not token.stop and named

    def _end(self, at: int) -> int:
        """The word after a name of several words with capitals ("Brock Lett", "Brock and Lett")."""
        tokens, last = self._narration.tokens, at + 1
        if tokens[at].capital and self._is_partner(last):
            last += 2
        while (
            tokens[at].capital
            and last < min(len(tokens), at + LONGEST)
            and self._same_breath(at, last)
            and not tokens[last - 1].stop
            and tokens[last].capital
            and tokens[last].text.isalpha()
            and len(tokens[last].text) > 1
            and last not in self._known
        ):
            last += 1
        return last

    def _is_partner(self, at: int) -> bool:
        """Whether "and" and a second name follow, in the same breath and with no stop before them."""
        tokens = self._narration.tokens
        return (
            self._same_breath(at - 1, at + 1)
            and tokens[at].text == "and"
            and not tokens[at - 1].stop
            and not tokens[at].stop
            and tokens[at + 1].capital
            and self._is_name(at + 1, firm=True)
        )

    def _same_breath(self, one: int, other: int) -> bool:
        breath_of, size = self._narration.breath_of, len(self._narration.words)
        return 0 <= other < size and breath_of(one) == breath_of(other)

    def _sentence(self, first: int, last: int) -> bool:
        """Whether [first, last) is all that is said between two stops or pauses."""
        tokens = self._narration.tokens
        opens = first == 0 or bool(tokens[first - 1].stop) or not self._same_breath(first, first - 1)
        return opens and (bool(tokens[last - 1].stop) or not self._same_breath(last - 1, last))
