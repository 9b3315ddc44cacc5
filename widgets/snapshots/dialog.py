"""Registers as found and as left: taking snapshots of a follower, comparing them, writing chosen values back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import Future
from pathlib import Path
from typing import TYPE_CHECKING, Final, TypeVar

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QFileDialog,
    QLineEdit,
    QWidget,
)

from app.errors import FanlightError
from app.exchange.sheet import Progress, Stopped
from app.project.raw_register import number_of
from app.signals.numbering import register_text
from app.snapshots.differences import RegisterDifference, compare
from app.snapshots.files import ENDING, NotASnapshot, open_snapshot, save
from app.snapshots.listing import as_csv
from app.snapshots.restoring import Restored, offers, restore
from app.snapshots.snapshot import RegisterSnapshot, UnreadableRange
from app.snapshots.taking import CannotTake, RegisterRange, range_of, ranges_like, take
from widgets.document.document import Document
from widgets.document.save_as import FileKind, where_to_save, write_or_say
from widgets.document.settings import Settings
from widgets.kit.controls import Choice, push_button
from widgets.kit.dialogs.long_work import WorkDialog
from widgets.kit.elided import shorten_placeholder
from widgets.kit.flow import FlowLayout
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label, plain_tip
from widgets.live.live_session import LiveSession
from widgets.snapshots.registers_table import RegisterLine, RegistersTable, Sides
from widgets.snapshots.restoring_dialog import RestoringDialog

if TYPE_CHECKING:
    from app.session.session import Session

_T = TypeVar("_T")
_SUFFIX: Final = ".toml"


class SnapshotsDialog(WorkDialog):
    """Beside the window, which stays in reach: disarming above all."""

    def __init__(
        self, document: Document, live: LiveSession, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent, width=980, height=620)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.tell(
            self.tr("Registers as found and as left"),
            self.tr(
                "Take a snapshot before you change anything. Open it later to compare it with the device and "
                "to write back single values."
            ),
        )
        self._document, self._live, self._settings = document, live, settings
        self._before: RegisterSnapshot | None = None
        self._after: RegisterSnapshot | None = None
        """What it is compared with; None while it is shown alone."""
        self._session: Session | None = None
        """That `after` was read in just now; None if it is a file, or that session is over."""
        self._rows: tuple[RegisterDifference, ...] = ()
        self._stopped: Callable[[], None] = lambda: None
        """What to do if somebody stops the work that is going on."""
        self._make_parts()
        self._lay_out()
        self.work.ended.connect(self._finish)
        live.connection_changed.connect(self._connection_changed)
        self._say("")
        self._show()

    def _make_parts(self) -> None:
        self.follower = Choice()
        self.follower.addItems([each.name for each in self._document.project.followers])
        self.follower.setAccessibleName(self.tr("Device"))
        self.follower.currentIndexChanged.connect(lambda _index: self._other_follower())
        self.ranges = QLineEdit()
        self.ranges.setAccessibleName(self.tr("Register ranges besides the signals"))
        shorten_placeholder(self.ranges, self.tr("e.g. holding:0-99 coil:0-15; empty: the signals only"))
        self.notes = QLineEdit()
        self.notes.setAccessibleName(self.tr("Remark saved in the file"))
        shorten_placeholder(self.notes, self.tr("saved with the next snapshot, e.g. before motor replacement"))
        self.take_button = push_button(self.tr("&Take a snapshot\u2026"), self.take)
        self.open_button = push_button(self.tr("&Open a snapshot\u2026"), self.open)
        self.live_button = push_button(self.tr("Compare with the device &now"), self.compare_live)
        self.file_button = push_button(self.tr("&Compare with a file\u2026"), self.compare_file)
        self.stop_button = push_button(self.tr("&Stop"), self.work.stop)
        self.only = QCheckBox(self.tr("Only &differences"))
        self.only.setChecked(True)
        self.only.toggled.connect(lambda _on: self._show())
        self.state = plain_label(wrap=True)
        self.state.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.state.setAccessibleName(self.tr("Result"))
        self.why = plain_label("", "faint")
        self.table = RegistersTable()
        self.table.registers.dataChanged.connect(lambda *_: self._enable())

    def _lay_out(self) -> None:
        self.add_row(self.tr("De&vice"), self.follower)
        self.add_row(self.tr("&Ranges"), self.ranges)
        self.add_row(self.tr("Re&mark"), self.notes)
        self.body.addLayout(_row(self.take_button, self.open_button, self.live_button, self.file_button))
        self.body.addLayout(_row(self.only, self.progress, self.stop_button))
        self.body.addWidget(self.state)
        self.body.addWidget(self.table, 1)
        self.body.addWidget(self.why)
        self.export_button = self.add_extra(self.tr("&Export as CSV\u2026"), self.export)
        self.write_button = self.add_deed(self.tr("&Write back ticked values\u2026"), self.write_back, writes=True)
        self.close_button = self.add_close()
        self.follower.setFocus()

    def _enable(self) -> None:
        busy = self.work.busy
        self.progress.setVisible(busy)
        self.stop_button.setVisible(busy)
        self.only.setVisible(self._after is not None)
        self.open_button.setEnabled(not busy)
        for button, why in (
            (self.take_button, self._why_not_read()),
            (self.live_button, self._why_not_read() or self._why_not_compared()),
            (self.file_button, self._why_not_compared()),
            (self.write_button, self._why_not_written()),
            (self.export_button, "" if self._rows else self.tr("There is nothing to export yet.")),
        ):
            button.setEnabled(not why and not busy)
            button.setToolTip(plain_tip(why))
        compared = self._session is not None
        self.why.setText("" if busy else self._why_not_read() or (self._why_not_written() if compared else ""))
        self.why.setVisible(bool(self.why.text()))
        self.follower.setEnabled(not busy)

    def _why_not_read(self) -> str:
        return "" if self._live.connected else self.tr("Nothing is connected. Connect first.")

    def _why_not_compared(self) -> str:
        return "" if self._before is not None else self.tr("Take or open a snapshot first.")

    def _why_not_written(self) -> str:
        if self._session is None:
            return self.tr("Compare with the device now before writing values back.")
        if not self._is_armed():
            return self._unarmed_text()
        return "" if self.table.registers.ticked else self.tr("Nothing is ticked.")

    def _unarmed_text(self) -> str:
        return self.tr("Writing is not armed. Arm it first.")

    def _other_follower(self) -> None:
        """What was compared holds for the follower that was read, and for no other."""
        if self._session is not None:
            self._session = None
            self._show()

    def _connection_changed(self) -> None:
        if self._live.session is not self._session:
            self._other_follower()
        self._enable()

    def _is_armed(self) -> bool:
        session = self._live.session
        device = None if session is None else session.project.follower_named.get(self.follower.currentText())
        return device is not None and device.line in self._live.writing.armed

    def _say(self, words: str, trouble: bool = False) -> None:
        self.state.setText(("\N{WARNING SIGN} " if trouble else "") + words)
        self.state.setVisible(bool(words))
        set_look(self.state, "fault" if trouble else "")

    # Taking and opening

    def take(self) -> None:
        """Ask for a file and read the follower into it."""
        kind = FileKind(self.tr("Register snapshots (*.toml)"), ENDING, _SUFFIX)
        usual = self.follower.currentText() + ENDING
        title = self.tr("Save the snapshot as")
        place = where_to_save(self, self._settings, "start_up_folder", title, usual, (kind,))
        if place is not None:
            self.take_into(place[0])

    def take_into(self, path: Path) -> None:
        """Read the follower into this file."""
        reading = self._reading(None)
        if reading is None:
            return
        read, _ = reading

        def work(progress: Progress) -> RegisterSnapshot:
            taken = read(progress)
            save(taken, path)
            return taken

        self._begin(work, lambda taken: self._take_before(taken, path))

    def _reading(self, like: RegisterSnapshot | None) -> tuple[Callable[[Progress], RegisterSnapshot], Session] | None:
        """What reads the chosen follower, and where; None if that is not possible, which has been said."""
        session, name = self._live.session, self.follower.currentText()
        device = None if session is None else session.project.follower_named.get(name)
        if session is None or device is None:
            self._say(self.tr("This device is not connected. Connect first."), True)
            return None
        try:
            wanted: list[RegisterRange] = [range_of(device, text) for text in self.ranges.text().split()]
        except CannotTake as why:
            self._say(str(why), True)
            self.ranges.setFocus()
            return None
        wanted += [] if like is None else ranges_like(like)
        engine, project, notes = session.engine, session.project, self.notes.text()
        line = str(session.endpoints.get(device.line, ""))
        return lambda progress: take(engine, project, name, wanted, line=line, notes=notes, progress=progress), session

    def open(self) -> None:
        """Ask for a snapshot and show it."""
        found = self._ask()
        if found is not None:
            self._take_before(*found)

    def _ask(self) -> tuple[RegisterSnapshot, Path] | None:
        name, _ = QFileDialog.getOpenFileName(
            self,
            self.tr("Open a snapshot"),
            str(self._settings.start_up_folder),
            self.tr("Register snapshots (*.toml)"),
        )
        try:
            return (open_snapshot(Path(name)), Path(name)) if name else None
        except NotASnapshot as why:
            self._say(str(why), True)
            return None

    def _take_before(self, snapshot: RegisterSnapshot, path: Path) -> None:
        self._settings.start_up_folder = path.parent
        self._before, self._after, self._session = snapshot, None, None
        self.follower.setCurrentIndex(max(0, self.follower.findText(snapshot.follower)))
        self._rows = compare(snapshot, snapshot)
        self._show()
        words = self.tr(
            "{file}: device {follower}, unit address {unit}, {taken}. Registers: {count}. Not readable: {refused}."
        ).format(
            file=path.name,
            follower=snapshot.follower,
            unit=snapshot.unit,
            taken=snapshot.taken.strftime("%Y-%m-%d %H:%M:%S"),
            count=len(snapshot.registers),
            refused=sum(each.last - each.first + 1 for each in snapshot.not_readable),
        )
        self._say("\n".join(text for text in (words, snapshot.notes) if text))

    # Comparing

    def compare_file(self) -> None:
        """Ask for another snapshot and show what differs."""
        found = self._ask()
        if found is not None:
            self._compare(found[0], None)

    def compare_live(self) -> None:
        """Read the follower again and show what differs."""
        reading = self._reading(self._before)
        if reading is not None:
            read, session = reading
            self._begin(read, lambda now: self._compare(now, session))

    def _compare(self, after: RegisterSnapshot, session: Session | None) -> None:
        if self._before is None:
            return
        same = after.follower == self.follower.currentText() and session is self._live.session
        self._after, self._session = after, session if same else None
        self._rows = compare(self._before, after)
        self.only.setChecked(True)
        self._show()
        count = sum(row.differs for row in self._rows)
        words = self.tr("Differences: {count} of {all}.").format(count=count, all=len(self._rows))
        if self._before.unit != after.unit or self._before.follower != after.follower:
            words += " " + self.tr("These are two different devices.")
        self._say(words)

    def _rows_shown(self) -> tuple[RegisterDifference, ...]:
        if self._after is None or not self.only.isChecked():
            return self._rows
        return tuple(row for row in self._rows if row.differs)

    def _show(self) -> None:
        rows, session = self._rows_shown(), self._session
        measured = self.tr("measured")
        if session is not None:
            lines = [
                RegisterLine.of(each.row, each.why, each) if each.row.differs else RegisterLine.of(each.row)
                for each in offers(session.project, self.follower.currentText(), rows)
            ]
        else:
            lines = [RegisterLine.of(row, measured if row.measured else "") for row in rows]
        if self._after is None and self._before is not None:
            lines += [_unread(self._before, each) for each in self._before.not_readable]
        alone = Sides.ONE if self._after is None else Sides.TWO
        self.table.show_lines(lines, alone if session is None else Sides.LIVE)
        self._enable()

    # Writing back

    def write_back(self) -> None:
        """Show what would be written, and write it once that is confirmed."""
        rows, name = self.table.registers.ticked, self.follower.currentText()
        if not rows or RestoringDialog(name, rows, self).exec() != QDialog.DialogCode.Accepted:
            return
        session = self._session
        if session is None or session is not self._live.session or not self._is_armed():
            self._say(self._unarmed_text(), True)
            return
        engine, project = session.engine, session.project
        done: list[Restored] = []

        def work(progress: Progress) -> list[Restored]:
            restore(engine, project, name, rows, progress=progress, told=done.append)
            return done

        def stopped() -> None:
            self._mark(done)
            self._say(self.tr("Stopped. Values already written remain written."))

        self._begin(work, self._report, stopped)

    def _mark(self, done: Sequence[Restored]) -> None:
        """Say of each row what became of it, where it stands."""
        self.table.registers.report({(each.row.table, each.row.address): each for each in done})

    def _report(self, done: Sequence[Restored]) -> None:
        self._mark(done)
        bad = sum(not each.ok for each in done)
        self._say(self.tr("Written: {good}. Not written: {bad}.").format(good=len(done) - bad, bad=bad), bad > 0)

    # Work

    def _begin(
        self,
        work: Callable[[Progress], _T],
        then: Callable[[_T], None],
        stopped: Callable[[], None] | None = None,
    ) -> None:
        """Do this in a thread; `then` takes what came of it, in the window's, or `stopped` if somebody stops it."""

        def both(progress: Progress) -> Callable[[], None]:
            result = work(progress)
            return lambda: then(result)

        self._stopped = stopped or (lambda: self._say(self.tr("Stopped. Nothing was saved.")))
        self._say("")
        self.begin(both)
        self._enable()

    def _finish(self, future: Future[Callable[[], None]]) -> None:
        try:
            then = future.result()
        except Stopped:
            self._stopped()
        except FanlightError as why:
            self._say(str(why), True)
        else:
            then()
        self._enable()

    def export(self) -> None:
        """Ask for a file and write what is shown as CSV."""
        kind = FileKind(self.tr("Text (*.csv)"), ".csv")
        title = self.tr("Export as CSV")
        place = where_to_save(self, self._settings, "start_up_folder", title, "registers.csv", (kind,))
        if place is not None:
            content = as_csv(self._rows_shown(), alone=self._after is None).encode("utf-8-sig")
            write_or_say(place[0], content, lambda words: self._say(words, True))


def _unread(snapshot: RegisterSnapshot, each: UnreadableRange) -> RegisterLine:
    first, last = (number_of(snapshot.numbering, each.table, at) for at in (each.first, each.last))
    return RegisterLine(register_text(each.table, first, last), remark=each.reason)


def _row(*parts: QWidget) -> FlowLayout:
    row = FlowLayout()
    for part in parts:
        row.addWidget(part)
    return row
