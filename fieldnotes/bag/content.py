"""What lies in a job folder: every file with its check sum, read as a stream."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from fieldnotes.bag.problems import Problem
from fieldnotes.bag.tag_files import files_in, sha256_of


@dataclass(frozen=True, slots=True)
class Content:
    """SHA-256 and size in octets of each plain file by its name; `unread` is there but is no such file."""

    folder: Path
    hashes: Mapping[str, str]
    octets: Mapping[str, int]
    unread: frozenset[str]

    def lacks(self, name: str) -> bool:
        """Whether nothing of that name is there; what lies in an unreadable folder may be."""
        above = {name[:end] for end, sign in enumerate(name) if sign == "/"}
        return name not in self.hashes and not self.unread & {name, *above}


def content_of(folder: Path) -> tuple[Content, list[Problem]]:
    """Reads everything once. Links, devices and what cannot be read are problems; links are not followed."""
    hashes: dict[str, str] = {}
    octets: dict[str, int] = {}
    problems: list[Problem] = []

    def closed(name: str, fault: OSError) -> None:
        problems.append(Problem(name, "unreadable", fault.strerror or ""))

    for name in files_in(folder, closed):
        path = folder / name
        try:
            if path.is_symlink() or not path.is_file():
                problems.append(Problem(name, "not as it should be", "a link or a device, not a file"))
                continue
            hashes[name], octets[name] = sha256_of(path), path.stat().st_size
        except OSError as fault:
            closed(name, fault)
    return Content(folder, hashes, octets, frozenset(problem.file for problem in problems)), problems
