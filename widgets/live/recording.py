"""Making a recording, of what comes or of the last minutes: the commands, and how it is doing in words."""

from __future__ import annotations

import datetime
import itertools
import shutil
from concurrent.futures import CancelledError, Future, ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QCoreApplication, QObject, QTimer, Signal
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.language import with_mark
from app.recording.limits import Limits
from widgets.document.save_as import FileKind, where_to_save
from widgets.document.settings import Settings
from widgets.kit.commands import allow, command
from widgets.kit.elided import ShortLabel
from widgets.kit.notice_slot import NoticeSlot, SlotWork
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled
from widgets.live.live_session import LiveSession
from widgets.live.live_source import Observation

if TYPE_CHECKING:
    from app.recording.history import Kept
    from app.recording.recorder import RecordingProgress

ENDING: Final = ".fanrec"
"""Of the names of recordings."""
LOOK_EVERY_MS: Final = 100
LEAST_WIDTH: Final = 300
"""Of the words about the recording, in pixels at 100 per cent: where there is less room, they begin another line."""


class RecordingControl(QObject):
    """Makes recordings of what is observed, by the limits of the settings, for the widget that it belongs to."""

    said = Signal(str, bool)
    """Something to tell the user, and whether it is trouble."""

    def __init__(self, owner: QWidget, live: LiveSession, observation: Observation, settings: Settings) -> None:
        super().__init__(owner)
        self._owner = owner
        self._live = live
        self._observation = observation
        self._settings = settings
        self.record_action = command(owner, self.tr("&Record"), self.record, "Ctrl+R")
        self.record_as_action = command(owner, self.tr("Record &as\u2026"), self.record_as, "Ctrl+Alt+Shift+R")
        self.rename_action = command(owner, self.tr("Re&name the last recording\u2026"), self.rename, "Alt+Shift+N")
        self.end_action = command(owner, self.tr("Stop r&ecording"), observation.end_recording, "Ctrl+Alt+R")
        self.limits_action = command(owner, self.tr("&Limits of recordings\u2026"), self.ask_limits, "Alt+Shift+L")
        self.actions = (self.record_action, self.record_as_action, self.end_action, self.rename_action)
        """Those that are wanted all the time."""
        self.kept: Path | None = None
        """The recording that ended last."""
        self.state = ShortLabel(parent=owner)
        """How the recording is doing, or how the last one ended."""
        self.state.setMinimumWidth(scaled(LEAST_WIDTH))
        self.state.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._trouble = ""
        self._recorded = False
        observation.recording_changed.connect(self.look)
        live.frame.connect(self._watch)
        self.look()

    def record(self) -> None:
        """Record at once, into a file named after the project and the moment: what happens now waits for nobody."""
        session = self._live.session
        if session is None:
            self._say_nothing_to_record()
            return
        folder = self._settings.recordings_folder
        folder.mkdir(parents=True, exist_ok=True)
        self.record_into(_free(folder / _usual_name(session.project.title, "%Y-%m-%d %H-%M-%S")))

    def record_as(self) -> None:
        """Ask for a file and record into it."""
        session = self._live.session
        if session is None:
            self._say_nothing_to_record()
            return
        path = _ask(self._owner, self.tr("Record to a new file"), self._settings, session.project.title)
        if path is not None:
            self.record_into(path)

    def _say_nothing_to_record(self) -> None:
        self.said.emit(self.tr("Nothing is connected, so there is nothing to record. Connect first."), True)

    def rename(self) -> None:
        """Ask for another name or place for the recording that ended last."""
        kept = self.kept
        if kept is None:
            return
        kind = FileKind(QCoreApplication.translate("RecordingControl", "Recordings (*.fanrec)"), ENDING)
        title = self.tr("Rename the last recording")
        place = where_to_save(self._owner, self._settings, "start_up_folder", title, kept, (kind,), new_only=True)
        if place is not None:
            self.rename_to(place[0])

    def rename_to(self, path: Path) -> None:
        """Give the recording that ended last this name; never over another file."""
        kept = self.kept
        if kept is None or path == kept:
            return
        if path.exists():
            words = self.tr("{file} exists already. Choose another name.")
            self.said.emit(words.format(file=path), True)
            return
        try:
            shutil.move(kept, path)
        except OSError as error:
            words = self.tr("{file} cannot be renamed: {why}. Close what uses it, or choose another folder.")
            self.said.emit(words.format(file=kept, why=error.strerror or error), True)
            return
        self.kept = path
        self.said.emit(self.tr("Kept as {file}").format(file=path), False)

    def record_into(self, path: Path) -> bool:
        """Record into this new file. False if that cannot be done; that has been said."""
        from app.recording.writer import CannotRecord

        try:
            self._observation.record(path, self._settings.recording_limits)
        except CannotRecord as why:
            self.said.emit(str(why), True)
            return False
        self.said.emit(self.tr("Recording into {file}").format(file=path), False)
        return True

    def ask_limits(self) -> None:
        """Ask for the limits, beside the window: the keys of the panel and disarming stay in reach."""
        from widgets.live.recording_limits import LimitsDialog

        window = self._owner.window()
        open_already = window.findChild(LimitsDialog)
        if open_already is not None:
            open_already.raise_()
            open_already.activateWindow()
            return
        dialog = LimitsDialog(self._settings.recording_limits, window)
        dialog.accepted.connect(lambda: self._limit(dialog.limits))
        dialog.show()

    def _limit(self, limits: Limits) -> None:
        self._settings.recording_limits = limits
        self._observation.limit_recording(limits)
        self.say()

    def look(self) -> None:
        """A recording began or ended."""
        recording = self._observation.recording
        for action in (self.record_action, self.record_as_action):
            allow(action, not recording, self.tr("a recording is running"))
        progress = self._observation.progress
        if self._recorded and not recording and progress is not None:
            self.kept = progress.path
            self.said.emit(self.tr("Recorded in {file}").format(file=progress.path), False)
        self._recorded = recording
        allow(self.rename_action, self.kept is not None and not recording, self.tr("nothing was recorded yet"))
        allow(self.end_action, recording, self.tr("no recording is running"))
        self.say()

    def _watch(self) -> None:
        """Tell of trouble once, wherever in the window somebody is: what is not written may be lost."""
        progress = self._observation.progress
        trouble = progress.trouble if progress is not None else ""
        if trouble != self._trouble:
            self._trouble = trouble
            if trouble:
                self.said.emit(trouble, True)
            elif self._observation.recording:
                self.said.emit(self.tr("The recording continues."), False)

    def say(self) -> None:
        """Bring the words up to date."""
        progress = self._observation.progress
        if progress is None:
            return  # it keeps its room: nothing moves when it begins to speak
        words = self._words(progress)
        if progress.lost:
            words += self.tr("; \u26a0 {count} samples lost").format(count=progress.lost)
        if progress.trouble:
            words = "\u26a0 " + progress.trouble
        if self.state.text() != words:
            self.state.setText(words)
            samples = self.tr("{samples} samples in total").format(samples=progress.samples)
            self.state.setToolTip(plain_tip(f"{words}\n{samples}\n{progress.path}"))

    def _words(self, progress: RecordingProgress) -> str:
        limits = self._observation.limits
        following = progress.files > 1 or limits.parted
        if not self._observation.recording:
            if progress.files > 1:
                words = self.tr("recorded {time} in {number} files \u00b7 last {name}, {size}")
            else:
                words = self.tr("recorded {time} \u00b7 {name}, {size}")
        elif not following:
            words = self.tr("\u25cf recording {time} \u00b7 {name}, {size}")
        elif limits.parted and limits.files:
            words = self.tr("\u25cf recording {time} \u00b7 {name}, file {number} (kept: {kept}), {size}")
        else:
            words = self.tr("\u25cf recording {time} \u00b7 {name}, file {number}, {size}")
        size = with_mark(f"{progress.size / 1e6:.1f} MB") if progress.size >= 1e6 else f"{progress.size / 1e3:.0f} kB"
        return words.format(
            name=progress.path.name,
            number=progress.files,
            kept=limits.files,
            time=_clock(progress.seconds),
            size=size,
        )


def _clock(seconds: float) -> str:
    """A length of time as hours, minutes and seconds."""
    minutes, left = divmod(int(seconds), 60)
    return f"{minutes // 60:02}:{minutes % 60:02}:{left:02}"


@dataclass(slots=True)
class _Saving:
    """What is being saved in a thread, and what the thread is told and tells."""

    path: Path
    kept: Kept
    work: SlotWork
    part: float = 0.0
    stopped: bool = False
    saved: Future[int] | None = None

    def tell(self, part: float) -> None:
        """From the thread, which looks up here whether it is to go on."""
        self.part = part
        if self.stopped:
            raise CancelledError

    def stop(self) -> None:
        self.stopped = True


class LastMinutes(QObject):
    """The command that saves as a recording what the window has kept of its session, in every workspace."""

    said = Signal(str, bool)
    """Something to tell the user, and whether it is trouble."""

    def __init__(self, owner: QWidget, observation: Observation, settings: Settings, notices: NoticeSlot) -> None:
        super().__init__(owner)
        self._owner = owner
        self._notices = notices
        self._observation = observation
        self._settings = settings
        self.action = command(owner, self.tr("Save the last &minutes as a recording\u2026"), self.save, "Ctrl+Alt+S")
        self._saving: _Saving | None = None
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_EVERY_MS)
        self._timer.timeout.connect(self._look)
        observation.begun.connect(self.allow)
        self.allow()

    def allow(self) -> None:
        """Let the command be used while there is something to save, and nothing is being saved."""
        if self._saving is not None:
            allow(self.action, False, self.tr("saving is in progress"))
        else:
            allow(self.action, self._observation.history is not None, self.tr("there has been no connection yet"))

    def save(self) -> None:
        """Ask for a file and save all that is kept."""
        history = self._observation.history
        title = history.project.title if history is not None else ""
        path = _ask(self._owner, self.tr("Save the last minutes to a new file"), self._settings, title)
        if path is not None:
            self.save_into(path)

    def save_into(self, path: Path) -> None:
        """Save all that is kept into this new file. It will be said when that is done, or why it cannot be."""
        from app.recording.saving import save

        history = self._observation.history
        if history is None or self._saving is not None:
            return
        words = self.tr("Saving {name}\u2026").format(name=path.name)
        saving = _Saving(path, history.contents(), self._notices.begin(words, lambda: saving.stop()))
        # Its thread ends with its one task, also when the window is closed meanwhile.
        executor = ThreadPoolExecutor(1, "fanlight-last-minutes")
        saving.saved = executor.submit(save, saving.kept, path, self._observation.curves, saving.tell)
        self._saving = saving
        executor.shutdown(wait=False)
        self._timer.start()
        self.allow()

    def _look(self) -> None:
        from app.recording.writer import CannotRecord

        saving = self._saving
        if saving is None or saving.saved is None:
            return
        saving.work.show(saving.part)
        if not saving.saved.done():
            return
        self._saving = None
        saving.work.end()
        self._timer.stop()
        self.allow()
        path, kept = saving.path, saving.kept
        try:
            saving.saved.result()
        except CancelledError:
            self.said.emit(self.tr("{name} was not saved: it was stopped").format(name=path.name), False)
            return
        except CannotRecord as why:
            self.said.emit(str(why), True)
            return
        self._settings.start_up_folder = path.parent
        minutes, seconds = divmod(round(kept.end - kept.begin), 60)
        words = self.tr("Saved in {name}: the last {minutes} min {seconds} s")
        self.said.emit(words.format(name=path.name, minutes=minutes, seconds=seconds), False)


def _usual_name(project: str, moment: str) -> str:
    """The name of a file: what the project is called, as far as a file can be, and now, written as `moment` says."""
    called = "".join(c for c in project if c.isalnum() or c in " -_").strip()
    return f"{called} {datetime.datetime.now().astimezone().strftime(moment)}".strip() + ENDING


def _free(path: Path) -> Path:
    """This name, or with a number behind it if there is such a file."""
    numbered = (path.with_stem(f"{path.stem} {number}") for number in itertools.count(2))
    return next(each for each in itertools.chain((path,), numbered) if not each.exists())


def _ask(owner: QWidget, title: str, settings: Settings, project: str) -> Path | None:
    """Ask for a new file for a recording of a project of this title."""
    kind = FileKind(QCoreApplication.translate("RecordingControl", "Recordings (*.fanrec)"), ENDING)
    usual = settings.recordings_folder / _usual_name(project, "%Y-%m-%d %H-%M")
    place = where_to_save(owner, settings, "start_up_folder", title, usual, (kind,), new_only=True)
    return None if place is None else place[0]
