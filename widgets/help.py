"""The dialogs of the Help menu: keys and shortcuts, cautions, what this program is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from importlib.metadata import PackageNotFoundError, version
from platform import python_version

from PySide6.QtCore import Qt, qVersion
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QDialogButtonBox,
    QHeaderView,
    QLabel,
    QMenu,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.project.model import Panel
from widgets.arming import cautions
from widgets.keypad import keyboard_map
from widgets.size import comfortable, scaled


class ShortcutsDialog(QDialog):
    """Every command with its shortcut, and which key of the keyboard stands for which key of the panel."""

    def __init__(self, menus: Sequence[QMenu], panel: Panel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Keys and shortcuts"))
        self.resize(comfortable(self, 560, 560))
        self.tree = QTreeWidget()
        self.tree.setHeaderLabels([self.tr("Command"), self.tr("Keys")])
        self.tree.header().setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.tree.header().setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)
        self.tree.header().setStretchLastSection(False)
        self.tree.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.tree.setAccessibleName(self.tr("Keys and shortcuts"))
        self._add(
            self.tr("The panel, while it has the focus"),
            [(self.tr("Key {name}").format(name=name), _native([QKeySequence(key)])) for key, name in _keys(panel)],
        )
        for menu in menus:
            self._add(_plain(menu.title()), _commands(menu))
        self.tree.expandAll()
        _finish(self, self.tree)

    def _add(self, head: str, rows: Iterable[tuple[str, str]]) -> None:
        top = QTreeWidgetItem([head])
        font = top.font(0)
        font.setBold(True)
        top.setFont(0, font)
        for command, keys in rows:
            top.addChild(QTreeWidgetItem([command, keys]))
        if top.childCount():
            self.tree.addTopLevelItem(top)


class CautionsDialog(QDialog):
    """What everybody must know who lets a panel write to a machine."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Cautions"))
        label = QLabel(
            "\n\n".join(
                [
                    self.tr("Fanlight can write to a machine. Before it does, all of this must hold:"),
                    *(f"\u2022  {text}" for text in cautions()),
                    self.tr(
                        "Fanlight only reads until a line is armed, and disarms when you disconnect, close the window "
                        "or press Disarm. A follower may go on with the last command it got: set its communication "
                        "time-out so that it stops by itself when the panel falls silent."
                    ),
                ]
            )
        )
        label.setWordWrap(True)
        label.setMinimumWidth(scaled(480))
        label.setMinimumHeight(label.heightForWidth(scaled(480)))
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByKeyboard)
        _finish(self, label)


class AboutDialog(QDialog):
    """What this program is, and what it runs on."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("About Fanlight"))
        heading = QLabel(f"Fanlight {_version('fanlight')}")
        heading.setProperty("look", "heading")
        text = QLabel(
            self.tr(
                "Design small text panels for Modbus devices, prove them against the device or a simulation of it, "
                "and hand them over."
            )
        )
        text.setWordWrap(True)
        text.setMinimumWidth(scaled(420))
        text.setMinimumHeight(text.heightForWidth(scaled(420)))
        parts = QLabel(
            f"Python {python_version()}, Qt {qVersion()}, PySide6 {_version('PySide6-Essentials')}, "
            f"pymodbus {_version('pymodbus')}"
        )
        parts.setProperty("look", "faint")
        parts.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByKeyboard | Qt.TextInteractionFlag.TextSelectableByMouse
        )
        _finish(self, heading, text, parts)


def _finish(dialog: QDialog, *parts: QWidget) -> None:
    layout = QVBoxLayout(dialog)
    layout.setSpacing(10)
    for part in parts:
        layout.addWidget(part)
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
    buttons.rejected.connect(dialog.reject)
    layout.addWidget(buttons)
    buttons.button(QDialogButtonBox.StandardButton.Close).setFocus()


def _commands(menu: QMenu) -> list[tuple[str, str]]:
    rows: list[tuple[str, str]] = []
    for action in menu.actions():
        inner = action.menu()
        if isinstance(inner, QMenu):
            rows += [(f"{_plain(inner.title())}: {command}", keys) for command, keys in _commands(inner)]
        elif not action.isSeparator():
            rows.append((_plain(action.text()), _shortcuts(action)))
    return rows


def _shortcuts(action: QAction) -> str:
    return _native(action.shortcuts())


def _native(sequences: Iterable[QKeySequence]) -> str:
    return ", ".join(dict.fromkeys(each.toString(QKeySequence.SequenceFormat.NativeText) for each in sequences))


def _keys(panel: Panel) -> list[tuple[Qt.Key, str]]:
    return list(keyboard_map(panel.keys).items())


def _plain(text: str) -> str:
    """A menu text without the marks of its access key."""
    return text.replace("&&", "\0").replace("&", "").replace("\0", "&").rstrip("\u2026")


def _version(package: str) -> str:
    try:
        return version(package)
    except PackageNotFoundError:
        return "?"
