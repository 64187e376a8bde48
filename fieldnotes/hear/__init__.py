"""The first stage: recordings and notes of one visit -> words with times, in breaths."""

from fieldnotes.hear.listening import ChooseTerms
from fieldnotes.hear.progress import Progress, Unwatched
from fieldnotes.hear.started import recording_starts, started_given
from fieldnotes.hear.terms import Terms
from fieldnotes.hear.visit import hear

__all__ = [
    "ChooseTerms",
    "Progress",
    "Terms",
    "Unwatched",
    "hear",
    "recording_starts",
    "started_given",
]
