"""Full stops where the recogniser wrote nothing but commas.

Short, clipped sentences behind a prompt of many commas ("Pump winding, 16.2 ohms. Normal.") come out as one endless
list. Where a stretch has next to no full stops, a comma at which the voice rests is one.
"""

from __future__ import annotations

from collections.abc import Sequence

from fieldnotes.transcript import Word

AROUND = 20  # words on either side
FEWEST = 1 / 25  # full stops a word; people's sentences have some 10 words
SENTENCE_ENDS = (".", "?", "!")


def stopped(words: Sequence[Word], ends: Sequence[int]) -> list[Word]:
    """The words, with full stops in place of commas at the ends of breaths where the text lacks stops.

    `ends`: indices of the words after which the voice rests.
    """
    stops = [word.text.endswith(SENTENCE_ENDS) for word in words]
    mended = list(words)
    for at in ends:
        near = stops[max(0, at - AROUND) : at + AROUND]
        if words[at].text.endswith(",") and sum(near) < FEWEST * len(near):
            mended[at] = words[at].model_copy(update={"text": words[at].text[:-1] + "."})
    return mended
