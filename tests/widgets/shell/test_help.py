"""The sheet of all keys: complete, searchable, and as text to print."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QTreeWidgetItemIterator

from tests.pictures.stage import Setting, staged
from widgets.kit.commands import is_entry, keys_of, list_commands, native
from widgets.kit.own_keys import own_keys, shown_keys
from widgets.shell.help import ShortcutsDialog
from widgets.shell.window import MainWindow


@pytest.fixture(scope="module")
def window() -> Iterator[MainWindow]:
    with staged(Setting()) as made:
        yield made


@pytest.fixture
def sheet(window: MainWindow) -> Iterator[ShortcutsDialog]:
    made = ShortcutsDialog(window.menus.all(), window.document.project.panel, window)
    made.show()
    yield made
    made.close()
    made.deleteLater()


def rows(sheet: ShortcutsDialog) -> list[tuple[str, str]]:
    """What is listed and not hidden: command and keys."""
    found = []
    groups = QTreeWidgetItemIterator(sheet.tree)
    while (item := groups.value()) is not None:
        group = item.parent()
        if group is not None and not item.isHidden() and not group.isHidden():
            found.append((item.text(0), item.text(1)))
        groups += 1
    return found


def test_every_command_is_on_it_with_its_keys(window: MainWindow, sheet: ShortcutsDialog) -> None:
    shown = rows(sheet)
    for each in list_commands(window.menus.all()):
        if not is_entry(each.action):
            assert (": ".join((*each.path[1:], each.name)), native(keys_of(each.action))) in shown
    assert all(keys for _, keys in shown), "a row without keys says nothing"


def test_keys_beside_the_commands_are_on_it(sheet: ShortcutsDialog) -> None:
    shown = rows(sheet)
    for part in own_keys():
        for row in part.rows:
            assert not row.words or (row.words, shown_keys(row.keys)) in shown


def test_words_narrow_it(sheet: ShortcutsDialog) -> None:
    everything = rows(sheet)
    QTest.keyClicks(sheet.search, "save")
    few = rows(sheet)
    assert ("Save", "Ctrl+S") in few
    assert 0 < len(few) < len(everything) / 4
    QTest.keyClicks(sheet.search, " xyzzy")
    assert rows(sheet) == []
    sheet.search.clear()
    assert rows(sheet) == everything


def test_a_key_is_looked_up(sheet: ShortcutsDialog) -> None:
    QTest.keyClicks(sheet.search, "ctrl+k")
    assert rows(sheet)[0] == ("Connect", "Ctrl+K")


def test_it_is_copied_as_text(sheet: ShortcutsDialog) -> None:
    button = next(each for each in sheet.findChildren(QPushButton) if "text" in each.text())
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    text = QApplication.clipboard().text()
    lines = text.splitlines()
    assert lines[0] == "File"
    assert any(line.split() == ["Save", "Ctrl+S"] for line in lines)
    assert "Edit" in lines
    assert len(lines) > 100
    assert max(map(len, lines)) < 160
