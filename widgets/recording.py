"""Making a recording: its commands, and how it is doing in words."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Final

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFileDialog, QSizePolicy, QWidget

from app.record.limits import Limits
from app.record.recorder import Progress
from app.record.writer import CannotRecord
from widgets.commands import allow, command
from widgets.live import Live
from widgets.observation import Observation
from widgets.plain import plain_tip
from widgets.settings import Settings
from widgets.shortening import ShortLabel
from widgets.size import scaled

ENDING: Final = ".fanrec"
"""Of the names of recordings."""
LEAST_WIDTH: Final = 300
"""Of the words about the recording, in pixels at 100 per cent: where there is less room, they begin another line."""


class RecordingControl(QObject):
    """Makes recordings of what is observed, by the limits of the settings, for the widget that it belongs to."""

    said = Signal(str, bool)
    """Something to tell the user, and whether it is trouble."""

    def __init__(self, owner: QWidget, live: Live, observation: Observation, settings: Settings) -> None:
        super().__init__(owner)
        self._owner = owner
        self._live = live
        self._observation = observation
        self._settings = settings
        self.record_action = command(owner, self.tr("&Record\u2026"), self.record, "Ctrl+R")
        self.end_action = command(owner, self.tr("&End the recording"), observation.end_recording, "Ctrl+Alt+R")
        self.limits_action = command(owner, self.tr("&Limits of recordings\u2026"), self.ask_limits, "Alt+Shift+L")
        self.actions = (self.record_action, self.end_action)
        """Those that are wanted all the time."""
        self.state = ShortLabel(parent=owner)
        """How the recording is doing, or how the last one ended."""
        self.state.setMinimumWidth(scaled(LEAST_WIDTH))
        self.state.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._trouble = ""
        observation.recording_changed.connect(self.look)
        live.frame.connect(self._watch)
        self.look()

    def record(self) -> None:
        """Ask for a file and record into it."""
        if not self._live.connected:
            self.said.emit(self.tr("Nothing is connected, so there is nothing to record. Connect first."), True)
            return
        usual = datetime.datetime.now().astimezone().strftime("%Y-%m-%d %H-%M") + ENDING
        name, _ = QFileDialog.getSaveFileName(
            self._owner,
            self.tr("Record into a new file"),
            str(self._settings.start_up_folder / usual),
            self.tr("Recordings (*.fanrec)"),
        )
        if name:
            self.record_into(Path(name) if Path(name).suffix else Path(name + ENDING))

    def record_into(self, path: Path) -> bool:
        """Record into this new file. False if that cannot be done; that has been said."""
        try:
            self._observation.record(path, self._settings.recording_limits)
        except CannotRecord as why:
            self.said.emit(str(why), True)
            return False
        self._settings.start_up_folder = path.parent
        return True

    def ask_limits(self) -> None:
        """Ask for the limits, beside the window: the keys of the panel and disarming stay in reach."""
        from widgets.recording_limits import LimitsDialog

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
        allow(self.record_action, not recording, self.tr("a recording is being made"))
        allow(self.end_action, recording, self.tr("no recording is being made"))
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
                self.said.emit(self.tr("The recording goes on."), False)

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
            self.state.setToolTip(plain_tip(f"{words}\n{progress.path}"))

    def _words(self, progress: Progress) -> str:
        limits = self._observation.limits
        following = progress.files > 1 or limits.parted
        if not self._observation.recording:
            if progress.files > 1:
                words = self.tr(
                    "recorded in {number} files, last {name}: {seconds} s, {size}; {samples} samples altogether"
                )
            else:
                words = self.tr("recorded {name}: {seconds} s, {samples} samples, {size}")
        elif not following:
            words = self.tr("\u25cf recording {name}: {seconds} s, {samples} samples, {size}")
        elif limits.parted and limits.files:
            words = self.tr(
                "\u25cf recording {name}, file {number} (kept: {kept}): {seconds} s, {size}; "
                "{samples} samples altogether"
            )
        else:
            words = self.tr("\u25cf recording {name}, file {number}: {seconds} s, {size}; {samples} samples altogether")
        size = f"{progress.size / 1e6:.1f} MB" if progress.size >= 1e6 else f"{progress.size / 1e3:.0f} kB"
        return words.format(
            name=progress.path.name,
            number=progress.files,
            kept=limits.files,
            seconds=f"{progress.seconds:.0f}",
            size=size,
            samples=progress.samples,
        )
