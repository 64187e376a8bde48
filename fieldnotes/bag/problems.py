"""What a check of a job folder finds: problems, seals, and all of it together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Trouble = Literal["changed", "missing", "new", "unreadable", "not as it should be"]


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One file that is not as it was: its name in the folder, and what is wrong."""

    file: str
    trouble: Trouble
    detail: str = ""

    def __str__(self) -> str:
        return f"{self.trouble}: {shown(self.file)}{f' ({shown(self.detail)})' if self.detail else ''}"


@dataclass(frozen=True, slots=True)
class SealSeen:
    """A seal that holds. `at` is UTC; `version` is the version of the folder that it vouches for.

    `key_sha256` is that of the public key in DER. The signer's name is what whoever holds the key has written.
    """

    number: int
    signer: str
    at: str
    key_sha256: str
    version: int

    @property
    def fingerprint(self) -> str:
        return fingerprint_of(self.key_sha256)


@dataclass(frozen=True, slots=True)
class Verified:
    """All that was found. The folder is whole where there are no problems."""

    problems: tuple[Problem, ...]
    seals: tuple[SealSeen, ...]
    versions: int
    files: int


def fingerprint_of(key_sha256: str) -> str:
    """What people compare: the first 80 bits of the key's SHA-256, in groups of four digits."""
    return " ".join(key_sha256[n : n + 4] for n in range(0, 20, 4))


def shown(text: str) -> str:
    """A name from a folder that nobody vouches for yet, so that it cannot steer a terminal or feign a second line."""
    return "".join(sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in text)
