"""The language of the window: whose it is, and Qt's translators for it."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from importlib import resources
from typing import Final

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QObject, QTranslator

from app import language as language_of_app


class Language(enum.StrEnum):
    """What the user asked for."""

    SYSTEM = "system"
    ENGLISH = "en"
    GERMAN = "de"


OWN_NAMES: Final = {Language.ENGLISH: "English", Language.GERMAN: "Deutsch"}
"""What speakers of a language call it: never translated, so that they find it whatever the window speaks."""


class Translation(QObject):
    """Lets the whole program speak one language: our texts, those of `app`, and those of Qt's own dialogs.

    Only what is made afterwards speaks it; what is on the screen already keeps its texts.
    """

    def __init__(self, application: QCoreApplication) -> None:
        super().__init__(application)
        self._application = application
        self._translators: list[QTranslator] = []
        self._wish = Language.SYSTEM

    @property
    def wish(self) -> Language:
        """What was chosen; SYSTEM stands for what the system speaks."""
        return self._wish

    def speak(self, wish: Language) -> None:
        """Speak this language from now on: English where nothing else is known."""
        self._wish = wish
        for translator in self._translators:
            self._application.removeTranslator(translator)
            translator.deleteLater()
        spoken = spoken_for(wish)
        self._translators = [] if spoken is Language.ENGLISH else self._load(spoken)
        for translator in self._translators:
            self._application.installTranslator(translator)
        QLocale.setDefault(locale_for(spoken))
        decimal_mark: language_of_app.DecimalMark = "," if QLocale().decimalPoint() == "," else "."
        language_of_app.speak(_translate if self._translators else None, decimal_mark)

    def _load(self, spoken: Language) -> list[QTranslator]:
        ours, of_qt = QTranslator(self), QTranslator(self)
        folder = resources.files("resources") / "translations"
        found = [of_qt] if of_qt.load(f"qtbase_{spoken}", QLibraryInfo.path(_QT_TRANSLATIONS)) else []
        if ours.load(str(folder / f"fanlight_{spoken}.qm")):
            found.append(ours)  # the last one installed is asked first
        return found


def _translate(context: str, text: str) -> str:
    return QCoreApplication.translate(context, text)


_QT_TRANSLATIONS: Final = QLibraryInfo.LibraryPath.TranslationsPath


def locale_for(spoken: Language, of_system: QLocale | None = None) -> QLocale:
    """How dates and numbers are written: as the system says where it speaks this language too, so that Swiss German
    keeps its point; else as in Britain or Germany. `of_system` left out: the system is asked."""
    system, plain = of_system or QLocale.system(), QLocale("en_GB" if spoken is Language.ENGLISH else spoken)
    return system if system.language() == plain.language() else plain


def spoken_for(wish: Language, of_system: Sequence[str] | None = None) -> Language:
    """The language that is spoken for this wish, never SYSTEM.

    `of_system` are the languages that the user reads, best first, such as "de-AT"; left out, the system is asked.
    """
    if wish is not Language.SYSTEM:
        return wish
    for name in QLocale.system().uiLanguages() if of_system is None else of_system:
        known = name.replace("_", "-").split("-")[0]
        if known in OWN_NAMES:
            return Language(known)
    return Language.ENGLISH
