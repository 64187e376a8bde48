"""Compiled templates, kept from run to run: compiling them takes longer than writing a long visit."""

from __future__ import annotations

import sys
from importlib.metadata import version
from pathlib import Path

import jinja2
from jinja2.bccache import Bucket


class CompiledTemplates(jinja2.FileSystemBytecodeCache):
    """Keeps what Jinja made of a template, by its path, until its text changes. No folder that can be used: keeps none.

    One for all pages: their environments differ only in what is called while a page is written.
    """

    def __init__(self, cache: Path) -> None:
        """`cache` is this user's alone, as what is kept there is run."""
        folder = cache / "templates" / f"{sys.implementation.cache_tag}-jinja-{version('jinja2')}"
        super().__init__(str(folder), "%s.compiled")

    def load_bytecode(self, bucket: Bucket) -> None:
        try:
            super().load_bytecode(bucket)
        except Exception:  # a damaged file can fail in any way
            bucket.reset()

    def dump_bytecode(self, bucket: Bucket) -> None:
        try:
            Path(self.directory).mkdir(mode=0o700, parents=True, exist_ok=True)
            super().dump_bytecode(bucket)
        except OSError:
            return  # compiled again next time
