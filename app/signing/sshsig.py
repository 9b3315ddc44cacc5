"""SSH signatures of files: OpenSSH's PROTOCOL.sshsig, with Ed25519 keys only.

What is signed is not the file itself but its SHA-512 with the purpose of the signature (the namespace), so that a
signature of one kind is never taken for one of another. `ssh-keygen -Y sign` and `-Y verify` make and take the same.
"""

from __future__ import annotations

import base64
import hashlib
import re
from dataclasses import dataclass
from typing import Final, Self

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from app.errors import FanlightError
from app.language import mark
from app.signing.public_key import KIND, BadKey, PublicKey
from app.signing.wire import Malformed, Unpacker, packed

_MAGIC: Final = b"SSHSIG"
_VERSION: Final = 1
_HASHES: Final = (b"sha256", b"sha512")
_BEGIN, _END = "-----BEGIN SSH SIGNATURE-----", "-----END SSH SIGNATURE-----"
_ARMOR: Final = re.compile(rf"\s*{_BEGIN}\r?\n(?P<base64>[A-Za-z0-9+/=\r\n]+)\n{_END}\s*")
_LINE: Final = 70
"""Letters of base64 in a line, as OpenSSH writes them."""
LARGEST_SIGNATURE: Final = 64 * 1024
"""Bytes of a signature's file at most; one of Ed25519 has three hundred."""
_DAMAGED: Final = mark("signing", "the SSH signature is damaged: something is missing, or something too much")


class BadSignature(FanlightError):
    """A signature is not one of these bytes for this purpose; the message says what is wrong."""


def sign(message: bytes, key: Ed25519PrivateKey, namespace: str) -> str:
    """The signature of a file's bytes for this purpose, as the text of its file."""
    purpose, hashed = namespace.encode(), _hashed(message, b"sha512")
    made = packed(KIND) + packed(key.sign(_MAGIC + _head(purpose, b"sha512") + packed(hashed)))
    blob = _MAGIC + _VERSION.to_bytes(4, "big") + packed(PublicKey.of(key).blob)
    text = base64.b64encode(blob + _head(purpose, b"sha512") + packed(made)).decode()
    return "\n".join([_BEGIN, *(text[at : at + _LINE] for at in range(0, len(text), _LINE)), _END, ""])


def verify(message: bytes, signature: str, namespace: str) -> PublicKey:
    """The key that has signed these bytes for this purpose. Whose it is the caller must know. Raises BadSignature."""
    found = _Signature.in_text(signature)
    if found.purpose != namespace.encode():
        raise BadSignature(
            mark("signing", "the signature is for another purpose: {purpose}"),
            purpose=found.purpose[:80].decode("utf-8", "replace"),
        )
    signed = _MAGIC + _head(found.purpose, found.hash) + packed(_hashed(message, found.hash))
    try:
        Ed25519PublicKey.from_public_bytes(found.key.raw).verify(found.raw, signed)
    except (InvalidSignature, ValueError):
        raise BadSignature(mark("signing", "the file is not as it was signed, or the signature is damaged")) from None
    return found.key


@dataclass(frozen=True, slots=True)
class _Signature:
    """What stands in a signature (PROTOCOL.sshsig, section 2)."""

    key: PublicKey
    purpose: bytes
    hash: bytes
    raw: bytes

    @classmethod
    def in_text(cls, text: str) -> Self:
        """Raises BadSignature."""
        found = _ARMOR.fullmatch(text) if len(text) <= LARGEST_SIGNATURE else None
        if found is None:
            raise BadSignature(mark("signing", "this is not an SSH signature"))
        coded = "".join(found["base64"].split())
        try:
            blob = base64.b64decode(coded, validate=True)
            if base64.b64encode(blob).decode() != coded:  # bits behind the end, which decoding leaves out
                raise Malformed
            return cls._in_blob(blob)
        except BadKey as why:
            raise BadSignature(mark("signing", "the signature cannot be verified here: {why}"), why=why) from None
        except ValueError:
            raise BadSignature(_DAMAGED) from None

    @classmethod
    def _in_blob(cls, blob: bytes) -> Self:
        parts = Unpacker(blob)
        if parts.take(len(_MAGIC)) != _MAGIC:
            raise Malformed
        if (version := parts.number()) != _VERSION:
            raise BadSignature(mark("signing", "the SSH signature is of version {version}, not 1"), version=version)
        key = PublicKey.from_blob(parts.text())
        purpose, reserved, hashed, made = parts.text(), parts.text(), parts.text(), Unpacker(parts.text())
        parts.end()
        kind, raw = made.text(), made.text()
        made.end()
        if reserved or kind != KIND or hashed not in _HASHES:
            raise BadSignature(mark("signing", "the signature is made in a way that is not known here"))
        return cls(key, purpose, hashed, raw)


def _head(purpose: bytes, hashed: bytes) -> bytes:
    """What stands both in the signature and in what is signed; the text between them is reserved."""
    return packed(purpose) + packed(b"") + packed(hashed)


def _hashed(message: bytes, name: bytes) -> bytes:
    return hashlib.new(name.decode(), message).digest()
