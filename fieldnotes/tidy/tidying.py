"""The stage itself. Reads a transcript; adds tokens, quantities and spelled strings."""

from __future__ import annotations

from dataclasses import replace

from fieldnotes.tidy.lexicon import lexicon_of
from fieldnotes.tidy.misheard import mended_spelling
from fieldnotes.tidy.misheard_units import with_units_as_said
from fieldnotes.tidy.quantities import find_quantities
from fieldnotes.tidy.retractions import mark_replaced
from fieldnotes.tidy.settling import scale_of, settled
from fieldnotes.tidy.spelled import Speller
from fieldnotes.tidy.text import TidyText
from fieldnotes.tidy.tokens import tokens_of
from fieldnotes.tidy.torn import put_together
from fieldnotes.transcript import Transcript
from fieldnotes.vocabulary.measures import Measures


def tidy(transcript: Transcript, measures: Measures) -> TidyText:
    """The transcript's words as tokens, with the numbers and the spelled strings among them.

    A number without a unit inside a spelled string is no measurement.
    """
    lexicon = lexicon_of(measures)
    tokens, breaths = mended_spelling(*tokens_of(transcript), lexicon)
    tokens, breaths = put_together(tokens, breaths, lexicon)
    tokens = with_units_as_said(tokens, lexicon)
    found = find_quantities(tokens, lexicon)
    mark_replaced(found, tokens, lexicon)
    quantities = settled(found, tokens, lexicon)
    spelled = Speller(tokens, lexicon, quantities).find()
    inside = {n for run in spelled for n in range(run.first, run.last)}
    return TidyText(
        tokens=tuple(tokens),
        breaths=tuple(breaths),
        quantities=tuple(
            replace(q, ordinal_or_count=True) if q.unit is None and q.first in inside else q
            for q in quantities
        ),
        spelled=spelled,
        degrees=scale_of(found, tokens, lexicon),
        parts=tuple(breath.part for breath in transcript.breaths),
    )
