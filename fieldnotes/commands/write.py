"""`fieldnotes write`: the main job, one visit from its recordings to its job folder."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from fieldnotes.commands.options import SettingsFile, VocabFolder


def write(
    recordings: Annotated[
        list[Path],
        typer.Argument(metavar="RECORDING...", help="Sound of any kind, .vtt or .txt; parts of one visit."),
    ],
    out: Annotated[Path, typer.Option(metavar="FOLDER", help="The job folder to write.")],
    job: Annotated[str | None, typer.Option(metavar="NUMBER", help="The office's job number.")] = None,
    technician: Annotated[str | None, typer.Option(metavar="NAME", help="Who made the visit.")] = None,
    customer: Annotated[str | None, typer.Option(metavar="NAME", help="Whom the visit was for.")] = None,
    date: Annotated[
        str | None,
        typer.Option(metavar="YYYY-MM-DD", help="Day of the visit; else from the file's name, else today."),
    ] = None,
    appliance: Annotated[
        str | None,
        typer.Option(metavar="KIND", help="Kind of appliance, so that its terms are heard better."),
    ] = None,
    model: Annotated[
        str | None, typer.Option(metavar="NAME|PATH", help="Speech model; else the best that is installed.")
    ] = None,
    vocab: VocabFolder = None,
    templates: Annotated[
        Path | None, typer.Option(metavar="DIR", help="A shop's own templates, laid over the built-in ones.")
    ] = None,
    documents: Annotated[
        str | None,
        typer.Option(metavar="LIST", help="Which of office, customer, claim to make; else all, or as set."),
    ] = None,
    settings: SettingsFile = None,
    started: Annotated[
        str | None,
        typer.Option(metavar="TIME", help='When the first recording began: "2026-03-02 14:05" or "14:05".'),
    ] = None,
    photos: Annotated[
        Path | None, typer.Option(metavar="DIR", help="Pictures that were taken during the visit.")
    ] = None,
    photo_offset: Annotated[
        float | None,
        typer.Option(metavar="SECONDS", help="To be added to the camera's times, where its clock is off."),
    ] = None,
    strike_private: Annotated[
        bool,
        typer.Option(
            "--strike-private", help="Strike private words out of all documents, not the claim sheet alone."
        ),
    ] = False,
    replace: Annotated[bool, typer.Option("--replace", help="Write over an existing job folder.")] = False,
    quiet: Annotated[
        bool, typer.Option("--quiet", "-q", help="Show nothing but errors and the report's path.")
    ] = False,
) -> None:
    """Turn the recording(s) of one visit into a job folder with the report.

    Example: fieldnotes write kitchen.m4a cellar.m4a --out jobs/1042 --job 1042 --technician "R. Vale"
    """
    from fieldnotes.hear import hear, recording_starts, started_given
    from fieldnotes.papers import papers
    from fieldnotes.progress import Shown
    from fieldnotes.trade_terms import terms_heard_of, terms_of
    from fieldnotes.visit import (
        Order,
        check_photos,
        check_templates,
        date_in_name,
        day_given,
        known_kind,
        on_the_clock,
        settings_for,
        visit_of,
    )
    from fieldnotes.vocabulary.load import load_vocabulary
    from fieldnotes.wall_clock import WallClock
    from fieldnotes.write import check_destination, write_job

    # whatever can be wrong is told before the slow part, which is hearing
    day = day_given(date) or date_in_name(recordings)
    begun = started_given(started, day) if started else None
    check_photos(photos)
    check_destination(out, replace)
    shop = settings_for(settings, documents, templates)
    vocabulary = load_vocabulary(vocab or shop.pages.vocab)
    kind = known_kind(appliance, vocabulary)
    check_templates(shop)
    progress = Shown(quiet)
    transcript = hear(
        recordings,
        model=model,
        terms=terms_of(vocabulary, kind),
        choose_terms=None if kind else terms_heard_of(vocabulary),
        progress=progress,
    )
    progress.stage("understanding and judging")
    clock = WallClock.of(transcript.recordings, recording_starts(recordings, begun))
    day = day or (clock.start.at.date().isoformat() if clock else None)
    visit = visit_of(transcript, vocabulary, Order(job, technician, customer, day))
    visit, pictures = on_the_clock(visit, transcript, vocabulary, clock, photos, photo_offset)
    progress.stage("writing")
    both = papers(visit, transcript, shop, vocabulary, struck_everywhere=strike_private, photos=pictures)
    report = write_job(both.office, recordings, out, claim=both.claim, replace=replace)
    progress.told("Notice", visit.notices)
    progress.told("Still missing", [gap.what for gap in visit.gaps])
    typer.echo(report)
