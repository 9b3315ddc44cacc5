"""What the program remembers between runs: recent files, the look, the place of the window."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from PySide6.QtCore import QByteArray, QSettings

from widgets.language import Language
from widgets.palette import Appearance

RECENT_FILES: Final = 9
"""How many recent files are remembered; one digit each in the menu."""
RECENT_COMMANDS: Final = 12
"""How many commands that were found by name are remembered."""


class Settings:
    """The user's settings, in a plain text file where the system keeps such files.

    Whatever stands in that file that cannot be understood is left out without a word: it is only comfort.
    """

    def __init__(self) -> None:
        self._store = QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, "fanlight", "fanlight")

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
        """What was found by name last, newest first (see `widgets.command_finder.Target.token`)."""
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
    def geometry(self) -> QByteArray:
        """Where the window was, as Qt writes it; empty if never saved."""
        found = self._store.value("geometry")
        return found if isinstance(found, QByteArray) else QByteArray()

    @geometry.setter
    def geometry(self, geometry: QByteArray) -> None:
        self._store.setValue("geometry", geometry)

    def _texts(self, key: str) -> tuple[str, ...]:
        found = self._store.value(key, [])
        texts = [found] if isinstance(found, str) else found if isinstance(found, list) else []
        return tuple(text for text in texts if isinstance(text, str) and text)

    def _write_recent(self, paths: list[Path]) -> None:
        self._store.setValue("recent", [str(path) for path in paths[:RECENT_FILES]])
