"""A program in which everything was opened, connected and recording goes on through each change of its look."""

from __future__ import annotations

import ctypes.util
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.pictures.changes import CHANGES

ROOT = Path(__file__).parents[2]


@pytest.fixture(params=["offscreen", "xcb"])
def screen(request: pytest.FixtureRequest) -> Iterator[dict[str, str]]:
    """The environment of a program with a screen: Qt's own, and an X server that nobody sees, where there is one."""
    if request.param == "offscreen":
        yield {"QT_QPA_PLATFORM": "offscreen"}
        return
    if shutil.which("Xvfb") is None or ctypes.util.find_library("xcb-cursor") is None:
        pytest.skip("no X server or no libxcb-cursor here")
    reading, writing = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1366x768x24", "-nolisten", "tcp"],
        pass_fds=[writing],
        stderr=subprocess.DEVNULL,
    )
    os.close(writing)
    try:
        with os.fdopen(reading) as told:
            number = told.readline().strip()
        assert number, "Xvfb did not start"
        yield {"QT_QPA_PLATFORM": "xcb", "DISPLAY": f":{number}"}
    finally:
        server.terminate()
        server.wait()


@pytest.mark.timeout(300)  # on a busy computer; 10 s on one that is not
@pytest.mark.parametrize("what", CHANGES)
def test_nothing_crashes_or_stops_when_the_look_changes(what: str, screen: dict[str, str]) -> None:
    done = subprocess.run(
        [sys.executable, "-X", "faulthandler", "-m", "tests.pictures.changes", what],
        cwd=ROOT,
        env={**os.environ, **screen},
        capture_output=True,
        text=True,
        timeout=240,
        check=False,
    )
    assert done.returncode == 0, done.stderr
