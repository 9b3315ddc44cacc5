"""Starting the window as a program: pictures, exit statuses, and leaving in order when it is told to."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from PySide6.QtGui import QColor, QImage

from projects import demo_path
from widgets.kit.icons import PROGRAM_SIDES, program_icon
from widgets.shell.application import GRAB_SIZE

START = """
import sys
from pathlib import Path
from PySide6.QtCore import QSettings
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[1])
from widgets.shell.application import run_window
from widgets.kit.palette import Appearance
sys.exit(run_window({call}))
"""


def start(tmp_path: Path, call: str, **environment: str | None) -> subprocess.Popen[str]:
    """A process that runs the window; `call` are the arguments of run_window."""
    variables = {**os.environ, "QT_QPA_PLATFORM": "offscreen", **environment}
    return subprocess.Popen(
        [sys.executable, "-c", START.format(call=call), str(tmp_path / "settings")],
        cwd=Path(__file__).parents[3],
        env={name: value for name, value in variables.items() if value is not None},
        stderr=subprocess.PIPE,
        text=True,
    )


def finish(process: subprocess.Popen[str], status: int) -> str:
    """What the process said, after it ended with this status and without a traceback."""
    _, said = process.communicate(timeout=60)
    assert "Traceback" not in said
    assert "Error calling Python override" not in said
    assert process.returncode == status, said
    return said


def colours(image: QImage) -> set[str]:
    return {image.pixelColor(x, y).name() for x in range(0, image.width(), 3) for y in range(0, image.height(), 3)}


def test_a_picture_of_the_demo_shows_it_live(tmp_path: Path) -> None:
    file = tmp_path / "demo.png"
    call = f"Path({str(demo_path('booster-pump'))!r}), demo=True, grab=Path({str(file)!r}), for_s=2.0, keys=['start']"
    finish(start(tmp_path, call), 0)
    image = QImage(str(file))
    assert (image.width(), image.height()) == GRAB_SIZE
    shades = colours(image)
    assert len(shades) > 30
    # Values read good are told in this colour, beside the word.
    assert any(QColor(shade).green() > 1.4 * QColor(shade).red() for shade in shades)


@pytest.mark.parametrize("appearance", ["LIGHT", "DARK"])
def test_a_picture_of_a_project_in_both_looks(tmp_path: Path, appearance: str) -> None:
    file = tmp_path / "design.png"
    call = (
        f"Path({str(demo_path('drying-hall'))!r}), grab=Path({str(file)!r}), for_s=0.3,"
        f" appearance=Appearance.{appearance}"
    )
    finish(start(tmp_path, call), 0)
    lightness = QImage(str(file)).scaled(1, 1).pixelColor(0, 0).lightness()
    assert (lightness > 128) == (appearance == "LIGHT")


def test_what_is_not_in_sight_is_not_imported_before_the_demo_is() -> None:
    """The first live value waits for every import (`tests/bench/start_up.py` measures it)."""
    # What is put off until the first values are there is put off for good: on a busy computer they come late.
    code = (
        "from app.cli.parser import main; import widgets.shell.line_place as late; late.LINE_VIEW_AFTER_MS = 10**6; "
        "import widgets.shell.window as window; window.IMPORT_AFTER_MS = 10**6; "
        "raise SystemExit(main(['demo', '--for', '0']))"
    )
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-c", code],
        cwd=Path(__file__).parents[3],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    imported = {line.rpartition("|")[2].strip() for line in done.stderr.splitlines()}
    assert {"app.session.session", "widgets.bench.workspace", "pymodbus.pdu"} <= imported
    rooms = {"app.checks", "app.exchange", "app.snapshots", "app.edits"}
    heavy = {
        "numpy",
        "pyqtgraph",
        "sqlite3",
        "filelock",
        "prompt_toolkit",
        "xlsxwriter",
        "python_calamine",
        "cryptography",
    }
    unseen = {
        *(
            "compare.window",
            "design.workspace",
            "document.autosave",
            "welcome.new_panel",
            "welcome.start_page",
            "live.line_view",
        ),
        *("shell.help", "shell.recovery_dialog", "start_up.workspace"),
    }
    assert sorted(imported & (rooms | heavy | {f"widgets.{name}" for name in unseen})) == []


READY = """
import sys
from pathlib import Path
from PySide6.QtCore import QSettings, QTimer
from PySide6.QtWidgets import QApplication
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[1])
from widgets.shell.application import make_application, run_window
from widgets.shell.window import AHEAD, MainWindow

def look():
    if not set(AHEAD) <= set(sys.modules):
        QTimer.singleShot(20, look)
        return
    for each in QApplication.topLevelWidgets():
        if isinstance(each, MainWindow):
            each.leave()

application = make_application()
QTimer.singleShot(0, look)
sys.exit(run_window(state=Path(sys.argv[1])))
"""


def test_what_opens_late_is_imported_before_anybody_wants_it(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-c", READY, str(tmp_path)],
        cwd=Path(__file__).parents[3],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")


def test_a_picture_needs_no_screen(tmp_path: Path) -> None:
    file = tmp_path / "blank.png"
    call = f"None, grab=Path({str(file)!r}), for_s=0.1"
    finish(start(tmp_path, call, QT_QPA_PLATFORM=None, DISPLAY=None, WAYLAND_DISPLAY=None), 0)
    assert not QImage(str(file)).isNull()


@pytest.mark.skipif(sys.platform != "linux", reason="other systems always have a screen")
def test_without_a_screen_a_window_is_refused_with_a_sentence(tmp_path: Path) -> None:
    process = start(tmp_path, "None", QT_QPA_PLATFORM=None, DISPLAY=None, WAYLAND_DISPLAY=None)
    assert "there is no display" in finish(process, 2)


@pytest.mark.parametrize(
    ("name", "words"),
    [("no/such/x.png", "does not exist"), ("x.jpg", ".png"), ("folder.png", "is a folder")],
)
def test_a_picture_that_cannot_be_written_is_refused_at_once(tmp_path: Path, name: str, words: str) -> None:
    (tmp_path / "folder.png").mkdir()
    began = time.monotonic()
    said = finish(start(tmp_path, f"None, grab=Path({str(tmp_path / name)!r}), for_s=3600"), 2)
    assert words in said
    assert said.startswith("fanlight: ")
    assert time.monotonic() - began < 60


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_is_said(tmp_path: Path) -> None:
    (tmp_path / "full.png").symlink_to("/dev/full")
    said = finish(start(tmp_path, f"None, grab=Path({str(tmp_path / 'full.png')!r}), for_s=0.1"), 2)
    assert "cannot be written" in said


@pytest.mark.parametrize("demo", [True, False])
def test_a_missing_project_is_a_sentence_and_2(tmp_path: Path, demo: bool) -> None:
    gone = tmp_path / "gone.toml"
    said = finish(start(tmp_path, f"Path({str(gone)!r}), demo={demo}, for_s=0.1"), 2)
    assert str(gone) in said


@pytest.mark.skipif(sys.platform == "win32", reason="signals of this kind are Unix's")
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_told_to_end_it_leaves_in_order(tmp_path: Path, number: signal.Signals) -> None:
    mark = tmp_path / "live"
    call = f"Path({str(demo_path('booster-pump'))!r}), demo=True"
    code = START.format(call=call).replace(
        "from widgets.kit.palette",
        "from widgets.live.live_session import LiveSession\nlive_frame = LiveSession._look\n"
        f"def look(self):\n    live_frame(self)\n    Path({str(mark)!r}).touch()\n"
        "LiveSession._look = look\nfrom widgets.kit.palette",
    )
    process = subprocess.Popen(
        [sys.executable, "-c", code, str(tmp_path / "settings")],
        cwd=Path(__file__).parents[3],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        stderr=subprocess.PIPE,
        text=True,
    )
    end = time.monotonic() + 60
    while not mark.exists():
        assert time.monotonic() < end
        assert process.poll() is None
    process.send_signal(number)
    finish(process, 0)


def test_the_icon_is_there(qapp: object) -> None:
    sizes = [size.width() for size in program_icon().availableSizes()]
    assert sorted(sizes) == sorted(PROGRAM_SIDES)
    for side in PROGRAM_SIDES:
        picture = program_icon().pixmap(side, side).toImage()
        assert picture.pixelColor(side // 2, side * 4 // 5).alpha() == 255


@pytest.mark.skipif(sys.platform != "linux", reason="other systems always have a screen")
@pytest.mark.parametrize("platform", ["", "xcb", "wayland"])
def test_without_a_screen_it_says_so_instead_of_being_ended_by_qt(platform: str) -> None:
    environment = {name: value for name, value in os.environ.items() if name not in ("DISPLAY", "WAYLAND_DISPLAY")}
    done = subprocess.run(
        [sys.executable, "-m", "app", "demo"],
        env={**environment, "QT_QPA_PLATFORM": platform},
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert done.returncode == 2
    assert done.stderr.startswith("fanlight: there is no display to open a window on (")
    assert len(done.stderr.splitlines()) == 1
