"""`python -m fieldnotes` is the command `fieldnotes`."""

from fieldnotes.cli import main

main()
