"""The command line: reads options, calls the stages, shows errors in one line. No logic of its own.

Exit codes: 0 done; 1 a finding (a check that failed); 2 something that the user can mend; 130 stopped by Ctrl-C.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Annotated

import typer

from fieldnotes import __version__
from fieldnotes.errors import FieldnotesError

app = typer.Typer(
    name="fieldnotes",
    help="Turns what a technician says aloud while working into the visit report, on this device.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)
vocab_app = typer.Typer(help="Check and try the vocabulary.", no_args_is_help=True)
app.add_typer(vocab_app, name="vocab")

VocabFolder = Annotated[
    Path | None, typer.Option("--vocab", metavar="DIR", help="A shop's own vocabulary, laid over the built-in one.")
]


@app.callback(invoke_without_command=True)
def _top(version: Annotated[bool, typer.Option("--version", help="Show the version and stop.")] = False) -> None:
    if version:
        typer.echo(f"fieldnotes {__version__}")
        raise typer.Exit


@app.command()
def write(
    recordings: Annotated[
        list[Path], typer.Argument(metavar="RECORDING...", help="Sound of any kind, .vtt or .txt; parts of one visit.")
    ],
    out: Annotated[Path, typer.Option(metavar="FOLDER", help="The job folder to write.")],
    job: Annotated[str | None, typer.Option(metavar="NUMBER", help="The office's job number.")] = None,
    technician: Annotated[str | None, typer.Option(metavar="NAME")] = None,
    customer: Annotated[str | None, typer.Option(metavar="NAME")] = None,
    date: Annotated[
        str | None, typer.Option(metavar="YYYY-MM-DD", help="Day of the visit; else from the file's name, else today.")
    ] = None,
    appliance: Annotated[
        str | None, typer.Option(metavar="KIND", help="Kind of appliance, so that its terms are heard better.")
    ] = None,
    model: Annotated[
        str | None, typer.Option(metavar="NAME|PATH", help="Speech model; else the best that is installed.")
    ] = None,
    vocab: VocabFolder = None,
    templates: Annotated[
        Path | None, typer.Option(metavar="DIR", help="A shop's own templates, laid over the built-in ones.")
    ] = None,
    replace: Annotated[bool, typer.Option("--replace", help="Write over an existing job folder.")] = False,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="Show no progress.")] = False,
) -> None:
    """Turn the recording(s) of one visit into a job folder with the report.

    Example: fieldnotes write kitchen.m4a cellar.m4a --out jobs/1042 --job 1042 --technician "R. Vale"
    """
    from fieldnotes.hear import hear
    from fieldnotes.progress import Shown
    from fieldnotes.visit import Order, date_in_name, hotwords_of, visit_of
    from fieldnotes.vocabulary.load import load_vocabulary
    from fieldnotes.write import check_destination, write_job

    check_destination(out, replace)
    vocabulary = load_vocabulary(vocab)
    kind = _known_kind(appliance, sorted(vocabulary.packs))
    progress = Shown(quiet)
    transcript = hear(recordings, model=model, hotwords=hotwords_of(vocabulary, kind), progress=progress)
    progress.stage("understanding and judging")
    order = Order(job, technician, customer, date or date_in_name(recordings))
    visit = visit_of(transcript, vocabulary, order)
    progress.stage("writing")
    report = write_job(visit, transcript, recordings, out, replace=replace, templates=templates)
    progress.done()
    if not quiet:
        for notice in visit.notices:
            typer.echo(f"Notice: {notice}", err=True)
        if visit.gaps:
            typer.echo("Still missing:", err=True)
            for gap in visit.gaps:
                typer.echo(f"  {gap.what}", err=True)
    typer.echo(report)


@app.command()
def schema() -> None:
    """Print the JSON Schema of visit.json.

    Example: fieldnotes schema > visit.schema.json
    """
    from fieldnotes.write import visit_schema

    typer.echo(json.dumps(visit_schema(), indent=2))


def _known_kind(said: str | None, kinds: list[str]) -> str | None:
    from difflib import get_close_matches

    if said is None or said in kinds:
        return said
    near = get_close_matches(said, kinds, 1)
    hint = f' Did you mean "{near[0]}"?' if near else ""
    raise FieldnotesError(f'--appliance "{said}" is not in the vocabulary ({", ".join(kinds)}).{hint}')


def main() -> None:
    """Run the command line. User errors end in one line on standard error, never in a traceback."""
    try:
        app(standalone_mode=False)
    except typer.Abort:
        _stop("stopped", 130)
    except KeyboardInterrupt:
        _stop("stopped; what was heard so far is kept, the same command goes on from there", 130)
    except FieldnotesError as fault:
        _stop(str(fault), 2)
    except Exception as fault:
        from click import ClickException

        if not isinstance(fault, ClickException):
            raise
        fault.show()
        sys.exit(2)


def _stop(text: str, code: int) -> None:
    typer.echo(f"fieldnotes: {text}", err=True)
    sys.exit(code)
