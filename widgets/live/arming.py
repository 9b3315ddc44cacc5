"""Arming: the deliberate act that lets Fanlight write to a real line, and the badge that always shows it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import (
    QAbstractAnimation,
    QCoreApplication,
    QEasingCurve,
    QRectF,
    QSize,
    Qt,
    QVariantAnimation,
    Signal,
)
from PySide6.QtGui import QAction, QBrush, QFont, QFontMetrics, QHideEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QDialogButtonBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QPushButton,
    QSizePolicy,
    QStyle,
    QStyleOptionToolButton,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.project.by_itself import ByItself
from widgets.kit import palette
from widgets.kit.elided import ShortLabel
from widgets.kit.focus import RingDialog
from widgets.kit.look import set_look
from widgets.kit.notice_slot import BRIEF_ABOVE
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.scaling import percent, scaled

translate = QCoreApplication.translate

NAME: Final = 6
"""Digits that the names of armed lines have room for on the badge; longer ones end in dots, and are in its tool tip."""
BESIDE: Final = 8
"""Pixels between what stands on the badge."""
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
                QRectF(3, self.height() - 7, (self.width() - 6) * share, 4), palette.current().colour("accent")
            )

    def _let_go(self) -> None:
        self._fill.stop()
        self.update()

    def _complete(self) -> None:
        self.setDown(False)
        self.held.emit()


class ArmingDialog(RingDialog):
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
        super().__init__(parent)
        self.setWindowTitle(self.tr("Arm: allow Fanlight to write"))
        layout = QVBoxLayout(self)
        layout.setSpacing(10)
        heading = plain_label(self.tr("Once armed, panel keys write to a real line."), "heading", wrap=True)
        layout.addWidget(heading)
        where = plain_label("\n".join(lines))
        where.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByKeyboard)
        where.setAccessibleName(self.tr("Lines to arm"))
        layout.addWidget(where)
        self.changed = QLabel()
        if changed:
            self.changed.setText(self.tr("\u26a0 The project has changed since it was last armed on this computer."))
            self.changed.setWordWrap(True)
            set_look(self.changed, "caution")
            layout.addWidget(self.changed)
        self.by_itself = QListWidget()
        self._list(layout, by_itself)
        layout.addWidget(QLabel(self.tr("Read and confirm each point:")))
        starting = [self.tr("This project can start motion by itself, without a key press: see the list above.")]
        alone = starting if any(each.starts for each in by_itself) else []
        self.ticks = [_Caution(text, self) for text in (*cautions(), *alone)]
        for tick in self.ticks:
            tick.box.toggled.connect(self._follow_ticks)
            layout.addWidget(tick)
        self.hold = HoldButton(self.tr("Hold to arm"), hold_ms=hold_ms)
        self.hold.setToolTip(self.tr("Press and hold, with the mouse or the space bar, until the bar is full."))
        self.hold.held.connect(self.accept)
        self.hint = plain_label("", "faint", wrap=True)
        self.hint.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        # Room for the longest from the start: nothing may move away under a hand that is about to hold the button.
        self.hint.setMinimumHeight(2 * self.hint.fontMetrics().lineSpacing())
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        buttons.addButton(self.hold, QDialogButtonBox.ButtonRole.ActionRole)
        buttons.rejected.connect(self.reject)
        layout.addSpacing(4)
        layout.addWidget(self.hint)
        layout.addWidget(buttons)
        self._follow_ticks()
        width = scaled(660)
        self.setMinimumSize(width, layout.totalHeightForWidth(width))
        self.ticks[0].box.setFocus()

    def _list(self, layout: QVBoxLayout, by_itself: Sequence[ByItself]) -> None:
        """What the project writes without a key, what may start something ahead."""
        if not by_itself:
            layout.addWidget(QLabel(self.tr("This project writes only when a key is pressed.")))
            return
        caption = QLabel(self.tr("This project &writes without a key press:"))
        caption.setBuddy(self.by_itself)
        layout.addWidget(caption)
        self.by_itself.setWordWrap(True)
        self.by_itself.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        for each in by_itself:
            self.by_itself.addItem(f"\u26a0 {each.words}" if each.starts else each.words)
        rows = min(len(by_itself), ROWS if percent() <= BRIEF_ABOVE else 2)
        self.by_itself.setFixedHeight(rows * (self.by_itself.fontMetrics().lineSpacing() + 4) + scaled(6))
        layout.addWidget(self.by_itself)

    def _follow_ticks(self) -> None:
        missing = sum(not tick.box.isChecked() for tick in self.ticks)
        self.hold.setEnabled(missing == 0)
        self.hint.setText(
            self.tr("{count} left to confirm.").format(count=missing)
            if missing
            else self.tr("Now hold the button, with the mouse or the space bar, until its bar is full.")
        )


class _Caution(QFrame):
    """A caution that wraps over lines, with its tick box."""

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(parent)
        row = QHBoxLayout(self)
        row.setContentsMargins(4, 2, 4, 2)
        self.box = QCheckBox()
        self.box.setAccessibleName(text)
        label = plain_label(text, wrap=True)
        label.setBuddy(self.box)
        row.addWidget(self.box, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(label, 1)


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


class ArmingBadge(QFrame):
    """Always in sight: whether Fanlight can write, to what, and the way to end that at once."""

    def __init__(self, arm: QAction, disarm: QAction, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._arm, self._disarm = arm, disarm
        self._writing = WritePermission()
        row = QHBoxLayout(self)
        row.setContentsMargins(10, 0, 4, 0)
        row.setSpacing(BESIDE)
        self._stripes = _Stripes()
        self._words = ShortLabel()
        self.button = QToolButton()
        self.button.setProperty("look", "badge")
        self.button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
        row.addWidget(self._stripes)
        row.addWidget(self._words, 1)
        row.addWidget(self.button)
        self.show_writing(WritePermission())
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Room for the longest that it can have to say, always: nothing beside or below it moves when it says it."""
        metrics, button = self._strong(), self._button_size()
        aside = self._stripes.width() + button.width() + 2 * BESIDE
        words = (self._simulated_words(), self._no_words(), self._locked_words(), self._disarmed_words())
        widths = (
            aside + metrics.horizontalAdvance(self._armed_words("0" * NAME)),
            button.width() + BESIDE + max(metrics.horizontalAdvance(each) for each in words),
        )
        return QSize(max(widths) + 2 * BESIDE, button.height())

    def minimumSizeHint(self) -> QSize:
        """In a narrow window at least the first word and the button."""
        aside = self._stripes.width() + self._button_size().width() + 2 * BESIDE
        first = self._armed_words("").partition(" ")[0]
        return QSize(aside + self._strong().horizontalAdvance(first) + 2 * BESIDE, self.sizeHint().height())

    def _strong(self) -> QFontMetrics:
        font = QFont(self.font())
        font.setBold(True)
        return QFontMetrics(font)

    def _button_size(self) -> QSize:
        """Of the button with the longer of its two texts."""
        option = QStyleOptionToolButton()
        option.initFrom(self.button)
        size = QSize(0, 0)
        for action in (self._arm, self._disarm):
            text = self._strong().size(Qt.TextFlag.TextShowMnemonic, action.iconText())
            size = size.expandedTo(
                self.style().sizeFromContents(QStyle.ContentsType.CT_ToolButton, option, text, self.button)
            )
        return size

    def _armed_words(self, lines: str) -> str:
        return self.tr("ARMED: keys write to {lines}").format(lines=lines)

    def _simulated_words(self) -> str:
        return self.tr("Simulated: no machine can move")

    def _locked_words(self) -> str:
        return self.tr("Not armed: read only")

    def _disarmed_words(self) -> str:
        return self.tr("Disarmed: only stops are written")

    def _no_words(self) -> str:
        return self.tr("Not connected: nothing is written")

    @property
    def words(self) -> str:
        """What the badge says."""
        return self._words.text()

    def show_writing(self, writing: WritePermission) -> None:
        """Say this from now on."""
        self._writing = writing
        armed = bool(writing.armed) and not writing.simulated
        if armed:
            words = self._armed_words(", ".join(writing.armed))
        elif writing.live and writing.simulated:
            words = self._simulated_words()
        elif writing.disarmed:
            words = self._disarmed_words()
        elif writing.live:
            words = self._locked_words()
        else:
            words = self._no_words()
        self._words.setText(words)
        self._words.setToolTip(plain_tip(writing.disarmed or words))
        self.setAccessibleName(words)
        self.setAccessibleDescription(writing.disarmed)
        self._stripes.setVisible(armed)
        # The action that is no more the default one would stay behind as a menu of the button.
        self.button.removeAction(self._arm if armed else self._disarm)
        self.button.setDefaultAction(self._disarm if armed else self._arm)
        self.button.setVisible(writing.live and not writing.simulated)
        look = "armed" if armed else "unarmed"
        set_look(self, look)
        set_look(self._words, "armed" if armed else "faint")


class _Stripes(QWidget):
    """Slanted stripes, so that armed is seen without its colour too."""

    def __init__(self) -> None:
        super().__init__()
        self.setFixedSize(30, 18)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), palette.current().colour("armed"))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(palette.current().colour("on_armed")))
        painter.setClipRect(self.rect())
        painter.shear(-0.6, 0)
        for left in range(0, 60, 12):
            painter.drawRect(left, 0, 6, self.height())
