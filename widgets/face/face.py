"""The panel face: the bezel with its glass and its keys, edited in one workspace and operated in the others."""

from __future__ import annotations

from bisect import bisect
from typing import Final

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import (
    QAccessible,
    QFocusEvent,
    QFontMetricsF,
    QHideEvent,
    QInputMethodEvent,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QApplication, QSizePolicy, QWidget

from app.panel.rendering import Rows
from app.project.model import Panel
from widgets.face.cells import LARGEST, SMALLEST, CellGrid
from widgets.face.colours import LIGHT, face_colours, upright
from widgets.face.keypad import KeyPad, keyboard_map
from widgets.face.spoken_changes import SpokenChanges, spoken_rows
from widgets.kit import palette
from widgets.kit.scaling import scaled
from widgets.speech.roles import give_role
from widgets.speech.voice import voice

MARGIN: Final = 20
GAP: Final = 14
MARK: Final = 16
TOP: Final = 20
"""Pixels: around the glass, between glass and keys, of the mark below the glass, above the whole."""
ROUND: Final = 12.0
"""Radius of its corners, in pixels."""
COMFORTABLE: Final = 20
"""The character height in pixels that the size hint asks for."""
FITTING_LARGEST: Final = 64
"""The character height in pixels up to which it grows with its space."""
MARK_SMALLEST: Final = 9
MARK_LARGEST: Final = 15
"""Pixels of the letters of what is written above the glass; the largest at 100 per cent."""
_MODIFIERS: Final = {
    Qt.Key.Key_Control: Qt.KeyboardModifier.ControlModifier,
    Qt.Key.Key_Shift: Qt.KeyboardModifier.ShiftModifier,
    Qt.Key.Key_Alt: Qt.KeyboardModifier.AltModifier,
}
LEGIBLE: Final = 12
"""The character height in pixels below which nobody wants to edit; the editor scrolls instead."""


class PanelFace(QWidget):
    """A panel as the operator sees it.

    Operated (the default), it reports keys: pressed on screen, by the space bar on a focused key, or by the keyboard
    (see `widgets.face.keypad.keyboard_map`). A key that is held when the focus or the window goes away is released.
    With `set_editing(True)` the keys of the keyboard are left to whoever edits; cells are reported by `grid`.
    """

    key_pressed = Signal(str)
    key_released = Signal(str)
    zoom_changed = Signal(int)
    edit_key = Signal(object)
    """While editing: a key went down (a QKeyEvent). The receiver accepts the event if it has used it."""
    edit_modifiers = Signal(Qt.KeyboardModifier)
    """While editing: a key such as Ctrl went down or up, perhaps in the middle of a drag."""
    text_composed = Signal(str)
    """While editing: text from an input method."""
    focus_changed = Signal(bool)
    fitted = Signal()
    """The panel was placed anew: another panel or another size of the face."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._panel: Panel | None = None
        self._colours = LIGHT
        self._zoom = 0
        self._editing = False
        self._map: dict[Qt.Key, str] = {}
        self._held: dict[tuple[int, int], str] = {}
        self._down: dict[str, None] = {}
        self._bezel = QRect()
        self._mark = ""
        self.grid = CellGrid(self)
        self.keypad = KeyPad(self)
        self._spoken = SpokenChanges(voice(), self)
        self.keypad.key_pressed.connect(self._click)
        self.keypad.key_released.connect(self._release)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(self.tr("Panel"))
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.applicationStateChanged.connect(self._application_state)
            application.focusChanged.connect(self._focus_moved)
        self._recolour()

    # What is shown

    @property
    def panel(self) -> Panel | None:
        """The panel that is shown."""
        return self._panel

    def set_panel(self, panel: Panel) -> None:
        """Show this panel: its size and its keys. Blank until rows come."""
        if panel is self._panel:
            return
        self.release_all()
        self._panel = panel
        self.grid.set_count(panel.rows, panel.columns)
        self.keypad.set_keys(panel.keys)
        self._map = keyboard_map(panel.keys)
        self._name()
        self._refit()

    @property
    def mark(self) -> str:
        """What is written on the face above the glass; empty on a live panel."""
        return self._mark

    def set_mark(self, words: str) -> None:
        """Write above the glass, as a caution, that this is not the live panel; empty: it is. Moves nothing."""
        if words != self._mark:
            self._mark = words
            self._name()
            self.update()

    def _name(self) -> None:
        panel = self._panel
        if panel is None:
            return
        name = self.tr("Panel of {rows} rows of {columns} cells").format(rows=panel.rows, columns=panel.columns)
        self.setAccessibleName(f"{self._mark}. {name}" if self._mark else name)

    def set_rows(self, rows: Rows) -> None:
        """Show these cells. Cheap where nothing changed."""
        if rows is self.grid.rows:
            return
        self.grid.set_rows(rows)
        if not (QAccessible.isActive() and self._holds(QApplication.focusWidget())):
            self._describe()
        elif not self._editing:
            self._spoken.show(rows)

    def _holds(self, focus: QWidget | None) -> bool:
        return focus is not None and (focus is self or self.isAncestorOf(focus))

    def _describe(self) -> None:
        """Assistive technology reads the painted rows as the description of the face when it comes to it."""
        text = spoken_rows(self.grid.rows)
        if text != self.accessibleDescription():
            self.setAccessibleDescription(text)

    @property
    def rows(self) -> Rows:
        """What is shown."""
        return self.grid.rows

    def set_keys_shown(self, shown: bool) -> None:
        """Draw the keys below the glass, or leave them out."""
        self.keypad.setVisible(shown)
        self._refit()

    # Editing

    @property
    def editing(self) -> bool:
        """Whether keys of the keyboard edit instead of operate."""
        return self._editing

    def set_editing(self, on: bool) -> None:
        """Edit (a ruler, no keyboard keys for the panel) or operate."""
        self.release_all()
        self._editing = on
        self.grid.set_ruler(on)
        self.grid.setMouseTracking(on)
        self.setAttribute(Qt.WidgetAttribute.WA_InputMethodEnabled, on)
        self._refit()

    # Size

    @property
    def zoom(self) -> int:
        """The character height in pixels that was asked for; 0 fits the space."""
        return self._zoom

    def set_zoom(self, pixels: int) -> None:
        """A fixed character height in pixels, or 0: the largest that fits."""
        pixels = 0 if pixels <= 0 else min(max(pixels, SMALLEST), LARGEST)
        if pixels != self._zoom:
            self._zoom = pixels
            self._refit()
            self.zoom_changed.emit(pixels)

    def sizeHint(self) -> QSize:
        return self._whole(self._zoom or COMFORTABLE)

    def minimumSizeHint(self) -> QSize:
        return self._whole(self._zoom or self._least())

    def _least(self) -> int:
        return min(scaled(LEGIBLE if self._editing else SMALLEST), LARGEST)

    def bezel_rect(self) -> QRect:
        """The pixels of the drawn panel."""
        return QRect(self._bezel)

    def _whole(self, pixels: int, *, roomy: bool = False) -> QSize:
        glass = self.grid.size_at(pixels)
        keys = self.keypad.size_when(roomy=roomy) if not self.keypad.isHidden() and self.keypad.keys else QSize(0, 0)
        below = GAP + keys.height() if keys.height() else MARK
        return QSize(max(glass.width(), keys.width()) + 2 * MARGIN, glass.height() + below + 2 * MARGIN)

    def _refit(self) -> None:
        self.updateGeometry()
        self._arrange()
        self.update()

    def _arrange(self) -> None:
        """Place all by the size of the face and by nothing else: a key that moves is not the one that was aimed at."""
        # High keys, where the glass can still be read well beside them, or is no larger beside low ones.
        roomy = self._fits(self._zoom or min(scaled(COMFORTABLE), self._largest(roomy=False)), roomy=True)
        pixels = self._zoom or self._largest(roomy=roomy)
        self.grid.set_pixels(pixels)
        self.keypad.arrange(roomy=roomy)
        whole = self._whole(pixels, roomy=roomy)
        left, top = max(0, (self.width() - whole.width()) // 2), min(TOP, max(0, self.height() - whole.height()))
        self._bezel = QRect(left, top, whole.width(), whole.height())
        glass = self.grid.size_at(pixels)
        self.grid.setGeometry(left + (whole.width() - glass.width()) // 2, top + MARGIN, glass.width(), glass.height())
        keys = self.keypad.size_when(roomy=roomy)
        self.keypad.setGeometry(
            left + (whole.width() - keys.width()) // 2, top + MARGIN + glass.height() + GAP, keys.width(), keys.height()
        )
        self.fitted.emit()

    def _largest(self, *, roomy: bool) -> int:
        sizes = range(self._least() + 1, FITTING_LARGEST + 1)
        return self._least() + bisect(sizes, 0, key=lambda pixels: int(not self._fits(pixels, roomy=roomy)))

    def _fits(self, pixels: int, *, roomy: bool) -> bool:
        whole = self._whole(pixels, roomy=roomy)
        above = TOP if pixels > LEGIBLE else 0  # the ground above is the first that a small face does without
        return whole.width() <= self.width() and whole.height() + above <= self.height()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    # Painting

    def _recolour(self) -> None:
        self._colours = face_colours(self.palette())
        self.grid.set_colours(self._colours)
        self.keypad.set_colours(self._colours)
        self.update()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.ApplicationPaletteChange):
            self._recolour()
        elif event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._refit()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.grid.geometry().contains(event.rect()):
            return  # the glass covers all that changed
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours, whole = self._colours, QRectF(self._bezel)
        body = whole.adjusted(3, 3, -3, -3)
        painter.setPen(QPen(colours.rim, 1))
        painter.setBrush(upright(body, colours.bezel, colours.bezel_low))
        painter.drawRoundedRect(body, ROUND, ROUND)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(colours.edge, 1))  # where light falls on it
        painter.drawRoundedRect(body.adjusted(1, 1, -1, -1), ROUND - 1, ROUND - 1)
        if self.hasFocus():
            painter.setPen(QPen(colours.accent, 2))
            painter.drawRoundedRect(whole.adjusted(1, 1, -1, -1), ROUND + 2, ROUND + 2)
        glass = QRectF(self.grid.geometry()).adjusted(-2, -2, 2, 2)
        painter.setPen(QPen(colours.rim, 2))
        painter.setBrush(colours.rim)
        painter.drawRoundedRect(glass, 4, 4)
        self._paint_mark(painter, body)
        if self._mark:
            self._paint_caution(painter, glass)

    def _paint_caution(self, painter: QPainter, glass: QRectF) -> None:
        """The words between the upper edge and the glass, as large as that has room for."""
        top = max(0.0, self._bezel.top() - MARGIN / 2)
        place = QRectF(glass.left(), top, glass.width(), glass.top() - 2 - top)
        words = f"\u26a0 {self._mark}"
        font = self.font()
        font.setBold(True)
        for pixels in range(min(int(place.height()) - 2, scaled(MARK_LARGEST)), MARK_SMALLEST - 1, -1):
            font.setPixelSize(pixels)
            if QFontMetricsF(font).horizontalAdvance(words) <= place.width() - MARGIN:
                break
        colours = palette.current()
        painter.setPen(QPen(colours.colour("caution"), 1.5))
        painter.setBrush(colours.colour("base"))
        painter.drawRoundedRect(place, 3, 3)
        painter.setFont(font)
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, words)

    def _paint_mark(self, painter: QPainter, body: QRectF) -> None:
        """A small half-round window with its bars, at the lower left corner."""
        radius = 9.0
        centre_x, bottom = body.left() + 14 + radius, body.bottom() - 9
        arch = QRectF(centre_x - radius, bottom - radius, 2 * radius, 2 * radius)
        if self.keypad.isVisible() and arch.intersects(QRectF(self.keypad.geometry())):
            return  # a small face has no room for it beside the keys
        painter.setPen(QPen(self._colours.mark, 1.3))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPie(arch, 0, 180 * 16)
        for angle in (45, 90, 135):
            painter.drawPie(arch, 0, angle * 16)

    # Keys

    @property
    def held_keys(self) -> tuple[str, ...]:
        """The keys of the panel that are down."""
        return tuple(self._down)

    def release_all(self) -> None:
        """Let go of every key that is down."""
        self._held = {}
        for name in tuple(self._down):
            self._draw_down(name, False)
            self._release(name)

    def _press(self, name: str) -> None:
        if name not in self._down:
            self._down[name] = None
            self.key_pressed.emit(name)

    def _release(self, name: str) -> None:
        if name in self._down:
            del self._down[name]
            self.key_released.emit(name)

    def _click(self, name: str) -> None:
        if not self.isAncestorOf(QApplication.focusWidget() or self.window()):
            self.setFocus(Qt.FocusReason.MouseFocusReason)
        self._press(name)

    def event(self, event: QEvent) -> bool:
        """Claim keys before shortcuts of the window do."""
        # Keys that operate the panel come before shortcuts of the window while the face has the focus.
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and not self._editing
            and self._panel_key(event) is not None
        ):
            event.accept()
            return True
        return super().event(event)

    def _panel_key(self, event: QKeyEvent) -> str | None:
        plain = event.modifiers() & ~(Qt.KeyboardModifier.KeypadModifier | Qt.KeyboardModifier.ShiftModifier)
        return None if plain else self._map.get(Qt.Key(event.key()))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self._editing:
            event.ignore()
            self._tell_modifier(event, down=True)
            self.edit_key.emit(event)
            return
        name = self._panel_key(event)
        if name is None:
            super().keyPressEvent(event)
            return
        key = _physical(event)
        if not event.isAutoRepeat() and key not in self._held:
            self._held[key] = name
            self._draw_down(name, True)
            self._press(name)
        event.accept()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        key = _physical(event)
        if self._editing:
            self._tell_modifier(event, down=False)
        if self._editing or key not in self._held:
            super().keyReleaseEvent(event)
            return
        event.accept()
        if not event.isAutoRepeat():
            name = self._held.pop(key)
            self._draw_down(name, False)
            self._release(name)

    def _tell_modifier(self, event: QKeyEvent, *, down: bool) -> None:
        modifier = _MODIFIERS.get(Qt.Key(event.key()))
        if modifier is not None:
            # Platforms differ in whether the event of the key itself counts it among the modifiers.
            self.edit_modifiers.emit(event.modifiers() | modifier if down else event.modifiers() & ~modifier)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """While editing, zoom with Ctrl held."""
        if not self._editing or not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            super().wheelEvent(event)
            return
        self.set_zoom((self._zoom or self.grid.pixels) + (2 if event.angleDelta().y() > 0 else -2))
        event.accept()

    def inputMethodEvent(self, event: QInputMethodEvent) -> None:
        if self._editing and event.commitString():
            self.text_composed.emit(event.commitString())
        event.accept()

    def _draw_down(self, name: str, down: bool) -> None:
        button = self.keypad.buttons.get(name)
        if button is not None:
            button.setDown(down)

    def focusInEvent(self, event: QFocusEvent) -> None:
        self._describe()
        super().focusInEvent(event)
        self._refocus()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self._refocus()

    def _refocus(self) -> None:
        self.update()
        self.grid.update()
        self.focus_changed.emit(self.hasFocus())

    def hideEvent(self, event: QHideEvent) -> None:
        """Let go of what is held."""
        self.release_all()
        super().hideEvent(event)

    def _focus_moved(self, old: QWidget | None, new: QWidget | None) -> None:
        if self._holds(new):
            if new is self or not self._holds(old):
                self._spoken.begin(self.grid.rows)
        elif self._holds(old):
            self._spoken.end()
            QTimer.singleShot(0, self, self._describe)  # not read out any more by then
        if self._down and (new is None or (new is not self and not self.isAncestorOf(new))):
            self.release_all()

    def _application_state(self, state: Qt.ApplicationState) -> None:
        if state != Qt.ApplicationState.ApplicationActive:
            self.release_all()


def _physical(event: QKeyEvent) -> tuple[int, int]:
    """Which key of the keyboard it is, whatever Shift makes of it: let go after Shift, the key of + is that of =."""
    code = event.nativeScanCode()  # macOS knows none, and says 1 of all keys
    return (code, 0) if code > 1 else (0, event.nativeVirtualKey() or event.key())


give_role(PanelFace, QAccessible.Role.Canvas)
