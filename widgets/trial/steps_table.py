"""The list of cases and steps; it follows what runs until somebody looks elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView

from app.trial.outcome import Result
from widgets.kit.icons import SIDE
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import heading_margin, scaled
from widgets.kit.tables import selected_rows, set_widths
from widgets.trial.steps_model import StepColumn, StepKey, TrialModel, result_words

ROW: Final = 32
BELOW_NOW: Final = 2
"""Rows that are kept in sight below the one that runs."""
BESIDE_ICON: Final = 6
STEP, BESIDE = 170, 120
"""Pixels at 100 per cent that a step, and what is expected and seen, have at least."""
SHARE: Final = 0.27
"""Of what is left, for what is expected, and for what was seen."""
NARROW: Final = (StepColumn.SEEN, StepColumn.EXPECTED, StepColumn.TIME)
"""What a narrow list does without, the last first."""


class StepsTable(QuickTable):
    """Cases open and close by Left and Right, by Enter and by a double click."""

    chosen = Signal(object)
    """The `StepKey` of the current row, or None."""
    following_changed = Signal(bool)
    """Whether what runs is kept in sight."""

    def __init__(self, model: TrialModel) -> None:
        super().__init__(model, None, ROW)
        self.steps = model
        self._following = True
        self._own = False
        """Whether this program scrolls or chooses, and nobody else."""
        self._current: StepKey | None = None
        self._marked: frozenset[StepKey] = frozenset()
        self.setAccessibleName(self.tr("Cases and steps"))
        self.setFrameShape(self.Shape.NoFrame)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self._fit_columns()
        model.modelAboutToBeReset.connect(self._note_place)
        model.modelReset.connect(self._restore_place)
        # With the focus a row may become the current one without being chosen, and be chosen later.
        self.selectionModel().selectionChanged.connect(self._tell_current)
        self.doubleClicked.connect(lambda index: self._turn(index.row()))
        self.verticalScrollBar().actionTriggered.connect(lambda _action: self.follow(False))

    @property
    def current(self) -> StepKey | None:
        """The current row, where one is selected."""
        index = self.currentIndex()
        return self.steps.key(index.row()) if index.isValid() and selected_rows(self) else None

    def chosen_cases(self) -> tuple[str, ...]:
        """The cases of which a row is selected, in order."""
        return tuple(dict.fromkeys(self.steps.key(row).case for row in selected_rows(self)))

    @property
    def following(self) -> bool:
        """Whether what runs is kept in sight."""
        return self._following

    def follow(self, on: bool) -> None:
        """Keep what runs in sight, from now on or no longer."""
        if on != self._following:
            self._following = on
            self.following_changed.emit(on)
        if on:
            self.show_now()

    def show_now(self) -> None:
        """Choose the step that is carried out and bring it into sight, if it is followed."""
        now = self.steps.now
        if now is not None and self._following:
            self.go_to(now)

    def go_to(self, key: StepKey | None) -> None:
        """Choose a row and bring it into sight, with some below it; None: choose none."""
        row = -1 if key is None else self.steps.place(key)
        if row < 0:
            self.clearSelection()
            self.setCurrentIndex(QModelIndex())
            return
        self._own = True
        index = self.model().index(row, StepColumn.STEP)
        self.setCurrentIndex(index)
        below = self.model().index(min(row + BELOW_NOW, self.model().rowCount() - 1), StepColumn.STEP)
        self.scrollTo(below)
        self.scrollTo(index)
        self._own = False

    def choose_cases(self, names: Sequence[str]) -> None:
        """Choose the rows of these cases, the first as the current one."""
        self.go_to(StepKey(names[0]))
        both = QItemSelectionModel.SelectionFlag.Select | QItemSelectionModel.SelectionFlag.Rows
        for name in names[1:]:
            if (row := self.steps.place(StepKey(name))) >= 0:
                self.selectionModel().select(self.model().index(row, 0), both)

    def _fit_columns(self) -> None:
        measure = self.fontMetrics().horizontalAdvance
        words = [*(result_words(result) for result in Result), self.tr("asks you"), self.tr("does not fit")]
        around = 2 * heading_margin() + 2
        # What stands out is written in a heavier weight, which is a little wider.
        result = max(map(measure, words)) * 11 // 10 + scaled(SIDE + BESIDE_ICON) + around
        widths: dict[int, int] = {
            StepColumn.NUMBER: measure("00.00") + around,
            StepColumn.RESULT: result,
            StepColumn.TIME: measure("00:00:00") + around,
        }
        set_widths(self, widths)
        header = self.horizontalHeader()
        header.setStretchLastSection(False)
        header.setSectionResizeMode(StepColumn.STEP, QHeaderView.ResizeMode.Stretch)
        header.setMinimumSectionSize(scaled(40))
        self._fixed = widths

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share what is left; in a narrow list the times go first, then what is told beside it as well."""
        super().resizeEvent(event)
        fixed = self._fixed[StepColumn.NUMBER] + self._fixed[StepColumn.RESULT]
        room = self.viewport().width() - fixed - self._fixed[StepColumn.TIME]
        shown = len(NARROW)
        if room < scaled(STEP + 2 * BESIDE):
            room += self._fixed[StepColumn.TIME]
            shown = min(2, max(0, (room - scaled(STEP)) // scaled(BESIDE)))
        for number, column in enumerate(NARROW):
            self.setColumnHidden(column, number >= shown)
        for column in NARROW[:2]:
            self.setColumnWidth(column, max(scaled(BESIDE), int(room * SHARE)))

    def _note_place(self) -> None:
        self._current = self.current
        self._marked = frozenset(self.steps.key(row) for row in selected_rows(self))

    def _restore_place(self) -> None:
        """The same rows are chosen, wherever they are now."""
        selection, model = self.selectionModel(), self.model()
        both = QItemSelectionModel.SelectionFlag.Select | QItemSelectionModel.SelectionFlag.Rows
        with QSignalBlocker(selection):
            for key in self._marked:
                if (row := self.steps.place(key)) >= 0:
                    selection.select(model.index(row, 0), both)
            if self._current is not None and (row := self.steps.place(self._current)) >= 0:
                selection.setCurrentIndex(model.index(row, StepColumn.STEP), both)
        self.chosen.emit(self.current)

    def _tell_current(self) -> None:
        self.chosen.emit(self.current)

    # What a person does

    def _turn(self, row: int) -> None:
        """Open the case of a row, or close it."""
        if row >= 0:
            key = self.steps.key(row)
            if key.part is None:
                self.steps.set_open((key.case,), not self.steps.is_open(key.case))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Whoever chooses a row looks there; the sign before a case opens it."""
        if self.steps.now is not None:
            self.follow(False)
        super().mousePressEvent(event)
        index = self.indexAt(event.position().toPoint())
        if not index.isValid():
            self.go_to(None)
        elif index.column() == StepColumn.STEP and self.steps.key(index.row()).part is None:
            left = self.columnViewportPosition(StepColumn.STEP)
            if event.position().x() - left < heading_margin() + scaled(SIDE + BESIDE_ICON):
                self._turn(index.row())

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Whoever scrolls looks elsewhere."""
        self.follow(False)
        super().wheelEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left closes a case, or goes from a step to its case; Right opens it; Enter does either."""
        key, index = event.key(), self.currentIndex()
        at = self.steps.key(index.row()) if index.isValid() else None
        if at is not None and key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            if at.part is not None and key == Qt.Key.Key_Left:
                self.follow(False)
                self.go_to(StepKey(at.case))
            elif at.part is None:
                self.steps.set_open((at.case,), key == Qt.Key.Key_Right)
            return
        if at is not None and key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._turn(index.row())
            return
        if key in _MOVING:
            self.follow(False)
        if key in (Qt.Key.Key_Home, Qt.Key.Key_End) and self.steps.count():
            self.go_to(self.steps.key(0 if key == Qt.Key.Key_Home else -1))
            return
        super().keyPressEvent(event)


_MOVING: Final = (
    Qt.Key.Key_Up,
    Qt.Key.Key_Down,
    Qt.Key.Key_PageUp,
    Qt.Key.Key_PageDown,
    Qt.Key.Key_Home,
    Qt.Key.Key_End,
)
