"""The small language in which vocabulary phrases are written.

`a|b` one of several words, `word?` may be missing, `(two words|one)` a group, `(as well)?` an optional group.
In rules of vocab/rules/ also: `*` any one word, `*3` up to three words, `<part>` a named part or condition,
`<number>` a number that was said. Example: `(there's|there is) no (play|slack) in the? <part>`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

from fieldnotes.words import split_words

SLOTS = ("<part>", "<number>")
MAX_WORDINGS = 2000
_LEX = re.compile(r"\(|\)\??|\||<[a-z]+>\??|\*\d*|[^\s()|?*]+\??")
Form = tuple[str, ...]


class PhraseMistake(ValueError):
    """A phrase that does not follow the language of this module."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One place in a phrase: alternatives, each a sequence of words, slots and further choices."""

    alternatives: tuple[Sequence, ...]
    optional: bool = False


Sequence = tuple["str | Choice", ...]


@lru_cache(maxsize=50_000)
def parse(phrase: str) -> Sequence:
    """The phrase as a sequence of words, slots (`<part>`, `*`, `*3`) and choices. Raises PhraseMistake."""
    pieces = _LEX.findall(phrase)
    if "".join(pieces) != re.sub(r"\s+", "", phrase):
        raise PhraseMistake(f"phrase {phrase!r} has a sign that means nothing here")
    found, rest = _sequence(pieces, phrase)
    if rest:
        raise PhraseMistake(f"phrase {phrase!r}: a bracket closes that was not opened")
    if _can_be_empty(found):
        raise PhraseMistake(f"phrase {phrase!r} can be empty")
    return found


def wordings(phrase: str) -> tuple[Form, ...]:
    """All word sequences that a phrase without slots stands for.

    >>> wordings("no (play|slack) in the?")
    (('no', 'play', 'in', 'the'), ('no', 'play', 'in'), ('no', 'slack', 'in', 'the'), ('no', 'slack', 'in'))
    """
    forms = tuple(dict.fromkeys(_forms(parse(phrase))))
    if len(forms) > MAX_WORDINGS:
        raise PhraseMistake(f"phrase {phrase!r} stands for {len(forms)} wordings; split it")
    if any(is_slot(word) for form in forms for word in form):
        raise PhraseMistake(f"phrase {phrase!r}: slots are for rules, not for names of things")
    return forms


def is_slot(element: str) -> bool:
    """Whether an element of a parsed phrase is a slot rather than a word."""
    return element in SLOTS or element.startswith("*")


def _forms(sequence: Sequence) -> list[Form]:
    places: list[list[Form]] = []
    for element in sequence:
        if isinstance(element, str):
            places.append([(element,)])
        else:
            forms = [form for alternative in element.alternatives for form in _forms(alternative)]
            places.append([*forms, ()] if element.optional else forms)
    return [tuple(word for form in combination for word in form) for combination in product(*places)]


def _can_be_empty(sequence: Sequence) -> bool:
    return all(
        element.optional or any(_can_be_empty(a) for a in element.alternatives)
        if isinstance(element, Choice)
        else element.startswith("*")
        for element in sequence
    )


def _sequence(pieces: list[str], phrase: str) -> tuple[Sequence, list[str]]:
    """Reads up to a closing bracket or a `|` inside one. Outside brackets `a|b c` means (a|b) c."""
    found: list[str | Choice] = []
    while pieces and not pieces[0].startswith(")"):
        elements, pieces = _element(pieces, phrase)
        if not (pieces and pieces[0] == "|"):
            found += elements
            continue
        alternatives = [elements]
        while pieces and pieces[0] == "|":
            if len(pieces) < 2:
                raise PhraseMistake(f"phrase {phrase!r} ends in |")
            elements, pieces = _element(pieces[1:], phrase)
            alternatives.append(elements)
        found.append(Choice(tuple(alternatives)))
    return tuple(found), pieces


def _element(pieces: list[str], phrase: str) -> tuple[Sequence, list[str]]:
    piece, rest = pieces[0], pieces[1:]
    if piece == "(":
        return _group(rest, phrase)
    if piece == "|":
        raise PhraseMistake(f"phrase {phrase!r} has | without a word before it")
    bare = piece.removesuffix("?")
    if bare.startswith("<") and bare not in SLOTS:
        raise PhraseMistake(f"phrase {phrase!r}: {bare} is no slot; there are {', '.join(SLOTS)}")
    words: Sequence = (bare,) if is_slot(bare) else tuple(split_words(bare))
    return ((Choice((words,), optional=True),) if piece.endswith("?") else words), rest


def _group(pieces: list[str], phrase: str) -> tuple[Sequence, list[str]]:
    """A bracket: alternatives of several words each, up to the bracket that closes it."""
    alternatives: list[Sequence] = []
    branch: list[str] = []
    depth = 0
    for position, piece in enumerate(pieces):
        if depth == 0 and (piece == "|" or piece.startswith(")")):
            found, _ = _sequence(branch, phrase)
            alternatives.append(found)
            branch = []
            if piece != "|":
                return (Choice(tuple(alternatives), piece.endswith("?")),), pieces[position + 1 :]
        else:
            depth += (piece == "(") - piece.startswith(")")
            branch.append(piece)
    raise PhraseMistake(f"phrase {phrase!r}: a bracket is not closed")
