"""Nothing reaches the network: a whole job with every socket refused."""

from __future__ import annotations

import socket
from pathlib import Path

import pytest

from .conftest import Run


def test_whole_job_opens_no_socket(run: Run, here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("a socket was opened")

    monkeypatch.setattr(socket, "socket", refuse)
    monkeypatch.setattr(socket, "create_connection", refuse)
    monkeypatch.setattr(socket, "getaddrinfo", refuse)
    codes = [
        run(*command).code
        for command in (
            ("write", "notes.txt", "--out", "job"),
            ("key", "new", "office.key"),
            ("seal", "job", "--key", "office.key", "--signer", "A. Lind"),
            ("verify", "job"),
            ("share", "job", "--for", "claim", "--out", "claim.zip"),
        )
    ]

    assert codes == [0] * 5


def test_refusing_sockets_would_be_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("a socket was opened")

    monkeypatch.setattr(socket, "getaddrinfo", refuse)
    with pytest.raises(AssertionError, match="a socket was opened"):
        socket.create_connection(("a.example", 80))
