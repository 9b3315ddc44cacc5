"""Keys: made once, read back, and refused in words where they cannot serve."""

from __future__ import annotations

import stat
import sys
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

from app.signing.keys import CannotUseKey, keys_here, load_key, make_key, public_file, usual_key


def test_a_key_is_made_read_back_and_never_written_over(tmp_path: Path) -> None:
    made = make_key(tmp_path / "folder" / "key")
    assert load_key(made.file).fingerprint == made.fingerprint
    assert public_file(made.file).read_text().strip() == made.public.text
    before = made.file.read_bytes()
    with pytest.raises(CannotUseKey, match="exists already; a key is never written over"):
        make_key(made.file)
    assert made.file.read_bytes() == before
    assert str(made.private) not in repr(made)


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has other permissions")
def test_nobody_else_can_read_a_new_key(tmp_path: Path) -> None:
    assert stat.S_IMODE(make_key(tmp_path / "key").file.stat().st_mode) == 0o600


def test_a_locked_key_needs_its_pass_phrase(tmp_path: Path) -> None:
    made = make_key(tmp_path / "key", "open sesame")
    assert load_key(made.file, lambda _: "open sesame").fingerprint == made.fingerprint
    with pytest.raises(CannotUseKey, match="is locked by a pass phrase"):
        load_key(made.file)
    with pytest.raises(CannotUseKey, match="is locked by a pass phrase"):
        load_key(made.file, lambda _: None)
    with pytest.raises(CannotUseKey, match="the pass phrase of"):
        load_key(made.file, lambda _: "open barley")


def test_what_is_no_such_key_is_refused_in_words(tmp_path: Path) -> None:
    made = make_key(tmp_path / "key")
    with pytest.raises(CannotUseKey, match="is the public half of a key"):
        load_key(public_file(made.file))
    with pytest.raises(CannotUseKey, match="cannot be read"):
        load_key(tmp_path / "none")
    (tmp_path / "text").write_text("a text")
    with pytest.raises(CannotUseKey, match="is not a private key in the format of OpenSSH"):
        load_key(tmp_path / "text")
    (tmp_path / "large").write_bytes(b"x" * 70_000)
    with pytest.raises(CannotUseKey, match="too large"):
        load_key(tmp_path / "large")
    other = ec.generate_private_key(ec.SECP256R1())
    (tmp_path / "other").write_bytes(other.private_bytes(Encoding.PEM, PrivateFormat.OpenSSH, NoEncryption()))
    with pytest.raises(CannotUseKey, match="of another kind; one of the kind ed25519"):
        load_key(tmp_path / "other")
    with pytest.raises(CannotUseKey, match="was not written"):
        make_key(tmp_path / "text" / "key")


def test_the_keys_of_this_computer_are_those_that_are_there(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    monkeypatch.setattr("app.signing.keys.user_config_path", lambda _: tmp_path / "config")
    assert keys_here() == ()
    make_key(usual_key())
    make_key(tmp_path / ".ssh" / "id_ed25519")
    assert keys_here() == (tmp_path / "config" / "signing-key", tmp_path / ".ssh" / "id_ed25519")
