"""The dialog that offers unsaved work which windows left that are gone."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QDateTime, QLocale
from PySide6.QtWidgets import (
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from app.comparison.comparison import compare
from app.comparison.words import in_lines, summary
from app.project.model import Project
from app.project.problems import quoted
from app.project_file.files import ProjectFileError, load
from app.project_file.recovery import Origin, Slot, UnsavedWork
from widgets.compare.window import ComparisonWindow, Side
from widgets.document.drafts import subject_text
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.dialogs.questions import Question, say
from widgets.kit.plain import plain_label
from widgets.kit.row_list import RowDelegate

MOST_LINES = 200
"""Of differences that are listed; the comparison shows them all."""


@dataclass(frozen=True, slots=True)
class Copy:
    """Unsaved work, read."""

    slot: Slot
    work: UnsavedWork
    saved: Project | None
    """What its file holds now; None if it has none or it cannot be read."""


class RecoveryDialog(Dialog):
    """Lists the copies, the newest first, and tells of the chosen one where it belongs and how it differs from there.

    Nothing is lost by closing it: what is not recovered waits for the next start, unless it is deleted here.
    """

    def __init__(self, slots: Sequence[Slot], parent: QWidget | None = None) -> None:
        super().__init__(parent, width=780, height=460)
        self.tell(
            self.tr("Recover unsaved work"),
            self.tr(
                "Fanlight closed without saving this work. Recover an item to continue with it; its file is "
                "changed only when you save."
            ),
        )
        self._slots = list(slots)
        self._read: dict[int, Copy | ProjectFileError] = {}
        self.list = QListWidget()
        self.list.setAccessibleName(self.tr("Unsaved work"))
        self.list.setItemDelegate(RowDelegate(self.list))
        self.where = plain_label(wrap=True)
        self.differences = QPlainTextEdit()
        self.differences.setReadOnly(True)
        self.differences.setTabChangesFocus(True)
        self.differences.setAccessibleName(self.tr("Differences from its file"))
        self.delete_button = self.add_extra(self.tr("&Delete\u2026"), self._delete)
        self.compare_button = self.add_extra(self.tr("&Compare\u2026"), self._compare)
        self.recover_button = self.add_deed(self.tr("&Recover"))
        self.add_way_out(self.tr("&Keep for later"))
        side = QVBoxLayout()
        side.addWidget(self.where)
        side.addWidget(self.differences, 1)
        middle = QHBoxLayout()
        middle.addWidget(self.list, 2)
        middle.addLayout(side, 3)
        self.body.addLayout(middle, 1)
        for slot in self._slots:
            self.list.addItem(QListWidgetItem(self._entry(slot)))
        self.list.currentRowChanged.connect(self._show)
        self.list.itemDoubleClicked.connect(lambda _item: self.recover_button.click())
        self.list.setCurrentRow(0)
        self.list.setFocus()

    def exec_chosen(self) -> Copy | None:
        """Ask. The copy to be recovered; None if none is wanted now."""
        if not self.exec():
            return None
        found = self._copy(self.list.currentRow())
        return found if isinstance(found, Copy) else None

    def _entry(self, slot: Slot) -> str:
        origin = slot.origin
        name = origin.path.name if origin.path is not None else self.tr("never saved")
        return self.tr("{name}\n{time}").format(name=name, time=_moment(origin.at))

    def _copy(self, row: int) -> Copy | ProjectFileError | None:
        if not 0 <= row < len(self._slots):
            return None
        slot = self._slots[row]
        if id(slot) not in self._read:
            try:
                work = slot.read()
                self._read[id(slot)] = Copy(slot, work, _saved_project(work.origin))
            except ProjectFileError as error:
                self._read[id(slot)] = error
        return self._read[id(slot)]

    def _show(self, row: int) -> None:
        found = self._copy(row)
        self.recover_button.setEnabled(isinstance(found, Copy))
        self.delete_button.setEnabled(found is not None)
        self.compare_button.setEnabled(isinstance(found, Copy) and found.saved is not None)
        if found is None:
            self.where.setText("")
            self.differences.setPlainText("")
            return
        if isinstance(found, ProjectFileError):
            self.where.setText(self.tr("This copy cannot be read. It is kept in {file}").format(file=found.path))
            self.differences.setPlainText("\n".join(str(problem) for problem in found.problems[:MOST_LINES]))
            return
        lines = [self.tr("Title: {title}").format(title=found.work.project.title or self.tr("none"))]
        if found.work.origin.path is not None:
            lines.append(self.tr("File: {file}").format(file=found.work.origin.path))
        lines.append(self.tr("Last backup copy: {time}").format(time=_moment(found.work.origin.at)))
        self.where.setText("\n".join(lines))
        said = [self._how_it_differs(found), *self._not_taken_over(found.work)]
        self.differences.setPlainText("\n\n".join(said))

    def _how_it_differs(self, copy: Copy) -> str:
        if copy.saved is None:
            if copy.work.origin.path is None:
                return self.tr("Never saved. Screens: {screens}, signals: {signals}").format(
                    screens=len(copy.work.project.screens), signals=len(copy.work.project.signals)
                )
            return self.tr("Its file is missing or cannot be read.")
        comparison = compare(copy.saved, copy.work.project)
        if comparison.same:
            if copy.work.drafts:
                return self.tr("Everything that was accepted is in its file.")
            return self.tr("Same as its file: nothing to recover.")
        lines = list(in_lines(comparison))
        if len(lines) > MOST_LINES:
            lines[MOST_LINES:] = ["\u2026"]
        text = summary(comparison)
        return "\n".join([text[:1].upper() + text[1:], "", *lines])

    def _not_taken_over(self, work: UnsavedWork) -> list[str]:
        """What was typed and was not right yet, in one piece of text, and whether some of that is lost."""
        said = []
        if work.drafts:
            words = self.tr("Typed but not accepted yet: {count}").format(count=len(work.drafts))
            lines = [
                f"{subject_text(each.subject)}, {each.row}: {quoted(' '.join(each.texts))}"
                for each in work.drafts[:MOST_LINES]
            ]
            if len(work.drafts) > MOST_LINES:
                lines.append("\u2026")
            said.append("\n".join([words, "", *lines]))
        if not work.all_drafts:
            said.append(self.tr("Some texts that were not accepted yet cannot be restored."))
        return said

    def _compare(self) -> None:
        found = self._copy(self.list.currentRow())
        if not isinstance(found, Copy) or found.saved is None or found.work.origin.path is None:
            return
        saved, project = found.saved, found.work.project
        before = Side(self.tr("{file}, as saved").format(file=found.work.origin.path.name), lambda: saved)
        dialog = ComparisonWindow(before, Side(self.tr("Unsaved work"), lambda: project), (), self)
        dialog.exec()
        dialog.deleteLater()

    def _delete(self) -> None:
        row = self.list.currentRow()
        words = self.tr("Delete this unsaved work permanently?")
        if not Question(self, "asks", self.windowTitle(), words).confirm(self.tr("&Delete")):
            return
        try:
            self._slots[row].clear()
        except OSError as error:
            say(self, "alarm", self.windowTitle(), error.strerror or str(error))
            return
        del self._slots[row]
        self.list.takeItem(row)
        if not self._slots:
            self.reject()


def _saved_project(origin: Origin) -> Project | None:
    if origin.path is None:
        return None
    try:
        return load(origin.path)
    except ProjectFileError:
        return None


def _moment(at: float) -> str:
    """A time of day, with its date unless it is today's."""
    moment = QDateTime.fromSecsSinceEpoch(int(at))
    locale = QLocale.system()
    if time.localtime(at)[:3] == time.localtime()[:3]:
        return locale.toString(moment.time(), "HH:mm:ss")
    return locale.toString(moment, QLocale.FormatType.ShortFormat)
