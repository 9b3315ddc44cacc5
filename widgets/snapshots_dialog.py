"""Registers as found and as left: taking snapshots of a follower, comparing them, writing chosen values back."""

from __future__ import annotations

import csv
import io
from concurrent.futures import Future
from pathlib import Path
from typing import Any, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialog,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QProgressBar,
    QPushButton,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.exchange.quoting import quoted
from app.exchange.sheet import Progress, Stopped
from app.project.atomic import write_whole
from app.snapshots.differences import Row, compare
from app.snapshots.files import ENDING, CannotKeep, NotASnapshot, open_snapshot, save
from app.snapshots.restoring import Offer, offer, place_text, restore
from app.snapshots.snapshot import RegisterSnapshot
from app.snapshots.taking import CannotTake, Range, range_of, ranges_like, take
from widgets.document import Document
from widgets.live import Live
from widgets.long_work import LongWork
from widgets.restoring_dialog import RestoringDialog
from widgets.size import comfortable

_ROW: Final = Qt.ItemDataRole.UserRole


class SnapshotsDialog(QDialog):
    """Beside the window, which stays in reach: disarming above all."""

    def __init__(self, document: Document, live: Live, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(self.tr("Registers as found, as left"))
        self.resize(comfortable(self, 900, 560))
        self._document, self._live = document, live
        self._before: RegisterSnapshot | None = None
        self._with_live = False
        self._session: object = None
        """That the follower was read in last."""
        self._rows: tuple[Row, ...] = ()
        self._work = LongWork(self)
        self._make_parts()
        self._lay_out()
        self._work.progressed.connect(lambda part: self.progress.setValue(round(100 * part)))
        self._work.ended.connect(self._ended)
        live.connection_changed.connect(self._connection_changed)
        self._enable()

    def _make_parts(self) -> None:
        self.follower = QComboBox()
        self.follower.addItems([each.name for each in self._document.project.followers])
        self.follower.setAccessibleName(self.tr("Follower"))
        self.follower.currentIndexChanged.connect(lambda _index: self._other_follower())
        self.ranges = QLineEdit()
        self.ranges.setAccessibleName(self.tr("Ranges besides the signals"))
        self.ranges.setPlaceholderText(self.tr("such as holding:0-99 coil:0-15; left empty, the signals only"))
        self.notes = QLineEdit()
        self.notes.setAccessibleName(self.tr("Remark kept in the file"))
        self.take_button = self._button(self.tr("&Take a snapshot\u2026"), self.take)
        self.open_button = self._button(self.tr("&Open a snapshot\u2026"), self.open)
        self.live_button = self._button(self.tr("Compare with the follower &now"), self.compare_live)
        self.file_button = self._button(self.tr("&Compare with a file\u2026"), self.compare_file)
        self.stop_button = self._button(self.tr("&Stop"), self._work.stop)
        self.write_button = self._button(self.tr("&Write back what is ticked\u2026"), self.write_back)
        self.export_button = self._button(self.tr("&Export as CSV\u2026"), self.export)
        self.only = QCheckBox(self.tr("Only &differences"))
        self.only.setChecked(True)
        self.only.toggled.connect(lambda _on: self._show())
        self.state = QLabel()
        self.state.setWordWrap(True)
        self.state.setTextFormat(Qt.TextFormat.PlainText)
        self.state.setAccessibleName(self.tr("What came of it"))
        self.progress = QProgressBar()
        self.progress.setAccessibleName(self.tr("Progress"))
        self.tree = QTreeWidget()
        self.tree.setAccessibleName(self.tr("Registers"))
        self.tree.setRootIsDecorated(False)
        self.tree.setHeaderLabels(
            [self.tr("Register"), self.tr("Wire"), self.tr("Before"), self.tr("After"), self.tr("Remark")]
        )
        for column, width in enumerate((300, 70, 130, 130)):
            self.tree.setColumnWidth(column, width)
        self.tree.itemChanged.connect(lambda *_: self._enable())

    def _button(self, text: str, run: Any) -> QPushButton:
        button = QPushButton(text)
        button.setAutoDefault(False)
        button.clicked.connect(lambda _checked=False: run())
        return button

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.addRow(self.tr("&Follower"), self.follower)
        form.addRow(self.tr("&Ranges"), self.ranges)
        form.addRow(self.tr("Re&mark"), self.notes)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        for parts in (
            (self.take_button, self.open_button, self.live_button, self.file_button),
            (self.only, self.progress, self.stop_button),
        ):
            row = QHBoxLayout()
            for part in parts:
                row.addWidget(part)
            row.addStretch(1)
            layout.addLayout(row)
        layout.addWidget(self.state)
        layout.addWidget(self.tree, 1)
        row = QHBoxLayout()
        for part in (self.write_button, self.export_button):
            row.addWidget(part)
        row.addStretch(1)
        layout.addLayout(row)

    def _enable(self) -> None:
        busy, connected = self._work.busy, self._live.connected
        self.progress.setVisible(busy)
        self.stop_button.setVisible(busy)
        self.take_button.setEnabled(connected and not busy)
        self.open_button.setEnabled(not busy)
        self.live_button.setEnabled(connected and self._before is not None and not busy)
        self.file_button.setEnabled(self._before is not None and not busy)
        self.export_button.setEnabled(bool(self._rows))
        why = ""
        if not self._with_live:
            why = self.tr("Values are written back after a comparison with the follower as it is now.")
        elif not self._armed():
            why = self.tr("The line is not armed, so nothing can be written. Arm it first.")
        elif not self._ticked():
            why = self.tr("Nothing is ticked.")
        self.write_button.setEnabled(not why and not busy)
        self.write_button.setToolTip(why)
        for button in (self.take_button, self.live_button):
            button.setToolTip("" if connected else self.tr("Nothing is connected. Connect first."))

    def _other_follower(self) -> None:
        """What was compared holds for the follower that was read, and for no other."""
        if self._with_live:
            self._with_live = False
            self._show()

    def _connection_changed(self) -> None:
        if self._live.session is not self._session:
            self._other_follower()
        self._enable()

    def _armed(self) -> bool:
        session = self._live.session
        device = None if session is None else session.project.follower_named.get(self.follower.currentText())
        return device is not None and device.line in self._live.writing.armed

    def _say(self, words: str, trouble: bool = False) -> None:
        self.state.setText(("\N{WARNING SIGN} " if trouble else "") + words)

    # Taking and opening

    def take(self) -> None:
        """Ask for a file and read the follower into it."""
        usual = self.follower.currentText() + ENDING
        name, _ = QFileDialog.getSaveFileName(
            self, self.tr("Keep the snapshot as"), usual, self.tr("Register snapshots (*.toml)")
        )
        if name:
            self.take_into(Path(name))

    def take_into(self, path: Path) -> None:
        """Read the follower into this file."""
        read = self._reading(None)
        if read is not None:

            def work(progress: Progress) -> Any:
                taken = read(progress)
                save(taken, path)
                return path, taken

            self._begin(work)

    def _reading(self, like: RegisterSnapshot | None) -> Any:
        """A function that reads the chosen follower; None if that is not possible, which has been said."""
        session, name = self._live.session, self.follower.currentText()
        device = None if session is None else session.project.follower_named.get(name)
        if session is None or device is None:
            self._say(self.tr("This follower is not connected. Connect first."), True)
            return None
        try:
            wanted: list[Range] = [range_of(device, text) for text in self.ranges.text().split()]
        except CannotTake as why:
            self._say(str(why), True)
            return None
        wanted += [] if like is None else ranges_like(like)
        self._session = session
        engine, project, notes = session.engine, session.project, self.notes.text()
        line = str(session.endpoints.get(device.line, ""))
        return lambda progress: take(engine, project, name, wanted, line=line, notes=notes, progress=progress)

    def open(self) -> None:
        """Ask for a snapshot and show it."""
        found = self._ask()
        if found is not None:
            self._take_before(found)

    def _ask(self) -> RegisterSnapshot | None:
        name, _ = QFileDialog.getOpenFileName(
            self, self.tr("Open a snapshot"), "", self.tr("Register snapshots (*.toml)")
        )
        try:
            return open_snapshot(Path(name)) if name else None
        except NotASnapshot as why:
            self._say(str(why), True)
            return None

    def _take_before(self, snapshot: RegisterSnapshot) -> None:
        self._before, self._with_live = snapshot, False
        self.follower.setCurrentIndex(max(0, self.follower.findText(snapshot.follower)))
        self._rows = compare(snapshot, snapshot)
        self.only.setChecked(False)
        self._show()
        self._say(
            self.tr("Follower {follower}, unit {unit}, {taken}. Registers: {count}. Not readable: {refused}.").format(
                follower=snapshot.follower,
                unit=snapshot.unit,
                taken=snapshot.taken.isoformat(" "),
                count=len(snapshot.registers),
                refused=sum(each.last - each.first + 1 for each in snapshot.not_readable),
            )
        )

    # Comparing

    def compare_file(self) -> None:
        """Ask for another snapshot and show what differs."""
        found = self._ask()
        if found is not None:
            self._compare(found, with_live=False)

    def compare_live(self) -> None:
        """Read the follower again and show what differs."""
        read = self._reading(self._before)
        if read is not None:
            self._begin(lambda progress: (None, read(progress)))

    def _compare(self, after: RegisterSnapshot, *, with_live: bool) -> None:
        if self._before is None:
            return
        self._with_live = with_live
        self._rows = compare(self._before, after)
        self.only.setChecked(True)
        self._show()
        count = sum(row.differs for row in self._rows)
        words = self.tr("Differences: {count} of {all}.").format(count=count, all=len(self._rows))
        if self._before.unit != after.unit or self._before.follower != after.follower:
            words += " " + self.tr("These are two different followers.")
        self._say(words)

    def _show(self) -> None:
        self.tree.blockSignals(True)
        self.tree.clear()
        session = self._live.session
        for row in self._rows:
            if self.only.isChecked() and not row.differs:
                continue
            item = QTreeWidgetItem([place_text(row), str(row.address), row.said_before, row.said_after])
            remark = self.tr("measured") if row.measured else ""
            if self._with_live and row.differs and session is not None:
                found: Offer = offer(session.project, self.follower.currentText(), row)
                remark = found.why
                if found.possible:
                    item.setCheckState(0, Qt.CheckState.Checked if found.chosen else Qt.CheckState.Unchecked)
            item.setText(4, remark)
            item.setToolTip(4, remark)
            item.setData(0, _ROW, row)
            self.tree.addTopLevelItem(item)
        self.tree.blockSignals(False)
        self._enable()

    # Writing back

    def _ticked(self) -> list[Row]:
        items = [self.tree.topLevelItem(at) for at in range(self.tree.topLevelItemCount())]
        ticked = Qt.CheckState.Checked
        return [item.data(0, _ROW) for item in items if item is not None and item.checkState(0) == ticked]

    def write_back(self) -> None:
        """Show what would be written, and write it once that is confirmed."""
        rows, name = self._ticked(), self.follower.currentText()
        if not rows or RestoringDialog(name, rows, self).exec() != QDialog.DialogCode.Accepted:
            return
        session = self._live.session
        if session is None or not self._armed():
            self._say(self.tr("The line is not armed, so nothing can be written. Arm it first."), True)
            return
        engine, project = session.engine, session.project
        self._begin(lambda progress: restore(engine, project, name, rows, progress=progress))

    # Work

    def _begin(self, work: Any) -> None:
        self.progress.setValue(0)
        self._say("")
        self._work.start(work)
        self._enable()

    def _ended(self, future: Future[Any]) -> None:
        try:
            result = future.result()
        except Stopped:
            self._say(self.tr("Stopped. What was written before stays written."))
        except (CannotTake, CannotKeep) as why:
            self._say(str(why), True)
        else:
            if len(result) == 2 and isinstance(result[1], RegisterSnapshot):
                self._arrived(*result)
            else:
                self._report(result)
        self._enable()

    def _arrived(self, path: Path | None, snapshot: RegisterSnapshot) -> None:
        if path is None:
            self._compare(snapshot, with_live=snapshot.follower == self.follower.currentText())
        else:
            self._take_before(snapshot)

    def _report(self, done: Any) -> None:
        """Say of each row what became of it, where it stands."""
        words = {(each.row.table, each.row.address): each for each in done}
        for at in range(self.tree.topLevelItemCount()):
            item = self.tree.topLevelItem(at)
            if item is None:
                continue
            row = item.data(0, _ROW)
            if (row.table, row.address) not in words:
                continue
            each = words[row.table, row.address]
            item.setText(4, ("\N{CHECK MARK} " if each.ok else "\N{WARNING SIGN} ") + each.words)
            item.setToolTip(4, each.words)
            item.setCheckState(0, Qt.CheckState.Unchecked)
        bad = sum(not each.ok for each in done)
        self._say(self.tr("Written: {good}. Not written: {bad}.").format(good=len(done) - bad, bad=bad), bad > 0)

    def export(self) -> None:
        """Ask for a file and write what is shown as CSV."""
        name, _ = QFileDialog.getSaveFileName(self, self.tr("Export as CSV"), "registers.csv", self.tr("Text (*.csv)"))
        if not name:
            return
        out = io.StringIO()
        rows = csv.writer(out)
        rows.writerow(["table", "register", "wire address", "signal", "before", "after"])
        for row in self._rows:
            if row.differs or not self.only.isChecked():
                said = [quoted(text) for text in (row.signal, row.said_before, row.said_after)]
                rows.writerow([row.table, row.number, row.address, *said])
        try:
            write_whole(Path(name), out.getvalue().encode("utf-8-sig"))
        except OSError as why:
            self._say(self.tr("{file} cannot be written: {why}").format(file=name, why=why.strerror or why), True)

    def done(self, result: int) -> None:
        """Closed in any way: the work is stopped."""
        self._work.close()
        super().done(result)
