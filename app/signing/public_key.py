"""The half of a key that everybody may have: signatures are verified by it, and people compare its fingerprint."""

from __future__ import annotations

import base64
import hashlib
from dataclasses import dataclass
from typing import Final

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

from app.errors import FanlightError
from app.language import mark
from app.signing.wire import Malformed, Unpacker, packed

KIND: Final = b"ssh-ed25519"
"""What OpenSSH calls keys of Ed25519 that lie in a file: the only ones that are used here."""
_LENGTH: Final = 32
_OTHER_KIND: Final = mark(
    "signing", "this is a key of the kind '{kind}'; only keys of the kind ssh-ed25519 are used here"
)
_DAMAGED: Final = mark("signing", "this key is damaged: it is not whole as OpenSSH writes it")


class BadKey(FanlightError):
    """Something is not a public key that is used here; the message says what it is."""


@dataclass(frozen=True, slots=True)
class PublicKey:
    """A public key of Ed25519. `raw` are its 32 bytes (RFC 8032, section 5.1.5)."""

    raw: bytes

    @property
    def blob(self) -> bytes:
        """The key as OpenSSH packs it (RFC 8709, section 4)."""
        return packed(KIND) + packed(self.raw)

    @property
    def text(self) -> str:
        """The key as it stands in a file: "ssh-ed25519 AAAA..."."""
        return f"{KIND.decode()} {base64.b64encode(self.blob).decode()}"

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
        """The key as OpenSSH packs it. Raises BadKey for any other kind of key."""
        parts = Unpacker(blob)
        try:
            kind = parts.text()
            if kind != KIND:
                raise BadKey(_OTHER_KIND, kind=kind[:60].decode("ascii", "replace"))
            raw = parts.text()
            parts.end()
        except Malformed:
            raise BadKey(_DAMAGED) from None
        if len(raw) != _LENGTH:
            raise BadKey(_DAMAGED)
        return cls(raw)

    @classmethod
    def from_text(cls, text: str) -> PublicKey:
        """The key as it stands in a file of public keys; a remark behind it is left out. Raises BadKey."""
        kind, coded, *_ = [*text.split(maxsplit=2), "", ""]
        if kind != KIND.decode():
            raise BadKey(_OTHER_KIND, kind=kind[:60])
        try:
            blob = base64.b64decode(coded, validate=True)
        except ValueError:
            raise BadKey(_DAMAGED) from None
        return cls.from_blob(blob)
