"""What the program remembers between runs: recent files, the look, the place of the window."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from PySide6.QtCore import QByteArray, QSettings, QStandardPaths

from app.recording.limits import LEAST_S, LEAST_SIZE, MOST_FILES, MOST_S, MOST_SIZE, Limits
from app.signals.raw_text import RawForm
from widgets.kit.language import Language
from widgets.kit.palette import Appearance
from widgets.kit.scaling import nearest

RECENT_FILES: Final = 9
"""How many recent files are remembered; one digit each in the menu."""
RECENT_COMMANDS: Final = 12
"""How many commands that were found by name are remembered."""


@dataclass(frozen=True, slots=True)
class LeftOff:
    """Where a window was left."""

    path: Path | None = None
    """The project; None if it had no file."""
    workspace: int = 0
    """Counted from 0 in the order of the switcher."""
    view: str = ""
    """Of the Design workspace; empty if it was not opened."""
    screen: str = ""


def documents_folder() -> Path:
    """The folder of the user's documents: where files are looked for of which nothing is known yet."""
    named = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
    return Path(named) if named else Path.home()


class _Forgotten:
    """Settings of one run, which are kept nowhere."""

    def __init__(self) -> None:
        self._values: dict[str, object] = {}

    def value(self, key: str, default: object = None) -> object:
        """What was set, or the default."""
        return self._values.get(key, default)

    def setValue(self, key: str, value: object) -> None:
        """Set it for this run."""
        self._values[key] = value


MATCHINGS: Final = 60
"""How many matchings of columns are remembered, one for each kind of list."""
CHOSEN_CURVES: Final = 50
"""Projects whose curves are remembered."""
ARRANGED_TABLES: Final = 60
"""Of how many projects it is remembered how the columns of their signals are arranged."""
ARMED_FILES: Final = 100
"""Of how many files it is remembered how they were armed last."""


INSTRUMENTS: Final = 20
"""How many instruments that somebody measured with are remembered."""


WORKSPACES: Final = {"0": 0, "1": 1, "2": 2, "3": 3}
"""What can stand in the settings as the workspace that was left."""


class Settings:
    """The user's settings, in a plain text file where the system keeps such files.

    Whatever stands in that file that cannot be understood is left out without a word: it is only comfort.
    """

    def __init__(self, *, keep: bool = True) -> None:
        """Read the user's settings; with `keep=False` begin without any, and keep none."""
        self._store: QSettings | _Forgotten = (
            QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, "fanlight", "fanlight")
            if keep
            else _Forgotten()
        )

    @property
    def recent(self) -> tuple[Path, ...]:
        """The project files opened or saved last, newest first."""
        return tuple(Path(name) for name in self._texts("recent"))[:RECENT_FILES]

    def remember(self, path: Path) -> None:
        """Put `path` at the head of the recent files."""
        path = path.absolute()
        self._write_recent([path, *(other for other in self.recent if other != path)])

    def forget(self, path: Path) -> None:
        """Take `path` out of the recent files."""
        self._write_recent([other for other in self.recent if other != path.absolute()])

    def forget_all(self) -> None:
        """Empty the recent files."""
        self._write_recent([])

    @property
    def recent_commands(self) -> tuple[str, ...]:
        """What was found by name last, newest first (see `widgets.shell.finder.Target.token`)."""
        return self._texts("commands")[:RECENT_COMMANDS]

    def remember_command(self, token: str) -> None:
        """Put a command at the head of those found last."""
        others = [other for other in self.recent_commands if other != token]
        self._store.setValue("commands", [token, *others][:RECENT_COMMANDS])

    @property
    def appearance(self) -> Appearance:
        """Light, dark, or as the system."""
        try:
            return Appearance(str(self._store.value("appearance", Appearance.SYSTEM.value)))
        except ValueError:
            return Appearance.SYSTEM

    @appearance.setter
    def appearance(self, appearance: Appearance) -> None:
        self._store.setValue("appearance", appearance.value)

    @property
    def language(self) -> Language:
        """English, German, or as the system."""
        try:
            return Language(str(self._store.value("language", Language.SYSTEM.value)))
        except ValueError:
            return Language.SYSTEM

    @language.setter
    def language(self, language: Language) -> None:
        self._store.setValue("language", language.value)

    @property
    def size(self) -> int:
        """How large everything is drawn, in per cent; one of `widgets.kit.scaling.SIZES`."""
        try:
            return nearest(int(str(self._store.value("size", 100))))
        except ValueError:
            return 100

    @size.setter
    def size(self, percent: int) -> None:
        self._store.setValue("size", percent)

    @property
    def geometry(self) -> QByteArray:
        """Where the window was, as Qt writes it; empty if never saved."""
        found = self._store.value("geometry")
        return found if isinstance(found, QByteArray) else QByteArray()

    @geometry.setter
    def geometry(self, geometry: QByteArray) -> None:
        self._store.setValue("geometry", geometry)

    @property
    def first_steps(self) -> str:
        """How somebody left the list of first steps: open, closed, or away; empty if nobody touched it."""
        found = str(self._store.value("first_steps", ""))
        return found if found in ("open", "closed", "away") else ""

    @first_steps.setter
    def first_steps(self, state: str) -> None:
        self._store.setValue("first_steps", state)

    @property
    def demo_seen(self) -> bool:
        """Whether it was said what comes after the demo."""
        return str(self._store.value("demo_seen", "false")) == "true"

    @demo_seen.setter
    def demo_seen(self, seen: bool) -> None:
        self._store.setValue("demo_seen", "true" if seen else "false")

    @property
    def resumes(self) -> bool:
        """Whether the program begins where it was left, if it is started without a file."""
        return str(self._store.value("resumes", "true")) != "false"

    @resumes.setter
    def resumes(self, on: bool) -> None:
        self._store.setValue("resumes", "true" if on else "false")

    @property
    def blinks(self) -> bool:
        """Whether cells of the panel that blink do so."""
        return str(self._store.value("blinks", "true")) != "false"

    @blinks.setter
    def blinks(self, on: bool) -> None:
        self._store.setValue("blinks", "true" if on else "false")

    @property
    def left_off(self) -> LeftOff:
        """Where the window was left last."""
        texts = {key: str(self._store.value(f"left_off/{key}", "") or "") for key in ("path", "view", "screen")}
        return LeftOff(
            path=Path(texts["path"]) if texts["path"] else None,
            workspace=WORKSPACES.get(str(self._store.value("left_off/workspace", 0)), 0),
            view=texts["view"],
            screen=texts["screen"],
        )

    @left_off.setter
    def left_off(self, place: LeftOff) -> None:
        self._store.setValue("left_off/path", "" if place.path is None else str(place.path.absolute()))
        self._store.setValue("left_off/workspace", place.workspace)
        self._store.setValue("left_off/view", place.view)
        self._store.setValue("left_off/screen", place.screen)

    def arrangement(self, name: str) -> QByteArray:
        """How the parts called `name` were divided, as Qt writes it; empty if never saved."""
        found = self._store.value(f"arrangement/{name}")
        return found if isinstance(found, QByteArray) else QByteArray()

    def keep_arrangement(self, name: str, state: QByteArray) -> None:
        """Remember how the parts called `name` are divided."""
        self._store.setValue(f"arrangement/{name}", state)

    def matching(self, signature: str) -> str:
        """How the columns of the last list with these titles were matched; an empty text if there was none."""
        return self._texts_by("matchings").get(signature, "")

    def keep_matching(self, signature: str, text: str) -> None:
        """Remember how the columns of a list are matched; the lists that were matched first are forgotten."""
        self._keep_text("matchings", signature, text, MATCHINGS)

    def columns(self, path: Path | None) -> str:
        """How the columns of the table of signals of this project are arranged; empty if that is not known."""
        return "" if path is None else self._texts_by("columns").get(str(path), "")

    def keep_columns(self, path: Path | None, text: str) -> None:
        """Remember how the columns of a project's table are arranged; projects that were arranged first are forgotten,
        and one without a file."""
        if path is not None:
            self._keep_text("columns", str(path), text, ARRANGED_TABLES)

    def curves(self, path: Path | None) -> tuple[str, ...]:
        """The signals whose curves were chosen in this project; none if that is not known."""
        text = "" if path is None else self._texts_by("curves").get(str(path.absolute()), "")
        return tuple(text.split("\n")) if text else ()

    def keep_curves(self, path: Path | None, signals: Sequence[str]) -> None:
        """Remember the curves of a project; projects whose curves were chosen first are forgotten, and one without a
        file."""
        if path is not None and self.curves(path) != tuple(signals):
            self._keep_text("curves", str(path.absolute()), "\n".join(signals), CHOSEN_CURVES)

    def _keep_text(self, key: str, name: str, text: str, most: int) -> None:
        """Put a text under a name at the end of a table of the settings, which keeps the newest."""
        kept = self._texts_by(key)
        kept.pop(name, None)
        kept[name] = text
        for forgotten in list(kept)[:-most]:
            del kept[forgotten]
        self._store.setValue(key, json.dumps(kept))

    def _texts_by(self, key: str) -> dict[str, str]:
        try:
            found = json.loads(str(self._store.value(key, "") or "{}"))
        except ValueError:
            return {}
        pairs = found.items() if isinstance(found, dict) else ()
        return {name: text for name, text in pairs if isinstance(text, str)}

    def armed_before(self, path: Path | None) -> str:
        """The digest of the project of this file as it was armed last on this computer; empty if it never was."""
        return "" if path is None else self._texts_by("armed").get(str(path.absolute()), "")

    def keep_armed(self, path: Path | None, digest: str) -> None:
        """Remember what was armed from this file; the files that were armed first are forgotten."""
        if path is not None:
            self._keep_text("armed", str(path.absolute()), digest, ARMED_FILES)

    @property
    def project_folder(self) -> Path:
        """The folder of the last project."""
        return self._folder("project_folder")

    @project_folder.setter
    def project_folder(self, folder: Path) -> None:
        self._store.setValue("project_folder", str(folder.absolute()))

    @property
    def list_folder(self) -> Path:
        """The folder of the last register list that was read or written; that of the last project if there was none."""
        return self._folder("list_folder")

    @list_folder.setter
    def list_folder(self, folder: Path) -> None:
        self._store.setValue("list_folder", str(folder.absolute()))

    @property
    def raw_form(self) -> RawForm:
        """How raw numbers are written in the table of readings."""
        try:
            return RawForm(str(self._store.value("raw_form", RawForm.DECIMAL.value)))
        except ValueError:
            return RawForm.DECIMAL

    @raw_form.setter
    def raw_form(self, form: RawForm) -> None:
        self._store.setValue("raw_form", form.value)

    @property
    def start_up_folder(self) -> Path:
        """The folder of the last recording or register snapshot; that of the last project if there was none."""
        return self._folder("start_up_folder")

    @start_up_folder.setter
    def start_up_folder(self, folder: Path) -> None:
        self._store.setValue("start_up_folder", str(folder.absolute()))

    @property
    def recordings_folder(self) -> Path:
        """Where recordings go of which nobody asks: to the last one's folder, that of the user's documents at first."""
        kept = str(self._store.value("start_up_folder", "") or "")
        return Path(kept) if kept and Path(kept).is_dir() else documents_folder()

    def _folder(self, key: str) -> Path:
        kept = str(self._store.value(key, "") or "")
        if kept and Path(kept).is_dir():
            return Path(kept)
        return self.recent[0].parent if self.recent else documents_folder()

    @property
    def recording_limits(self) -> Limits:
        """When a recording goes on in another file, and how many files are kept. A part that makes no sense is none."""
        size = self._within("recording/size", LEAST_SIZE, MOST_SIZE)
        seconds = self._within("recording/seconds", LEAST_S, MOST_S)
        files = self._within("recording/files", 1, MOST_FILES)
        # Files are deleted by it: half a number is no number.
        return Limits(size=int(size), seconds=seconds, files=int(files) if files.is_integer() else 0)

    @recording_limits.setter
    def recording_limits(self, limits: Limits) -> None:
        self._store.setValue("recording/size", limits.size)
        self._store.setValue("recording/seconds", limits.seconds)
        self._store.setValue("recording/files", limits.files)

    def _within(self, key: str, least: float, most: float) -> float:
        """A number of the file between these; 0 if there is none."""
        try:
            found = float(str(self._store.value(key, 0)))
        except ValueError:
            return 0.0
        return found if least <= found <= most else 0.0

    @property
    def tester(self) -> tuple[str, str]:
        """Who runs trials here, and where; empty as long as nobody said."""
        return str(self._store.value("trial/tester", "") or ""), str(self._store.value("trial/place", "") or "")

    @tester.setter
    def tester(self, tester: tuple[str, str]) -> None:
        for key, text in zip(("trial/tester", "trial/place"), tester, strict=True):
            self._store.setValue(key, text)

    @property
    def instruments(self) -> tuple[tuple[str, str, str], ...]:
        """What was measured with, the last first: name, serial number, and until when it is calibrated (ISO 8601)."""
        found = [tuple(line.split("\t")) for line in self._texts("trial/instruments")]
        return tuple((one[0], one[1], one[2]) for one in found if len(one) == 3)

    def keep_instrument(self, name: str, serial: str, due: str) -> None:
        """Put an instrument at the head of those that were measured with."""
        kept = [(name, serial, due), *(one for one in self.instruments if one[0] != name)]
        self._store.setValue("trial/instruments", ["\t".join(one) for one in kept[:INSTRUMENTS]])

    def _texts(self, key: str) -> tuple[str, ...]:
        found = self._store.value(key, [])
        texts = [found] if isinstance(found, str) else found if isinstance(found, list) else []
        return tuple(text for text in texts if isinstance(text, str) and text)

    def _write_recent(self, paths: list[Path]) -> None:
        self._store.setValue("recent", [str(path) for path in paths[:RECENT_FILES]])
