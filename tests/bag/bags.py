"""Small job folders to verify: an open one, and one sealed, amended and sealed again."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from fieldnotes.bag import amend, close_bag, new_key, seal

MONDAY = datetime(2026, 3, 2, 18, 30, tzinfo=UTC)
TUESDAY = datetime(2026, 3, 3, 9, 15, tzinfo=UTC)
INFO = {"External-Identifier": "J-2041", "Bagging-Date": "2026-03-02", "Source-Organization": "Harrowby Care"}
PAYLOAD = {
    "visit.json": b"{}\n",
    "report.html": b"<p>good",
    "photos/plate é.jpg": b"\xff\xd8",
    "empty.txt": b"",
}


def open_bag(folder: Path, payload: dict[str, bytes] = PAYLOAD) -> Path:
    for name, content in payload.items():
        path = folder / "data" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    close_bag(folder, INFO)
    return folder


def sealed_bag(folder: Path) -> Path:
    """Sealed by the technician and the office, amended, and sealed by the office."""
    open_bag(folder)
    for name in ("technician", "office"):
        new_key(folder.parent / f"{name}.key")
        seal(folder, folder.parent / f"{name}.key", f"{name} of Harrowby", MONDAY)
    amend(
        folder,
        {"visit.json": b'{"later": 1}\n', "report.html": b"<p>better"},
        reason="wrong serial number",
        by="office",
        at=TUESDAY,
        info=INFO,
    )
    seal(folder, folder.parent / "office.key", "office of Harrowby", TUESDAY)
    return folder
