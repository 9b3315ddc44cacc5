"""Keys: made once, read back, and refused in words where they cannot serve."""

from __future__ import annotations

import os
import stat
import sys
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat
from hypothesis import HealthCheck, given, settings, strategies as st

from app.signing.keys import (
    LONGEST_PASS_PHRASE,
    UNPROTECTED,
    CannotUseKey,
    KeyLocked,
    PassPhrase,
    WrongPassPhrase,
    keys_here,
    load_key,
    look_at_key,
    make_key,
    public_file,
    usual_key,
)
from tests.app.signing.openssh import key_of_openssh, needs_ssh_keygen, ssh_keygen


def test_a_key_is_made_read_back_and_never_written_over(tmp_path: Path) -> None:
    made = make_key(tmp_path / "folder" / "key")
    assert load_key(made.file).fingerprint == made.fingerprint
    assert public_file(made.file).read_text().strip() == made.public.text
    before = made.file.read_bytes()
    with pytest.raises(CannotUseKey, match="key exists already; a key is never written over"):
        make_key(made.file)
    assert made.file.read_bytes() == before
    assert "private" not in repr(made)
    assert "without a pass phrase" in UNPROTECTED.lower()


def test_the_public_half_of_another_key_is_not_written_over_either(tmp_path: Path) -> None:
    public_file(tmp_path / "key").write_text("another")
    with pytest.raises(CannotUseKey, match=r"key\.pub exists already; a key is never written over"):
        make_key(tmp_path / "key")
    assert public_file(tmp_path / "key").read_text() == "another"
    assert not (tmp_path / "key").exists(), "no half of a key is left"


def test_nothing_is_left_of_a_key_that_could_not_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(CannotUseKey, match=r"was not written to .*: No space left on device"):
            make_key(tmp_path / "key")
    assert list(tmp_path.iterdir()) == []
    assert make_key(tmp_path / "key").file.exists()


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has other permissions")
def test_nobody_else_can_read_a_new_key(tmp_path: Path) -> None:
    assert stat.S_IMODE(make_key(tmp_path / "key").file.stat().st_mode) == 0o600


def test_a_locked_key_needs_its_pass_phrase(tmp_path: Path) -> None:
    made = make_key(tmp_path / "key", "Sésam, öffne dich")
    asked: list[str] = []

    def answer(file: str) -> str:
        asked.append(file)
        return "Sésam, öffne dich"

    assert load_key(made.file, answer).fingerprint == made.fingerprint
    assert asked == [str(made.file)]
    with pytest.raises(KeyLocked, match="is locked by a pass phrase"):
        load_key(made.file)
    for nothing in (None, ""):
        with pytest.raises(KeyLocked, match="is locked by a pass phrase"):
            load_key(made.file, saying(nothing))
    for wrong in ("sesam", "x" * (LONGEST_PASS_PHRASE + 1), "\ud800"):
        with pytest.raises(WrongPassPhrase, match="this is not the pass phrase of"):
            load_key(made.file, saying(wrong))


def test_a_pass_phrase_can_be_long_but_not_longer(tmp_path: Path) -> None:
    longest = "ä" * (LONGEST_PASS_PHRASE // 2)
    assert load_key(make_key(tmp_path / "key", longest).file, lambda _: longest).file == tmp_path / "key"
    with pytest.raises(CannotUseKey, match="too long: it can have 1023 bytes"):
        make_key(tmp_path / "other", longest + "xx")
    assert not (tmp_path / "other").exists()


def test_a_file_tells_whose_key_it_is_without_the_pass_phrase(tmp_path: Path) -> None:
    locked, bare = make_key(tmp_path / "locked", "a pass phrase"), make_key(tmp_path / "bare")
    assert (look_at_key(locked.file).public, look_at_key(locked.file).locked) == (locked.public, True)
    assert (look_at_key(bare.file).public, look_at_key(bare.file).locked) == (bare.public, False)


def test_what_is_no_such_key_is_refused_in_words(tmp_path: Path) -> None:
    made = make_key(tmp_path / "key")
    with pytest.raises(CannotUseKey, match="is the public half of a key"):
        load_key(public_file(made.file))
    for missing in (tmp_path / "none", tmp_path / "a\0b", tmp_path):
        with pytest.raises(CannotUseKey, match=r"cannot be read|there is no key"):
            load_key(missing)
    (tmp_path / "text").write_text("a text")
    with pytest.raises(CannotUseKey, match="is not a private key"):
        load_key(tmp_path / "text")
    (tmp_path / "large").write_bytes(b"x" * 70_000)
    with pytest.raises(CannotUseKey, match="too large"):
        load_key(tmp_path / "large")
    pem = Ed25519PrivateKey.generate().private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    (tmp_path / "pem").write_bytes(pem)
    with pytest.raises(CannotUseKey, match="is not a whole key of the kind ssh-ed25519 as OpenSSH writes it"):
        load_key(tmp_path / "pem")
    with pytest.raises(CannotUseKey, match="was not written"):
        make_key(tmp_path / "text" / "key")


def test_a_key_with_line_ends_of_windows_is_read(tmp_path: Path) -> None:
    made = make_key(tmp_path / "key")
    (tmp_path / "sent").write_bytes(made.file.read_bytes().replace(b"\n", b"\r\n"))
    assert load_key(tmp_path / "sent").public == made.public


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=300, deadline=None)
@given(st.data())
def test_a_damaged_key_is_refused(tmp_path: Path, data: st.DataObject) -> None:
    made = tmp_path / "key" if (tmp_path / "key").exists() else make_key(tmp_path / "key").file
    content = bytearray(made.read_bytes())
    for _ in range(data.draw(st.integers(1, 3))):
        content[data.draw(st.integers(0, len(content) - 1))] = data.draw(st.integers(0, 255))
    (tmp_path / "damaged").write_bytes(content[: data.draw(st.integers(0, len(content)))])
    try:
        found = load_key(tmp_path / "damaged").public
    except CannotUseKey:
        found = load_key(made).public
    assert found == load_key(made).public, "nothing else is taken for a key than what says that nothing was changed"


def test_the_keys_of_this_computer_are_those_that_are_there(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    monkeypatch.setattr("app.signing.keys.user_config_path", lambda _: tmp_path / "config")
    assert keys_here() == ()
    make_key(usual_key())
    make_key(tmp_path / ".ssh" / "id_ed25519")
    assert keys_here() == (tmp_path / "config" / "signing-key", tmp_path / ".ssh" / "id_ed25519")


@needs_ssh_keygen
@pytest.mark.parametrize("pass_phrase", ["", "a pass phrase"])
def test_a_key_of_openssh_is_read_here_and_ours_there(tmp_path: Path, pass_phrase: str) -> None:
    theirs = load_key(key_of_openssh(tmp_path / "theirs", "ed25519", pass_phrase), lambda _: pass_phrase)
    listed = ssh_keygen("-l", "-f", tmp_path / "theirs.pub").stdout.split()
    assert theirs.fingerprint.encode() == listed[1]
    ours = make_key(tmp_path / "ours", pass_phrase)
    derived = ssh_keygen("-y", "-P", pass_phrase, "-f", ours.file)
    assert derived.stdout.decode().split()[:2] == ours.public.text.split()
    assert ssh_keygen("-l", "-f", ours.file).stdout.split()[1].decode() == ours.fingerprint


@needs_ssh_keygen
@pytest.mark.parametrize("cipher", ["aes256-ctr", "aes256-cbc", "aes256-gcm@openssh.com"])
def test_keys_locked_in_the_usual_ways_are_opened(tmp_path: Path, cipher: str) -> None:
    file = key_of_openssh(tmp_path / "key", "ed25519", "a pass phrase", "-Z", cipher)
    assert load_key(file, lambda _: "a pass phrase").public == look_at_key(file).public
    with pytest.raises(WrongPassPhrase):
        load_key(file, lambda _: "another")


@needs_ssh_keygen
@pytest.mark.parametrize("cipher", ["chacha20-poly1305@openssh.com", "3des-cbc", "aes128-ctr"])
def test_a_key_locked_in_another_way_is_not_blamed_on_its_pass_phrase(tmp_path: Path, cipher: str) -> None:
    file = key_of_openssh(tmp_path / "key", "ed25519", "a pass phrase", "-Z", cipher)
    with pytest.raises(CannotUseKey, match="is locked in a way that is not known here; 'ssh-keygen -p'"):
        load_key(file, lambda _: "a pass phrase")
    assert ssh_keygen("-p", "-P", "a pass phrase", "-N", "a new one", "-f", file).returncode == 0
    assert load_key(file, lambda _: "a new one").public == look_at_key(file).public, "what it was told to do helps"


@needs_ssh_keygen
@pytest.mark.parametrize(("kind", "name"), [("rsa", "ssh-rsa"), ("ecdsa", "ecdsa-sha2-nistp256")])
def test_a_key_of_another_kind_is_refused_before_its_pass_phrase_is_asked(tmp_path: Path, kind: str, name: str) -> None:
    file = key_of_openssh(tmp_path / "key", kind, "a pass phrase")
    with pytest.raises(CannotUseKey, match=f"key: this is a key of the kind '{name}'; only"):
        load_key(file, lambda _: pytest.fail("asked"))


def saying(words: str | None) -> PassPhrase:
    return lambda _: words
