"""`fieldnotes vocab ...`: the author's view of the vocabulary."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from fieldnotes.commands.options import VocabFolder

vocab_app = typer.Typer(
    help="Check, try and show the vocabulary.\n\nExample: fieldnotes vocab check our-words",
    no_args_is_help=True,
)


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
