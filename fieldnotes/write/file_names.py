"""Names for the copied recordings: as they came, but safe on every system and different from each other."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from pathlib import PurePath

# Microsoft, "Naming Files, Paths, and Namespaces": signs and device names that no file may carry there
_FORBIDDEN = set('<>:"/\\|?*')
_DEVICES = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10))}
_INVISIBLE = {"Cc", "Cf", "Cs", "Zl", "Zp", "Cn"}
LONGEST_BYTES = 200  # of 255 that most file systems allow: room for "-2" and for a temporary ending


def safe_names(wanted: Iterable[str], taken: Iterable[str]) -> list[str]:
    """A name for each wanted one, none of them twice or among `taken`, capitals aside."""
    used = {name.casefold() for name in taken}
    names: list[str] = []
    for name in wanted:
        safe = different = _safe(name)
        count = 2
        while different.casefold() in used:
            different = f"{PurePath(safe).stem}-{count}{PurePath(safe).suffix}"
            count += 1
        used.add(different.casefold())
        names.append(different)
    return names


def _safe(name: str) -> str:
    kept = "".join("_" if c in _FORBIDDEN or unicodedata.category(c) in _INVISIBLE else c for c in name)
    kept = kept.strip().rstrip(".").lstrip(".-") or "recording"
    path = PurePath(kept)
    stem = f"_{path.stem}" if path.stem.split(".")[0].lower() in _DEVICES else path.stem
    suffix = path.suffix if len(path.suffix.encode()) <= 20 else ""
    room = LONGEST_BYTES - len(suffix.encode())
    return stem.encode()[:room].decode(errors="ignore") + suffix
