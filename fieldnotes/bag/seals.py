"""Seals: who vouches for a job folder as it stands. Each is a statement and an Ed25519 signature of its bytes.

A seal lies in `seals/` outside the tag manifest, whose SHA-256 it states; a later version of the folder lists
the earlier seals in its own tag manifest. The public key stands in the statement, so that anybody can check it:
`openssl pkeyutl -verify -pubin -inkey KEY.pub -rawin -in seal-1.json -sigfile seal-1.sig`.
"""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Final, Literal

from pydantic import ValidationError

from fieldnotes.bag.keys import fingerprint, public_key_of, public_pem, read_key
from fieldnotes.bag.tag_files import TAG_MANIFEST, sha256_of
from fieldnotes.errors import KeyFileError
from fieldnotes.staging import write_through
from fieldnotes.transcript import Plain

SEALS = "seals"
SCHEMA: Final = "fieldnotes-seal/1"
SEAL_FILE = re.compile(rf"{SEALS}/seal-([1-9]\d*)\.(json|sig)")


class Statement(Plain):
    """What is signed. `at` is UTC in ISO 8601; `public_key` is PEM."""

    schema_name: Literal["fieldnotes-seal/1"] = SCHEMA
    number: int
    signer: str
    at: str
    tag_manifest_sha256: str
    public_key: str


class BrokenSeal(Exception):
    """A seal that does not hold; the text says why."""


def seal(folder: Path, key: Path, signer: str, at: datetime) -> Path:
    """Adds a seal to a folder that was found whole, and returns the path of its statement.

    Raises KeyFileError: no usable key, or no name of a signer.
    """
    if not (signer := " ".join(signer.split())):
        raise KeyFileError("a seal needs the name of who seals; give it with --signer NAME")
    secret = read_key(key)
    number = 1 + max((number for number, _ in numbered(folder)), default=0)
    statement = Statement(
        number=number,
        signer=signer,
        at=at.astimezone(UTC).replace(microsecond=0).isoformat().replace("+00:00", "Z"),
        tag_manifest_sha256=sha256_of(folder / TAG_MANIFEST),
        public_key=public_pem(secret.public_key()).decode(),
    )
    content = (json.dumps(statement.model_dump(), ensure_ascii=False, indent=2) + "\n").encode()
    path = folder / SEALS / f"seal-{number}.json"
    path.parent.mkdir(exist_ok=True)
    write_through(path.with_suffix(".sig"), secret.sign(content))
    write_through(path, content)
    return path


def is_sealed(folder: Path) -> bool:
    """Whether any version of this job folder carries a seal, good or broken."""
    return bool(numbered(folder))


def numbered(folder: Path) -> list[tuple[int, Path]]:
    """The seals' numbers and statements, in their order."""
    named = (
        (SEAL_FILE.fullmatch(f"{SEALS}/{path.name}"), path) for path in (folder / SEALS).glob("seal-*.json")
    )
    return sorted((int(match[1]), path) for match, path in named if match)


def read_seal(path: Path) -> tuple[Statement, str]:
    """The statement of a seal whose signature holds, and its key's fingerprint. Raises BrokenSeal."""
    from cryptography.exceptions import InvalidSignature

    try:
        content = path.read_bytes()
        signature = path.with_suffix(".sig").read_bytes()
        statement = Statement.model_validate_json(content)
        key = public_key_of(statement.public_key.encode())
        key.verify(signature, content)
        if path.name != f"seal-{statement.number}.json":
            raise BrokenSeal(f"it says that it is seal {statement.number}")
        datetime.fromisoformat(statement.at)
    except OSError as fault:
        raise BrokenSeal(f"it cannot be read: {fault.strerror}") from fault
    except ValidationError as fault:
        raise BrokenSeal("it is no statement of a seal") from fault
    except InvalidSignature as fault:
        raise BrokenSeal("the signature does not belong to the statement") from fault
    except ValueError as fault:
        raise BrokenSeal("its key or its time cannot be read") from fault
    return statement, fingerprint(key)
