"""Signatures as OpenSSH makes them: against its own program, against RFC 8032, and against every flipped bit."""

from __future__ import annotations

import base64
import shutil
import subprocess
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from hypothesis import given, strategies as st

from app.signing.keys import load_key, make_key
from app.signing.signers import signers_line
from app.signing.sshsig import BadSignature, PublicKey, sign, verify

needs_ssh_keygen = pytest.mark.skipif(shutil.which("ssh-keygen") is None, reason="OpenSSH is not installed")
NAMESPACE = "trial@fanlight"
KEY = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))

RFC_8032 = (
    # Section 7.1, tests 1 to 3: secret key, public key, message, signature (from memory; the arithmetic checks them).
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


def ssh_keygen(*words: str, stdin: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(["ssh-keygen", *words], input=stdin, capture_output=True, check=False, timeout=30)


@pytest.mark.parametrize(("secret", "public", "message", "signature"), RFC_8032)
def test_the_arithmetic_is_that_of_rfc_8032(secret: str, public: str, message: str, signature: str) -> None:
    key = Ed25519PrivateKey.from_private_bytes(bytes.fromhex(secret))
    assert PublicKey.of(key).raw.hex() == public
    assert key.sign(bytes.fromhex(message)).hex() == signature


def test_what_was_signed_is_verified_and_tells_the_key() -> None:
    signature = sign(b"a record\n", KEY, NAMESPACE)
    assert verify(b"a record\n", signature, NAMESPACE) == PublicKey.of(KEY)
    assert verify(b"a record\n", signature.replace("\n", "\r\n"), NAMESPACE) == PublicKey.of(KEY)


@pytest.mark.parametrize(
    ("message", "namespace", "why"),
    [
        (b"another record\n", NAMESPACE, "not as it was signed"),
        (b"a record\n", "file", "another purpose: trial@fanlight"),
    ],
)
def test_another_file_or_purpose_is_refused(message: bytes, namespace: str, why: str) -> None:
    with pytest.raises(BadSignature, match=why):
        verify(message, sign(b"a record\n", KEY, NAMESPACE), namespace)


def test_every_flipped_bit_of_file_or_signature_is_refused() -> None:
    message = b'{"against": "device"}\n'
    signature = sign(message, KEY, NAMESPACE)
    blob = base64.b64decode("".join(signature.splitlines()[1:-1]))
    for bit in range(8 * len(message)):
        with pytest.raises(BadSignature):
            verify(flipped(message, bit), signature, NAMESPACE)
    for bit in range(8 * len(blob)):
        with pytest.raises(BadSignature):
            verify(message, armored(flipped(blob, bit)), NAMESPACE)


@given(st.one_of(st.text(max_size=300), st.binary(max_size=200).map(lambda content: armored(content))))
def test_anything_else_is_refused_in_words(text: str) -> None:
    with pytest.raises(BadSignature) as told:
        verify(b"", text, NAMESPACE)
    assert str(told.value)


@pytest.mark.parametrize("cut", [1, 7, 20, 60, 100, 180])
def test_a_signature_that_is_cut_or_has_something_behind_it_is_refused(cut: int) -> None:
    blob = base64.b64decode("".join(sign(b"x", KEY, NAMESPACE).splitlines()[1:-1]))
    for damaged in (blob[:-cut], blob + b"\0" * cut):
        with pytest.raises(BadSignature):
            verify(b"x", armored(damaged), NAMESPACE)


@needs_ssh_keygen
def test_openssh_makes_the_same_bytes(tmp_path: Path) -> None:
    """PROTOCOL.sshsig, by the program that it comes from."""
    key = make_key(tmp_path / "key")
    (tmp_path / "record").write_bytes(b"a record\n")
    assert ssh_keygen("-Y", "sign", "-f", str(key.file), "-n", NAMESPACE, str(tmp_path / "record")).returncode == 0
    theirs = (tmp_path / "record.sig").read_text()
    assert key.sign(b"a record\n", NAMESPACE) == theirs
    assert verify(b"a record\n", theirs, NAMESPACE) == key.public


@needs_ssh_keygen
def test_openssh_verifies_ours_and_refuses_what_was_changed(tmp_path: Path) -> None:
    key = make_key(tmp_path / "key", "a pass phrase")
    (tmp_path / "signers").write_text(signers_line("tech@example.invalid", key.public, NAMESPACE) + "\n")
    (tmp_path / "record.sig").write_text(key.sign(b"a record\n", NAMESPACE))
    words = ["-Y", "verify", "-f", str(tmp_path / "signers"), "-I", "tech@example.invalid", "-n", NAMESPACE]
    words += ["-s", str(tmp_path / "record.sig")]
    good = ssh_keygen(*words, stdin=b"a record\n")
    assert good.returncode == 0, good.stderr
    assert key.fingerprint.encode() in good.stdout
    assert ssh_keygen(*words, stdin=b"a Record\n").returncode != 0


@needs_ssh_keygen
@pytest.mark.parametrize("pass_phrase", ["", "a pass phrase"])
def test_a_key_of_openssh_signs_here_and_ours_is_read_there(tmp_path: Path, pass_phrase: str) -> None:
    theirs = tmp_path / "theirs"
    assert ssh_keygen("-q", "-t", "ed25519", "-N", pass_phrase, "-f", str(theirs)).returncode == 0
    key = load_key(theirs, lambda _: pass_phrase)
    listed = ssh_keygen("-l", "-f", f"{theirs}.pub").stdout.split()
    assert key.fingerprint.encode() == listed[1]
    ours = make_key(tmp_path / "ours", pass_phrase)
    derived = ssh_keygen("-y", "-P", pass_phrase, "-f", str(ours.file))
    assert derived.stdout.decode().split()[:2] == ours.public.text.split()


@needs_ssh_keygen
def test_a_key_of_another_kind_is_refused_by_name(tmp_path: Path) -> None:
    theirs = tmp_path / "theirs"
    assert ssh_keygen("-q", "-t", "ecdsa", "-N", "", "-f", str(theirs)).returncode == 0
    (tmp_path / "x").write_bytes(b"x")
    assert ssh_keygen("-Y", "sign", "-f", str(theirs), "-n", NAMESPACE, str(tmp_path / "x")).returncode == 0
    with pytest.raises(BadSignature, match="of the kind ecdsa-sha2-nistp256; only ssh-ed25519"):
        verify(b"x", (tmp_path / "x.sig").read_text(), NAMESPACE)


def flipped(content: bytes, bit: int) -> bytes:
    changed = bytearray(content)
    changed[bit // 8] ^= 1 << bit % 8
    return bytes(changed)


def armored(blob: bytes) -> str:
    text = base64.b64encode(blob).decode()
    return f"-----BEGIN SSH SIGNATURE-----\n{text}\n-----END SSH SIGNATURE-----\n"
