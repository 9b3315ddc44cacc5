"""What all tests share. Windows run without a screen unless the tests are given one."""

from __future__ import annotations

import atexit
import gc
import os
import shutil
import sys
import tempfile
import threading
from collections.abc import Iterator

import pytest

from app.project.model import Project
from tests.big_project import big_project as make_big_project
from tests.builders import demo

if sys.platform == "linux" and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

if sys.dont_write_bytecode and "PYTHONPYCACHEPREFIX" not in os.environ:
    # Tests start the program some hundred times: it is compiled once for all of them, and not into the tree.
    os.environ["PYTHONPYCACHEPREFIX"] = tempfile.mkdtemp(prefix="fanlight-compiled-")
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    atexit.register(shutil.rmtree, os.environ["PYTHONPYCACHEPREFIX"], ignore_errors=True)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int:
    """Twice as many processes as cores, since tests wait half of their time: for lines, time-outs and frames."""
    return 2 * (os.cpu_count() or 1)


def pytest_collection_finish() -> None:
    """What is imported is no garbage, and is looked through no more."""
    gc.collect()
    gc.freeze()


@pytest.fixture(scope="session", autouse=True)
def _the_clipboard_is_left_empty() -> Iterator[None]:
    """Qt's offscreen clipboard outlives Python: what Python made and is still on it ends the process in a crash."""
    yield
    gui = sys.modules.get("PySide6.QtGui")
    if gui is not None and gui.QGuiApplication.instance() is not None:
        gui.QGuiApplication.clipboard().clear()


@pytest.fixture(scope="session", autouse=True)
def _the_state_of_programs_is_not_the_users(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Also in processes that tests start. Windows and macOS know no such variable; locks only are left there."""
    os.environ["XDG_STATE_HOME"] = str(tmp_path_factory.mktemp("state"))


@pytest.fixture
def no_thread_is_left() -> Iterator[None]:
    """Whatever the test starts it also ends.

    A thread that opens a port ends by itself when the system has answered, since nothing can call it off.
    """
    before = set(threading.enumerate())
    yield
    opening = [each for each in threading.enumerate() if each not in before and each.name == "fanlight-opening"]
    for thread in opening:
        thread.join(10)
    assert [thread.name for thread in threading.enumerate() if thread not in before] == []


@pytest.fixture(scope="session")
def pump() -> Project:
    """The demo that most tests look at: a drive behind a panel of 4 rows."""
    return demo("booster-pump")


@pytest.fixture(scope="session")
def big_project() -> Project:
    """200 screens and 2000 signals."""
    return make_big_project()
