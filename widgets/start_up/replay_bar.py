"""The bar of a recording that is played: run or stand still, faster or slower, to any moment, step by step."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QDateTime, QLocale, Qt, QTimer, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QMenu,
    QSizePolicy,
    QStyle,
    QStyleOptionSlider,
    QToolButton,
    QWidget,
)

from app.language import with_mark
from app.recording.replay import Replay
from widgets.kit.commands import allow, command
from widgets.kit.controls import Choice, Slider
from widgets.kit.elided import ShortLabel
from widgets.kit.icons import icon
from widgets.kit.scaling import scaled
from widgets.live.live_session import FRAME_MS

SPEEDS: Final = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 60.0)
LEAST_TIME: Final = 60
"""Pixels at 100 per cent that the words about the time have."""
STEPS: Final = 10_000
"""Places of the slider."""


class ReplayBar(QWidget):
    """Moves a replay. Whoever shows its panel and its curves draws them anew on `moved`."""

    moved = Signal(float)
    """The replay shows another moment (seconds since the recording began), or the panel did something."""
    closed = Signal()
    """Somebody has seen enough of the recording."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._replay: Replay | None = None
        self._setting = False
        self._timer = QTimer(self)
        self._timer.setInterval(FRAME_MS)
        self._timer.timeout.connect(self._frame)
        self.play_action = command(self, self.tr("&Play or pause"), self._toggle, "Alt+Shift+Space")
        self.back_action = command(self, self.tr("Step &back"), lambda: self._step(-1), "Alt+Shift+,")
        self.on_action = command(self, self.tr("Step forwar&d"), lambda: self._step(1), "Alt+Shift+.")
        self.close_action = command(self, self.tr("&Close the recording"), self.closed.emit, "Alt+Shift+W")
        self.play = self._button(self.tr("Pause"), "play")
        self.play.setMinimumWidth(self.play.sizeHint().width())
        self.play.clicked.connect(self.play_action.trigger)
        self.back = self._button("", "left")
        self.back.setAccessibleName(self.tr("Step back"))
        self.back.setToolTip(self.tr("To the previous sample or event"))
        self.back.clicked.connect(self.back_action.trigger)
        self.on = self._button("", "right")
        self.on.setAccessibleName(self.tr("Step forward"))
        self.on.setToolTip(self.tr("To the next sample or event"))
        self.on.clicked.connect(self.on_action.trigger)
        self.speeds = Choice()
        self.speeds.setAccessibleName(self.tr("Speed"))
        for speed in SPEEDS:
            self.speeds.addItem(self.tr("{speed} \u00d7").format(speed=f"{speed:g}"), speed)
        self.speeds.setCurrentIndex(SPEEDS.index(1.0))
        self.speeds.activated.connect(lambda _index: self._choose_speed())
        self.slider = _Slider(Qt.Orientation.Horizontal)
        self.slider.setRange(0, STEPS)
        self.slider.setAccessibleName(self.tr("Position in the recording"))
        self.slider.valueChanged.connect(self._slide)
        self.time = ShortLabel()
        close = self._button("", "cross")
        close.setAccessibleName(self.tr("Close the recording"))
        close.setToolTip(self.tr("Close the recording"))
        close.clicked.connect(self.close_action.trigger)
        self.slider.setMinimumWidth(scaled(40))
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(scaled(8))
        for widget in (self.play, self.back, self.on, self.speeds, self.slider, self.time, close):
            row.addWidget(widget)
        row.setStretchFactor(self.slider, 1)
        self.time.setMinimumWidth(scaled(LEAST_TIME))
        self.time.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        self.set_replay(None)

    @staticmethod
    def _button(text: str, picture: str) -> QToolButton:
        button = QToolButton()
        button.setText(text)
        button.setIcon(icon(picture))
        if text:
            button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        return button

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands into a menu."""
        menu.addActions([self.play_action, self.back_action, self.on_action, self.close_action])

    @property
    def replay(self) -> Replay | None:
        """What is played."""
        return self._replay

    def set_replay(self, replay: Replay | None) -> None:
        """Play this from now on, from where it stands; None plays nothing."""
        self._replay = replay
        for action in (self.play_action, self.back_action, self.on_action, self.close_action):
            allow(action, replay is not None, self.tr("open a recording first"))
        self._timer.stop()
        if replay is not None:
            replay.speed = float(self.speeds.currentData())
            self._timer.start()
        self._show()

    def seek(self, at: float) -> None:
        """Go to a moment."""
        if self._replay is not None:
            self._replay.seek(at)
            self._show()
            self.moved.emit(self._replay.at)

    def _toggle(self) -> None:
        replay = self._replay
        if replay is None:
            return
        if replay.playing:
            replay.pause()
        else:
            replay.play()
        self._show()
        self.moved.emit(replay.at)

    def _step(self, way: int) -> None:
        if self._replay is not None:
            self._replay.pause()
            self._replay.step(way)
            self._show()
            self.moved.emit(self._replay.at)

    def _choose_speed(self) -> None:
        if self._replay is not None:
            self._replay.speed = float(self.speeds.currentData())

    def _slide(self, value: int) -> None:
        replay = self._replay
        if replay is not None and not self._setting:
            self.seek(replay.begin + (replay.end - replay.begin) * value / STEPS)

    def _frame(self) -> None:
        replay = self._replay
        if replay is None or not replay.playing:
            return
        replay.panel.tick()
        self._show()
        self.moved.emit(replay.at)

    def _show(self) -> None:
        replay = self._replay
        if replay is None:
            self.time.clear()
            return
        self.play.setText(self.tr("Pause") if replay.playing else self.tr("Play"))
        self.play.setIcon(icon("pause" if replay.playing else "play"))
        length = replay.end - replay.begin
        self._setting = True
        self.slider.setValue(round((replay.at - replay.begin) / length * STEPS) if length else 0)
        self._setting = False
        civil = replay.recording.civil(replay.at)
        self.time.setText(
            self.tr("{at} of {all} s \u00b7 {clock}").format(
                clock=civil.strftime("%H:%M:%S"),
                at=with_mark(f"{replay.at - replay.begin:.2f}"),
                all=with_mark(f"{length:.1f}"),
            )
        )
        self.time.setToolTip(
            self.locale().toString(QDateTime.fromSecsSinceEpoch(int(civil.timestamp())), QLocale.FormatType.ShortFormat)
        )


class _Slider(Slider):
    """A slider that goes to where it is clicked."""

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Go there, unless the handle is taken hold of."""
        option = QStyleOptionSlider()
        self.initStyleOption(option)
        handle = self.style().subControlRect(
            QStyle.ComplexControl.CC_Slider, option, QStyle.SubControl.SC_SliderHandle, self
        )
        if event.button() == Qt.MouseButton.LeftButton and not handle.contains(event.position().toPoint()):
            room = max(1, self.width() - handle.width())
            at = round(event.position().x() - handle.width() / 2)
            self.setValue(QStyle.sliderValueFromPosition(self.minimum(), self.maximum(), at, room))
            event.accept()
            return
        super().mousePressEvent(event)
