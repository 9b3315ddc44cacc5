"""A new project from at most six answers, with a picture of its panel that follows them."""

from __future__ import annotations

import enum
from collections.abc import Iterable
from dataclasses import replace
from typing import Final, TypeVar, get_args

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.language import Template, mark
from app.project.model import Project
from app.starters.answers import (
    DRIVES,
    KEY_NAMES,
    LEAST_COLUMNS,
    LEAST_ROWS,
    REGISTERS,
    SIZES,
    STARTERS,
    USUAL_PORT,
    Answers,
    KeyNames,
    LineChoice,
    StarterName,
    UnusableAnswer,
)
from app.starters.build import build, starter_file
from widgets.face.column import in_scroll_area
from widgets.face.face import PanelFace
from widgets.face.sample_values import FieldContents, specimen_rows
from widgets.kit.controls import Choice, WholeNumber
from widgets.kit.dialogs.dialog import TABLE, Dialog
from widgets.kit.plain import plain_label
from widgets.kit.scaling import percent, scaled
from widgets.welcome.serial_choice import SerialChoice

MOST_ROWS: Final = 64
MOST_COLUMNS: Final = 132
"""What the model of a panel allows."""
FACE_BELOW: Final = 175
"""Per cent of size from which the questions need the room of the picture."""

LINES: Final[dict[LineChoice, Template]] = {
    "simulated": mark("starters", "Simulated: no device is needed yet"),
    "serial": mark("starters", "A serial port of this computer"),
    "tcp": mark("starters", "Network (Modbus TCP)"),
}
KEYS: Final[dict[KeyNames, Template]] = {
    "words": mark("starters", "Arrows and START, STOP, RESET"),
    "numbers": mark("starters", "Arrows and F1, F2, F3"),
}

_Key = TypeVar("_Key")


class WhatNext(enum.Enum):
    """What is to be done with the new project."""

    EDIT = enum.auto()
    CONNECT = enum.auto()
    IMPORT = enum.auto()


class NewPanelDialog(Dialog):
    """Asks what a new project starts as; every question has an answer already, so that Enter makes one that runs."""

    def __init__(self, parent: QWidget | None = None, starter: StarterName = "one-drive") -> None:
        """`starter` is chosen at first."""
        super().__init__(parent, width=TABLE, height=550)
        self.setWindowTitle(self.tr("New panel"))
        self.tell(self.tr("What shall the panel do?"), self.tr("Everything can be changed later."))
        self.project: Project | None = None
        """What was made, once the dialog is accepted."""
        self.next = WhatNext.EDIT
        self._make_questions()
        self.face = PanelFace()
        self.face.setMinimumSize(QSize(scaled(340), scaled(200)))
        self.face.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.face.setEnabled(False)
        self.face.setVisible(percent() < FACE_BELOW)
        self.trouble = plain_label("", "fault", wrap=True)
        self.trouble.setMinimumHeight(2 * self.fontMetrics().lineSpacing())
        self._lay_out()
        self.starter.setCurrentIndex(list(STARTERS).index(starter))
        self._choose_starter()
        self.title.setFocus()

    # Questions

    def _make_questions(self) -> None:
        self.starter = _choice(self.tr("Start from"), ((key, words[0]) for key, words in STARTERS.items()))
        self.about = plain_label("", "faint", wrap=True)
        self.about.setMinimumHeight(2 * self.fontMetrics().lineSpacing())
        self.title = QLineEdit()
        self.title.setMaxLength(80)
        self.sizes = Choice()
        self.sizes.setAccessibleName(self.tr("Panel size"))
        for rows, columns in SIZES:
            self.sizes.addItem(self.tr("{rows} rows of {columns}").format(rows=rows, columns=columns), (rows, columns))
        self.sizes.addItem(self.tr("another size"))
        self.rows, self.columns = WholeNumber(), WholeNumber()
        self.rows.setAccessibleName(self.tr("Rows"))
        self.columns.setAccessibleName(self.tr("Columns"))
        self.keys = _choice(self.tr("Keys"), KEYS.items())
        self.line = _choice(self.tr("Line"), LINES.items())
        self.port = SerialChoice(USUAL_PORT)
        self.host = QLineEdit()
        self.host.setAccessibleName(self.tr("Host"))
        self.host.setPlaceholderText(self.tr("e.g. 192.0.2.20, or 192.0.2.20:1502"))
        self.unit = WholeNumber()
        self.unit.setRange(0, 255)
        self.unit.setValue(1)
        self.registers = _choice(self.tr("Registers"), REGISTERS.items())
        self._size_chosen()
        self.starter.currentIndexChanged.connect(self._choose_starter)
        self.sizes.currentIndexChanged.connect(self._size_chosen)
        self.line.currentIndexChanged.connect(self._line_chosen)
        for choice in (self.keys, self.registers):
            choice.currentIndexChanged.connect(self._look)
        for number in (self.rows, self.columns, self.unit):
            number.valueChanged.connect(self._look)
        for text in (self.title, self.host):
            text.textChanged.connect(self._look)
        self.port.editTextChanged.connect(self._look)

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(scaled(8))
        grid.setVerticalSpacing(scaled(8))
        grid.setColumnStretch(1, 1)
        self.where = QStackedWidget()
        later = plain_label(self.tr("Nothing real can move."), "faint", wrap=True)
        for kind in (later, self.port, self.host):
            page = QWidget()
            column = QVBoxLayout(page)  # which makes none as high as the highest
            column.setContentsMargins(0, 0, 0, 0)
            column.addWidget(kind)
            column.addStretch(1)
            self.where.addWidget(page)
        size = QWidget()
        cells = QHBoxLayout(size)
        cells.setContentsMargins(0, 0, 0, 0)
        cells.addWidget(self.sizes, 1)
        cells.addWidget(self.rows)
        cells.addWidget(plain_label("\u00d7"))
        cells.addWidget(self.columns)
        rows: tuple[tuple[str, QWidget, QWidget], ...] = (
            (self.tr("&Start from"), self.starter, self.starter),
            ("", self.about, self.about),
            (self.tr("&Title"), self.title, self.title),
            (self.tr("&Panel"), self.sizes, size),
            (self.tr("&Keys"), self.keys, self.keys),
            (self.tr("&Line"), self.line, self.line),
            ("", self.where, self.where),
            (self.tr("&Unit address"), self.unit, self.unit),
            (self.tr("&Registers"), self.registers, self.registers),
        )
        for row, (words, buddy, part) in enumerate(rows):
            if words:
                label = QLabel(words)
                label.setBuddy(buddy)
                grid.addWidget(label, row, 0)
            grid.addWidget(part, row, 1)
        grid.addWidget(self.trouble, len(rows), 0, 1, 2)
        grid.setRowStretch(len(rows) + 1, 1)
        middle = QHBoxLayout()
        middle.setSpacing(scaled(24))
        questions = QWidget()
        questions.setLayout(grid)
        grid.setContentsMargins(0, 0, scaled(4), 0)
        middle.addWidget(in_scroll_area(questions), 1)
        middle.addWidget(self.face, 1)
        self.body.addLayout(middle, 1)
        self.connect_button = self.add_deed(self.tr("Make it and &connect"), self._deed)
        self.make_button = self.add_other(self.tr("&Make it"), lambda: self._finish(WhatNext.EDIT))
        self.add_cancel()

    # Answers

    @property
    def answers(self) -> Answers:
        """What is answered now."""
        return Answers(
            starter=self._starter,
            title=self.title.text(),
            rows=self.rows.value(),
            columns=self.columns.value(),
            keys=_chosen(self.keys, KEY_NAMES),
            where=self._where,
            port=self.port.port,
            host=self.host.text(),
            unit=self.unit.value(),
            registers=_chosen(self.registers, REGISTERS),
        )

    @property
    def _starter(self) -> StarterName:
        return _chosen(self.starter, STARTERS)

    @property
    def _where(self) -> LineChoice:
        return _chosen(self.line, LINES)

    @property
    def _imports(self) -> bool:
        return self._starter in DRIVES and self.registers.currentData() == "list"

    def _choose_starter(self) -> None:
        name = self._starter
        self.about.setText(STARTERS[name][1].translated())
        example = "" if name == "empty" else starter_file(name).title
        self.title.setPlaceholderText(self.tr("e.g. {title}").format(title=example) if example else "")
        drives = name in DRIVES
        self.registers.setEnabled(drives)
        self.registers.setToolTip("" if drives else self.tr("Asked for drives only: their control words differ"))
        free = name == "empty"
        self.rows.setRange(1 if free else LEAST_ROWS, MOST_ROWS)
        self.columns.setRange(1 if free else LEAST_COLUMNS, MOST_COLUMNS)
        self._look()

    def _size_chosen(self) -> None:
        size = self.sizes.currentData()
        for number, value in zip((self.rows, self.columns), size or (), strict=False):
            number.setRange(1, MOST_COLUMNS)
            number.setValue(value)
        for number in (self.rows, self.columns):
            number.setEnabled(size is None)
        if size is None:
            self.rows.setFocus()

    def _line_chosen(self) -> None:
        self.where.setCurrentIndex(get_args(LineChoice).index(self._where))
        self._look()

    def _look(self) -> None:
        """Show the panel as it is to be; where an answer is still missing, as it would be with a usual one."""
        self.trouble.clear()
        self.connect_button.setText(
            self.tr("Make it and &import a list\u2026") if self._imports else self.tr("Make it and &connect")
        )
        try:
            project = build(replace(self.answers, where="simulated", unit=1))
        except UnusableAnswer:
            return  # a size on its way from one digit to the next
        self.face.set_panel(project.panel)
        start = project.screen_named[project.panel.start]
        self.face.set_rows(specimen_rows(project, start, FieldContents.SAMPLE))

    # Deeds

    def _deed(self) -> None:
        self._finish(WhatNext.IMPORT if self._imports else WhatNext.CONNECT)

    def _finish(self, what_next: WhatNext) -> None:
        try:
            self.project = build(self.answers)
        except UnusableAnswer as why:
            self.trouble.setText(str(why))
            {"host": self.host, "port": self.port, "unit": self.unit, "size": self.rows}[why.about].setFocus()
            return
        self.next = what_next
        self.accept()


def _choice(name: str, entries: Iterable[tuple[str, Template]]) -> Choice:
    choice = Choice()
    choice.setAccessibleName(name)
    choice.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    choice.setMinimumContentsLength(20)
    for key, words in entries:
        choice.addItem(words.translated(), key)
    return choice


def _chosen(choice: Choice, keys: Iterable[_Key]) -> _Key:
    found = choice.currentData()
    return next(key for key in keys if key == found)
