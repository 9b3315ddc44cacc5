"""The choices of an import: how the file is read, what its rows mean, and where its signals go."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Final

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from app import edits
from app.edits import EditRefused
from app.edits.refused import free_name
from app.exchange.column_mapping import Matching
from app.exchange.delimited import CODINGS
from app.exchange.import_plan import ImportTarget
from app.exchange.importing import Import
from app.exchange.reading import ReadOptions
from app.exchange.sheet import MOST_ROWS
from app.language import translate as translate_of_app
from app.project.model import Follower, Project
from widgets.design.lines.forms import line_of_kind
from widgets.kit.controls import Choice, WholeNumber
from widgets.kit.flow import FlowLayout
from widgets.kit.scaling import scaled

_NEW: Final = "\0new"
"""Stands for a new follower; no name has this character."""
_NEW_TCP: Final = "\0tcp"
_NEW_SERIAL: Final = "\0serial"


class CaptionedChoices(QWidget):
    """Choices side by side, each below its caption."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._row = FlowLayout(self, spacing=10)
        self._captions: dict[QWidget, QLabel] = {}
        self._both: dict[QWidget, QWidget] = {}

    def add(self, caption: str, editor: QWidget, hint: str = "") -> None:
        """One more choice. `caption` may name its key with &."""
        label = QLabel(caption)
        label.setBuddy(editor)
        label.setToolTip(hint)
        editor.setToolTip(hint)
        editor.setAccessibleName(caption.replace("&", ""))
        both = QWidget()
        column = QVBoxLayout(both)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(label)
        column.addWidget(editor)
        self._row.addWidget(both)
        self._captions[editor] = label
        self._both[editor] = both

    def show_choice(self, editor: QWidget, on: bool) -> None:
        """Show or hide a choice together with its caption."""
        editor.setVisible(on)
        self._captions[editor].setVisible(on)
        self._both[editor].setVisible(on)


def box(options: Sequence[tuple[str, Any]]) -> QComboBox:
    """A box of options: what a person reads, and what it stands for."""
    made = Choice()
    for text, value in options:
        made.addItem(text, value)
    return made


def show_value(editor: QComboBox, value: object) -> None:
    """Show what stands for a value, without telling."""
    with QSignalBlocker(editor):
        for at in range(editor.count()):
            if editor.itemData(at) == value:
                editor.setCurrentIndex(at)
                return


class ReadingChoices(CaptionedChoices):
    """How the file is read, and what its numbers mean."""

    way_changed = Signal()
    """Another way of reading: the file must be read again."""
    heading_changed = Signal()
    """Another row has the titles: what the columns hold must be guessed again."""
    matching_changed = Signal()
    """The rows mean something else."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sheet = box([])
        self.separator = box(
            [
                (self.tr("Comma ,"), ","),
                (self.tr("Semicolon ;"), ";"),
                (self.tr("Tab"), "\t"),
                (self.tr("Vertical bar |"), "|"),
            ]
        )
        self.coding = box([(translate_of_app("exchange", name), coding) for coding, name in CODINGS.items()])
        self.heading = WholeNumber()
        self.heading.setRange(0, MOST_ROWS)
        self.heading.setSpecialValueText(self.tr("none"))
        self.heading.setKeyboardTracking(False)
        self.decimal_mark = box(
            [(self.tr("unknown"), None), (self.tr("Point, 0.1"), "."), (self.tr("Comma, 0,1"), ",")]
        )
        self.numbering = box(
            [
                (self.tr("as set for the device"), None),
                (self.tr("from 0"), "from-0"),
                (self.tr("from 1"), "from-1"),
                (self.tr("prefixed by the table (40001)"), "prefixed"),
            ]
        )
        self.table = box(
            [
                (self.tr("Holding"), "holding"),
                (self.tr("Input"), "input"),
                (self.tr("Coil"), "coil"),
                (self.tr("Discrete"), "discrete"),
            ]
        )
        self.hexadecimal = QCheckBox(self.tr("&hexadecimal registers"))
        self.add(self.tr("&Sheet"), self.sheet)
        self.add(self.tr("Se&parator"), self.separator, self.tr("Character between two cells of a row."))
        self.add(self.tr("Character &encoding"), self.coding, self.tr("Character encoding of the file."))
        self.add(self.tr("&Titles in row"), self.heading, self.tr("Rows above this one are ignored."))
        self.add(
            self.tr("&Decimal mark"),
            self.decimal_mark,
            self.tr("Unknown: ambiguous numbers such as 1,500 are skipped until you choose."),
        )
        self.add(
            self.tr("&Register numbering"), self.numbering, self.tr("Of the list. The device keeps its own numbering.")
        )
        self.add(self.tr("Default t&able"), self.table, self.tr("For registers whose table is not given in the list."))
        self.add(" ", self.hexadecimal, self.tr("Register numbers without prefix are hexadecimal."))
        self.hexadecimal.setAccessibleName(self.tr("Registers are hexadecimal"))
        for editor in (self.sheet, self.separator, self.coding):
            editor.activated.connect(lambda _index: self.way_changed.emit())
        self.heading.valueChanged.connect(lambda _value: self.heading_changed.emit())
        for editor in (self.decimal_mark, self.numbering, self.table):
            editor.activated.connect(lambda _index: self.matching_changed.emit())
        self.hexadecimal.clicked.connect(lambda _on: self.matching_changed.emit())

    def show_import(self, done: Import) -> None:
        """Show how a file was read and is understood."""
        kind = done.source.kind
        self.show_choice(self.sheet, kind == "workbook")
        self.show_choice(self.separator, kind == "text")
        self.show_choice(self.coding, kind == "text")
        for editor in (self.heading, self.decimal_mark, self.numbering, self.table, self.hexadecimal):
            self.show_choice(editor, kind != "model")
        with QSignalBlocker(self.sheet):
            self.sheet.clear()
            for name in done.source.sheets:
                self.sheet.addItem(name, name)
        show_value(self.sheet, done.way.sheet)
        show_value(self.separator, done.way.text.separator)
        show_value(self.coding, done.way.text.coding)
        show_value(self.decimal_mark, done.matching.mark)
        show_value(self.numbering, done.matching.numbering)
        show_value(self.table, done.matching.table)
        with QSignalBlocker(self.heading), QSignalBlocker(self.hexadecimal):
            self.heading.setValue(done.matching.heading)
            self.hexadecimal.setChecked(done.matching.hexadecimal)

    def way(self, way: ReadOptions) -> ReadOptions:
        """`way` as chosen here."""
        text = replace(way.text, coding=self.coding.currentData(), separator=self.separator.currentData())
        return replace(way, text=text, sheet=self.sheet.currentData())

    def matching(self, matching: Matching) -> Matching:
        """`matching` as chosen here."""
        return replace(
            matching,
            mark=self.decimal_mark.currentData(),
            numbering=self.numbering.currentData(),
            table=self.table.currentData(),
            hexadecimal=self.hexadecimal.isChecked(),
        )


class TargetChoices(CaptionedChoices):
    """Where the signals of a list go."""

    changed = Signal()

    def __init__(self, project: Project, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self.follower = box([(follower.name, follower.name) for follower in project.followers])
        self.follower.addItem(self.tr("New device"), _NEW)
        self.follower.addItem(self.tr("None: skip such rows"), None)
        self.name = QLineEdit(free_name(self.tr("device"), project.follower_named))
        self.name.setMaxLength(40)
        self.name.setMinimumWidth(scaled(140))
        self.line = box([(line.name, line.name) for line in project.lines])
        self.line.addItem(self.tr("New line, Modbus TCP"), _NEW_TCP)
        self.line.addItem(self.tr("New line, serial port"), _NEW_SERIAL)
        self.there = box(
            [
                (self.tr("keep them as they are"), "skip"),
                (self.tr("update them"), "replace"),
                (self.tr("add the rows beside them"), "rename"),
            ]
        )
        self.add(self.tr("&Device of the signals"), self.follower, self.tr("For rows that do not name a device."))
        self.add(self.tr("&Name of the new device"), self.name)
        self.add(
            self.tr("&Line of new devices"),
            self.line,
            self.tr("Also of devices that the list names and the project does not have."),
        )
        self.add(
            self.tr("Si&gnals that are there already"),
            self.there,
            self.tr(
                "By their name, or by device, table, register and bit. Updated ones keep their name and what the list "
                "has no column for; names that are taken get a number."
            ),
        )
        for editor in (self.follower, self.line, self.there):
            editor.activated.connect(lambda _index: self._tell())
        self.name.editingFinished.connect(self._tell)
        self._last: ImportTarget | None = None
        self._tell()

    def _tell(self) -> None:
        self.show_choice(self.name, self.follower.currentData() == _NEW)
        if self._last is not None and self.target() != self._last:
            self.changed.emit()
        self._last = self.target()

    def fill_name(self, name: str) -> None:
        """Suggest a name for a new follower, unless somebody typed one."""
        if not self.name.isModified() and name:
            self.name.setText(free_name(name[:34], self._project.follower_named))
            self._last = self.target()

    def target(self) -> ImportTarget:
        """What is chosen."""
        project = self._project
        chosen = self.line.currentData()
        line = project.line_named.get(chosen)
        if line is None:
            kind = "tcp" if chosen == _NEW_TCP else "serial"
            line = line_of_kind(kind, free_name(self.tr("line"), project.line_named))
        follower: Follower | None = None
        if self.follower.currentData() == _NEW:
            taken = {other.unit for other in project.followers if other.line == line.name}
            unit = next((number for number in range(1, 248) if number not in taken), 1)
            try:
                follower = edits.follower(name=self.name.text().strip(), line=line.name, unit=unit)
            except EditRefused:
                follower = None  # without a name it is none; the rows say so
        elif self.follower.currentData() is not None:
            follower = project.follower_named[self.follower.currentData()]
        return ImportTarget(follower, line, self.there.currentData())
