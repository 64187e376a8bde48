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
from fieldnotes.commands.job_files import amend, key_app, seal, share, verify
from fieldnotes.commands.vocab import vocab_app
from fieldnotes.commands.write import write
from fieldnotes.errors import FieldnotesError

app = typer.Typer(
    name="fieldnotes",
    help="Turns what a technician says aloud while working into the visit report, on this device.\n\n"
    "Example: fieldnotes write kitchen.m4a --out jobs/1042",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)
app.command()(write)
app.command()(verify)
app.command()(seal)
app.command()(amend)
app.command()(share)
app.add_typer(key_app, name="key")
app.add_typer(vocab_app, name="vocab")

# Wrong options and the like. The class is Click's own or Typer's copy of it, depending on Typer's version.
_UsageError: type[Exception] = typer.BadParameter.__bases__[0]
_USER_CAN_MEND, _OWN_MISTAKE, _STOPPED = 2, 70, 130


@app.callback(invoke_without_command=True)
def _top(
    version: Annotated[bool, typer.Option("--version", help="Show the version and stop.")] = False,
) -> None:
    if version:
        typer.echo(f"fieldnotes {__version__}")
        raise typer.Exit


@app.command()
def schema() -> None:
    """Print the JSON Schema of visit.json.

    Example: fieldnotes schema > visit.schema.json
    """
    from fieldnotes.write import visit_schema

    typer.echo(json.dumps(visit_schema(), indent=2))


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
