"""Which language is spoken, and that everything speaks it: our texts, those of `app`, those of Qt."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from PySide6.QtCore import QCoreApplication, QLocale
from PySide6.QtGui import QKeySequence

from app import language as language_of_app
from widgets.kit.language import Language, Translation, locale_for, spoken_for


@pytest.mark.parametrize(
    ("of_system", "spoken"),
    [
        (["de-AT", "de"], Language.GERMAN),
        (["de_CH"], Language.GERMAN),
        (["en-GB", "de-DE"], Language.ENGLISH),
        (["fr-FR", "de-DE"], Language.GERMAN),
        (["fr-FR"], Language.ENGLISH),
        (["C"], Language.ENGLISH),
        ([], Language.ENGLISH),
    ],
)
def test_as_the_system_speaks_the_first_language_of_the_user_that_is_known(
    of_system: Sequence[str], spoken: Language
) -> None:
    assert spoken_for(Language.SYSTEM, of_system) is spoken


def test_what_was_chosen_counts_whatever_the_system_speaks() -> None:
    assert spoken_for(Language.ENGLISH, ["de-DE"]) is Language.ENGLISH
    assert spoken_for(Language.GERMAN, ["en-GB"]) is Language.GERMAN


def test_ours_and_the_texts_of_qt_speak_german_and_english_again(speech: Translation) -> None:
    speech.speak(Language.GERMAN)
    assert speech.wish is Language.GERMAN
    assert QCoreApplication.translate("WindowMenus", "&File") == "&Datei"
    assert QCoreApplication.translate("QPlatformTheme", "Cancel") == "Abbrechen"
    speech.speak(Language.ENGLISH)
    assert QCoreApplication.translate("WindowMenus", "&File") == "&File"
    assert QCoreApplication.translate("QPlatformTheme", "Cancel") == "Cancel"


def test_app_speaks_the_same(speech: Translation) -> None:
    speech.speak(Language.GERMAN)
    assert language_of_app.translate("WindowMenus", "&File") == "&Datei"
    speech.speak(Language.ENGLISH)
    assert language_of_app.translate("WindowMenus", "&File") == "&File"


def test_shortcuts_mean_the_same_keys_in_every_language(speech: Translation) -> None:
    names = ["Ctrl+Shift+L", "Alt+PgUp", "Ctrl+Delete", "Ctrl+Shift+Backspace", "Pause", "F8", "Shift+F2"]
    english = [QKeySequence(name) for name in names]
    speech.speak(Language.GERMAN)
    assert [QKeySequence(name) for name in names] == english
    assert english[0].toString(QKeySequence.SequenceFormat.NativeText) == "Strg+Umschalt+L"


def test_numbers_and_dates_follow_the_language(speech: Translation) -> None:
    speech.speak(Language.GERMAN)
    assert (language_of_app.decimal_mark(), QLocale().toString(41.65, "f", 2)) == (",", "41,65")
    speech.speak(Language.ENGLISH)
    assert (language_of_app.decimal_mark(), QLocale().toString(41.65, "f", 2)) == (".", "41.65")


def test_where_the_system_speaks_the_language_it_says_how_numbers_are_written() -> None:
    swiss = QLocale("de_CH")  # writes a point: CLDR, as Qt carries it
    assert locale_for(Language.GERMAN, swiss).decimalPoint() == "."
    assert locale_for(Language.ENGLISH, swiss) == QLocale("en_GB")
    assert locale_for(Language.GERMAN, QLocale("en_US")).decimalPoint() == ","
