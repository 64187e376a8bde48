"""What the recogniser is told of the trade, out of the vocabulary."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from fieldnotes.hear import ChooseTerms, Terms
from fieldnotes.hear.spelling_pass import Reading, Spelling
from fieldnotes.tidy import tidy
from fieldnotes.tidy.characters import is_character
from fieldnotes.tidy.lexicon import lexicon_of
from fieldnotes.transcript import Breath, Transcript, Word
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.packs import AppliancePack
from fieldnotes.vocabulary.phrases import wordings
from fieldnotes.words import split_words

HOTWORDS_MOST = 50  # terms; more do not fit the recogniser's prompt (223 tokens)


def terms_of(vocabulary: Vocabulary, kind: str | None) -> Terms:
    """What the recogniser is told: the terms and names of the kind of appliance; None: the most needed of all kinds."""
    packs = vocabulary.packs
    if kind in packs:
        its_packs = list(_with_wider(vocabulary, kind))
        needed = packs[kind].hotwords
    else:
        its_packs = []
        shares = [pack.hotwords for pack in packs.values() if pack.hotwords]
        needed = tuple(
            words[n] for n in range(max(map(len, shares), default=0)) for words in shares if n < len(words)
        )
    hotwords = list(dict.fromkeys(needed))[:HOTWORDS_MOST]
    parts = [*(part for pack in its_packs for part in pack.parts), *vocabulary.parts.parts]
    named = [phrase for part in parts for phrase in (part.name, *part.spoken, *part.short)]
    names = {
        " ".join(form).lower()
        for phrase in (*named, *vocabulary.trade.listened_for)
        for form in wordings(phrase)
    }
    return Terms(
        hotwords=", ".join(hotwords),
        names=tuple(sorted({*names, *(term.lower() for term in (*hotwords, *vocabulary.makes))})),
        spelling=spelling_of(vocabulary),
    )


def _with_wider(vocabulary: Vocabulary, kind: str | None) -> Iterator[AppliancePack]:
    """The pack of a kind, and those of the kinds that it is a sort of."""
    while pack := vocabulary.packs.get(kind or ""):
        yield pack
        kind = pack.wider


def terms_heard_of(vocabulary: Vocabulary) -> ChooseTerms:
    """Tells from what was heard so far which kind of appliance it is about, and so better terms."""

    def choose(breaths: tuple[Breath, ...]) -> Terms | None:
        words = [piece for b in breaths for word in b.words for piece in split_words(word.text)]
        kind = kind_named(" ".join(words), vocabulary)
        return terms_of(vocabulary, kind) if kind else None

    return choose


def kind_named(text: str, vocabulary: Vocabulary) -> str | None:
    """The kind of appliance that is named first, or a sort of it that is named anywhere ("a washer, a top loader").

    What the visit is about is understood later, from all of it and its grammar; here a guess will do.
    """
    found: dict[str, int] = {}
    for kind, pack in vocabulary.packs.items():
        forms = "|".join(
            " ".join(map(re.escape, form)) for phrase in pack.spoken for form in wordings(phrase)
        )
        if named := re.search(rf"\b(?:{forms})\b", text, re.IGNORECASE):
            found[kind] = named.start()
    if not found:
        return None
    first = min(found, key=lambda kind: (found[kind], -len(list(_with_wider(vocabulary, kind)))))
    sorts = [k for k in found if first in (pack.kind for pack in _with_wider(vocabulary, k))]
    return max(sorts, key=lambda kind: (len(list(_with_wider(vocabulary, kind))), -found[kind]))


def spelling_of(vocabulary: Vocabulary) -> Spelling:
    """What the second hearing of what was spelled has to know."""
    lexicon = lexicon_of(vocabulary.measures)
    return Spelling(
        vocabulary.measures,
        read=lambda words: spelled_by(words, vocabulary),
        is_character=lambda word: is_character(word, lexicon),
    )


def spelled_by(words: Sequence[Word], vocabulary: Vocabulary) -> Reading:
    """The string that words spell, for the second hearing of what was spelled: the longest of them."""
    said = Transcript(breaths=(Breath(words=tuple(words)),), recordings=())
    spelled = tidy(said, vocabulary.measures).spelled
    longest = max(spelled, key=lambda run: len(run.text), default=None)
    return Reading(longest.text, longest.sure) if longest else Reading()
