"""The visits that documents are held against, and all documents of each, made once."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from fieldnotes.hear import hear
from fieldnotes.papers import explanations_of
from fieldnotes.records import Caution, Evidence, Visit
from fieldnotes.settings import PageSettings, Settings
from fieldnotes.transcript import Transcript
from fieldnotes.visit import Order, visit_of
from fieldnotes.vocabulary.load import Vocabulary, load_vocabulary
from fieldnotes.write import Contents
from fieldnotes.write.documents import documents
from fieldnotes.write.findings import ITEM_SECTIONS

from .generated_visits import transcript_of, visit_of_eighty
from .visits import FULL, FULL_TRANSCRIPT, LONG_TRANSCRIPT, LONG_WORDS, NO_TRANSCRIPT, NOTHING_HEARD

AUDIO = Path(__file__).parents[2] / "demo_audio"
DEMOS = sorted(path.stem for path in AUDIO.glob("*.vtt"))
NAMES = ("full", "eighty", "unclear", "long words", "nothing heard", *DEMOS)
CHANGES = ("gone", "twice", "other words")


@cache
def vocabulary() -> Vocabulary:
    return load_vocabulary()


@cache
def visit_called(name: str) -> tuple[Visit, Transcript]:
    if name in DEMOS:
        transcript = hear([AUDIO / f"{name}.vtt"])
        return visit_of(transcript, vocabulary(), Order(date="2026-03-02")), transcript
    eighty = visit_of_eighty()
    return {
        "full": (FULL, FULL_TRANSCRIPT),
        "eighty": (eighty, transcript_of(eighty)),
        "unclear": (_unclear(), FULL_TRANSCRIPT),
        "long words": (LONG_WORDS, LONG_TRANSCRIPT),
        "nothing heard": (NOTHING_HEARD, NO_TRANSCRIPT),
    }[name]


def _unclear() -> Visit:
    """The full visit in so much noise that each of its lines must be checked, with cautions for the customer."""

    def noisy(said: Evidence) -> dict[str, Evidence]:
        return {"evidence": said.model_copy(update={"confidence": 0.5})}

    items = {
        section: tuple(item.model_copy(update=noisy(item.evidence)) for item in getattr(FULL, section))
        for section in ITEM_SECTIONS
    }
    assert FULL.verdict.evidence is not None
    verdict = FULL.verdict.model_copy(update=noisy(FULL.verdict.evidence))
    cautions = (
        Caution(about="heat", text="Let it cool before work.", for_customer="It stays hot."),
        Caution(about="all", text="Codes first.", for_customer="The manual comes first."),
    )
    return FULL.model_copy(update=items | {"verdict": verdict, "cautions": cautions})


@cache
def documents_of(name: str) -> dict[str, bytes]:
    return _made(*visit_called(name))


@cache
def documents_of_changed(section: str, change: str) -> dict[str, bytes]:
    """The full visit with the second line of the section gone, there twice, or in other words."""
    first, second, *rest = getattr(FULL, section)
    other = second.model_copy(update={"text": "The lid is clean."})
    lines = {
        "gone": (first, *rest),
        "twice": (first, second, second, *rest),
        "other words": (first, other, *rest),
    }
    return _made(FULL.model_copy(update={section: lines[change]}), FULL_TRANSCRIPT)


def _made(visit: Visit, transcript: Transcript) -> dict[str, bytes]:
    everything = Settings(pages=PageSettings(documents=("office", "customer", "claim")))
    return documents(Contents(visit, transcript, everything, explanations=explanations_of(vocabulary())))
