"""How alike two words sound, by their letters: enough to know "Dolph Mike" for golf and mike, not for names at large.

A word becomes a string of sounds, one sign each; vowels count little, and consonants that are made in the same
place of the mouth are near to each other.
"""

from __future__ import annotations

import re
from functools import lru_cache

LENGTHS = 3  # by so many sounds may two words be longer or shorter than what was heard
_ALIKE = ("bpfv", "dtkg", "mn", "szc", "lr", "gj")  # of each group any two are near
_NEAR = frozenset(a + b for group in _ALIKE for a in group for b in group if a != b)
_NEAR_COST, _LOST_VOWEL, _LOST = 0.5, 0.35, 1.0
_SPELLINGS = (
    (r"[^a-z]", ""), (r"ph", "f"), (r"ck|q(u?)", "k"), (r"tch|ch", "j"), (r"sh|tio|ti(?=a)", "s"), (r"x", "ks"),
    (r"c(?=[eiy])", "s"), (r"c", "k"), (r"mb$", "m"), (r"wh", "w"), (r"th", "t"), (r"(?<=[aeiou])h", ""),
    (r"gh", ""), (r"z", "s"), (r"e$", ""), (r"(.)\1+", r"\1"), (r"[aeiouy]+", "a"),
)  # fmt: skip


@lru_cache(maxsize=4096)
def sounds_of(word: str) -> str:
    """Sounds of one or more words: "victor sierra" -> "vaktarsara". All vowels are alike."""
    text = word.lower().replace(" ", "")
    for spelling, sound in _SPELLINGS:
        text = re.sub(spelling, sound, text)
    return text


@lru_cache(maxsize=65536)
def unlikeness(one: str, other: str) -> float:
    """0 for words that sound the same; about 1 where no consonant agrees."""
    a, b = sounds_of(one), sounds_of(other)
    size = max(len(a.replace("a", "")), len(b.replace("a", "")), 1)
    return _distance(a, b) / size


@lru_cache(maxsize=4096)
def nearest_code_words(said: str, alphabet: tuple[tuple[str, str], ...]) -> tuple[float, str]:
    """The one or two code words that a text sounds most like, as letters, and how unlike they are."""
    one = min((unlikeness(said, word), letter) for letter, word in alphabet)
    if len(said) < 7 or one[0] == 0:
        return one
    heard = sounds_of(said)
    pairs = (
        (x + y, f"{a} {b}")
        for x, a in alphabet
        if _changed(heard[0], sounds_of(a)[0]) < _LOST
        for y, b in alphabet
        if abs(len(sounds_of(a) + sounds_of(b)) - len(heard)) <= LENGTHS
    )
    two = min(((unlikeness(said, words), letters) for letters, words in pairs), default=one)
    return min(one, two)


def _distance(a: str, b: str) -> float:
    """Weighted edit distance of two strings of sounds."""
    row = [0.0]
    for sign in b:
        row.append(row[-1] + _lost(sign))
    for left in a:
        above, row = row, [row[0] + _lost(left)]
        for n, right in enumerate(b):
            row.append(
                min(above[n] + _changed(left, right), above[n + 1] + _lost(left), row[n] + _lost(right))
            )
    return row[-1]


def _lost(sound: str) -> float:
    return _LOST_VOWEL if sound == "a" else _LOST


def _changed(one: str, other: str) -> float:
    if one == other:
        return 0.0
    return _NEAR_COST if one + other in _NEAR else _LOST
