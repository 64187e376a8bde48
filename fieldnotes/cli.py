"""The command line: reads options, calls the stages, shows errors in one line. No logic of its own.

Exit codes: 0 done; 1 a finding (a check that failed); 2 something that the user can mend; 70 a mistake of the
program itself; 130 stopped by Ctrl-C.
"""

from __future__ import annotations

import json
import os
import sys
import threading
import traceback
from collections.abc import Sequence
from pathlib import Path
from typing import Annotated, Any, NoReturn

import typer

from fieldnotes import __version__
from fieldnotes.errors import FieldnotesError

app = typer.Typer(
    name="fieldnotes",
    help="Turns what a technician says aloud while working into the visit report, on this device.\n\n"
    "Example: fieldnotes write kitchen.m4a --out jobs/1042",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)
vocab_app = typer.Typer(
    help="Check, try and show the vocabulary.\n\nExample: fieldnotes vocab check our-words",
    no_args_is_help=True,
)
app.add_typer(vocab_app, name="vocab")

# Wrong options and the like. The class is Click's own or Typer's copy of it, depending on Typer's version.
_UsageError: type[Exception] = typer.BadParameter.__bases__[0]
_USER_CAN_MEND, _OWN_MISTAKE, _STOPPED = 2, 70, 130

VocabFolder = Annotated[
    Path | None,
    typer.Option("--vocab", metavar="DIR", help="A shop's own vocabulary, laid over the built-in one."),
]


@app.callback(invoke_without_command=True)
def _top(
    version: Annotated[bool, typer.Option("--version", help="Show the version and stop.")] = False,
) -> None:
    if version:
        typer.echo(f"fieldnotes {__version__}")
        raise typer.Exit


@app.command()
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
    replace: Annotated[bool, typer.Option("--replace", help="Write over an existing job folder.")] = False,
    quiet: Annotated[
        bool, typer.Option("--quiet", "-q", help="Show nothing but errors and the report's path.")
    ] = False,
) -> None:
    """Turn the recording(s) of one visit into a job folder with the report.

    Example: fieldnotes write kitchen.m4a cellar.m4a --out jobs/1042 --job 1042 --technician "R. Vale"
    """
    from fieldnotes.hear import hear
    from fieldnotes.progress import Shown
    from fieldnotes.trade_terms import terms_heard_of, terms_of
    from fieldnotes.visit import (
        Order,
        check_templates,
        date_in_name,
        day_given,
        known_kind,
        visit_of,
    )
    from fieldnotes.vocabulary.load import load_vocabulary
    from fieldnotes.write import check_destination, write_job

    # whatever can be wrong is told before the slow part, which is hearing
    day = day_given(date) or date_in_name(recordings)
    check_destination(out, replace)
    vocabulary = load_vocabulary(vocab)
    kind = known_kind(appliance, vocabulary)
    check_templates(templates)
    progress = Shown(quiet)
    transcript = hear(
        recordings,
        model=model,
        terms=terms_of(vocabulary, kind),
        choose_terms=None if kind else terms_heard_of(vocabulary),
        progress=progress,
    )
    progress.stage("understanding and judging")
    visit = visit_of(transcript, vocabulary, Order(job, technician, customer, day))
    progress.stage("writing")
    report = write_job(visit, transcript, recordings, out, replace=replace, templates=templates)
    progress.told("Notice", visit.notices)
    progress.told("Still missing", [gap.what for gap in visit.gaps])
    typer.echo(report)


@app.command()
def schema() -> None:
    """Print the JSON Schema of visit.json.

    Example: fieldnotes schema > visit.schema.json
    """
    from fieldnotes.write import visit_schema

    typer.echo(json.dumps(visit_schema(), indent=2))


@vocab_app.command("check")
def vocab_check(
    folder: Annotated[
        Path | None,
        typer.Argument(metavar="[DIR]", help="A shop's own vocabulary, laid over the built-in one."),
    ] = None,
) -> None:
    """Tell every mistake of the vocabulary, each with file, line and how to mend it; exit 1 if there are any.

    Example: fieldnotes vocab check our-words
    """
    from fieldnotes.vocabulary_bench.check import check_vocabulary

    checked = check_vocabulary(folder)
    for mistake in checked.mistakes:
        typer.echo(str(mistake))
    typer.echo(checked.summary, err=bool(checked.mistakes))
    if checked.mistakes:
        raise typer.Exit(1)


@vocab_app.command("try")
def vocab_try(
    sentences: Annotated[
        list[str], typer.Argument(metavar="SENTENCE...", help="Each one breath, in quotes.")
    ],
    kind: Annotated[str | None, typer.Option(metavar="KIND", help="The kind of appliance meant.")] = None,
    vocab: VocabFolder = None,
) -> None:
    """Show word by word what is recognised in sentences, by which line of which file, and what is reported.

    Example: fieldnotes vocab try "Drain pump reads fourteen point five ohms, that's good." --kind dishwasher
    """
    from fieldnotes.vocabulary_bench.tried_page import show
    from fieldnotes.vocabulary_bench.trying import try_sentences

    show(try_sentences(sentences, kind, vocab))


@vocab_app.command("show")
def vocab_show(
    kind: Annotated[str, typer.Argument(metavar="KIND", help="The kind of appliance.")],
    vocab: VocabFolder = None,
) -> None:
    """Show all parts, symptoms and trials of a kind of appliance, and how each is said.

    Example: fieldnotes vocab show dishwasher
    """
    from fieldnotes.vocabulary_bench.kind_page import show_kind

    show_kind(kind, vocab)


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run the command line and exit. User errors end in one line on standard error, never in a traceback."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    try:
        # not app(): what that does on Ctrl-C and on wrong options differs between versions of Typer
        with typer.main.get_command(app).make_context("fieldnotes", given) as context:
            context.command.invoke(context)
    except typer.Exit as done:
        sys.exit(done.exit_code)
    except KeyboardInterrupt:
        _end_at_once("stopped; nothing was written. The same command goes on with what was heard so far")
    except FieldnotesError as fault:
        _stop(str(fault), _USER_CAN_MEND)
    except OSError as fault:
        where = f"{fault.filename}: " if fault.filename else ""
        _stop(f"{where}{fault.strerror or fault}", _USER_CAN_MEND)
    except _UsageError as fault:
        _stop_usage(fault)
    except Exception as fault:
        spot = traceback.extract_tb(fault.__traceback__)[-1]
        place = f"{Path(spot.filename).name}, line {spot.lineno}"
        said = " ".join(f"{type(fault).__name__}: {fault}".split())
        _stop(f"a mistake of this program, please report this line: {place}: {said}", _OWN_MISTAKE)
    sys.exit(0)


def _end_at_once(text: str) -> NoReturn:
    """Recognisers still at work in threads would hold a usual exit up for seconds; all files are closed by now."""
    typer.echo(f"fieldnotes: {text}", err=True)
    if threading.active_count() > 1:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(_STOPPED)
    sys.exit(_STOPPED)


def _stop_usage(fault: Any) -> NoReturn:
    """A wrong command or option; a bare `fieldnotes` or `fieldnotes vocab` has shown its help instead."""
    text = " ".join(fault.format_message().split())
    if not text:
        sys.exit(_USER_CAN_MEND)
    command = fault.ctx.command_path if fault.ctx else "fieldnotes"
    _stop(f"{text}{'' if text.endswith(('.', '?')) else '.'} See: {command} --help", _USER_CAN_MEND)


def _stop(text: str, code: int) -> NoReturn:
    typer.echo(f"fieldnotes: {text}", err=True)
    sys.exit(code)
