"""One visit from its sources to its record: the stages in their order, and nothing else."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from fieldnotes import __version__
from fieldnotes.errors import FieldnotesError, PhotoError, SettingsError, VocabularyError
from fieldnotes.places import home_configuration
from fieldnotes.present import present_time
from fieldnotes.records import Job, MadeWith, Visit
from fieldnotes.settings import DOCUMENTS, Document, Settings, load_settings
from fieldnotes.transcript import Transcript

if TYPE_CHECKING:
    from fieldnotes.understand.understanding import Understanding
    from fieldnotes.vocabulary.load import Vocabulary
    from fieldnotes.wall_clock import WallClock


@dataclass(frozen=True, slots=True)
class Order:
    """What the office knows before anything is heard."""

    number: str | None = None
    technician: str | None = None
    customer: str | None = None
    date: str | None = None  # ISO 8601; None: today


def visit_of(transcript: Transcript, vocabulary: Vocabulary, order: Order) -> Visit:
    """The judged record of a visit."""
    from fieldnotes.judge.judging import judge
    from fieldnotes.tidy import tidy

    findings = _understanding(vocabulary).findings(tidy(transcript, vocabulary.measures))
    visit = Visit(
        job=Job(
            number=order.number,
            technician=order.technician,
            customer=order.customer,
            date=order.date or present_time().astimezone().date().isoformat(),
        ),
        appliance=findings.appliance,
        complaints=tuple(findings.complaints),
        checks=tuple(findings.checks),
        readings=tuple(findings.readings),
        trials=tuple(findings.trials),
        codes=tuple(findings.codes),
        work=tuple(findings.work),
        parts=tuple(findings.parts),
        causes=tuple(findings.causes),
        verdict=findings.verdict,
        advice=tuple(findings.advice),
        follow_ups=tuple(findings.follow_ups),
        safety=tuple(findings.safety),
        notices=transcript.notices,
        recording=transcript.recordings,
        made_with=MadeWith(
            program=f"fieldnotes {__version__}",
            vocabulary=vocabulary.digest,
            speech_model=transcript.speech_model,
            settings=dict(transcript.settings),
        ),
    )
    return judge(
        visit,
        limits=vocabulary.limits,
        sums=vocabulary.sums,
        gaps=vocabulary.gaps,
        cautions=vocabulary.cautions,
        explanations=tuple(vocabulary.explanations.values()),
        packs=vocabulary.packs,
        measures=vocabulary.measures,
        transcript=transcript,
    )


def on_the_clock(
    visit: Visit,
    transcript: Transcript,
    vocabulary: Vocabulary,
    clock: WallClock | None,
    photos: Path | None,
    offset_s: float | None,
) -> tuple[Visit, dict[str, bytes]]:
    """The judged visit with its times of day and its photographs, and these by their name in the job folder."""
    if clock is not None:
        visit = visit.model_copy(update={"job": clock.written_into(visit.job)})
    if photos is None:
        return visit, {}
    from fieldnotes.photos.bringing import bring

    brought = bring(photos, visit, transcript, vocabulary, clock, offset_s)
    told = {"photos": brought.photos, "notices": (*visit.notices, *brought.notices)}
    return visit.model_copy(update=told), dict(brought.files)


def check_photos(folder: Path | None) -> None:
    """Raises PhotoError where there is no such folder. Quick: ask before the slow hearing."""
    if folder is not None and not folder.is_dir():
        raise PhotoError(f"{folder}: there is no such folder; --photos takes a folder of pictures")


def known_kind(said: str | None, vocabulary: Vocabulary) -> str | None:
    """The kind of appliance that was asked for. Raises VocabularyError where no pack is of that kind."""
    kinds = sorted(vocabulary.packs)
    if said is None or said in kinds:
        return said
    near = get_close_matches(said, kinds, 1)
    hint = f' Did you mean "{near[0]}"?' if near else ""
    raise VocabularyError(f'--appliance "{said}" is not in the vocabulary ({", ".join(kinds)}).{hint}')


def settings_for(named: Path | None, documents: str | None, templates: Path | None) -> Settings:
    """The shop's settings, with what the command line says in place of theirs.

    Raises SettingsError: a mistake in the file, or a document that is not known.
    """
    settings = load_settings(named, Path.cwd(), home_configuration())
    given: dict[str, object] = {"templates": templates} if templates else {}
    if documents is not None:
        given["documents"] = _documents_given(documents)
    return settings.model_copy(update={"pages": settings.pages.model_copy(update=given)})


def _documents_given(text: str) -> tuple[Document, ...]:
    """ "office,claim" -> ("office", "claim"), in the documents' usual order, each once."""
    asked = {name.strip() for name in text.split(",") if name.strip()}
    if unknown := sorted(asked - set(DOCUMENTS)):
        near = get_close_matches(unknown[0], DOCUMENTS, 1)
        hint = f' Did you mean "{near[0]}"?' if near else ""
        raise SettingsError(f'--documents "{unknown[0]}" is none of {", ".join(DOCUMENTS)}.{hint}')
    return tuple(name for name in DOCUMENTS if name in asked)


def check_templates(settings: Settings) -> None:
    """Raises TemplateError where a shop's own templates do not render. Quick: ask before the slow hearing."""
    from fieldnotes.write.contents import Contents
    from fieldnotes.write.documents import documents

    if settings.pages.templates is not None:
        nothing = Visit(made_with=MadeWith(program="", vocabulary=""))
        documents(Contents(nothing, Transcript(breaths=(), recordings=()), settings))


def day_given(text: str | None) -> str | None:
    """The day as it was given. Raises FieldnotesError unless it is one, written as 2026-03-02."""
    if text is None:
        return None
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError as fault:
        raise FieldnotesError(f'--date "{text}" is no day; write it as 2026-03-02') from fault


def date_in_name(sources: Sequence[Path]) -> str | None:
    """The date that the first recording's name holds, as many recorders write it: 2026-03-02 or 20260302."""
    found = re.search(r"(?<!\d)(20\d\d)([-_]?)(\d\d)\2(\d\d)(?!\d)", sources[0].stem) if sources else None
    if found is None:
        return None
    try:
        return date(int(found[1]), int(found[3]), int(found[4])).isoformat()
    except ValueError:  # 2026-02-30, or a number that is no date
        return None


@lru_cache(maxsize=2)
def _understanding(vocabulary: Vocabulary) -> Understanding:
    from fieldnotes.understand.understanding import Understanding

    return Understanding(vocabulary)
