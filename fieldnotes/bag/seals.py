"""Seals: who vouches for a job folder as it stands. Each is a statement and an Ed25519 signature of its bytes.

A seal lies in `seals/` outside the tag manifest, whose SHA-256 it states; a later version of the folder lists
the earlier seals in its own tag manifest. The public key stands in the statement, so that anybody can check it:
`openssl pkeyutl -verify -pubin -inkey KEY.pub -rawin -in seal-1.json -sigfile seal-1.sig`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Final, Literal

from pydantic import ConfigDict, Field, ValidationError

from fieldnotes.bag.keys import is_signed, key_sha256, public_key_of, public_pem, read_key
from fieldnotes.bag.statements import json_of, utc_text, utc_time
from fieldnotes.bag.tag_files import TAG_MANIFEST, sha256_of
from fieldnotes.errors import KeyFileError
from fieldnotes.staging import write_through
from fieldnotes.transcript import Plain

SEALS = "seals"
SCHEMA: Final = "fieldnotes-seal/1"
CLOCKS_DIFFER = timedelta(minutes=10)  # between two devices; common practice, no source
_SEAL_FILE = re.compile(rf"{SEALS}/seal-([1-9]\d*)\.json")


class Statement(Plain):
    """What is signed. `at` is UTC in ISO 8601; `public_key` is PEM."""

    model_config = ConfigDict(populate_by_name=True)

    schema_: Literal["fieldnotes-seal/1"] = Field(default=SCHEMA, alias="schema")
    number: int
    signer: str
    at: str
    tag_manifest_sha256: str
    public_key: str


class BrokenSeal(Exception):
    """A seal that does not hold; the text says why."""


def add_seal(folder: Path, key: Path, signer: str, at: datetime) -> Path:
    """Adds a seal to a folder, whatever its state, and returns the path of its statement.

    Raises KeyFileError: no usable key.
    """
    secret = read_key(key)
    number = 1 + max(_present(folder), default=0)
    statement = Statement(
        number=number,
        signer=signer,
        at=utc_text(at),
        tag_manifest_sha256=sha256_of(folder / TAG_MANIFEST),
        public_key=public_pem(secret.public_key()).decode(),
    )
    content = json_of(statement)
    path = folder / statement_name(number)
    path.parent.mkdir(exist_ok=True)
    write_through(path.with_suffix(".sig"), secret.sign(content))
    write_through(path, content)
    return path


def signer_name(given: str) -> str:
    """The name on one line. Raises KeyFileError where there is none."""
    if not (signer := " ".join(given.split())):
        raise KeyFileError("a seal needs the name of who seals; give it with --signer NAME")
    return signer


def is_sealed(folder: Path) -> bool:
    """Whether any version of this job folder carries a seal, good or broken."""
    return bool(_present(folder))


def statement_name(number: int) -> str:
    """`seals/seal-1.json`; its signature lies beside it, as `seals/seal-1.sig`."""
    return f"{SEALS}/seal-{number}.json"


def signature_name(number: int) -> str:
    return f"{SEALS}/seal-{number}.sig"


def seal_numbers(names: Iterable[str]) -> list[int]:
    """The numbers of the seals whose statements are among the names of files, in their order."""
    found = (_SEAL_FILE.fullmatch(name) for name in names)
    return sorted(int(match[1]) for match in found if match)


def read_seal(path: Path, now: datetime) -> tuple[Statement, str]:
    """The statement of a seal that holds at the time `now`, and the SHA-256 of its key. Raises BrokenSeal."""
    try:
        content = path.read_bytes()
        signature = path.with_suffix(".sig").read_bytes()
    except OSError as fault:
        raise BrokenSeal(f"it cannot be read: {fault.strerror}") from fault
    try:
        statement = Statement.model_validate_json(content)
    except ValidationError as fault:
        raise BrokenSeal("it is no statement of a seal") from fault
    try:
        key = public_key_of(statement.public_key.encode())
        at = utc_time(statement.at)
    except ValueError as fault:
        raise BrokenSeal("its key or its time cannot be read") from fault
    if not is_signed(content, signature, key):
        raise BrokenSeal(f"it and {path.with_suffix('.sig').name} do not belong together")
    if content != json_of(statement) or statement.signer != " ".join(statement.signer.split()):
        raise BrokenSeal("it is not written as this program writes a seal")
    if path.name != Path(statement_name(statement.number)).name:
        raise BrokenSeal(f"it says that it is seal {statement.number}")
    if at > now + CLOCKS_DIFFER:
        raise BrokenSeal(f"it says that it was made at {statement.at}, which is still to come")
    return statement, key_sha256(key)


def _present(folder: Path) -> list[int]:
    return seal_numbers(path.relative_to(folder).as_posix() for path in (folder / SEALS).glob("*"))
