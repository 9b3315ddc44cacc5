"""Whose signatures count, as OpenSSH reads it too; and the commands for whoever has only OpenSSH."""

from __future__ import annotations

import os
import shutil
import subprocess
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.signing.keys import make_key
from app.signing.signers import BadSigners, load_signers, look_command, signers_line, verify_command

NAMESPACE = "trial@fanlight"


def test_a_line_is_read_as_it_was_written(tmp_path: Path) -> None:
    key = make_key(tmp_path / "key").public
    other = make_key(tmp_path / "other").public
    (tmp_path / "signers").write_text(
        f"# who may sign\n\n{signers_line('tech@example.invalid', key, NAMESPACE)}\n"
        f'"a@example.invalid,b@example.invalid" valid-after="20270301",valid-before="20280301Z" {other.text} a remark\n'
        "c@example.invalid ssh-rsa AAAAB3NzaC1yc2E=\n"
    )
    first, second = load_signers(tmp_path / "signers")
    assert (first.names, first.key, first.namespaces) == (("tech@example.invalid",), key, (NAMESPACE,))
    assert first.may_sign(NAMESPACE, datetime.now(UTC))
    assert not first.may_sign("file", datetime.now(UTC))
    assert second.names == ("a@example.invalid", "b@example.invalid")
    assert second.may_sign("file", datetime(2027, 6, 1, tzinfo=UTC))
    assert not second.may_sign("file", datetime(2027, 1, 1, tzinfo=UTC))
    assert not second.may_sign("file", datetime(2028, 3, 1, tzinfo=UTC))


def test_all_bad_lines_are_told(tmp_path: Path) -> None:
    (tmp_path / "signers").write_text(
        'somebody\na ssh-ed25519 %%%\nb valid-after="soon" ssh-ed25519 AAAA\nc =x ssh-ed25519 A\n'
    )
    with pytest.raises(BadSigners) as told:
        load_signers(tmp_path / "signers")
    for words in ("line 1: needs a name and a key", "line 2", "line 3", "line 4: '=x' are not options"):
        assert words in str(told.value)
    (tmp_path / "bytes").write_bytes(b"\xff\xfe\0")
    for file in ("bytes", "none"):
        with pytest.raises(BadSigners):
            load_signers(tmp_path / file)


@pytest.mark.skipif(shutil.which("ssh-keygen") is None or os.name != "posix", reason="needs sh and OpenSSH")
@pytest.mark.parametrize("name", ["r.json", "pump room.json", "it's $5.json"])
def test_the_commands_do_what_they_say(tmp_path: Path, name: str) -> None:
    key = make_key(tmp_path / "key")
    (tmp_path / name).write_bytes(b"a record\n")
    (tmp_path / f"{name}.sig").write_text(key.sign(b"a record\n", NAMESPACE))
    (tmp_path / "allowed_signers").write_text(signers_line("tech@example.invalid", key.public, NAMESPACE))
    for command in (
        verify_command(name, f"{name}.sig", "tech@example.invalid", NAMESPACE),
        look_command(name, f"{name}.sig", NAMESPACE),
    ):
        told = subprocess.run(["sh", "-c", command], cwd=tmp_path, capture_output=True, check=False, timeout=30)
        assert told.returncode == 0, told.stderr
        assert key.fingerprint.encode() in told.stdout
