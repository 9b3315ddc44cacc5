"""The limits of recordings: when one goes on in another file, and how many files of it are kept."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QWidget,
)

from app.recording.limits import LEAST_S, LEAST_SIZE, MOST_FILES, MOST_S, MOST_SIZE, Limits
from app.signals.typed import optional_number, plain, whole
from widgets.face.accessibility import announce
from widgets.kit.controls import Choice, UnitLine
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.plain import plain_label

translate = QCoreApplication.translate

MB: Final = 1_000_000
SECOND: Final = 1
MINUTE: Final = 60
HOUR: Final = 3600


class LimitsDialog(Dialog):
    """Asks for the limits, and says what will come of them. `limits` are what was chosen once it is accepted."""

    def __init__(self, limits: Limits, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.limits = limits
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.tell(
            self.tr("Limits of recordings"),
            self.tr("Applies to all recordings of this window, including one in progress."),
        )
        self.size_edit = self._edit(self.tr("Size of a file in MB"), self.tr("never"))
        self.time_edit = self._edit(self.tr("Time of a file"), self.tr("never"))
        self.unit = Choice()
        self.unit.setAccessibleName(self.tr("Unit of the time of a file"))
        self.unit.addItem(self.tr("seconds"), SECOND)
        self.unit.addItem(self.tr("minutes"), MINUTE)
        self.unit.addItem(self.tr("hours"), HOUR)
        self.files_edit = self._edit(self.tr("Number of files kept"), self.tr("all"))
        self.size_edit.set_unit(self.tr("MB"))
        self.files_edit.set_unit(self.tr("files"))
        after = QLabel(self.tr("Start a new file a&fter"))
        after.setBuddy(self.time_edit)
        row = QHBoxLayout()
        row.addWidget(self.time_edit, 1)
        row.addWidget(self.unit)
        self.add_row(self.tr("Start a new file &at"), self.size_edit)
        self.form.addRow(after, row)
        self.add_row(self.tr("&Keep only the newest"), self.files_edit)
        self.outcome = plain_label(wrap=True)
        self.reason = plain_label("", "fault", wrap=True)
        self.reason.hide()
        self.body.addWidget(self.outcome)
        self.body.addWidget(self.reason)
        self.add_deed(self.tr("&Set the limits"))
        self.add_cancel()
        self._show(limits)
        self._read()
        self.unit.currentIndexChanged.connect(lambda _index: self._read())
        for edit in (self.size_edit, self.time_edit, self.files_edit):
            edit.textChanged.connect(lambda _text: self._read())
        self.size_edit.setFocus(Qt.FocusReason.OtherFocusReason)
        self.size_edit.selectAll()

    def _edit(self, name: str, empty: str) -> UnitLine:
        edit = UnitLine()
        edit.setAccessibleName(name)
        edit.setPlaceholderText(empty)
        return edit

    def _show(self, limits: Limits) -> None:
        unit = _unit(limits.seconds)
        self.unit.setCurrentIndex(self.unit.findData(unit))
        self.size_edit.setText(_amount_text(limits.size, MB))
        self.time_edit.setText(_amount_text(limits.seconds, unit))
        self.files_edit.setText(str(limits.files) if limits.files else "")

    def _read(self) -> None:
        """Take what stands there and say what comes of it, or why it cannot be taken."""
        reason = ""
        try:
            self.limits = Limits(size=self._size(), seconds=self._seconds(), files=self._files())
        except ValueError as error:
            reason = str(error)
        self.outcome.setText("\n".join(outcome(self.limits)))
        self.outcome.setVisible(not reason)
        self.reason.setVisible(bool(reason))
        if self.reason.text() != reason:
            self.reason.setText(reason)
            announce(self.reason, reason)
        self.deed.setEnabled(not reason)

    def _size(self) -> int:
        wanted = _number(self.size_edit) * MB
        if wanted and not LEAST_SIZE <= wanted <= MOST_SIZE:
            raise ValueError(
                self.tr("The size of a file must be {least} to {most}.").format(
                    least=size_words(LEAST_SIZE), most=size_words(MOST_SIZE)
                )
            )
        return round(wanted)

    def _seconds(self) -> float:
        wanted = _number(self.time_edit) * self.unit.currentData()
        if wanted and not LEAST_S <= wanted <= MOST_S:
            raise ValueError(
                self.tr("The time of a file must be {least} to {most}.").format(
                    least=time_words(LEAST_S), most=time_words(MOST_S)
                )
            )
        return float(wanted)

    def _files(self) -> int:
        text = self.files_edit.text()
        try:
            wanted = whole(text) if text.strip() else 0
        except ValueError as error:
            raise ValueError(_at(self.files_edit, error)) from None
        if not 0 <= wanted <= MOST_FILES:
            raise ValueError(self.tr("At most {most} files can be kept; 0 means all.").format(most=MOST_FILES))
        return wanted


def outcome(limits: Limits) -> list[str]:
    """What will come of these limits, sentence by sentence."""
    return [_goes_on(limits), _keeping_text(limits)]


def size_words(size: float) -> str:
    """Bytes in the unit that gives the fewest digits."""
    for unit, name in ((10**12, "TB"), (10**9, "GB")):
        if size >= unit:
            return f"{round(size / unit, 2):g} {name}"
    return f"{round(size / MB, 2):g} MB"


def time_words(seconds: float) -> str:
    """Seconds in the unit that is easily grasped."""
    for unit, least, name in ((HOUR, 2 * HOUR, "h"), (MINUTE, MINUTE, "min")):
        if seconds >= least or seconds == unit:
            return f"{plain(Decimal(str(round(seconds / unit, 1))).normalize())} {name}"
    return f"{round(seconds, 1):g} s"


def _goes_on(limits: Limits) -> str:
    size, time = size_words(limits.size), time_words(limits.seconds)
    if limits.size and limits.seconds:
        words = translate("LimitsDialog", "A recording starts a new file at {size} or after {time}.")
    elif limits.size:
        words = translate("LimitsDialog", "A recording starts a new file at {size}.")
    elif limits.seconds:
        words = translate("LimitsDialog", "A recording starts a new file after {time}.")
    else:
        words = translate("LimitsDialog", "A recording is a single file, regardless of its length.")
    return words.format(size=size, time=time)


def _keeping_text(limits: Limits) -> str:
    if not limits.parted:
        if limits.files:
            return translate("LimitsDialog", "The number of files only applies when new files are started.")
        return translate("LimitsDialog", "Nothing is deleted.")
    if not limits.files:
        return translate("LimitsDialog", "All files are kept.")
    if limits.files == 1:
        return translate("LimitsDialog", "\u26a0 Whenever a new file starts, everything recorded before it is deleted.")
    size, time = size_words(limits.size * limits.files), time_words(limits.seconds * limits.files)
    if limits.size and limits.seconds:
        words = translate(
            "LimitsDialog",
            "At most about {size} and {time} of a recording are kept; beyond that the oldest file is deleted.",
        )
    elif limits.size:
        words = translate(
            "LimitsDialog", "At most about {size} of a recording are kept; beyond that the oldest file is deleted."
        )
    else:
        words = translate(
            "LimitsDialog", "At most about {time} of a recording are kept; beyond that the oldest file is deleted."
        )
    return words.format(size=size, time=time)


def _number(edit: QLineEdit) -> Decimal:
    try:
        return optional_number(edit.text()) or Decimal(0)
    except ValueError as error:
        raise ValueError(_at(edit, error)) from None


def _at(edit: QLineEdit, error: ValueError) -> str:
    """What is wrong, with its place."""
    return translate("LimitsDialog", "{place}: {reason}").format(place=edit.accessibleName(), reason=error)


def _unit(seconds: float) -> int:
    """The largest unit that needs no long fraction."""
    if not seconds:
        return MINUTE
    if seconds % HOUR == 0:
        return HOUR
    return MINUTE if seconds > MINUTE and seconds % (MINUTE / 10) == 0 else SECOND


def _amount_text(amount: float, unit: int) -> str:
    """An amount as a person types it in that unit; none is empty."""
    return plain((Decimal(str(amount)) / unit).normalize()) if amount else ""
