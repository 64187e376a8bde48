"""Keys and seals: safe files, signatures that others can check, clear refusals."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric import ec, ed25519
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

from fieldnotes.bag import is_sealed, new_key, seal, verify
from fieldnotes.bag.keys import fingerprint, public_key_of
from fieldnotes.errors import KeyFileError

from .bags import MONDAY, open_bag

OPENSSL = shutil.which("openssl")


def test_new_key_can_be_read_by_its_owner_alone(tmp_path: Path) -> None:
    public = new_key(tmp_path / "office.key")

    assert public == tmp_path / "office.key.pub"
    assert (tmp_path / "office.key").stat().st_mode & 0o777 == 0o600
    assert public.read_text().startswith("-----BEGIN PUBLIC KEY-----\n")


@pytest.mark.parametrize("there", ["office.key", "office.key.pub"])
def test_key_is_never_written_over(tmp_path: Path, there: str) -> None:
    (tmp_path / there).write_text("precious")

    with pytest.raises(KeyFileError, match="is there already"):
        new_key(tmp_path / "office.key")
    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == {there: "precious"}


def _other_kind(path: Path) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    path.write_bytes(key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption()))
    path.chmod(0o600)


def _text(path: Path) -> None:
    path.write_text("no key")
    path.chmod(0o600)


def _open_to_all(path: Path) -> None:
    new_key(path)
    path.chmod(0o644)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda path: None, "cannot be read: No such file"),
        (_text, "is no private key"),
        (_other_kind, "another kind"),
        (_open_to_all, "chmod 600"),
    ],
    ids=["missing", "text", "other kind", "open to all"],
)
def test_key_that_will_not_do_is_refused(
    tmp_path: Path, make: Callable[[Path], object], message: str
) -> None:
    make(tmp_path / "office.key")
    folder = open_bag(tmp_path / "job")

    with pytest.raises(KeyFileError, match=message):
        seal(folder, tmp_path / "office.key", "office", MONDAY)
    assert not is_sealed(folder)


def test_seal_without_a_name_is_refused(tmp_path: Path) -> None:
    new_key(tmp_path / "office.key")

    with pytest.raises(KeyFileError, match="needs the name"):
        seal(open_bag(tmp_path / "job"), tmp_path / "office.key", " ", MONDAY)


@pytest.mark.skipif(OPENSSL is None, reason="no openssl on the PATH")
def test_openssl_checks_the_signature(tmp_path: Path) -> None:
    public = new_key(tmp_path / "office.key")
    statement = seal(open_bag(tmp_path / "job"), tmp_path / "office.key", "office", MONDAY)

    def checked(path: Path) -> int:
        signature = statement.with_suffix(".sig")
        command = [
            "pkeyutl",
            "-verify",
            "-pubin",
            "-inkey",
            public,
            "-rawin",
            "-in",
            path,
            "-sigfile",
            signature,
        ]
        return subprocess.run([str(OPENSSL), *map(str, command)], capture_output=True, check=False).returncode

    assert checked(statement) == 0
    statement.write_bytes(statement.read_bytes() + b" ")
    assert checked(statement) != 0


def test_signature_is_that_of_the_standard() -> None:
    """Source: RFC 8032, 7.1, TEST 2 (secret key, message of one byte, signature)."""
    secret = bytes.fromhex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb")
    expected = (
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
        "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00"
    )

    assert ed25519.Ed25519PrivateKey.from_private_bytes(secret).sign(b"\x72").hex() == expected


def test_seal_of_another_folder_does_not_hold(tmp_path: Path) -> None:
    new_key(tmp_path / "office.key")
    one, other = open_bag(tmp_path / "one"), open_bag(tmp_path / "other", {"visit.json": b"other"})
    seal(one, tmp_path / "office.key", "office", MONDAY)
    shutil.copytree(one / "seals", other / "seals")

    found = verify(other)
    assert found.seals == ()
    assert "seals another state" in " ".join(str(problem) for problem in found.problems)


def test_fingerprint_is_the_beginning_of_the_keys_digest(tmp_path: Path) -> None:
    public = new_key(tmp_path / "office.key")
    if OPENSSL is None:
        pytest.skip("no openssl on the PATH")
    der = subprocess.run(
        [OPENSSL, "pkey", "-pubin", "-in", str(public), "-outform", "DER"], capture_output=True, check=True
    ).stdout
    digest = subprocess.run([OPENSSL, "sha256"], input=der, capture_output=True, check=True).stdout.decode()

    assert digest.split()[-1].startswith(fingerprint(public_key_of(public.read_bytes())).replace(" ", ""))
