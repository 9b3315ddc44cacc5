"""SSH signatures of files: OpenSSH's PROTOCOL.sshsig, with Ed25519 keys only.

What is signed is not the file itself but its SHA-512 with the purpose of the signature (the namespace), so that a
signature of one kind is never taken for one of another. `ssh-keygen -Y sign` and `-Y verify` make and take the same.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import re
from dataclasses import dataclass
from typing import Final

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

from app.errors import FanlightError
from app.language import mark

_MAGIC: Final = b"SSHSIG"
_VERSION: Final = 1
_KIND: Final = b"ssh-ed25519"
_ARMOR: Final = re.compile(
    r"\s*-----BEGIN SSH SIGNATURE-----\r?\n(?P<base64>[A-Za-z0-9+/=\r\n]+)-----END SSH SIGNATURE-----\s*"
)
_LINE: Final = 70
"""Letters of base64 in a line, as OpenSSH writes them."""
LARGEST_SIGNATURE: Final = 64 * 1024
"""Bytes of a signature's file at most; one of Ed25519 has three hundred."""


class BadSignature(FanlightError):
    """A signature is not one of this file by whoever it says; the message says what is wrong."""


@dataclass(frozen=True, slots=True)
class PublicKey:
    """The key by which a signature is verified. `raw` are its 32 bytes (RFC 8032)."""

    raw: bytes

    @property
    def blob(self) -> bytes:
        """The key as OpenSSH writes it (RFC 8709)."""
        return _string(_KIND) + _string(self.raw)

    @property
    def text(self) -> str:
        """The key as it stands in a file: "ssh-ed25519 AAAA..."."""
        return f"{_KIND.decode()} {base64.b64encode(self.blob).decode()}"

    @property
    def fingerprint(self) -> str:
        """What people compare: "SHA256:...", as `ssh-keygen -l` tells it."""
        return "SHA256:" + base64.b64encode(hashlib.sha256(self.blob).digest()).decode().rstrip("=")

    @classmethod
    def of(cls, key: Ed25519PrivateKey) -> PublicKey:
        """The public half of a private key."""
        return cls(key.public_key().public_bytes(Encoding.Raw, PublicFormat.Raw))

    @classmethod
    def from_blob(cls, blob: bytes) -> PublicKey:
        """The key in OpenSSH's form. Raises BadSignature for any other kind of key."""
        reader = _Reader(blob)
        kind = reader.string()
        if kind != _KIND:
            raise BadSignature(
                mark("signing", "this key is of the kind {kind}; only ssh-ed25519 is used here"),
                kind=kind[:40].decode("ascii", "replace"),
            )
        raw = reader.string()
        reader.end()
        if len(raw) != 32:
            raise BadSignature(mark("signing", "this is not a key: it has {count} bytes, not 32"), count=len(raw))
        return cls(raw)

    @classmethod
    def from_text(cls, text: str) -> PublicKey:
        """The key as it stands in a file of public keys; a remark behind it is left out. Raises BadSignature."""
        kind, _, rest = text.strip().partition(" ")
        if kind != _KIND.decode():
            raise BadSignature(
                mark("signing", "this key is of the kind {kind}; only ssh-ed25519 is used here"), kind=kind[:40]
            )
        try:
            return cls.from_blob(base64.b64decode(rest.split()[0], validate=True))
        except (binascii.Error, IndexError, ValueError):
            raise BadSignature(mark("signing", "this is not a key: it is not base64")) from None


def sign(message: bytes, key: Ed25519PrivateKey, namespace: str) -> str:
    """The signature of a file's bytes for this purpose, as the text of its file."""
    public = PublicKey.of(key)
    digest = hashlib.sha512(message).digest()
    made = _string(_KIND) + _string(key.sign(_signed(namespace, b"sha512", digest)))
    blob = b"".join(
        (
            _MAGIC,
            _VERSION.to_bytes(4, "big"),
            _string(public.blob),
            _string(namespace.encode()),
            _string(b""),
            _string(b"sha512"),
            _string(made),
        )
    )
    text = base64.b64encode(blob).decode()
    lines = [text[at : at + _LINE] for at in range(0, len(text), _LINE)]
    return "\n".join(["-----BEGIN SSH SIGNATURE-----", *lines, "-----END SSH SIGNATURE-----", ""])


def verify(message: bytes, signature: str, namespace: str) -> PublicKey:
    """The key that has signed these bytes for this purpose. Whose it is the caller must know. Raises BadSignature."""
    found = _ARMOR.fullmatch(signature) if len(signature) <= LARGEST_SIGNATURE else None
    if found is None:
        raise BadSignature(mark("signing", "this is not an SSH signature"))
    try:
        blob = base64.b64decode("".join(found["base64"].split()), validate=True)
    except (binascii.Error, ValueError):
        raise BadSignature(mark("signing", "this is not an SSH signature: it is damaged")) from None
    reader = _Reader(blob)
    if reader.take(6) != _MAGIC:
        raise BadSignature(mark("signing", "this is not an SSH signature"))
    version = int.from_bytes(reader.take(4), "big")
    if version != _VERSION:
        raise BadSignature(mark("signing", "the signature is of version {version}, not 1"), version=version)
    public = PublicKey.from_blob(reader.string())
    purpose, reserved, algorithm, made = reader.string(), reader.string(), reader.string(), reader.string()
    reader.end()
    if purpose != namespace.encode():
        raise BadSignature(
            mark("signing", "the signature is for another purpose: {purpose}"),
            purpose=purpose[:80].decode("utf-8", "replace"),
        )
    if reserved or algorithm not in (b"sha256", b"sha512"):
        raise BadSignature(mark("signing", "the signature is made in a way that is not known here"))
    inner = _Reader(made)
    if inner.string() != _KIND:
        raise BadSignature(mark("signing", "the signature is made in a way that is not known here"))
    raw = inner.string()
    inner.end()
    digest = hashlib.new(algorithm.decode(), message).digest()
    try:
        Ed25519PublicKey.from_public_bytes(public.raw).verify(raw, _signed(namespace, algorithm, digest))
    except (InvalidSignature, ValueError):
        raise BadSignature(mark("signing", "the file is not as it was signed, or the signature is damaged")) from None
    return public


def _signed(namespace: str, algorithm: bytes, digest: bytes) -> bytes:
    return _MAGIC + _string(namespace.encode()) + _string(b"") + _string(algorithm) + _string(digest)


def _string(content: bytes) -> bytes:
    """A text of the SSH protocol (RFC 4251, section 5)."""
    return len(content).to_bytes(4, "big") + content


class _Reader:
    """Takes such texts apart. Nothing may be missing, and nothing left."""

    def __init__(self, content: bytes) -> None:
        self._content = content
        self._at = 0

    def take(self, count: int) -> bytes:
        """The next bytes. Raises BadSignature if there are not so many."""
        if count > len(self._content) - self._at:
            raise BadSignature(mark("signing", "this is not an SSH signature: it is cut off"))
        self._at += count
        return self._content[self._at - count : self._at]

    def string(self) -> bytes:
        """The next text."""
        return self.take(int.from_bytes(self.take(4), "big"))

    def end(self) -> None:
        """Nothing may follow. Raises BadSignature."""
        if self._at != len(self._content):
            raise BadSignature(mark("signing", "this is not an SSH signature: something stands behind its end"))
