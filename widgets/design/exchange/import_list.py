"""The dialog that brings a register list into the project: its rows, how they are understood, and what comes in."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import replace
from pathlib import Path
from typing import Final

from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from app.exchange.column_mapping import memory_text
from app.exchange.importing import Import, begin, match_again, plan_again, read_again
from app.exchange.row_summary import account
from app.exchange.sheet import CannotRead, Progress, Stopped
from widgets.design.exchange.import_choices import ReadingChoices, TargetChoices
from widgets.design.exchange.import_model import ModelChoices
from widgets.design.exchange.import_notes import NotesList
from widgets.design.exchange.import_table import SheetView
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.kit.dialogs.dialog import WholeArea
from widgets.kit.dialogs.long_work import WorkDialog
from widgets.kit.elided import ShortLabel
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.scaling import percent, scaled

translate = QCoreApplication.translate
TITLED_UP_TO: Final = 150
"""Per cent of size above which the rows need the room of the title; the frame of the window has it too."""


def choose_list(parent: QWidget, folder: Path | str) -> Path | None:
    """Ask for the file of a register list; None if none is chosen."""
    name, _ = QFileDialog.getOpenFileName(
        parent,
        translate("ImportDialog", "Choose a register list"),
        str(folder),
        translate("ImportDialog", "Register lists (*.csv *.txt *.tsv *.xlsx *.xlsm *.json);;All files (*)"),
    )
    return Path(name) if name else None


class ImportDialog(WorkDialog):
    """Choose a list, look at what becomes of its rows, correct the matching, import it as one step."""

    def __init__(
        self, document: Document, settings: Settings, path: Path | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent, width=1180, height=680)
        self.tell(self.tr("Import signals"))
        self.headline.setVisible(percent() <= TITLED_UP_TO)
        self.setSizeGripEnabled(True)
        self._document = document
        self._settings = settings
        self._path = path
        self.done_so_far: Import | None = None
        self._make_parts()
        self._lay_out()
        self._connect()
        self._show_nothing(self.tr("Choose a CSV or XLSX file with registers, or a SunSpec model (JSON)."))
        self.choose.setFocus()
        if path is not None:
            self.open(path)

    def _make_parts(self) -> None:
        self.file = ShortLabel()
        self.file.setAccessibleName(self.tr("File"))
        self.choose = QPushButton(self.tr("Ch&oose a file\u2026"))
        # The frame of a default button takes room of its own.
        self.choose.setMinimumWidth(self.fontMetrics().horizontalAdvance(self.choose.text()) + 40)
        self.reading = ReadingChoices()
        self.model = ModelChoices()
        self.target = TargetChoices(self._document.project)
        self.remarks = plain_label(wrap=True)
        self.remarks.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.trouble = plain_label("", "fault", wrap=True)
        self.table = SheetView()
        self.becomes = plain_label(wrap=True)
        self.becomes.setAccessibleName(self.tr("Result for the row"))
        self.notes = NotesList()
        self.notes.setMinimumHeight(scaled(30))
        self.summary = plain_label(wrap=True)
        self.progress.setMaximumWidth(220)
        self.stop = QPushButton(self.tr("S&top"))
        self.bring_in = self.add_deed(self.tr("&Import"), self._bring_in)
        widest = self.tr("&Import {count} of {all} signals").format(count=20_000, all=20_000)
        self.bring_in.setMinimumWidth(self.fontMetrics().horizontalAdvance(widest) + 40)
        self.add_cancel()
        self.stop.setAutoDefault(False)

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        caption = QLabel(self.tr("File"))
        caption.setBuddy(self.choose)
        top.addWidget(caption)
        top.addWidget(self.file, 1)
        top.addWidget(self.choose)
        choices = QWidget()
        upper = QVBoxLayout(choices)
        upper.setContentsMargins(0, 0, 0, 0)
        upper.setSpacing(8)
        upper.addWidget(self.reading)
        upper.addWidget(self.model)
        upper.addWidget(self.target)
        upper.addWidget(self.remarks)
        self._upper = WholeArea(choices)
        self._split = QSplitter(Qt.Orientation.Vertical)
        rows = QWidget()
        column = QVBoxLayout(rows)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.table, 1)
        column.addWidget(self.becomes)
        self._split.addWidget(rows)
        self._split.addWidget(self.notes)
        self._split.setStretchFactor(0, 3)
        self._split.setStretchFactor(1, 1)
        self._split.setChildrenCollapsible(False)
        for part, stretch in ((self.summary, 1), (self.progress, 0), (self.stop, 0)):
            self.add_beside_buttons(part, stretch)
        self.body.addLayout(top)
        self.body.addWidget(self.trouble)
        self.body.addWidget(self._upper)
        self.body.addWidget(self._split, 1)

    def _connect(self) -> None:
        self.choose.clicked.connect(self._choose)
        self.stop.clicked.connect(self.work.stop)
        self.reading.way_changed.connect(lambda: self._read(None))
        self.reading.heading_changed.connect(lambda: self._read(self.reading.heading.value()))
        self.reading.matching_changed.connect(self._match)
        self.model.changed.connect(lambda: self._read(None))
        self.target.changed.connect(self._plan)
        self.table.header.matched.connect(self._take_column)
        self.table.row_chosen.connect(self._tell_row)
        self.notes.chosen.connect(self.table.go_to)
        self.work.ended.connect(self._finish)

    # What is done in the background

    def open(self, path: Path) -> None:  # type: ignore[override]
        """Read this file."""
        self._path = path
        self.file.setText(str(path))
        self._say(self.tr("Reading {file}\u2026").format(file=path.name))
        self.target.fill_name(path.stem)
        project, target = self._document.project, self.target.target()
        memory = self._settings.matching
        self._start(lambda progress: begin(path, project, target, memory, progress))

    def _read(self, heading: int | None) -> None:
        done = self.done_so_far
        if done is None:
            return
        way = self.reading.way(done.way)
        if done.source.kind == "model":
            way = replace(way, model=self.model.way())
        project, target, memory = self._document.project, self.target.target(), self._settings.matching
        self._start(lambda progress: read_again(done.source, way, project, target, memory, progress, heading))

    def _take_column(self, column: int, key: object) -> None:
        done = self.done_so_far
        if done is not None:
            self.done_so_far = replace(done, matching=done.matching.with_key(column, key))  # type: ignore[arg-type]
            self._match()

    def _match(self) -> None:
        done = self.done_so_far
        if done is None:
            return
        matching = done.matching if done.source.kind == "model" else self.reading.matching(done.matching)
        project, target = self._document.project, self.target.target()
        self.done_so_far = replace(done, matching=matching)
        self._start(
            lambda progress: match_again(
                done.source, done.way, done.sheet, done.guessed, matching, project, target, progress
            )
        )

    def _plan(self) -> None:
        done = self.done_so_far
        if done is not None:
            project, target = self._document.project, self.target.target()
            self._start(lambda progress: plan_again(done, project, target, progress))

    def _start(self, work: Callable[[Progress], Import]) -> None:
        self.bring_in.setEnabled(False)
        self.begin(work)

    def _finish(self, future: Future[Import]) -> None:
        self.show_progress(False)
        try:
            done = future.result()
        except CannotRead as error:
            self._show_nothing(str(error), trouble=True)
        except Stopped:
            self._say(self.tr("Stopped. Nothing was changed; choose the file again, or another one."))
        else:
            self._show(done)

    def show_progress(self, on: bool) -> None:
        """Show how far the work is in place of the summary."""
        super().show_progress(on)
        self.stop.setVisible(on)
        self.summary.setVisible(not on)

    # What is shown

    def _show_nothing(self, words: str, *, trouble: bool = False) -> None:
        self.done_so_far = None
        self._upper.setVisible(False)
        self._split.setVisible(False)
        self.table.clear()
        self.bring_in.setEnabled(False)
        self.bring_in.setText(self.tr("&Import"))
        self.choose.setDefault(True)
        self.summary.clear()
        self.show_progress(False)
        set_look(self.trouble, "fault" if trouble else "faint")
        self._say(("\N{WARNING SIGN} " if trouble else "") + words)

    def _say(self, words: str) -> None:
        self.trouble.setText(words)
        self.trouble.setVisible(bool(words))

    def _show(self, done: Import) -> None:
        self.done_so_far = done
        self._say("")
        self.reading.setVisible(done.source.kind != "model")
        self.reading.show_import(done)
        self.model.setVisible(done.source.model is not None)
        if done.source.model is not None:
            self.model.show_model(done.source.model)
        self.remarks.setText("\n".join(f"\N{BULLET} {remark}" for remark in self._remarks(done)))
        self.remarks.setVisible(bool(self.remarks.text()))
        self._upper.setVisible(True)
        self._split.setVisible(True)
        self.table.show_sheet(done.sheet, done.matching, done.plan)
        self.notes.show_notes(done.sheet, done.matching, done.plan)
        self.notes.setVisible(bool(done.plan.notes))
        self._show_counts(done)
        self.bring_in.setDefault(True)
        if self.bring_in.isEnabled() and self.focusWidget() is self.choose:
            self.bring_in.setFocus()  # Enter goes on from what was chosen
        first = done.plan.incoming[0].row if done.plan.incoming else 0
        self._tell_row(self.table.current_row() or first)

    def event(self, event: QEvent) -> bool:
        done = super().event(event)
        if event.type() == QEvent.Type.LayoutRequest and not self.isMaximized():
            # Choices that come into sight ask for more lines before they are as wide as they are going to be.
            self.keep_within_window()
        return done

    def _tell_row(self, row: int) -> None:
        """Say what becomes of a row, or why nothing does."""
        done = self.done_so_far
        if done is None:
            return
        incoming = next((one for one in reversed(done.plan.incoming) if one.row == row), None)
        if incoming is not None:
            followers = {follower.name: follower for follower in (*done.project.followers, *done.plan.followers)}
            self.becomes.setText(account(incoming, followers))
        else:
            why = [note.message for note in done.plan.notes if note.row == row]
            words = self.tr("Row {row} skipped: {why}").format(row=row, why="; ".join(why)) if why else ""
            self.becomes.setText(words)

    def _remarks(self, done: Import) -> list[str]:
        remarks = list(done.remarks)
        if done.from_memory:
            remarks.insert(0, self.tr("Columns are assigned as in the last list with these titles."))
        follower = self.target.target().follower
        if done.source.kind == "model" and follower is not None and follower.byte_order == "low-first":
            words = self.tr("SunSpec sends the high byte first, but {follower} is set differently.")
            remarks.insert(0, words.format(follower=follower.name))
        if (
            done.source.kind != "model"
            and "register" not in done.matching.columns
            and "held" not in done.matching.columns
        ):
            remarks.insert(0, self.tr("No column is assigned to the register yet; choose one above the table."))
        return remarks

    def _show_counts(self, done: Import) -> None:
        plan = done.plan
        coming = len({incoming.row for incoming in plan.incoming})
        self.bring_in.setEnabled(coming > 0)
        self.bring_in.setText(
            self.tr("&Import {count} of {all} signals").format(count=coming, all=max(plan.rows, coming))
        )
        faults = {note.row for note in plan.notes if note.level == "fault"}
        parts = [
            (self.tr("Rows skipped because of errors: {count}"), len(faults)),
            (self.tr("Updated: {count}"), plan.count("replaces")),
            (self.tr("Under another name: {count}"), plan.count("renamed")),
        ]
        told = [text.format(count=count) for text, count in parts if count]
        if plan.followers:
            names = ", ".join(follower.name for follower in plan.followers[:4])
            more = len(plan.followers) - 4
            named = names if more <= 0 else self.tr("{names} and {count} more").format(names=names, count=more)
            told.append(self.tr("New devices: {names}").format(names=named))
        if plan.lines:
            told.append(self.tr("New line: {name}").format(name=plan.lines[0].name))
        self.summary.setText("   ".join(told))

    # The end

    def _choose(self) -> None:
        path = choose_list(self, self._path.parent if self._path else self._settings.list_folder)
        if path is not None:
            self.open(path)

    def _bring_in(self) -> None:
        done = self.done_so_far
        if done is None or self.work.busy or not done.plan.incoming:
            return
        refused = self._document.do(self.tr("Import signals"), done.edit, aloud=False)
        if refused is not None:
            set_look(self.trouble, "fault")
            self._say("\N{WARNING SIGN} " + self.tr("Nothing was imported: {reason}").format(reason=refused))
            return
        if key := done.signature():
            self._settings.keep_matching(key, memory_text(done.matching))
        if self._path is not None:
            self._settings.list_folder = self._path.parent
        self.accept()
