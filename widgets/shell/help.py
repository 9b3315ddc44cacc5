"""The dialogs of the Help menu: keys and shortcuts, cautions, what this program is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from importlib.metadata import PackageNotFoundError, version
from platform import python_version

from PySide6.QtCore import Qt, qVersion
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import (
    QApplication,
    QMenu,
    QTreeWidget,
    QTreeWidgetItem,
    QWidget,
)

from app.project.model import Panel
from widgets.face.keypad import keyboard_map
from widgets.kit.commands import keys_of, list_commands, native, plain
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.elided import search_box
from widgets.kit.fuzzy_match import fit
from widgets.kit.own_keys import own_keys, shown_keys
from widgets.kit.plain import plain_label
from widgets.kit.row_list import group_row, list_row, set_up_list
from widgets.live.arming import Caution, cautions
from widgets.shell.licences import packages


class ShortcutsDialog(Dialog):
    """Every command with its keys, which key of the keyboard stands for which of the panel, and all other keys."""

    def __init__(self, menus: Sequence[QMenu], panel: Panel, parent: QWidget | None = None) -> None:
        super().__init__(parent, width=780, height=640)
        self.tell(self.tr("Keys and shortcuts"))
        self.search = search_box(self.tr("Parts of a command or of a key"), self.tr("Search term"))
        self.search.textChanged.connect(self._narrow)
        self.tree = QTreeWidget()
        set_up_list(self.tree, (self.tr("Command"), self.tr("Keys")))
        self.tree.setRootIsDecorated(True)
        self.tree.setUniformRowHeights(True)
        self.tree.setAccessibleName(self.tr("Keys and shortcuts"))
        for menu in menus:
            self._add(plain(menu.title()), _commands(menu))
        for part in own_keys():
            self._add(part.part, [(row.words, shown_keys(row.keys)) for row in part.rows if row.words])
        of_panel = [
            (self.tr("Key {name}").format(name=name), native([QKeySequence(key)])) for key, name in _keys(panel)
        ]
        self._add(self.tr("The panel, while it has the focus"), of_panel)
        self.tree.expandAll()
        self.body.addWidget(self.search)
        self.body.addWidget(self.tree, 1)
        self.add_extra(self.tr("&Copy as text"), lambda: QApplication.clipboard().setText(self.text()))
        self.add_close()
        self.search.setFocus()

    def text(self) -> str:
        """What is listed now as text for a printer: a line for each command, its keys in a second column."""
        shown = [(group, [row for row in _children(group) if not row.isHidden()]) for group in self._groups()]
        widest = max((len(row.text(0)) for _, rows in shown for row in rows), default=0)
        lines: list[str] = []
        for group, rows in shown:
            if rows:
                lines += ["", group.text(0), *(f"  {row.text(0):<{widest}}  {row.text(1)}".rstrip() for row in rows)]
        return "\n".join(lines[1:]) + "\n"

    def _groups(self) -> list[QTreeWidgetItem]:
        return _children(self.tree.invisibleRootItem())

    def _narrow(self, typed: str) -> None:
        for group in self._groups():
            rows = _children(group)
            for row in rows:
                row.setHidden(fit(typed, row.text(0), f"{row.text(1)} {group.text(0)}") is None)
            group.setHidden(all(row.isHidden() for row in rows))

    def _add(self, head: str, rows: Iterable[tuple[str, str]]) -> None:
        listed_rows = [list_row(command, keys) for command, keys in rows]
        if listed_rows:
            group_row(self.tree, head, listed_rows)


def _children(item: QTreeWidgetItem) -> list[QTreeWidgetItem]:
    children = (item.child(number) for number in range(item.childCount()))
    return [child for child in children if child is not None]


class CautionsDialog(Dialog):
    """What everybody must know who lets a panel write to a machine."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Cautions"))
        self.tell(self.tr("Fanlight can write to a machine"), self.tr("Before it does, all of these must be true:"))
        for text in cautions():
            self.body.addWidget(Caution(text))
        self.body.addWidget(
            plain_label(
                self.tr(
                    "Fanlight only reads until a line is armed, and disarms when you disconnect, close the "
                    "window or press Disarm. A device may keep following the last command it received: set its "
                    "communication time-out so that it stops by itself when the panel no longer polls it."
                ),
                "faint",
                wrap=True,
            )
        )
        self.add_close()


class AboutDialog(Dialog):
    """What this program is, and which packages with which licences it runs on."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent, height=520)
        self.setWindowTitle(self.tr("About Fanlight"))
        self.tell(
            program(),
            self.tr(
                "Design small text panels for Modbus devices, test them on the device or a simulation of it, and "
                "hand them over."
            ),
        )
        runtime = plain_label(f"Python {python_version()}, Qt {qVersion()}", "faint")
        runtime.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByKeyboard | Qt.TextInteractionFlag.TextSelectableByMouse
        )
        self.packages = QTreeWidget()
        set_up_list(self.packages, (self.tr("Package"), self.tr("Version"), self.tr("Licence")), stretch=())
        self.packages.setAccessibleName(self.tr("Packages that Fanlight uses, with their licences"))
        self.packages.setUniformRowHeights(True)
        for each in packages():
            licence = each.licence or self.tr("not stated")
            self.packages.addTopLevelItem(list_row(each.name, each.version, licence))
        self.body.addWidget(runtime)
        self.body.addWidget(self.packages, 1)
        self.add_extra(self.tr("&Copy as text"), lambda: QApplication.clipboard().setText(self.text()))
        self.add_close()

    def text(self) -> str:
        """This program, what it runs on and all packages with their licences, a line each."""
        rows = [
            "\t".join(row.text(column) for column in range(3)) for row in _children(self.packages.invisibleRootItem())
        ]
        return "\n".join([program(), *rows]) + "\n"


def _commands(menu: QMenu) -> list[tuple[str, str]]:
    return [(": ".join((*each.path[1:], each.name)), native(keys_of(each.action))) for each in list_commands([menu])]


def _keys(panel: Panel) -> list[tuple[Qt.Key, str]]:
    return list(keyboard_map(panel.keys).items())


def program() -> str:
    """The name and version of this program."""
    return f"Fanlight {_version('fanlight')}"


def _version(package: str) -> str:
    try:
        return version(package)
    except PackageNotFoundError:
        return "?"
