"""Options that several commands have."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

VocabFolder = Annotated[
    Path | None,
    typer.Option("--vocab", metavar="DIR", help="A shop's own vocabulary, laid over the built-in one."),
]
SettingsFile = Annotated[
    Path | None,
    typer.Option(
        "--settings", metavar="FILE", help="The shop's fieldnotes.toml; else here, else in the home."
    ),
]
