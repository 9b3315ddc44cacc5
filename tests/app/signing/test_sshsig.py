"""Signatures as OpenSSH makes them: against its own program, against RFC 8032, and against every flipped bit."""

from __future__ import annotations

import base64
import hashlib
from pathlib import Path
from typing import Any

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from hypothesis import given, strategies as st

from app.signing.keys import load_key, make_key
from app.signing.public_key import PublicKey
from app.signing.signers import signers_line
from app.signing.sshsig import LARGEST_SIGNATURE, BadSignature, sign, verify
from app.signing.wire import packed
from tests.app.signing.openssh import NAMESPACE, key_of_openssh, needs_ssh_keygen, ssh_keygen

KEY = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))
MESSAGE = b'{"against": "device"}\n'

RFC_8032 = (
    # Section 7.1, tests 1 to 3: secret key, public key, message, signature (as many public test suites copy them).
    (
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e06522490155"
        "5fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
    ),
    (
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
        "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ),
    (
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac"
        "18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
    ),
)


@pytest.mark.parametrize(("secret", "public", "message", "signature"), RFC_8032)
def test_the_arithmetic_is_that_of_rfc_8032(secret: str, public: str, message: str, signature: str) -> None:
    key = Ed25519PrivateKey.from_private_bytes(bytes.fromhex(secret))
    assert PublicKey.of(key).raw.hex() == public
    assert key.sign(bytes.fromhex(message)).hex() == signature


def test_what_was_signed_is_verified_and_tells_the_key() -> None:
    signature = sign(MESSAGE, KEY, NAMESPACE)
    assert verify(MESSAGE, signature, NAMESPACE) == PublicKey.of(KEY)
    assert verify(MESSAGE, signature.replace("\n", "\r\n"), NAMESPACE) == PublicKey.of(KEY)
    assert verify(MESSAGE, f"\n  {signature}\n\n", NAMESPACE) == PublicKey.of(KEY)


@pytest.mark.parametrize(
    ("message", "namespace", "why"),
    [
        (b"another record\n", NAMESPACE, "not as it was signed"),
        (MESSAGE, "file", "another purpose: trial@fanlight"),
        (MESSAGE, "", "another purpose: trial@fanlight"),
    ],
)
def test_another_file_or_purpose_is_refused(message: bytes, namespace: str, why: str) -> None:
    with pytest.raises(BadSignature, match=why):
        verify(message, sign(MESSAGE, KEY, NAMESPACE), namespace)


def test_every_flipped_bit_of_file_or_signature_is_refused() -> None:
    signature = sign(MESSAGE, KEY, NAMESPACE)
    blob = blob_of(signature)
    for bit in range(8 * len(MESSAGE)):
        with pytest.raises(BadSignature):
            verify(flipped(MESSAGE, bit), signature, NAMESPACE)
    for bit in range(8 * len(blob)):
        with pytest.raises(BadSignature):
            verify(MESSAGE, armored(flipped(blob, bit)), NAMESPACE)


@pytest.mark.parametrize("namespace", ["trial@fanlight", "trial@fanligh", "trial@fanlig"])
def test_every_flipped_bit_of_the_signature_s_text_is_refused(namespace: str) -> None:
    """Whatever is left over at the end of the base64: three lengths of it, by three purposes."""
    text = sign(MESSAGE, KEY, namespace).encode()
    blank = b" \t\r\n"
    for bit in range(8 * len(text)):
        changed = flipped(text, bit)
        if changed.split() == text.split() or (text[bit // 8] in blank and changed[bit // 8] in blank):
            continue  # one blank for another
        with pytest.raises(BadSignature):
            verify(MESSAGE, changed.decode("ascii", "replace"), namespace)


@given(st.one_of(st.text(max_size=300), st.binary(max_size=200).map(lambda content: armored(content))))
def test_anything_else_is_refused_in_words(text: str) -> None:
    with pytest.raises(BadSignature) as told:
        verify(b"", text, NAMESPACE)
    assert str(told.value)


@given(st.data())
def test_lengths_that_lie_are_refused_in_words(data: st.DataObject) -> None:
    content = bytearray(blob_of(sign(MESSAGE, KEY, NAMESPACE)))
    at = data.draw(st.integers(6, len(content) - 4))
    content[at : at + 4] = data.draw(st.integers(0, 2**32 - 1)).to_bytes(4, "big")
    if bytes(content) != blob_of(sign(MESSAGE, KEY, NAMESPACE)):
        with pytest.raises(BadSignature):
            verify(MESSAGE, armored(bytes(content)), NAMESPACE)


def test_a_signature_that_is_cut_or_has_something_behind_it_is_refused() -> None:
    signature = sign(MESSAGE, KEY, NAMESPACE)
    blob = blob_of(signature)
    for at in range(len(blob)):
        with pytest.raises(BadSignature):
            verify(MESSAGE, armored(blob[:at]), NAMESPACE)
    for at in range(len(signature) - 1):
        with pytest.raises(BadSignature):
            verify(MESSAGE, signature[:at], NAMESPACE)
    for text in (armored(blob + b"\0"), signature + "x", signature + signature, "x" + signature):
        with pytest.raises(BadSignature):
            verify(MESSAGE, text, NAMESPACE)
    with pytest.raises(BadSignature, match="this is not an SSH signature"):
        verify(MESSAGE, signature + "\n" * LARGEST_SIGNATURE, NAMESPACE)


@pytest.mark.parametrize(
    ("parts", "why"),
    [
        ({"magic": b"SSHSIX"}, "damaged"),
        ({"version": 2}, "of version 2, not 1"),
        ({"reserved": b"x"}, "in a way that is not known here"),
        ({"hashed": b"sha1"}, "in a way that is not known here"),
        ({"hashed": b"md5"}, "in a way that is not known here"),
        ({"made_by": b"ssh-rsa"}, "in a way that is not known here"),
        ({"made": bytes(63)}, "not as it was signed"),
        ({"made": b""}, "not as it was signed"),
        ({"behind": b"x"}, "damaged"),
        ({"key": packed(b"ssh-rsa") + packed(b"x")}, "the kind 'ssh-rsa'; only keys of the kind ssh-ed25519"),
        ({"key": packed(b"sk-ssh-ed25519@openssh.com") + packed(bytes(32))}, "the kind 'sk-ssh-ed25519@openssh.com'"),
        ({"key": packed(b"ssh-ed25519") + packed(bytes(31))}, "this key is damaged"),
    ],
)
def test_each_part_of_a_signature_is_looked_at(parts: dict[str, Any], why: str) -> None:
    assert put_together() == blob_of(sign(MESSAGE, KEY, NAMESPACE)), "otherwise as it should be"
    with pytest.raises(BadSignature, match=why):
        verify(MESSAGE, armored(put_together(**parts)), NAMESPACE)


# With OpenSSH -------------------------------------------------------------------------------------------------------


@needs_ssh_keygen
@pytest.mark.parametrize("message", [b"", b"a record\n", bytes(range(256)) * 40])
def test_openssh_makes_the_same_bytes(tmp_path: Path, message: bytes) -> None:
    """PROTOCOL.sshsig, by the program that it comes from."""
    key = make_key(tmp_path / "key")
    (tmp_path / "record").write_bytes(message)
    assert ssh_keygen("-Y", "sign", "-f", key.file, "-n", NAMESPACE, tmp_path / "record").returncode == 0
    theirs = (tmp_path / "record.sig").read_text()
    assert key.sign(message, NAMESPACE) == theirs
    assert verify(message, theirs, NAMESPACE) == key.public


@needs_ssh_keygen
def test_a_signature_of_openssh_by_its_other_hash_is_verified(tmp_path: Path) -> None:
    file = key_of_openssh(tmp_path / "key")
    (tmp_path / "record").write_bytes(MESSAGE)
    words = ("-Y", "sign", "-f", file, "-n", NAMESPACE, "-O", "hashalg=sha256", tmp_path / "record")
    assert ssh_keygen(*words).returncode == 0
    signature = (tmp_path / "record.sig").read_text()
    assert verify(MESSAGE, signature, NAMESPACE) == load_key(file).public
    with pytest.raises(BadSignature, match="not as it was signed"):
        verify(MESSAGE + b"x", signature, NAMESPACE)


@needs_ssh_keygen
def test_openssh_verifies_ours_and_refuses_what_was_changed(tmp_path: Path) -> None:
    key = make_key(tmp_path / "key", "a pass phrase")
    (tmp_path / "signers").write_text(signers_line("tech@example.invalid", key.public, NAMESPACE) + "\n")
    (tmp_path / "record.sig").write_text(key.sign(MESSAGE, NAMESPACE))
    words = "-Y", "verify", "-f", tmp_path / "signers", "-I", "tech@example.invalid", "-s", tmp_path / "record.sig"
    good = ssh_keygen(*words, "-n", NAMESPACE, stdin=MESSAGE)
    assert good.returncode == 0, good.stderr
    assert key.fingerprint.encode() in good.stdout
    assert ssh_keygen(*words, "-n", NAMESPACE, stdin=flipped(MESSAGE, 3)).returncode != 0
    assert ssh_keygen(*words, "-n", "file", stdin=MESSAGE).returncode != 0


@needs_ssh_keygen
@pytest.mark.parametrize(("kind", "name"), [("ecdsa", "ecdsa-sha2-nistp256"), ("rsa", "ssh-rsa")])
def test_a_signature_by_a_key_of_another_kind_is_refused_by_name(tmp_path: Path, kind: str, name: str) -> None:
    file = key_of_openssh(tmp_path / "theirs", kind)
    (tmp_path / "x").write_bytes(b"x")
    assert ssh_keygen("-Y", "sign", "-f", file, "-n", NAMESPACE, tmp_path / "x").returncode == 0
    with pytest.raises(BadSignature, match=f"cannot be verified here: .* of the kind '{name}'; only .* ssh-ed25519"):
        verify(b"x", (tmp_path / "x.sig").read_text(), NAMESPACE)


def flipped(content: bytes, bit: int) -> bytes:
    changed = bytearray(content)
    changed[bit // 8] ^= 1 << bit % 8
    return bytes(changed)


def armored(blob: bytes) -> str:
    text = base64.b64encode(blob).decode()
    return f"-----BEGIN SSH SIGNATURE-----\n{text}\n-----END SSH SIGNATURE-----\n"


def blob_of(signature: str) -> bytes:
    return base64.b64decode("".join(signature.splitlines()[1:-1]))


def put_together(
    *,
    magic: bytes = b"SSHSIG",
    version: int = 1,
    key: bytes | None = None,
    reserved: bytes = b"",
    hashed: bytes = b"sha512",
    made_by: bytes = b"ssh-ed25519",
    made: bytes | None = None,
    behind: bytes = b"",
) -> bytes:
    """The signature of MESSAGE by KEY, part by part as in PROTOCOL.sshsig, with some of them changed."""
    signed = b"SSHSIG" + b"".join(map(packed, (NAMESPACE.encode(), b"", b"sha512", hashlib.sha512(MESSAGE).digest())))
    parts = [
        PublicKey.of(KEY).blob if key is None else key,
        NAMESPACE.encode(),
        reserved,
        hashed,
        packed(made_by) + packed(KEY.sign(signed) if made is None else made),
    ]
    return magic + version.to_bytes(4, "big") + b"".join(map(packed, parts)) + behind
