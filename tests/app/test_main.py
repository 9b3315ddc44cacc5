"""`python -m app` is the command, where its own one is not on the path."""

from __future__ import annotations

import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pytest

from projects import demo_path, demos

PUMP = demo_path(demos()[0])


def ends(*arguments: str) -> tuple[int, str, str]:
    """The exit status of the command as a process of its own, and what it wrote to either output."""
    command = [sys.executable, "-m", "app", *arguments]
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=Path(__file__).parents[2])
    return done.returncode, done.stdout, done.stderr


def test_it_is_the_command() -> None:
    assert ends("--version") == (0, f"fanlight {version('fanlight')}\n", "")


@pytest.mark.parametrize("wrong", [False, True])
def test_its_exit_status_is_that_of_the_verb(tmp_path: Path, wrong: bool) -> None:
    text = PUMP.read_text("utf-8")
    path = tmp_path / "pump.toml"
    path.write_text(text.replace('signal = "frequency"', 'signal = "frequncy"', 1) if wrong else text, "utf-8")
    status, told, _ = ends("check", str(path))
    assert status == int(wrong)
    assert ("frequncy" in told) == wrong


def test_it_calls_itself_by_the_name_of_the_command() -> None:
    status, told, complaint = ends("check")
    assert (status, told) == (2, "")
    assert complaint.startswith("fanlight check: ")
    assert "__main__" not in complaint
