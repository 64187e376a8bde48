"""Where the recogniser was not sure, names of the trade that sound alike are held against the sound itself.

The recogniser is asked how probable the text is, once as it was heard and once with a name in the place of what
sounds like it. The name has to bring more than it costs: a long name that hardly lowers the probability is
surely meant, as no ordinary words come so near to it by chance.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from fieldnotes.hear.terms import Near, Terms

Text = Sequence[str]  # words with their punctuation
# Of each text, the natural logarithms of its tokens' probabilities, word by word.
Judge = Callable[[Sequence[Text]], Sequence[Sequence[Sequence[float]]]]

DOUBTFUL = math.log(0.5)  # log-probability of a word's least sure token under which it is looked at again
BEHIND = 3  # words after a span that tell whether the text goes on well
MOST_TEXTS = 2  # alternatives that are tried at one place
# A name is taken when (log-probability gained) + (mean log-probability of the name's tokens) + (its letters,
# up to MOST_LETTERS) reaches ENOUGH. Fitted on 1,759 candidates from sixteen spoken narrations, clean and in two
# noises at 10 dB: of the 25 that it takes there, 19 mend a word or more, and all together mend 25 words.
ENOUGH, MOST_LETTERS = 4.0, 14


@dataclass(frozen=True, slots=True)
class _Tried:
    """A candidate in its text: its words there are `first` up to `last`."""

    near: Near
    first: int
    last: int


def looked_at_again(words: Text, scores: Sequence[Sequence[float]], terms: Terms, judge: Judge) -> list[Near]:
    """The names to be put in the place of what was heard, in order, none within another.

    `scores`: log-probabilities of the words' tokens, as of a Judge.
    """
    doubtful = [min(each, default=0.0) < DOUBTFUL for each in scores]
    places = _places(terms.near(words, doubtful))
    if not places:
        return []
    texts = [
        _with(words, [place[n] for place in places if n < len(place)]) for n in range(max(map(len, places)))
    ]
    best: dict[int, tuple[float, Near]] = {}
    for tried, found in zip([tried for _, tried in texts], judge([text for text, _ in texts]), strict=True):
        for one, after in pairwise([*tried, None]):
            assert one is not None
            behind = min(BEHIND, (after.near.first if after else len(words)) - one.near.last)
            worth = _worth(one, scores, found, behind)
            place = next(n for n, each in enumerate(places) if one.near in each)
            if worth >= ENOUGH and worth > best.get(place, (0.0, one.near))[0]:
                best[place] = worth, one.near
    return [near for _, (_, near) in sorted(best.items())]


def _places(found: Sequence[Near]) -> list[list[Near]]:
    """Candidates that overlap are tried one after the other, the likeliest and longest first."""
    places: list[list[Near]] = []
    for near in sorted(found, key=lambda each: (each.first, each.last)):
        if places and near.first < max(other.last for other in places[-1]):
            places[-1].append(near)
        else:
            places.append([near])
    return [sorted(each, key=lambda n: -(n.likeness + 0.02 * len(n.name)))[:MOST_TEXTS] for each in places]


def _with(words: Text, chosen: Sequence[Near]) -> tuple[list[str], list[_Tried]]:
    """The words with names in the place of what sounds like them, and where those are."""
    text: list[str] = []
    tried, at = [], 0
    for near in chosen:
        text += words[at : near.first]
        name = _spelt_like(near.name, words[near.first : near.last])
        tried.append(_Tried(near, len(text), len(text) + len(name)))
        text += name
        at = near.last
    return [*text, *words[at:]], tried


def replaced(words: Text, chosen: Sequence[Near]) -> list[str]:
    """The words with the chosen names in them."""
    return _with(words, chosen)[0]


def _spelt_like(name: str, heard: Text) -> list[str]:
    """The name's words with the capital and the stop of the heard ones."""
    words = name.split()
    if heard[0][:1].isupper():
        words[0] = words[0].capitalize()
    stop = heard[-1][len(heard[-1].rstrip(".,?!;:")) :]
    return [*words[:-1], words[-1] + stop]


def _worth(
    one: _Tried, heard: Sequence[Sequence[float]], tried: Sequence[Sequence[float]], behind: int
) -> float:
    """How well a name fits: see ENOUGH."""
    near = one.near
    name = [score for word in tried[one.first : one.last] for score in word]
    before = sum(score for word in heard[near.first : near.last + behind] for score in word)
    after = sum(score for word in tried[one.first : one.last + behind] for score in word)
    letters = min(len(near.name.replace(" ", "")), MOST_LETTERS)
    return after - before + sum(name) / len(name) + letters
