"""What the program remembers between runs."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QByteArray, QSettings, QStandardPaths

from app.recording.limits import Limits
from app.signals.raw_text import RawForm
from tests.widgets.driving import stored
from widgets.document.settings import RECENT_FILES, Settings
from widgets.kit.palette import Appearance


@pytest.fixture(autouse=True)
def _own_settings(tmp_path: Path) -> None:
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(tmp_path))


def test_begins_empty(tmp_path: Path) -> None:
    settings = Settings()
    assert settings.recent == ()
    assert settings.appearance is Appearance.SYSTEM
    assert settings.geometry.isEmpty()


def test_the_newest_recent_file_comes_first_and_none_twice(tmp_path: Path) -> None:
    settings = Settings()
    one, two = tmp_path / "one.toml", tmp_path / "two.toml"
    for path in (one, two, one):
        settings.remember(path)
    assert Settings().recent == (one, two)


def test_one_recent_file_is_read_back_as_one(tmp_path: Path) -> None:
    # An ini file does not tell a list of one text from a text.
    path = tmp_path / "a, b.toml"
    Settings().remember(path)
    assert Settings().recent == (path,)


def test_only_so_many_are_kept(tmp_path: Path) -> None:
    settings = Settings()
    for number in range(RECENT_FILES + 3):
        settings.remember(tmp_path / f"{number}.toml")
    assert len(settings.recent) == RECENT_FILES
    assert settings.recent[0] == tmp_path / f"{RECENT_FILES + 2}.toml"


def test_forgets_one_and_all(tmp_path: Path) -> None:
    settings = Settings()
    for name in ("a", "b", "c"):
        settings.remember(tmp_path / name)
    settings.forget(tmp_path / "b")
    assert [path.name for path in settings.recent] == ["c", "a"]
    settings.forget_all()
    assert Settings().recent == ()


def test_files_are_first_looked_for_beside_the_last_project(tmp_path: Path) -> None:
    settings = Settings()
    documents = Path(QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation))
    assert settings.list_folder == settings.start_up_folder == documents, "never where the program was started"
    for name in ("plant", "lists"):
        (tmp_path / name).mkdir()
    settings.remember(tmp_path / "plant" / "pump.toml")
    assert settings.list_folder == settings.start_up_folder == tmp_path / "plant"
    settings.list_folder = tmp_path / "lists"
    assert Settings().list_folder == tmp_path / "lists"
    assert Settings().start_up_folder == tmp_path / "plant"
    assert Settings().recordings_folder == documents
    settings.start_up_folder = tmp_path / "lists"
    assert Settings().recordings_folder == tmp_path / "lists"
    (tmp_path / "lists").rmdir()
    assert Settings().recordings_folder == documents, "not in a folder that is gone"


def test_remembers_the_look_and_the_place() -> None:
    settings = Settings()
    settings.appearance = Appearance.DARK
    settings.geometry = QByteArray(b"\x01\x02")
    again = Settings()
    assert again.appearance is Appearance.DARK
    assert again.geometry == QByteArray(b"\x01\x02")


def test_remembers_that_nothing_is_to_blink() -> None:
    assert Settings().blinks
    Settings().blinks = False
    assert not Settings().blinks


def test_nonsense_in_the_file_is_as_if_it_were_not_there(tmp_path: Path) -> None:
    file = tmp_path / "fanlight" / "fanlight.ini"
    file.parent.mkdir(parents=True)
    file.write_text("[General]\nappearance=plaid\nrecent=@Invalid()\ngeometry=7\n")
    settings = Settings()
    assert settings.appearance is Appearance.SYSTEM
    assert settings.recent == ()
    assert settings.geometry.isEmpty()


@pytest.mark.parametrize("limits", [Limits(), Limits(100_000_000, 5400.0, 5), Limits(seconds=1.5), Limits(files=1)])
def test_remembers_the_limits_of_recordings(limits: Limits) -> None:
    Settings().recording_limits = limits
    assert Settings().recording_limits == limits


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        ("", Limits()),
        ("size=much\nseconds=\nfiles=@Invalid()", Limits()),
        ("size=nan\nseconds=inf\nfiles=1e999", Limits()),
        ("size=-5000000\nseconds=-1\nfiles=-3", Limits()),
        ("size=1\nseconds=0.001\nfiles=2.5", Limits()),
        ("size=1e300\nseconds=1e300\nfiles=999999999999", Limits()),
        ("size=1, 2\nseconds=60\nfiles=none", Limits(seconds=60.0)),
        ("size=2000000\nseconds=soon\nfiles=3", Limits(size=2_000_000, files=3)),
    ],
)
def test_of_the_limits_of_recordings_what_makes_no_sense_is_none(tmp_path: Path, lines: str, expected: Limits) -> None:
    file = tmp_path / "fanlight" / "fanlight.ini"
    file.parent.mkdir(parents=True)
    file.write_text(f"[recording]\n{lines}\n")
    assert Settings().recording_limits == expected


def test_how_raw_numbers_are_written_is_remembered() -> None:
    Settings().raw_form = RawForm.HEXADECIMAL
    assert Settings().raw_form is RawForm.HEXADECIMAL
    stored().setValue("raw_form", "roman")
    assert Settings().raw_form is RawForm.DECIMAL
