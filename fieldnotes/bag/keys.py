"""Keys that job folders are sealed with: Ed25519 (RFC 8032), in the PEM files that other programs read too."""

from __future__ import annotations

import hashlib
import os
import stat
from pathlib import Path
from typing import TYPE_CHECKING

from fieldnotes.errors import KeyFileError

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey


def new_key(path: Path) -> Path:
    """Makes a key, readable by its owner alone, and its public half beside it; returns the path of the latter.

    Raises KeyFileError: one of the two is there already, or cannot be written.
    """
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
    from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

    public = path.with_name(path.name + ".pub")
    for each in (path, public):
        if each.exists():
            raise KeyFileError(f"{each} is there already; a key is never written over, choose another name")
    key = Ed25519PrivateKey.generate()
    secret = key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    try:
        with os.fdopen(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "wb") as file:
            file.write(secret)
            file.flush()
            os.fsync(file.fileno())
        with public.open("xb") as file:
            file.write(public_pem(key.public_key()))
    except OSError as fault:
        raise KeyFileError(f"{path} cannot be written: {fault.strerror}; choose another place") from fault
    return public


def read_key(path: Path) -> Ed25519PrivateKey:
    """The private key of a file. Raises KeyFileError: missing, no such key, or readable by others."""
    from cryptography.exceptions import UnsupportedAlgorithm
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
    from cryptography.hazmat.primitives.serialization import load_pem_private_key

    content = _read(path)
    if os.name == "posix" and path.stat().st_mode & (stat.S_IRWXG | stat.S_IRWXO):
        raise KeyFileError(f"{path}: others on this device may read the key; close it with: chmod 600 {path}")
    try:
        key = load_pem_private_key(content, password=None)
    except TypeError as fault:
        raise KeyFileError(
            f"{path}: is locked with a passphrase, which is not supported; make a key with: fieldnotes key new FILE"
        ) from fault
    except (ValueError, UnsupportedAlgorithm) as fault:
        raise KeyFileError(f"{path}: is no private key; make one with: fieldnotes key new FILE") from fault
    if not isinstance(key, Ed25519PrivateKey):
        raise KeyFileError(f"{path}: is a key of another kind; make one with: fieldnotes key new FILE")
    return key


def read_public_key(path: Path) -> Ed25519PublicKey:
    """The public key of a `.pub` file. Raises KeyFileError: missing, or no such key."""
    try:
        return public_key_of(_read(path))
    except ValueError as fault:
        raise KeyFileError(f"{path}: is no public key of a seal; it is the file that ends in .pub") from fault


def public_key_of(pem: bytes) -> Ed25519PublicKey:
    """Raises ValueError unless it is an Ed25519 public key in PEM."""
    from cryptography.exceptions import UnsupportedAlgorithm
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey
    from cryptography.hazmat.primitives.serialization import load_pem_public_key

    try:
        key = load_pem_public_key(pem)
    except UnsupportedAlgorithm as fault:
        raise ValueError(str(fault)) from fault
    if not isinstance(key, Ed25519PublicKey):
        raise ValueError("another kind of key")
    return key


def public_pem(key: Ed25519PublicKey) -> bytes:
    """The key as SubjectPublicKeyInfo in PEM (RFC 7468, RFC 8410)."""
    from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

    return key.public_bytes(Encoding.PEM, PublicFormat.SubjectPublicKeyInfo)


def key_sha256(key: Ed25519PublicKey) -> str:
    """The SHA-256 of the key in DER, by which keys are told from each other."""
    from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

    return hashlib.sha256(key.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)).hexdigest()


def is_signed(content: bytes, signature: bytes, key: Ed25519PublicKey) -> bool:
    """Whether the signature (64 octets) is of exactly this content and by this key. Source: RFC 8032, 5.1.7."""
    from cryptography.exceptions import InvalidSignature

    try:
        key.verify(signature, content)
    except InvalidSignature:
        return False
    return True


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as fault:
        raise KeyFileError(f"{path}: the key cannot be read: {fault.strerror}; check the path") from fault
