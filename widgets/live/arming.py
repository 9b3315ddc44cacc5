"""Arming: the deliberate act that lets Fanlight write to a real line, with everything that must be known before."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import (
    QAbstractAnimation,
    QCoreApplication,
    QEasingCurve,
    QRectF,
    Qt,
    QVariantAnimation,
    Signal,
)
from PySide6.QtGui import QHideEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QPushButton,
    QWidget,
)

from app.project.by_itself import ByItself
from widgets.kit import palette
from widgets.kit.dialogs.dialog import Dialog, Sign
from widgets.kit.notice_slot import BRIEF_ABOVE
from widgets.kit.plain import plain_label
from widgets.kit.scaling import air, percent, scaled

translate = QCoreApplication.translate

ROWS: Final = 4
"""How many of what is written without a key are in sight at once; two above `BRIEF_ABOVE` per cent of size."""
HOLD_MS: Final = 1200
"""How long the button must be held: too long for a stray click, short enough for a stiff hand."""


def cautions() -> tuple[str, ...]:
    """What everybody must know before Fanlight writes to a real line."""
    return (
        translate(
            "cautions",
            "No key on this screen is an emergency stop. Keep a working emergency stop within reach.",
        ),
        translate("cautions", "Motion can start immediately and without warning, even from a value set earlier."),
        translate("cautions", "Nobody is near the machine or anything it moves, and nobody can approach unseen."),
        translate(
            "cautions",
            "Local regulations and a qualified person who knows this machine decide whether it may run now.",
        ),
    )


class HoldButton(QPushButton):
    """A button that acts only when it is held down for a while, by the mouse or by the space bar."""

    held = Signal()

    def __init__(self, text: str, parent: QWidget | None = None, *, hold_ms: int = HOLD_MS) -> None:
        super().__init__(text, parent)
        self.setProperty("look", "caution")
        self.setToolTip(self.tr("Press and hold, with the mouse or the space bar, until the bar is full."))
        self.setAutoDefault(False)
        self._fill = QVariantAnimation(self)
        self._fill.setStartValue(0.0)
        self._fill.setEndValue(1.0)
        self._fill.setDuration(hold_ms)
        self._fill.setEasingCurve(QEasingCurve.Type.Linear)
        self._fill.valueChanged.connect(lambda _value: self.update())
        self._fill.finished.connect(self._complete)
        self.pressed.connect(self._fill.start)
        self.released.connect(self._let_go)

    @property
    def holding(self) -> bool:
        """Whether it is held and not yet through."""
        return self._fill.state() is QAbstractAnimation.State.Running

    def hideEvent(self, event: QHideEvent) -> None:
        """A hidden button is not held."""
        self._let_go()
        super().hideEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """The button, with a bar along its lower edge that fills while it is held."""
        super().paintEvent(event)
        if self.holding:
            share = float(self._fill.currentValue())
            painter = QPainter(self)
            painter.fillRect(
                QRectF(3, self.height() - 7, (self.width() - 6) * share, 4), palette.current().colour("caution")
            )

    def _let_go(self) -> None:
        self._fill.stop()
        self.update()

    def _complete(self) -> None:
        self.setDown(False)
        self.held.emit()


class ArmingDialog(Dialog):
    """Accepted only when every caution was ticked and then the button was held."""

    def __init__(
        self,
        lines: Sequence[str],
        parent: QWidget | None = None,
        *,
        by_itself: Sequence[ByItself] = (),
        changed: bool = False,
        hold_ms: int = HOLD_MS,
    ) -> None:
        """`lines` says in words which lines Fanlight would write to, `by_itself` what the project writes without a key.

        `changed`: it was armed on this computer before, and is another project since.
        """
        super().__init__(parent, width=660)
        self.setWindowTitle(self.tr("Arm: allow Fanlight to write"))
        self.tell(
            self.tr("Arm this line?") if len(lines) == 1 else self.tr("Arm these lines?"),
            self.tr("Once armed, panel keys write to a real line."),
        )
        where = plain_label("\n".join(lines), "heading", wrap=True)
        where.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByKeyboard)
        where.setAccessibleName(self.tr("Lines to arm"))
        self.body.setSpacing(air(4) if percent() <= BRIEF_ABOVE else 0)
        if percent() > BRIEF_ABOVE:  # all cautions at once are worth more than the room around them
            self._whole.setContentsMargins(*[scaled(6)] * 4)
        self.body.addWidget(where)
        self.changed = Caution(self.tr("The project has changed since it was last armed on this computer."))
        self.changed.setVisible(changed)
        self.body.addWidget(self.changed)
        self.by_itself = QListWidget()
        self._list(by_itself)
        starting = [self.tr("This project can start motion by itself, without a key press: see the list above.")]
        alone = starting if any(each.starts for each in by_itself) else []
        self.ticks = [Confirmed(text) for text in (*cautions(), *alone)]
        for tick in self.ticks:
            tick.box.toggled.connect(self._follow_ticks)
            self.body.addWidget(tick)
        self.hold = HoldButton(self.tr("Hold to arm"), hold_ms=hold_ms)
        self.hold.held.connect(self.accept)
        self.hint = plain_label("", "faint", wrap=True)
        # Room for the longest from the start: nothing may move away under a hand that is about to hold the button.
        self.hint.setMinimumWidth(scaled(120))
        self.hint.setMinimumHeight(2 * self.hint.fontMetrics().lineSpacing())
        self.add_beside_buttons(self.hint)
        self.add_button(self.hold)
        self.add_cancel(safe=True)
        self._follow_ticks()
        self.ticks[0].box.setFocus()

    def _list(self, by_itself: Sequence[ByItself]) -> None:
        """What the project writes without a key, what may start something ahead."""
        if not by_itself:
            self.body.addWidget(plain_label(self.tr("This project writes only when a key is pressed.")))
            return
        caption = QLabel(self.tr("This project &writes without a key press:"))
        caption.setBuddy(self.by_itself)
        self.body.addWidget(caption)
        self.by_itself.setWordWrap(True)
        self.by_itself.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        for each in by_itself:
            self.by_itself.addItem(f"\u26a0 {each.words}" if each.starts else each.words)
        rows = min(len(by_itself), ROWS if percent() <= BRIEF_ABOVE else 2)
        self.by_itself.setFixedHeight(rows * (self.by_itself.fontMetrics().lineSpacing() + 4) + scaled(6))
        self.body.addWidget(self.by_itself)

    def _follow_ticks(self) -> None:
        missing = sum(not tick.box.isChecked() for tick in self.ticks)
        self.hold.setEnabled(missing == 0)
        self.hint.setText(
            self.tr("{count} left to confirm.").format(count=missing)
            if missing
            else self.tr("Now hold the button or the space bar until the bar is full.")
        )


class Caution(QWidget):
    """A caution that wraps over lines, behind its sign."""

    def __init__(self, text: str, sign: QWidget | None = None) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        beside = air(2) if percent() <= BRIEF_ABOVE else 1
        row.setContentsMargins(0, beside, 0, beside)
        row.setSpacing(scaled(8))
        self.label = plain_label(text, wrap=True)
        row.addWidget(sign or Sign("caution"), 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self.label, 1)


class Confirmed(Caution):
    """A caution with a box to be ticked in the place of its sign; a click on the words ticks it too."""

    def __init__(self, text: str) -> None:
        self.box = QCheckBox()
        self.box.setAccessibleName(text)
        super().__init__(text, self.box)
        self.label.setBuddy(self.box)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.button() is Qt.MouseButton.LeftButton and self.rect().contains(event.position().toPoint()):
            self.box.toggle()


@dataclass(frozen=True, slots=True)
class WritePermission:
    """What Fanlight may write to now."""

    live: bool = False
    simulated: bool = False
    armed: tuple[str, ...] = ()
    """The lines that are armed."""
    disarmed: str = ""
    """Why a line disarmed itself, in words; stops are still written to it."""

    @property
    def in_charge(self) -> bool:
        """Whether the panel here operates a real machine: a line is armed, or disarmed itself and still takes stops."""
        return not self.simulated and bool(self.armed or self.disarmed)
