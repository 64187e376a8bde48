"""Full stops where the recogniser wrote nothing but commas.

Short, clipped sentences behind a prompt of many commas ("Pump winding, 16.2 ohms. Normal.") come out as one endless
list. Where a stretch has next to no full stops, a comma at which the voice rests is one; where it has few, one at
which the voice rests long.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fieldnotes.transcript import Word

AROUND = 20  # words on either side
FEWEST, FEW = 1 / 25, 1 / 10  # full stops a word; people's sentences have some 10 words
# Of 8 spoken narrations the rests at line ends behind a comma are 0.65 s and more, those within a line up to 0.5 s.
LONG_REST_S = 0.65
SENTENCE_ENDS = (".", "?", "!")


def stopped(words: Sequence[Word], rests: Mapping[int, float]) -> list[Word]:
    """The words, with full stops in place of commas at the ends of breaths where the text lacks stops.

    `rests`: for the words behind which the voice rests, how long, in seconds.
    """
    stops = [word.text.endswith(SENTENCE_ENDS) for word in words]
    mended = list(words)
    for at, seconds in rests.items():
        near = stops[max(0, at - AROUND) : at + AROUND]
        fewest = FEW if seconds >= LONG_REST_S else FEWEST
        if words[at].text.endswith(",") and sum(near) < fewest * len(near):
            mended[at] = words[at].model_copy(update={"text": words[at].text[:-1] + "."})
    return mended
