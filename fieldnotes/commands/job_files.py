"""What is done with a finished job folder: `fieldnotes verify`, `seal`, `amend`, `share` and `key new`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer

from fieldnotes.commands.options import SettingsFile, VocabFolder

JobFolder = Annotated[Path, typer.Argument(metavar="FOLDER", help="The job folder.")]

key_app = typer.Typer(
    help="Keys that job folders are sealed with.\n\nExample: fieldnotes key new office.key",
    no_args_is_help=True,
)


def verify(
    folder: JobFolder,
    key: Annotated[
        Path | None,
        typer.Option(metavar="FILE.pub", help="Public key that the present version must be sealed with."),
    ] = None,
) -> None:
    """Tell whether a job folder is whole and unaltered, and who sealed it; exit 1 if anything is wrong.

    Example: fieldnotes verify jobs/1042 --key office.key.pub
    """
    from fieldnotes.bag import shown
    from fieldnotes.bag import verify as verified

    found = verified(folder, key)
    for problem in found.problems:
        typer.echo(str(problem))
    for seal in found.seals:
        sealed = f"version {seal.version} of {found.versions}" if found.versions > 1 else "the folder"
        at = seal.at.removesuffix("Z").replace("T", " at ")
        typer.echo(
            f"seal {seal.number} holds: {shown(seal.signer)} sealed {sealed} on {at} UTC with key {seal.fingerprint}"
        )
    if found.problems:
        count = "1 problem" if len(found.problems) == 1 else f"{len(found.problems)} problems"
        typer.echo(f"{folder} is not as it was: {count}", err=True)
        raise typer.Exit(1)
    typer.echo(
        f"{folder} is whole: {found.files} files{f', {found.versions} versions' if found.versions > 1 else ''}"
    )
    if not any(seal.version == found.versions for seal in found.seals):
        typer.echo("The present version carries no seal: this shows only that nothing changed by accident.")
    elif key is None:
        typer.echo(
            "A seal says who made it in its own words: compare the key, or give the one that you trust with --key."
        )


def seal(
    folder: JobFolder,
    key: Annotated[Path, typer.Option(metavar="FILE", help="Private key, from: fieldnotes key new FILE")],
    signer: Annotated[str, typer.Option(metavar="NAME", help="Who vouches for the folder.")],
) -> None:
    """Vouch for a job folder as it stands; from then on it is amended, never replaced.

    Example: fieldnotes seal jobs/1042 --key office.key --signer "A. Lindqvist, office"
    """
    from fieldnotes.bag import seal as sealed
    from fieldnotes.present import present_time

    typer.echo(sealed(folder, key, signer, present_time()))


def amend(
    folder: JobFolder,
    record: Annotated[Path, typer.Option(metavar="FILE", help="The corrected visit.json.")],
    reason: Annotated[str, typer.Option(metavar="TEXT", help="Why there is a later version.")],
    by: Annotated[str, typer.Option(metavar="NAME", help="Who corrected it.")],
    settings: SettingsFile = None,
    vocab: VocabFolder = None,
) -> None:
    """Add a later version of the record and its documents beside the earlier ones, which stay as they are.

    Example: fieldnotes amend jobs/1042 --record corrected.json --reason "serial number" --by "A. Lindqvist"
    """
    from fieldnotes.job_file import Why, amend_job, open_job
    from fieldnotes.visit import settings_for
    from fieldnotes.vocabulary.load import load_vocabulary

    shop = settings_for(settings, None, None)
    vocabulary = load_vocabulary(vocab or shop.pages.vocab)
    typer.echo(amend_job(open_job(folder), record, Why(reason, by), shop, vocabulary))


def share(
    folder: JobFolder,
    recipient: Annotated[
        Literal["claim", "customer"], typer.Option("--for", help="Who gets it.", show_default=False)
    ],
    out: Annotated[Path, typer.Option(metavar="FILE.zip", help="The ZIP file to write.")],
    settings: SettingsFile = None,
    vocab: VocabFolder = None,
) -> None:
    """Write the copy that leaves the shop: private words struck out, and silent in the recordings.

    Example: fieldnotes share jobs/1042 --for claim --out claim-1042.zip
    """
    from fieldnotes.job_file import open_job
    from fieldnotes.sharing import share as shared
    from fieldnotes.visit import settings_for
    from fieldnotes.vocabulary.load import load_vocabulary

    shop = settings_for(settings, None, None)
    done = shared(open_job(folder), recipient, out, shop, load_vocabulary(vocab or shop.pages.vocab))
    typer.echo(done.path)
    if recipient == "claim":
        counts = ", ".join(f"{each.kind}: {each.count}" for each in done.struck) or "nothing found"
        typer.echo(f"Struck out – {counts}; {done.silenced_s:.1f} s of sound silenced.", err=True)
        typer.echo("Not everything private can be found: read the claim sheet before you send it.", err=True)


@key_app.command("new")
def key_new(path: Annotated[Path, typer.Argument(metavar="FILE", help="The key to make.")]) -> None:
    """Make a key that only you can read, and FILE.pub to give to those who verify.

    Example: fieldnotes key new office.key
    """
    from fieldnotes.bag import new_key

    typer.echo(new_key(path))
