"""The bar below the readings that writes one value of one signal to the line."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLineEdit, QSizePolicy, QStackedWidget, QVBoxLayout

from app.language import with_mark
from app.panel.messages import bounds, with_unit
from app.project.binding import bind, plain_text, refusal, unwritable
from app.project.model import AnySignal, BitSignal, HeldSignal, Project, RegisterSignal, by_number
from app.signals.encoding import is_text
from app.signals.reading import NEVER_READ, Reading, Value
from app.signals.typed import number
from widgets.kit.controls import push_button
from widgets.kit.elided import ShortChoice, ShortLabel
from widgets.kit.icons import tool
from widgets.kit.look import set_look
from widgets.kit.scaling import scaled
from widgets.live.live_session import LiveSession

if TYPE_CHECKING:
    from concurrent.futures import Future

    from app.line.write_queue import WriteReport


class WriteBar(QFrame):
    """Shows a signal's value and limits, takes another value, writes it and says what became of it.

    It is no dialog: the keys of the panel, and the one that disarms, work while it is open.
    """

    written = Signal(str)
    """The value of this signal was written."""

    def __init__(self, live: LiveSession, arm: Callable[[], object]) -> None:
        """`arm` asks for the cautions."""
        super().__init__()
        self._live = live
        self._project: Project | None = None
        self._signal = ""
        self._future: Future[WriteReport] | None = None
        self.setProperty("look", "card")
        self.name = ShortLabel()
        self.name.setProperty("look", "heading")
        self.now = ShortLabel()
        self.value = QLineEdit()
        self.value.setMinimumWidth(scaled(90))
        self.value.returnPressed.connect(self.write)
        self.choice = ShortChoice()
        self._editors = QStackedWidget()
        self._editors.addWidget(self.value)
        self._editors.addWidget(self.choice)
        self._editors.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.unit = ShortLabel()
        self.button = push_button(self.tr("&Write"), self.write)
        self.arm = push_button(self.tr("Arm\u2026"), arm)
        self.result = ShortLabel()
        away = tool("cross", self.tr("Close"), self)
        away.clicked.connect(self.close_bar)
        head, row = QHBoxLayout(), QHBoxLayout()
        head.addWidget(self.name, 2)
        head.addWidget(self.now, 3)
        head.addWidget(away)
        row.addWidget(self._editors, 1)
        row.addWidget(self.unit, 1)
        row.addWidget(self.button)
        row.addWidget(self.arm)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 4, 6, 6)
        layout.setSpacing(4)
        layout.addLayout(head)
        layout.addLayout(row)
        layout.addWidget(self.result)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        live.frame.connect(self._look)
        live.connection_changed.connect(self._connection_changed)
        self.hide()

    def open_for(self, project: Project, name: str) -> None:
        """Let a value of this signal be written; or, if none may be, say why."""
        self._project, self._signal, self._future = project, name, None
        signal = project.signal_named[name]
        self.name.setText(name)
        choices = _choices(signal)
        self._editors.setCurrentWidget(self.choice if choices else self.value)
        self.choice.offer(choices)
        self.value.clear()
        self.unit.setText(_limits(project, signal))
        for editor in (self.value, self.choice):
            editor.setAccessibleName(self.tr("New value of {signal}").format(signal=name))
        why = unwritable(project, name)
        if isinstance(signal, HeldSignal):
            why = self.tr("it is stored in the panel and not sent on any line")
        for widget in (self._editors, self.button):
            widget.setEnabled(why is None)
        self._say(self.tr("Cannot be written: {why}").format(why=why) if why else "", "caution")
        self.show()
        self._show_now()
        self._connection_changed()
        (self.choice if choices else self.value).setFocus(Qt.FocusReason.ShortcutFocusReason)

    def write_typed(self, project: Project, name: str, text: str) -> None:
        """Write what was typed elsewhere, as if it were typed here."""
        self.open_for(project, name)
        if self._editors.currentWidget() is self.choice:
            self.choice.setCurrentIndex(self.choice.place_of(text))
        else:
            self.value.setText(text)
        self.write()

    def close_bar(self) -> None:
        """Write nothing more."""
        self._signal = ""
        self.hide()

    def write(self) -> None:
        """Write what was typed or chosen, if it may be; what became of it is said."""
        project, session = self._project, self._live.session
        if project is None or not self._signal or not self.button.isEnabled() or self._future is not None:
            return
        signal = project.signal_named[self._signal]
        try:
            value = self._value(signal)
        except ValueError as why:
            self._say(str(why), "fault")
            return
        reason = refusal(project, signal.name, value)
        if reason is not None:
            self._say(self.tr("Not written: {why}").format(why=reason), "fault")
        elif session is None or session.project is not project:
            self._say(self.tr("Not written: connect first."), "fault")
        elif not session.engine.is_armed(bind(project, signal.name).follower.line):
            self._say(self.tr("Not written: writing is not armed. Arm it first."), "fault")
        else:
            self._future = session.write(signal.name, value)
            self._say(self.tr("Writing {value}\u2026").format(value=_value_text(project, signal, value)), "faint")

    def _value(self, signal: AnySignal) -> Value:
        if self._editors.currentWidget() is self.choice:
            if self.choice.currentIndex() < 0:
                raise ValueError(self.tr("Choose one of the values first."))
            return Fraction(str(self.choice.currentData()))
        text = self.value.text()
        if isinstance(signal, RegisterSignal) and signal.table in ("holding", "input") and is_text(signal.encoding):
            return text
        return Fraction(number(text))

    def _look(self) -> None:
        if not self.isVisible() or self._project is None:
            return
        self._show_now()
        if self._future is None or not self._future.done():
            return
        report, self._future = self._future.result(), None
        signal = self._project.signal_named[self._signal]
        wanted = _value_text(self._project, signal, report.wanted)
        if report.ok:
            self.written.emit(self._signal)
        if not report.ok:
            self._say(self.tr("Not written: {why}").format(why=report.reason), "fault")
        elif report.kept is None:
            self._say(self.tr("Written: {value}; it cannot be read back.").format(value=wanted), "good")
        else:
            kept = _value_text(self._project, signal, report.kept)
            self._say(self.tr("Written: {value}. Read back: {kept}.").format(value=wanted, kept=kept), "good")

    def _show_now(self) -> None:
        if self._project is None:
            return
        reading: Reading = self._live.readings().get(self._signal, NEVER_READ)
        signal = self._project.signal_named[self._signal]
        if reading.good and reading.value is not None:
            self.now.setText(self.tr("now {value}").format(value=_value_text(self._project, signal, reading.value)))
        else:
            self.now.setText(self.tr("now unknown: {why}").format(why=reading.why))

    def _connection_changed(self) -> None:
        session = self._live.session
        if not self._signal:
            return
        if session is None or session.project is not self._project:
            self.close_bar()
            return
        writing = self._live.writing
        self.arm.setVisible(not writing.simulated and (not writing.armed or bool(writing.disarmed)))

    def _say(self, words: str, look: str) -> None:
        self.result.setText(words)
        set_look(self.result, look)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.close_bar()
        else:
            super().keyPressEvent(event)


def _choices(signal: AnySignal) -> list[tuple[str, str]]:
    """What the value may be if it is one of a few."""
    if signal.texts:
        return [(str(value), f"{text} ({value})") for value, text in by_number(signal.texts).items()]
    one_bit = isinstance(signal, BitSignal) or (
        isinstance(signal, RegisterSignal) and signal.table in ("coil", "discrete")
    )
    return [("0", "0"), ("1", "1")] if one_bit else []


def _limits(project: Project, signal: AnySignal) -> str:
    try:
        allowed = None if _choices(signal) else bounds(project, signal.name)
    except (KeyError, ValueError):
        allowed = None
    if allowed is None:
        return signal.unit
    low, high = (with_mark(with_unit(signal, limit)) for limit in allowed)
    return f"{low} \u2026 {high}"


def _value_text(project: Project, signal: AnySignal, value: Value) -> str:
    """The value in as many decimals as it has: what was typed is not to come back rounded."""
    if isinstance(value, str) or signal.texts:
        return f"{plain_text(project, signal.name, value)} {signal.unit}".rstrip()
    return with_mark(with_unit(signal, value))
