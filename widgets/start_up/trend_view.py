"""Trends: curves of signals over time that roll on while values come, and stand still when somebody looks back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QMenu,
    QSplitter,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.curves.source import CurveSource, plottable
from app.project.model import RegisterSignal
from app.recording.reader import TooMany
from widgets.document.save_as import FileKind, where_to_save, write_or_say
from widgets.document.settings import Settings
from widgets.kit.commands import ENTRY, command
from widgets.kit.controls import Choice
from widgets.kit.flow import FlowLayout
from widgets.kit.plain import plain_label
from widgets.start_up.trend_curves import LOOKS, is_lane
from widgets.start_up.trend_export import picture, values_text
from widgets.start_up.trend_legend import LegendColumn, TrendLegend
from widgets.start_up.trend_plot import TrendPlot

SPANS: Final = (10, 30, 60, 300, 900, 3600, 6 * 3600, 24 * 3600)
"""Seconds to choose from."""
USUAL_SPAN: Final = 60
MOST: Final = min(16, LOOKS)
"""Curves at once: more nobody can tell apart."""
IN_ONE_MENU: Final = 40
"""Signals to choose from in one menu: more do not fit on a screen."""
AHEAD: Final = 0.02
"""Of the span: what is left free at the right for the values to come."""
ZOOM: Final = 1.5
MOVE: Final = 0.1
"""By one press of a key: how much more or less is shown, and how far it is moved, as a share of the span."""


class TrendView(QWidget):
    """Curves, their table and their commands."""

    signals_changed = Signal()
    moment_chosen = Signal(float)
    """Somebody wants to go to this time."""
    span_chosen = Signal(float, float)
    """Both cursors are there: the span between them."""
    said = Signal(str)
    """Something to tell the user."""

    def __init__(self, settings: Settings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._settings = settings
        self._source: CurveSource | None = None
        self._moment: float | None = None
        self._following = True
        self.plot = TrendPlot()
        self.legend = TrendLegend()
        self.setFocusProxy(self.plot)
        self.plot.installEventFilter(self)
        self._make_actions()
        self._lay_out()
        self.plot.span_moved.connect(self._moved_by_mouse)
        self.plot.cursors_moved.connect(self._cursors_moved)
        self.plot.moment_chosen.connect(self.moment_chosen)
        self.set_source(None)

    # What is shown

    def set_source(self, source: CurveSource | None, *, moment: float | None = None) -> None:
        """Show values of another source: of a replay those at `moment`, of what is live (None) always the newest."""
        self._source, self._moment = source, moment
        self._following = self._rolls
        names = self.signals
        self._offer(source)
        if source is not None:
            known = plottable(source.project)
            kept = tuple(name for name in names if name in known)
            self.show_signals(kept or _likely(source))
            begin, end = source.span()
            if not self._rolls:
                self.plot.set_source(source)
                self.plot.set_span(begin, max(end, begin + 1.0))
            else:
                self.plot.set_span(end - self._seconds(), end)
        self.plot.set_moment(moment)
        self.plot.set_source(source)
        self.legend.show_names(None if source is None else source.project, self.signals)
        self.legend.show_heading(
            LegendColumn.NOW, self.tr("Now") if moment is None else self.tr("Here", "where the replay stands")
        )
        for number in (0, 1):
            self.plot.set_cursor(number, None)
        self.follow_action.setEnabled(self._rolls)
        self._say_state()
        self._show_now()
        self.refresh()

    @property
    def signals(self) -> tuple[str, ...]:
        """The signals that are shown."""
        return self.plot.names

    def show_signals(self, names: Sequence[str]) -> None:
        """Show these signals, the first MOST of them."""
        wanted = tuple(dict.fromkeys(names))[:MOST]
        if wanted == self.signals:
            return
        self.plot.set_names(wanted)
        self.legend.show_names(None if self._source is None else self._source.project, wanted)
        self._offer(self._source)
        self._show_now()
        self._cursors_moved()
        self.refresh()
        self.signals_changed.emit()

    def refresh(self) -> None:
        """New values came. Costs nothing while hidden."""
        source = self._source
        if source is None or not self.isVisible():
            return
        end = source.span()[1]
        begin, until = self.plot.span
        length = until - begin
        if self._following and not until - length * AHEAD <= end <= until:
            # Moving the axis costs more than drawing the curves: it moves on by a step, and is then filled.
            self.plot.set_span(end - length * (1 - AHEAD), end + length * AHEAD)
        elif self.plot.span[1] >= end:
            self.plot.draw()  # the newest values are in sight though it stands still
        self._show_now()

    def set_moment(self, at: float) -> None:
        """Mark where the replay stands now, and keep it in sight."""
        self._moment = at
        self.plot.set_moment(at)
        begin, end = self.plot.span
        if not begin <= at <= end:
            self.plot.set_span(at - (end - begin) / 2, at + (end - begin) / 2)
        self._show_now()

    def _show_now(self) -> None:
        """The values where a replay stands, or the newest: the one place that says which moment is now."""
        source = self._source
        if source is not None:
            at = source.span()[1] if self._moment is None else self._moment
            self.legend.show_values(LegendColumn.NOW, [source.at(name, at) for name in self.signals])

    @property
    def _rolls(self) -> bool:
        """Whether new values come in."""
        return self._source is not None and self._moment is None

    @property
    def cursors(self) -> tuple[float, float] | None:
        """The span between the two cursors, or None if both are not there."""
        first, second = self.plot.cursors
        return None if first is None or second is None else (min(first, second), max(first, second))

    # Commands

    def _make_actions(self) -> None:
        self.follow_action = command(self, self.tr("&Follow the newest values"), self._toggle_following, "Alt+Shift+F")
        self.cursor_actions = [
            command(self, text, lambda number=number: self._toggle_cursor(number), keys)
            for number, (text, keys) in enumerate(
                ((self.tr("Cursor &A"), "Alt+Shift+1"), (self.tr("Cursor &B"), "Alt+Shift+2"))
            )
        ]
        self.all_action = command(self, self.tr("Show the fu&ll time range"), self.show_all, "Alt+Shift+0")
        self.save_picture_action = command(self, self.tr("Save the &picture\u2026"), self.save_picture, "Alt+Shift+P")
        self.save_values_action = command(self, self.tr("Save the &values\u2026"), self.save_values, "Alt+Shift+V")
        self.take_out_action = command(
            self, self.tr("&Remove the selected curves"), self._take_out, "Alt+Shift+Del", within=True
        )
        self.add_menu = QMenu(self.tr("A&dd a curve"), self)

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands into a menu."""
        menu.addMenu(self.add_menu)
        menu.addAction(self.take_out_action)
        menu.addSeparator()
        menu.addActions([self.follow_action, self.all_action, *self.cursor_actions])
        menu.addSeparator()
        menu.addActions([self.save_picture_action, self.save_values_action])

    def _lay_out(self) -> None:
        add = QToolButton()
        add.setText(self.tr("Add a curve"))
        add.setMenu(self.add_menu)
        add.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        add.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.spans = Choice()
        self.spans.setAccessibleName(self.tr("Time range"))
        for seconds in SPANS:
            self.spans.addItem(_span_text(seconds), seconds)
        self.spans.setCurrentIndex(SPANS.index(USUAL_SPAN))
        self.spans.activated.connect(lambda _index: self._choose_span())
        self.follow = QToolButton()
        self.follow.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.follow.clicked.connect(self.follow_action.trigger)
        self.state = plain_label("", "faint")
        self.difference = plain_label()
        bar = FlowLayout()
        bar.setContentsMargins(6, 2, 6, 2)
        bar.addWidget(add)
        bar.addWidget(self.spans)
        bar.addWidget(self.follow)
        bar.addWidget(self.state)
        bar.add_stretch()
        bar.addWidget(self.difference)
        for action in self.cursor_actions:
            button = QToolButton()
            button.setDefaultAction(action)
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            bar.addWidget(button)
        split = QSplitter(Qt.Orientation.Vertical)
        split.setObjectName("trend and its table")
        split.addWidget(self.plot)
        split.addWidget(self.legend)
        split.setStretchFactor(0, 1)
        split.setCollapsible(0, False)
        split.setSizes([300, 120])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(bar)
        layout.addWidget(split, 1)

    def show_all(self) -> None:
        """Show all the time that there is."""
        if self._source is not None:
            begin, end = self._source.span()
            self._stand_still()
            self.plot.set_span(begin, max(end, begin + 1.0))

    def look_at(self, begin: float, end: float) -> None:
        """Stand still and show this span."""
        self._stand_still()
        self.plot.set_span(begin, end)

    def save_picture(self) -> None:
        """Ask for a file and save the picture, as PNG or SVG by its ending."""
        kinds = (FileKind(self.tr("Pictures (*.png)"), ".png"), FileKind(self.tr("Drawings (*.svg)"), ".svg"))
        place = where_to_save(
            self, self._settings, "start_up_folder", self.tr("Save the picture"), self.tr("trend"), kinds
        )
        if place is not None:
            write_or_say(place[0], picture(self.plot, place[0].suffix), self.said.emit)

    def save_values(self) -> None:
        """Ask for a file and save the values of the span that is shown, or of the one between the cursors."""
        source = self._source
        if source is None:
            return
        kind = FileKind(self.tr("Comma-separated values (*.csv)"), ".csv")
        place = where_to_save(
            self, self._settings, "start_up_folder", self.tr("Save the values"), self.tr("values"), (kind,)
        )
        if place is not None:
            begin, end = self.cursors or self.plot.span
            try:
                content = values_text(source, self.signals, begin, end).encode("utf-8-sig")
            except TooMany as why:
                self.said.emit(str(why))
                return
            write_or_say(place[0], content, self.said.emit)

    # Time

    def _seconds(self) -> float:
        return float(self.spans.currentData() or USUAL_SPAN)

    def _choose_span(self) -> None:
        end = self.plot.span[1]
        self.plot.set_span(end - self._seconds(), end)
        self.refresh()

    def _toggle_following(self) -> None:
        if not self._rolls:
            return
        self._following = not self._following
        self._say_state()
        self.refresh()

    def _stand_still(self) -> None:
        if self._following:
            self._following = False
            self._say_state()

    def _moved_by_mouse(self, _begin: float, _end: float) -> None:
        self._stand_still()

    def _say_state(self) -> None:
        self.follow.setVisible(self._rolls)
        self.follow.setText(self.tr("Pause") if self._following else self.tr("Follow"))
        if self._source is None:
            self.state.setText(self.tr("No values yet: connect first."))
        elif not self._rolls:
            self.state.setText("")
        elif self._following:
            self.state.setText(self.tr("rolling"))
        else:
            self.state.setText(self.tr("paused; new values are still stored"))

    # Cursors

    def _toggle_cursor(self, number: int) -> None:
        begin, end = self.plot.span
        if self.plot.cursors[number] is None:
            self._stand_still()
            self.plot.set_cursor(number, begin + (end - begin) * (0.35 if number == 0 else 0.65))
        else:
            self.plot.set_cursor(number, None)

    def _cursors_moved(self) -> None:
        source = self._source
        if source is None:
            return
        columns = []
        for column, at in zip((LegendColumn.FIRST, LegendColumn.SECOND), self.plot.cursors, strict=True):
            values = [source.at(name, at) if at is not None else float("nan") for name in self.signals]
            self.legend.show_values(column, values)
            columns.append(values)
        differences = [second - first for first, second in zip(*columns, strict=True)]
        self.legend.show_values(LegendColumn.DIFFERENCE, differences)
        first, second = self.plot.cursors
        if first is None or second is None:
            self.difference.clear()
        else:
            self.difference.setText(self.tr("B \u2212 A: {seconds} s").format(seconds=f"{second - first:.3f}"))
            self.span_chosen.emit(min(first, second), max(first, second))

    # Curves

    def _offer(self, source: CurveSource | None) -> None:
        """The curves that can be added."""
        names = () if source is None else plottable(source.project)
        self.offer_in(self.add_menu, [name for name in names if name not in self.signals])
        self.add_menu.setEnabled(bool(names) and len(self.signals) < MOST)

    def offer_in(self, menu: QMenu, names: Sequence[str]) -> None:
        """Put signals into a menu: where they are more than one finds there, into menus of their own, when opened."""
        for former in menu.findChildren(QMenu, options=Qt.FindChildOption.FindDirectChildrenOnly):
            former.deleteLater()
        menu.clear()
        if len(names) <= IN_ONE_MENU:
            for name in names:
                action = menu.addAction(name.replace("&", "&&"))
                action.setProperty(ENTRY, True)
                action.triggered.connect(lambda _checked=False, name=name: self.show_signals((*self.signals, name)))
            return
        size = IN_ONE_MENU
        while len(names) > size * IN_ONE_MENU:
            size *= IN_ONE_MENU
        for begin in range(0, len(names), size):
            part = names[begin : begin + size]
            within = menu.addMenu(f"{part[0]} \u2026 {part[-1]}".replace("&", "&&"))
            within.aboutToShow.connect(lambda within=within, part=part: self.offer_in(within, part))

    def _take_out(self) -> None:
        chosen = self.legend.selected_curves()
        self.show_signals([name for name in self.signals if name not in chosen])

    # Events

    def eventFilter(self, watched: object, event: QEvent) -> bool:
        """The keys of the plot: arrows move and zoom, Space stands still, Home shows all, End follows."""
        if watched is self.plot and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            return self._key(event)
        return False

    def _key(self, event: QKeyEvent) -> bool:
        key = Qt.Key(event.key())
        begin, end = self.plot.span
        length = end - begin
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right) and event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self._move_cursor(0, length / 100 * (-1 if key == Qt.Key.Key_Left else 1))
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right) and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self._move_cursor(1, length / 100 * (-1 if key == Qt.Key.Key_Left else 1))
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self._stand_still()
            by = length * MOVE * (-1 if key == Qt.Key.Key_Left else 1)
            self.plot.set_span(begin + by, end + by)
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Plus, Qt.Key.Key_Down, Qt.Key.Key_Minus):
            self._zoom(1 / ZOOM if key in (Qt.Key.Key_Up, Qt.Key.Key_Plus) else ZOOM)
        elif key == Qt.Key.Key_Home:
            self.show_all()
        elif key == Qt.Key.Key_End:
            if not self._following:
                self._toggle_following()
        elif key == Qt.Key.Key_Space:
            self._toggle_following()
        else:
            return False
        event.accept()
        return True

    def _zoom(self, by: float) -> None:
        begin, end = self.plot.span
        if self._following:
            self.plot.set_span(end - (end - begin) * by, end)
        else:
            middle, half = (begin + end) / 2, (end - begin) / 2 * by
            self.plot.set_span(middle - half, middle + half)

    def _move_cursor(self, number: int, by: float) -> None:
        at = self.plot.cursors[number]
        if at is None:
            self._toggle_cursor(number)
        else:
            self.plot.set_cursor(number, at + by)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "legend"):
            self.legend.recolour()


def _likely(source: CurveSource) -> tuple[str, ...]:
    """What one would look at first: what is measured, in up to three units, with a set point each; and two bits."""
    project = source.project
    measured: dict[str, list[str]] = {}
    wanted: dict[str, list[str]] = {}
    lanes: list[str] = []
    for name in plottable(project):
        signal = project.signal_named[name]
        if is_lane(project, name):
            if signal.texts and len(lanes) < 2:
                lanes.append(name)
        elif signal.unit and isinstance(signal, RegisterSignal):
            (wanted if signal.write else measured).setdefault(signal.unit, []).append(name)
    chosen = [name for unit in list(measured)[:3] for name in (*wanted.get(unit, [])[:1], *measured[unit][:2])]
    return tuple(chosen + lanes) or plottable(project)[:4]


def _span_text(seconds: int) -> str:
    if seconds < 60:
        return f"{seconds} s"
    if seconds < 3600:
        return f"{seconds // 60} min"
    return f"{seconds // 3600} h"
