"""A person's own signing key: made here, or one that they have for SSH."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from cryptography.exceptions import UnsupportedAlgorithm
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.serialization import (
    BestAvailableEncryption,
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_ssh_private_key,
)
from platformdirs import user_config_path

from app.errors import FanlightError
from app.language import mark
from app.signing.sshsig import PublicKey, sign

LARGEST_KEY: Final = 64 * 1024
"""Bytes of a key's file at most."""

PassPhrase = Callable[[str], str | None]
"""Asks for the pass phrase of a key, of which it is told the file; None: it is not given."""


class CannotUseKey(FanlightError):
    """A key cannot be made or used; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class SigningKey:
    """A private key, open. `file` is where it came from."""

    file: Path
    private: Ed25519PrivateKey

    @property
    def public(self) -> PublicKey:
        """What others verify with."""
        return PublicKey.of(self.private)

    @property
    def fingerprint(self) -> str:
        """What has to be handed over by another way than the signature."""
        return self.public.fingerprint

    def sign(self, message: bytes, namespace: str) -> str:
        """The signature of bytes for a purpose."""
        return sign(message, self.private, namespace)

    def __repr__(self) -> str:
        return f"SigningKey({self.file}, {self.fingerprint})"


def usual_key() -> Path:
    """Where the key of this program's own making stands."""
    return user_config_path("fanlight") / "signing-key"


def keys_here() -> tuple[Path, ...]:
    """The keys that a person is likely to have on this computer: the one made here, and the usual one for SSH."""
    return tuple(path for path in (usual_key(), Path.home() / ".ssh" / "id_ed25519") if path.is_file())


def make_key(file: Path, pass_phrase: str = "") -> SigningKey:
    """Make a key in a new file, and its public half beside it (.pub). An empty pass phrase leaves it open to whoever
    can read the file. Raises CannotUseKey."""
    private = Ed25519PrivateKey.generate()
    locked = BestAvailableEncryption(pass_phrase.encode()) if pass_phrase else NoEncryption()
    content = private.private_bytes(Encoding.PEM, PrivateFormat.OpenSSH, locked)
    key = SigningKey(file, private)
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        handle = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "wb") as target:
            target.write(content)
        public_file(file).write_text(key.public.text + "\n", encoding="utf-8", newline="\n")
    except OSError as why:
        if isinstance(why, FileExistsError) and os.path.lexists(file):
            raise CannotUseKey(
                mark("signing", "{file} exists already; a key is never written over"), file=file
            ) from None
        raise CannotUseKey(
            mark("signing", "the key was not written to {file}: {why}"), file=file, why=why.strerror or str(why)
        ) from None
    return key


def load_key(file: Path, pass_phrase: PassPhrase | None = None) -> SigningKey:
    """The key in a file; `pass_phrase` is asked where it is locked. Raises CannotUseKey."""
    content = _content(file)
    if content.lstrip().startswith((b"ssh-", b"ecdsa-", b"sk-")):
        raise CannotUseKey(
            mark("signing", "{file} is the public half of a key; to sign, choose the file without .pub"), file=file
        )
    given: bytes | None = None
    for _ in range(2):
        try:
            private = load_ssh_private_key(content, given)
        except TypeError:  # locked, and no pass phrase given; or not locked, and one given
            said = None if given is not None or pass_phrase is None else pass_phrase(str(file))
            if said is None:
                raise CannotUseKey(mark("signing", "{file} is locked by a pass phrase"), file=file) from None
            given = said.encode()
        except (ValueError, UnsupportedAlgorithm):
            if given is not None:
                raise CannotUseKey(mark("signing", "the pass phrase of {file} is another one"), file=file) from None
            raise CannotUseKey(
                mark("signing", "{file} is not a private key in the format of OpenSSH"), file=file
            ) from None
        else:
            if not isinstance(private, Ed25519PrivateKey):
                raise CannotUseKey(
                    mark("signing", "{file} is a key of another kind; one of the kind ed25519 is needed"), file=file
                )
            return SigningKey(file, private)
    raise CannotUseKey(mark("signing", "{file} is locked by a pass phrase"), file=file)


def public_file(file: Path) -> Path:
    """Where the public half of a key stands."""
    return file.with_name(file.name + ".pub")


def _content(file: Path) -> bytes:
    try:
        with file.open("rb") as source:
            content = source.read(LARGEST_KEY + 1)
    except OSError as why:
        raise CannotUseKey(
            mark("signing", "{file} cannot be read: {why}"), file=file, why=why.strerror or str(why)
        ) from None
    if len(content) > LARGEST_KEY:
        raise CannotUseKey(mark("signing", "{file} is too large for a key"), file=file)
    return content
