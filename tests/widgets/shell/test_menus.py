"""No key of the window means two things: access keys of menus, buttons, labels and tabs that are in sight together."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

import pytest
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QAbstractButton, QGroupBox, QLabel, QTabBar, QWidget

from tests.pictures.stage import Setting, settle, staged
from widgets.design.views import VIEWS
from widgets.kit.language import Language
from widgets.shell.window import BENCH, DESIGN, START_UP, TRIAL, MainWindow


def access_keys(window: QWidget) -> Iterator[tuple[str, str]]:
    """Each with what it belongs to."""
    if isinstance(window, MainWindow):
        for action in window.menuBar().actions():
            yield QKeySequence.mnemonic(action.text()).toString(), f"menu {action.text()}"
    for widget in window.findChildren(QWidget):
        if not widget.isVisible() or widget.window() is not window:
            continue
        match widget:
            case QAbstractButton():
                yield widget.shortcut().toString(), f"button {widget.text()}"
            case QLabel() if widget.buddy() is not None:
                yield QKeySequence.mnemonic(widget.text()).toString(), f"label {widget.text()}"
            case QGroupBox():
                yield QKeySequence.mnemonic(widget.title()).toString(), f"group {widget.title()}"
            case QTabBar():
                for number in range(widget.count()):
                    text = widget.tabText(number)
                    yield QKeySequence.mnemonic(text).toString(), f"tab {text}"


def everywhere(window: MainWindow) -> Iterator[str]:
    places = ((DESIGN, "design"), (BENCH, "bench"), (START_UP, "start-up"), (TRIAL, "trial"))
    for number, workspace in places:
        window.show_workspace(number)
        for view in VIEWS if number == DESIGN else ("",):
            if view:
                window.design.show_view(view)
            settle()
            yield f"{workspace} {view}"


@pytest.mark.parametrize("language", [Language.ENGLISH, Language.GERMAN])
def test_no_access_key_of_the_window_is_ambiguous(language: Language) -> None:
    with staged(Setting(language=language)) as window:
        window.menus.all()
        commands = {
            keys.toString()
            for widget in (window, *window.findChildren(QWidget))
            for action in widget.actions()
            for keys in action.shortcuts()
        }
        clashes: list[str] = []
        seen = 0
        for place in everywhere(window):
            found: dict[str, list[str]] = defaultdict(list)
            for key, owner in access_keys(window):
                if key:
                    found[key].append(owner)
                    seen += 1
            clashes += [f"{place}: {key} is {' and '.join(owners)}" for key, owners in found.items() if len(owners) > 1]
            clashes += [f"{place}: {key} is {found[key][0]} and a command" for key in found.keys() & commands]
        assert seen > 50
        assert clashes == []
