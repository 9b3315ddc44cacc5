"""What becomes of the record of a run: it is saved, signed, compared; and somebody may accept what did not pass."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QFileDialog, QMenu, QWidget

from app.trial.outcome import Result
from app.trial.runner import KilledRun
from app.trial.script_file import ENDING as TRIAL_ENDING
from app.trial_record.comparison import compare_records
from app.trial_record.journal import ENDING as JOURNAL_ENDING, set_aside
from app.trial_record.record import ENDING, CannotUseRecord, TrialRecord, load_record, recording_of, save_record
from app.trial_record.verifying import signature_file
from widgets.document.save_as import FileKind, where_to_save
from widgets.document.settings import Settings
from widgets.kit.commands import allow, command
from widgets.kit.dialogs.questions import TextQuestion
from widgets.kit.icons import icon
from widgets.trial.difference_dialog import DifferenceDialog
from widgets.trial.sign_dialog import SignDialog


def usual_record(trial: Path, at: datetime) -> Path:
    """Where the record of a run goes of which nobody says where: beside its trial, with the time at which it began."""
    stem = trial.name.removesuffix(TRIAL_ENDING)
    return trial.with_name(f"{stem} {at:%Y-%m-%d %H%M%S}{ENDING}")


def killed_runs(trial: Path) -> list[Path]:
    """The records of runs of a trial that were not ended, since the program was; the oldest first."""
    stem = trial.name.removesuffix(TRIAL_ENDING)
    kept = sorted(trial.parent.glob("*" + ENDING + JOURNAL_ENDING))
    return [file.with_name(file.name.removesuffix(JOURNAL_ENDING)) for file in kept if file.name.startswith(stem)]


def put_aside(records: list[Path]) -> KilledRun | None:
    """Keep the records of such runs as unfinished ones; gives what the newest has not cleaned up.

    Raises CannotUseRecord.
    """
    left: KilledRun | None = None
    for record in records:
        found = set_aside(record)
        if found is not None and found[1] is not None:
            left = found[1]
    return left


class RecordKeeping(QObject):
    """Keeps the record of the last run. What is signed is changed no more."""

    said = Signal(str, bool)
    """Something to tell the user, and whether it is trouble."""
    recording_wanted = Signal(object)
    """The curves of the run are to be played, which this file holds."""
    changed = Signal()
    """The record is another one, or stands elsewhere."""

    def __init__(self, owner: QWidget, window: QWidget, settings: Settings) -> None:
        super().__init__(owner)
        self._window = window
        self._settings = settings
        self._trial: Path | None = None
        self._case = ""
        self.record: TrialRecord | None = None
        self.path: Path | None = None
        """Where it is saved."""
        self.save_action = command(owner, self.tr("Sa&ve the record\u2026"), self.save, "Ctrl+Alt+Shift+D", within=True)
        self.sign_action = command(owner, self.tr("Si&gn the record\u2026"), self.sign, "Ctrl+Alt+Shift+S", within=True)
        self.compare_action = command(
            owner, self.tr("Co&mpare with an earlier record\u2026"), self.compare, "Ctrl+Alt+Shift+O", within=True
        )
        self.accept_action = command(
            owner, self.tr("Accept that it &did not pass\u2026"), self.accept, "Ctrl+Alt+Shift+J", within=True
        )
        self.curves_action = command(
            owner, self.tr("Show the c&urves of the run"), self._show_curves, "Ctrl+Alt+Shift+K", within=True
        )
        self.curves_action.setIconText(self.tr("Curves"))
        self.curves_action.setIcon(icon("curve"))
        self.save_action.setIconText(self.tr("Save record\u2026"))
        self.sign_action.setIconText(self.tr("Sign\u2026"))
        self.compare_action.setIconText(self.tr("Compare\u2026"))
        self.accept_action.setIconText(self.tr("Accept\u2026"))
        self.compare_action.setIcon(icon("compare"))
        self._allow()

    @property
    def actions(self) -> tuple[QAction, ...]:
        """What is done with the record as a whole."""
        return self.save_action, self.sign_action, self.compare_action, self.curves_action

    def fill_menu(self, menu: QMenu) -> None:
        """Put its commands into a menu."""
        menu.addActions([*self.actions, self.accept_action])

    @property
    def signed(self) -> bool:
        """Whether somebody has signed the file of the record."""
        return self.path is not None and signature_file(self.path).exists()

    def show(self, record: TrialRecord | None, trial: Path | None, path: Path | None = None) -> None:
        """Keep this record of a run, which stands in `path` if it was written there already."""
        self.record, self._trial, self.path = record, trial, path
        self._tell()

    def choose_case(self, name: str) -> None:
        """The case that it may be accepted of that it did not pass."""
        if name != self._case:
            self._case = name
            self._allow()

    def take_over(self, former: RecordKeeping) -> None:
        """Keep what another one has kept."""
        self.show(former.record, former._trial, former.path)

    def _tell(self) -> None:
        self._allow()
        self.changed.emit()

    def _allow(self) -> None:
        none = self.tr("there is no run that ended")
        record = self.record
        allow(self.save_action, record is not None and self.path is None, none if record is None else self._where())
        finished = record is not None and record.finished
        why = none if record is None else self.tr("the run was not finished")
        allow(self.sign_action, finished, why)
        allow(self.compare_action, record is not None, none)
        kept = record is not None and self.path is not None and recording_of(self.path).exists()
        allow(self.curves_action, kept, self.tr("curves are kept of runs at the device"))
        failed = record is not None and any(
            case.name == self._case and case.result is not Result.PASS for case in record.cases
        )
        may = finished and failed and not self.signed
        why = self.tr("the record is signed") if self.signed else self.tr("choose a case that did not pass")
        allow(self.accept_action, may, none if record is None else why)

    def _where(self) -> str:
        return "" if self.path is None else self.tr("it stands in {file}").format(file=self.path.name)

    # What is done with it

    def save(self) -> bool:
        """Save the record, if it is not saved yet. False if it was not; that has been said."""
        record = self.record
        if record is None:
            return False
        if self.path is not None:
            return True
        usual = f"trial {record.began.astimezone():%Y-%m-%d %H%M%S}{ENDING}"
        if self._trial is not None:
            usual = str(usual_record(self._trial, record.began.astimezone()))
        kind = FileKind(self.tr("Records of trials (*{ending})").format(ending=ENDING), ENDING)
        place = where_to_save(
            self._window, self._settings, "project_folder", self.tr("Save the record"), usual, (kind,)
        )
        if place is None:
            return False
        path = place[0]
        if signature_file(path).exists():
            self.said.emit(self.tr("{file} is signed. Choose another name.").format(file=path.name), True)
            return False
        return self._write(record, path)

    def _write(self, record: TrialRecord, path: Path) -> bool:
        try:
            save_record(record, path)
        except CannotUseRecord as why:
            self.said.emit(str(why), True)
            return False
        self.record, self.path = record, path
        self.said.emit(self.tr("The record is saved as {file}").format(file=path.name), False)
        self._tell()
        return True

    def accept(self) -> None:
        """Ask for the reason why it is acceptable that a case did not pass, and keep it with the name of who tests."""
        record, by = self.record, self._settings.tester[0]
        if record is None:
            return
        reason = TextQuestion(
            self._window,
            self.tr("Accept that \u201c{case}\u201d did not pass?").format(case=self._case),
            self.tr("The result stays as it is. The record says that {name} accepts it, and why.").format(name=by),
            self.tr("&Reason"),
            needed=True,
        ).ask()
        if reason is None or self.record is not record:
            return
        try:
            accepted = record.accepting(self._case, by, reason)
        except CannotUseRecord as why:
            self.said.emit(str(why), True)
            return
        if self.path is None:
            self.record = accepted
            self._tell()
        else:
            self._write(accepted, self.path)

    def sign(self) -> None:
        """Save the record if that is still to be done, and sign it."""
        if self.save() and self.path is not None:
            dialog = SignDialog(self.path, self._window)
            dialog.exec()
            dialog.deleteLater()
            self._tell()

    def _show_curves(self) -> None:
        if self.path is not None:
            self.recording_wanted.emit(recording_of(self.path))

    def compare(self) -> None:
        """Ask for an earlier record, and show which steps came to another result than then."""
        kinds = self.tr("Records of trials (*{ending});;All files (*)").format(ending=ENDING)
        folder = self._trial.parent if self._trial is not None else self._settings.project_folder
        name, _ = QFileDialog.getOpenFileName(self._window, self.tr("Open an earlier record"), str(folder), kinds)
        if name:
            self.compare_with(Path(name))

    def compare_with(self, path: Path) -> None:
        """Show which steps came to another result than in this record."""
        if self.record is None:
            return
        try:
            before = load_record(path)
        except CannotUseRecord as why:
            self.said.emit(str(why), True)
            return
        dialog = DifferenceDialog(path.name, before, compare_records(before, self.record), self._window)
        dialog.exec()
        dialog.deleteLater()
