"""OpenSSH's own program, which tests ask whether it reads what is written here, and reads alike."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

needs_ssh_keygen = pytest.mark.skipif(shutil.which("ssh-keygen") is None, reason="OpenSSH is not installed")

NAMESPACE = "trial@fanlight"


def ssh_keygen(*words: str | Path, stdin: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(["ssh-keygen", *map(str, words)], input=stdin, capture_output=True, check=False, timeout=30)


def key_of_openssh(file: Path, kind: str = "ed25519", pass_phrase: str = "", *options: str) -> Path:
    """A new key, made by OpenSSH."""
    done = ssh_keygen("-q", "-t", kind, "-N", pass_phrase, "-f", file, *options)
    assert done.returncode == 0, done.stderr
    return file
