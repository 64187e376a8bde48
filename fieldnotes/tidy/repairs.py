"""A spelled string under way, and how the speaker mends it: what is said again replaces what it resembles."""

from __future__ import annotations

from fieldnotes.tidy.characters import Characters

SHORTEST = 3  # characters of a string that no word like "model" announces
_START = 2  # characters by which a string is known to be begun again
_ENOUGH = 0.5  # share of equal characters that makes one group a new wording of another


class SpelledString:
    """Groups of characters between stops. After a "repair" the next one replaces what it resembles."""

    def __init__(self) -> None:
        self._groups: list[str] = []
        self._marker = ""
        self._before_reread: str | None = None
        self._just_mended = ""
        self._given_up = False
        self._before_repair = ""
        self._mended_at = 0  # group from which on characters were said one by one to mend what stood before
        self.open = ""  # characters since the last stop
        self.last = 0
        self.repaired = False
        self.one_by_one = True

    @property
    def text(self) -> str:
        return "".join(self._groups) + self.open

    @property
    def sounding(self) -> str:
        """What the next character is heard after; never empty once something was read."""
        return self.text

    def add(self, here: Characters, marker: str) -> None:
        if self._given_up:
            return
        if not self.open:
            self._marker = marker
        self.open += here.text
        self.one_by_one = self.one_by_one and here.one_by_one
        self._end = here.last
        if not self._marker:
            self.last = here.last

    def close(self) -> None:
        """Ends the group under way, and settles what it replaces."""
        group, marker = self.open, self._marker
        self.open, self._marker = "", ""
        if not group or self._given_up:
            return
        whole = "".join(self._groups)
        if marker == "again" and whole and group == self._groups[-1]:
            pass  # "three hundred, spelt out as three zero zero"
        elif marker == "again" and whole:
            if not _same_start(whole, group):
                self._given_up = True  # something else is being spelled
                return
            self._before_reread, self._groups = whole, [group]
        elif marker == "repair" and whole:
            self._before_repair = whole
            self._mend(group)
            self._mended_at = len(self._groups) - 1 if len(group) == 1 and self._groups[-1] == group else 0
            self.repaired, self._just_mended = True, group
        elif marker == "halt" and whole and _begun_again(self._groups[-1], group):
            self._groups[-1], self.repaired = group, True
        elif not (group == self._just_mended and len(group) > 1):  # "no, three zeros, triple zero"
            self._groups.append(group)
            self._just_mended = ""
        self.last = self._end

    def finish(self) -> None:
        """Ends the string. One that was begun again but not finished stands as first given."""
        self.close()
        if self._before_reread is not None:
            now = "".join(self._groups)
            if self._before_reread.startswith(now):
                self._groups = [self._before_reread]
            elif not now.startswith(self._before_reread):
                self.repaired = True
        if self._mended_at:
            self._groups = (
                _said_again(self._before_repair, "".join(self._groups[self._mended_at :])) or self._groups
            )
        if self.repaired:
            self._groups = _from_the_last_start(self._groups)

    def end_with(self, right: str, wrong: str, last: int) -> None:
        """Puts the last character right: replaces `wrong` where the string ends in it."""
        self.close()
        whole = "".join(self._groups)
        if wrong and whole.endswith(wrong):
            self._groups, self.repaired = [whole[: -len(wrong)] + right], True
        elif not whole.endswith(right):
            self._groups.append(right)
        self.last = self._end = last

    def _mend(self, group: str) -> None:
        whole, before = "".join(self._groups), self._groups[-1]
        if before.startswith(group) and len(group) > 1:  # "two six, two six six, no, just two six"
            self._groups = (
                [*self._groups[:-1], group] if self._groups[-2:-1] != [group] else self._groups[:-1]
            )
        elif len(group) > _START and group[:_START] == whole[:_START] and len(group) * 2 >= len(whole):
            self._groups = [group]  # begun anew
        elif len(group) >= len(whole) and _alike(whole, group[: len(whole)]) >= _ENOUGH:
            self._groups = [group]
        elif _alike(before, group[: len(before)]) >= _ENOUGH and len(group) >= len(before):
            self._groups[-1] = group
        else:
            self._groups = _replace_ending(whole, group) or [*self._groups[:-1], group]


def _from_the_last_start(groups: list[str]) -> list[str]:
    """The groups less what a repair began anew from the first characters on ("D W six two S, S, no, D W six two S")."""
    whole = "".join(groups)
    for n in range(len(groups) - 1, 0, -1):
        rest = "".join(groups[n:])
        if len(rest) > _START and rest[:_START] == whole[:_START] and len(rest) * 2 >= len(whole) - 1:
            return groups[n:]
    return groups


def _said_again(before: str, again: str) -> list[str] | None:
    """A string of which some last characters were said once more, one by one ("..., X, four, two, seven, excuse me,
    four, two, nine"); None where they do not resemble its ending."""
    size = min(len(before), len(again))
    ending = before[len(before) - size :]
    if size < _START or ending[0] != again[0] or _alike(ending, again[:size]) < _ENOUGH:
        return None
    return [before[: len(before) - size], again]


def _replace_ending(whole: str, group: str) -> list[str] | None:
    """The whole with its ending replaced by the group that resembles it best; None where none does."""
    sizes = range(1, min(len(whole), len(group)) + 1)
    equal = {n: _alike(whole[-n:], group[:n]) * n for n in sizes}
    fitting = [n for n in sizes if equal[n] >= _ENOUGH * n]
    if fitting:
        size = max(fitting, key=lambda n: (equal[n], -n))
        return [whole[:-size], group]
    if len(group) < len(whole) and group.isdigit() == whole[-len(group) :].isdigit():
        return [whole[: -len(group)], group]
    return None


def _begun_again(before: str, group: str) -> bool:
    """ "Five one, hang on, five seven, ...": the group was begun once more."""
    return (
        1 < len(before) <= len(group)
        and before[0] == group[0]
        and _alike(before, group[: len(before)]) >= _ENOUGH
    )


def _alike(one: str, other: str) -> float:
    """Share of places at which two strings of about one length agree."""
    if not one or not other:
        return 0.0
    return sum(a == b for a, b in zip(one, other, strict=False)) / max(len(one), len(other))


def _same_start(one: str, other: str) -> bool:
    size = min(len(one), len(other))
    return _alike(one[:size], other[:size]) > _ENOUGH
