"""Public keys: read strictly, and called as OpenSSH calls them."""

from __future__ import annotations

import base64
from pathlib import Path

import pytest
from hypothesis import given, strategies as st

from app.signing.public_key import BadKey, PublicKey
from app.signing.wire import Malformed, Unpacker, packed
from tests.app.signing.openssh import key_of_openssh, needs_ssh_keygen, ssh_keygen

KEY = PublicKey(bytes(range(32)))


def test_a_key_is_read_as_it_was_written() -> None:
    assert PublicKey.from_blob(KEY.blob) == KEY
    assert PublicKey.from_text(KEY.text) == KEY
    assert PublicKey.from_text(f" {KEY.text} a remark\n") == KEY


@needs_ssh_keygen
def test_it_is_the_key_of_openssh_with_its_fingerprint(tmp_path: Path) -> None:
    text = key_of_openssh(tmp_path / "key").with_suffix(".pub").read_text()
    key = PublicKey.from_text(text)
    assert text.startswith(key.text)
    assert ssh_keygen("-l", "-f", tmp_path / "key.pub").stdout.split()[1].decode() == key.fingerprint


@pytest.mark.parametrize("kind", ["ssh-rsa", "ecdsa-sha2-nistp256", "sk-ssh-ed25519@openssh.com"])
def test_other_kinds_are_refused_by_name(kind: str) -> None:
    blob = packed(kind.encode()) + packed(KEY.raw)
    why = f"of the kind '{kind}'; only keys of the kind ssh-ed25519"
    with pytest.raises(BadKey, match=why):
        PublicKey.from_blob(blob)
    with pytest.raises(BadKey, match=why):
        PublicKey.from_text(f"{kind} {base64.b64encode(blob).decode()}")


@pytest.mark.parametrize(
    "blob", [b"", KEY.blob[:-1], KEY.blob + b"\0", packed(b"ssh-ed25519") + packed(bytes(33)), b"\xff\xff\xff\xff"]
)
def test_a_damaged_key_is_refused(blob: bytes) -> None:
    with pytest.raises(BadKey, match="this key is damaged"):
        PublicKey.from_blob(blob)
    with pytest.raises(BadKey, match="this key is damaged"):
        PublicKey.from_text(f"ssh-ed25519 {base64.b64encode(blob).decode()}")


@pytest.mark.parametrize("text", ["", "ssh-ed25519", "ssh-ed25519 %%%", "ssh-ed25519 \u00e4\u00e4\u00e4\u00e4"])
def test_what_is_not_base64_is_refused(text: str) -> None:
    with pytest.raises(BadKey):
        PublicKey.from_text(text)


@given(st.lists(st.binary(max_size=20), max_size=5), st.integers(1, 5))
def test_what_is_packed_comes_out_whole_or_not_at_all(texts: list[bytes], cut: int) -> None:
    content = b"".join(map(packed, texts))
    assert unpacked(content, len(texts)) == texts
    for damaged in (content[:-cut], content + bytes(cut)) if content else ():
        with pytest.raises(Malformed):
            unpacked(damaged, len(texts))


def unpacked(content: bytes, count: int) -> list[bytes]:
    parts = Unpacker(content)
    found = [parts.text() for _ in range(count)]
    parts.end()
    return found
