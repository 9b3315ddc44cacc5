"""Trends: curves of signals over time that roll on while values come, and stand still when somebody looks back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Final

from PySide6.QtCore import QEvent, QPoint, QSize, Qt, Signal
from PySide6.QtGui import QAction, QFocusEvent, QIcon, QKeyEvent, QPixmap, QResizeEvent
from PySide6.QtWidgets import QApplication, QFrame, QMenu, QScrollArea, QSplitter, QVBoxLayout, QWidget

from app.curves.source import CurveSource, Unread, plottable
from app.project.model import RegisterSignal
from app.recording.reader import TooMany
from widgets.document.save_as import FileKind, where_to_save, write_or_say
from widgets.document.settings import Settings
from widgets.kit import palette
from widgets.kit.background import wait_pointer
from widgets.kit.commands import allow, command, mark_entry
from widgets.kit.controls import Choice
from widgets.kit.elided import ShortLabel
from widgets.kit.icons import icon
from widgets.kit.scaling import scaled
from widgets.kit.tables import add_copying
from widgets.start_up.curve_picker import CurvePicker
from widgets.start_up.trend_curves import LOOKS, is_lane, pen
from widgets.start_up.trend_export import chosen_spreadsheet, picture, spreadsheets, values_text
from widgets.start_up.trend_head import TimeScale, TrendHead
from widgets.start_up.trend_lanes import LEAST, heights, lanes
from widgets.start_up.trend_legend import NOTHING, WIDTH, LegendColumn, TrendLegend
from widgets.start_up.trend_plot import Flag, TrendPlot

SPANS: Final = (10, 30, 60, 300, 900, 3600, 6 * 3600, 24 * 3600)
"""Seconds to choose from."""
USUAL_SPAN: Final = 60
MOST: Final = min(16, LOOKS)
"""Curves at once: more nobody can tell apart."""
AHEAD: Final = 0.02
"""Of the span: what is left free at the right for the values to come."""
ZOOM: Final = 1.5
MOVE: Final = 0.1
"""By one press of a key: how much more or less is shown, and how far it is moved, as a share of the span."""
HEAD: Final = 26
SCALE: Final = 22
"""Heights above and below the lanes, in pixels at 100 per cent."""
USUAL_CURSORS: Final = (1 / 3, 2 / 3)
"""Where cursors appear, as shares of the span."""
TOO_NEAR: Final = 0.5
"""Of the span: values that fill less of it are brought closer for both cursors, which else stood on one another."""
MOST_FLAGS: Final = 300
"""Alarms that are marked, the newest."""


class TrendView(QWidget):
    """Curves with their legend, and their commands."""

    signals_changed = Signal()
    moment_chosen = Signal(float)
    """Somebody wants to go to this time."""
    span_chosen = Signal(float, float)
    """Both cursors are there: the span between them."""
    said = Signal(str)
    """Something to tell the user."""

    def __init__(self, settings: Settings, parent: QWidget | None = None, *, beside: bool = True) -> None:
        """The legend stands `beside` the lanes; or else the names stand in them, and it is put elsewhere."""
        super().__init__(parent)
        self._settings = settings
        self._source: CurveSource | None = None
        self._moment: float | None = None
        self._title = ""
        self._following = True
        self._receives = True
        self._beside = beside
        self._signals: tuple[str, ...] = ()
        self._numbers: dict[str, int] = {}
        """Of each curve that of its pen, which it keeps while others come and go."""
        self.plot = TrendPlot()
        self.plot.named = not beside
        self.legend = TrendLegend()
        self.head = TrendHead(self.plot)
        self.scale = TimeScale(self.plot)
        self.picker = CurvePicker(MOST, self)
        self.state = ShortLabel()
        """What is shown, in words: whether it rolls."""
        self.setFocusProxy(self.plot)
        self.plot.installEventFilter(self)
        self._make_actions()
        self._make_tools()
        self._lay_out()
        self.plot.span_moved.connect(self._moved_by_mouse)
        self.plot.cursors_moved.connect(self._cursors_moved)
        self.plot.moment_chosen.connect(self.moment_chosen)
        self.plot.menu_wanted.connect(self._show_menu)
        self.head.moment_chosen.connect(self.moment_chosen)
        self.picker.chosen.connect(self.show_signals)
        self.set_source(None)

    # What is shown

    def set_source(self, source: CurveSource | None, *, moment: float | None = None, title: str = "") -> None:
        """Show values of another source: of a replay those at `moment`, of what is live (None) always the newest.

        `title` says whose values stand still.
        """
        self._source, self._moment, self._title = source, moment, title
        self._following = self._rolls and self._receives
        wanted = self._signals
        if source is not None:
            known = plottable(source.project)
            wanted = tuple(name for name in wanted if name in known) or usual_curves(source)
            begin, end = source.span()
            if moment is not None:
                self.plot.set_span(begin, max(end, begin + 1.0))
            else:
                self.plot.set_span(end - self._seconds(), end)
        changed, self._signals = wanted != self._signals, wanted
        self._show_lanes()
        self.plot.set_moment(moment)
        self.plot.set_flags(())
        self.legend.show_heading(
            LegendColumn.NOW, self.tr("Now") if moment is None else self.tr("Here", "where the replay stands")
        )
        for number in (0, 1):
            self.plot.set_cursor(number, None)
        allow(self.add_action, source is not None and bool(plottable(source.project)), self.tr("there is no signal"))
        self.plot.sentence = (
            self.tr("Values are kept from the moment the line is connected.")
            if isinstance(source, Unread | None)
            else ""
        )
        self._say_state()
        self.refresh()
        if changed:
            self.signals_changed.emit()

    @property
    def source(self) -> CurveSource | None:
        """Where the curves come from."""
        return self._source

    @property
    def signals(self) -> tuple[str, ...]:
        """The signals that are shown."""
        return self._signals

    def show_signals(self, names: Sequence[str]) -> None:
        """Show these signals, the first MOST of them."""
        wanted = tuple(dict.fromkeys(names))[:MOST]
        if wanted == self._signals:
            return
        self._signals = wanted
        self._show_lanes()
        self._show_now()
        self._cursors_moved()
        self.refresh()
        self.signals_changed.emit()

    def set_flags(self, flags: Sequence[Flag]) -> None:
        """Mark these alarms, oldest first."""
        self.plot.set_flags(flags[-MOST_FLAGS:])

    def _show_lanes(self) -> None:
        source = self._source
        kept = {name: number for name, number in self._numbers.items() if name in self._signals}
        for name in self._signals:
            free = (number for number in range(LOOKS) if number not in kept.values())
            kept.setdefault(name, next(free, 0))
        self._numbers = kept
        shown = () if source is None else lanes(source.project, self._signals)
        self.plot.show_lanes(source, shown, kept)
        self.legend.show_lanes(None if source is None else source.project, shown, kept)
        self._arrange()
        self._show_now()

    def _arrange(self) -> None:
        """Let the lanes share the height that there is, and the legend stand beside them."""
        shown = self.plot.lanes
        room = self._area.viewport().height()
        high = heights(shown, room, self.legend.line, scaled(LEAST))
        self.plot.set_heights(high)
        self.plot.setFixedHeight(max(room, sum(high)))
        self.legend.set_heights(high if self._beside else None)

    def refresh(self) -> None:
        """New values came. Costs nothing while hidden."""
        source = self._source
        if source is None or not self.isVisible():
            return
        end = source.span()[1]
        begin, until = self.plot.span
        length = until - begin
        if self._following and not until - length * AHEAD <= end <= until:
            # Moving the time costs more than drawing the curves: it moves on by a step, and is then filled.
            self.plot.set_span(end - length * (1 - AHEAD), end + length * AHEAD)
        elif until >= end:
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

    def stand_still(self) -> None:
        """Show what is shown now, until somebody follows the newest values again."""
        if self._following:
            self._following = False
            self._say_state()

    def receive(self, on: bool) -> None:
        """Whether a line is connected, so that new values come."""
        if on != self._receives:
            self._receives = on
            self._following = on and self._rolls
            self._say_state()

    def _show_now(self) -> None:
        """The values where a replay stands, or the newest: the one place that says which moment is now."""
        source = self._source
        if source is not None:
            at = source.span()[1] if self._moment is None else self._moment
            self.legend.show_values(LegendColumn.NOW, {name: source.at(name, at) for name in self._signals})

    @property
    def _rolls(self) -> bool:
        """Whether new values come in."""
        return self._moment is None and not isinstance(self._source, Unread | None)

    @property
    def cursors(self) -> tuple[float, float] | None:
        """The span between the two cursors, or None if both are not there."""
        first, second = self.plot.cursors
        return None if first is None or second is None else (min(first, second), max(first, second))

    def summary(self) -> str:
        """What is shown, for somebody who does not see it."""
        begin, end = self.plot.span
        parts = [self.plot.sentence, self.legend.spoken()]
        parts.append(self.tr("{seconds} s are shown").format(seconds=f"{end - begin:.0f}"))
        parts.append(self.state.text())
        if between := self.head.time_between():
            parts.append(self.tr("between the cursors: {time}").format(time=between))
        return ". ".join(part for part in parts if part)

    # Commands

    def _make_actions(self) -> None:
        self.add_action = command(self, self.tr("A&dd a curve\u2026"), self.choose_curves, "Alt+Shift+Ins")
        self.add_action.setIconText(self.tr("Add curve"))
        self.add_action.setIcon(icon("plus"))
        self.follow_action = command(self, self.tr("&Follow the newest values"), self._toggle_following, "Alt+Shift+F")
        self.cursors_action = command(self, self.tr("&Cursors A and B"), self._toggle_cursors, "Alt+Shift+B")
        self.cursors_action.setCheckable(True)
        self.cursors_action.setIcon(icon("cursors"))
        self.cursors_action.setIconText(self.tr("A\u2013B"))
        self.cursor_actions = [
            command(self, text, lambda number=number: self._toggle_cursor(number), keys)
            for number, (text, keys) in enumerate(
                ((self.tr("Cursor &A"), "Alt+Shift+1"), (self.tr("Cursor &B"), "Alt+Shift+2"))
            )
        ]
        self.all_action = command(self, self.tr("Show the fu&ll time range"), self.show_all, "Alt+Shift+0")
        self.fit_action = command(self, self.tr("F&it the value axes"), self._fit_all, "Alt+Shift+9")
        self.save_picture_action = command(self, self.tr("Save the &picture\u2026"), self.save_picture, "Alt+Shift+P")
        self.save_values_action = command(self, self.tr("Save the &values\u2026"), self.save_values, "Alt+Shift+V")
        self.take_out_action = command(
            self.legend, self.tr("&Remove the selected curves"), self._take_out, "Alt+Shift+Del", within=True
        )
        mark_entry(add_copying(self.legend, self.tr("Copy the values"), self._copied))
        self.legend.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.legend.customContextMenuRequested.connect(self._show_legend_menu)

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands into a menu."""
        menu.addActions([self.add_action, self.take_out_action])
        menu.addSeparator()
        menu.addActions([self.follow_action, self.all_action, self.fit_action])
        menu.addSeparator()
        menu.addActions([self.cursors_action, *self.cursor_actions])
        menu.addSeparator()
        menu.addActions([self.save_picture_action, self.save_values_action])

    def _make_tools(self) -> None:
        self.spans = Choice()
        self.spans.setAccessibleName(self.tr("Time range"))
        for seconds in SPANS:
            self.spans.addItem(_span_text(seconds), seconds)
        self.spans.setCurrentIndex(SPANS.index(USUAL_SPAN))
        self.spans.activated.connect(lambda _index: self._choose_span())

    def _lay_out(self) -> None:
        self._area = _Lanes(self._arrange)
        self._area.setWidget(self.plot)
        for widget, height in ((self.head, HEAD), (self.scale, SCALE), (self.state, SCALE)):
            widget.setFixedHeight(scaled(height))
        self.state.setProperty("look", "faint")
        self.state.setContentsMargins(scaled(8), 0, 0, 0)
        drawn = _stacked(self.head, self._area, self.scale)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        if not self._beside:
            self.state.setParent(self)
            self.state.hide()
            layout.addWidget(drawn)
            return
        self.legend.horizontalHeader().setFixedHeight(scaled(HEAD))
        self.legend.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for one, other in ((self.legend, self._area), (self._area, self.legend)):
            one.verticalScrollBar().valueChanged.connect(other.verticalScrollBar().setValue)
        split = QSplitter(Qt.Orientation.Horizontal)
        split.setObjectName("legend and lanes")
        split.addWidget(_stacked(self.legend, self.state))
        split.addWidget(drawn)
        split.setStretchFactor(1, 1)
        split.setSizes([scaled(WIDTH), 3 * scaled(WIDTH)])
        split.setHandleWidth(1)
        split.setChildrenCollapsible(False)
        layout.addWidget(split)

    def choose_curves(self) -> None:
        """Open the list of all curves; it stays open while one after another is ticked."""
        if self._source is not None:
            self.picker.open_below(self.opener or self.head, plottable(self._source.project), self._signals)

    opener: QWidget | None = None
    """What opens the list of curves, below which it appears."""

    def show_all(self) -> None:
        """Show all the time that there is."""
        if self._source is not None:
            begin, end = self._source.span()
            self.stand_still()
            self.plot.set_span(begin, max(end, begin + 1.0))

    def look_at(self, begin: float, end: float) -> None:
        """Stand still and show this span."""
        self.stand_still()
        self.plot.set_span(begin, end)

    def save_picture(self) -> None:
        """Ask for a file and save the picture, as PNG or SVG by its ending."""
        kinds = (FileKind(self.tr("Pictures (*.png)"), ".png"), FileKind(self.tr("Drawings (*.svg)"), ".svg"))
        place = where_to_save(
            self, self._settings, "start_up_folder", self.tr("Save the picture"), self.tr("trend"), kinds
        )
        if place is not None:
            write_or_say(place[0], picture(self, place[0].suffix), self.said.emit)

    def save_values(self) -> None:
        """Ask for a file and save the values of the span that is shown, or of the one between the cursors."""
        source = self._source
        if source is None:
            return
        kinds = [each.kind for each in spreadsheets()]
        place = where_to_save(
            self, self._settings, "start_up_folder", self.tr("Save the values"), self.tr("values"), kinds
        )
        if place is not None:
            begin, end = self.cursors or self.plot.span
            form = chosen_spreadsheet(place[1])
            try:
                with wait_pointer():
                    content = values_text(source, self._signals, begin, end, form).encode("utf-8-sig")
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
        if not self.follow_action.isEnabled():
            return
        self._following = not self._following
        self._say_state()
        self.refresh()

    def _moved_by_mouse(self, _begin: float, _end: float) -> None:
        self.stand_still()

    def _say_state(self) -> None:
        comes = self._rolls and self._receives
        allow(self.follow_action, comes, self.tr("nothing is live"))
        follows = self._following or not comes
        self.follow_action.setIconText(self.tr("Pause") if follows else self.tr("Follow"))
        self.follow_action.setIcon(icon("pause" if follows else "play"))
        if not self._rolls:
            self.state.setText(self._title)
        elif not self._receives:
            self.state.setText(self.tr("not connected; these are the last values"))
        elif self._following:
            self.state.setText(self.tr("live, the newest at the right"))
        elif self.plot.cursors != (None, None):
            self.state.setText(self.tr("paused to measure; new values are still kept"))
        else:
            self.state.setText(self.tr("paused; new values are still kept"))

    # Cursors

    def _toggle_cursors(self) -> None:
        wanted = self.plot.cursors == (None, None)
        if wanted and self._source is not None:
            begin, end = self.plot.span
            first, last = (min(max(at, begin), end) for at in self._source.span())
            if 0 < last - first < TOO_NEAR * (end - begin):
                self.look_at(first, last)
        for number in (0, 1):
            if (self.plot.cursors[number] is None) is wanted:
                self._toggle_cursor(number)

    def _toggle_cursor(self, number: int) -> None:
        begin, end = self.plot.span
        if self._source is not None:  # where there are values
            first, last = self._source.span()
            begin, end = max(begin, min(first, end)), min(end, max(last, begin))
        if self.plot.cursors[number] is None:
            self.stand_still()
            self.plot.set_cursor(number, begin + (end - begin) * USUAL_CURSORS[number])
        else:
            self.plot.set_cursor(number, None)

    def _cursors_moved(self) -> None:
        source, cursors = self._source, self.plot.cursors
        there = cursors != (None, None)
        self.cursors_action.setChecked(there)
        self._say_state()
        self.legend.show_cursors(shown=there)
        if source is None:
            return
        columns = []
        for column, at in zip((LegendColumn.FIRST, LegendColumn.SECOND), cursors, strict=True):
            values = {name: source.at(name, at) if at is not None else float("nan") for name in self._signals}
            self.legend.show_values(column, values)
            columns.append(values)
        first, second = columns
        self.legend.show_values(LegendColumn.DIFFERENCE, {name: second[name] - first[name] for name in self._signals})
        if self.cursors is not None:
            self.span_chosen.emit(*self.cursors)

    # Curves

    def _take_out(self) -> None:
        self._remove(self.legend.selected_curves())

    def _remove(self, names: Sequence[str]) -> None:
        self.show_signals([name for name in self._signals if name not in names])

    def _recolour(self, name: str, number: int) -> None:
        """Give a curve another colour; who had it takes the former one."""
        former = self._numbers[name]
        for other, has in self._numbers.items():
            if has == number:
                self._numbers[other] = former
        self._numbers[name] = number
        self._show_lanes()

    def _fit_all(self) -> None:
        for place in range(len(self.plot.lanes)):
            self.plot.fit(place)

    def _copied(self) -> str:
        """The selected rows of the legend, or all of them, to paste into a spreadsheet."""
        names = self.legend.selected_curves() or self.legend.names
        return "\n".join(f"{name}\t{self._value_text(name)}" for name in names)

    def _value_text(self, name: str) -> str:
        source = self._source
        if source is None:
            return NOTHING
        at = source.span()[1] if self._moment is None else self._moment
        return self.legend.text_of(LegendColumn.NOW, name, source.at(name, at))

    # The menu of a curve

    def _show_legend_menu(self, at: QPoint) -> None:
        index = self.legend.indexAt(at)
        chosen = self.legend.selected_curves()
        name = self.legend.names[index.row()] if index.isValid() else chosen[0] if chosen else ""
        self._show_menu(self.legend.viewport().mapToGlobal(at), name)

    def _show_menu(self, at: QPoint, name: str) -> None:
        menu = self.menu_of(name)
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(at)

    def menu_of(self, name: str) -> QMenu:
        """The menu of a curve, or of the trend where there is none."""
        menu = QMenu(self)
        if name:
            shown = name.replace("&", "&&")
            self._entry(menu, self.tr("&Remove {name}").format(name=shown), lambda: self._remove((name,)))
            colours = menu.addMenu(self.tr("&Colour"))
            for number, words in enumerate(self._colour_names()):
                entry = self._entry(colours, words, partial(self._recolour, name, number))
                entry.setIcon(_swatch(number))
                entry.setCheckable(True)
                entry.setChecked(self._numbers.get(name) == number)
            place = next((at for at, lane in enumerate(self.plot.lanes) if name in lane.names), -1)
            if place >= 0 and not self.plot.lanes[place].band:
                self._entry(menu, self.tr("&Fit the value axis"), lambda: self.plot.fit(place))
            value = self._value_text(name)
            copy = self._entry(
                menu,
                self.tr("C&opy the value {value}").format(value=value.replace("&", "&&")),
                lambda: QApplication.clipboard().setText(value),
            )
            copy.setEnabled(value != NOTHING)
            menu.addSeparator()
        menu.addActions([self.add_action, self.cursors_action, self.all_action, self.follow_action])
        menu.addSeparator()
        menu.addActions([self.save_picture_action, self.save_values_action])
        return menu

    @staticmethod
    def _entry(menu: QMenu, words: str, run: Callable[[], object]) -> QAction:
        action = mark_entry(menu.addAction(words))
        action.triggered.connect(lambda _checked=False: run())
        return action

    def _colour_names(self) -> tuple[str, ...]:
        """As many as there are colours."""
        return (
            *(self.tr("blue"), self.tr("orange"), self.tr("green"), self.tr("violet")),
            *(self.tr("yellow"), self.tr("turquoise"), self.tr("red"), self.tr("indigo")),
        )

    # Events

    def eventFilter(self, watched: object, event: QEvent) -> bool:
        """The keys of the plot: arrows move and zoom, Space stands still, Home shows all, End follows."""
        if watched is self.plot and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            handled = self._key(event)
            if handled:
                self.plot.setAccessibleDescription(self.summary())
            return handled
        if watched is self.plot and isinstance(event, QFocusEvent) and event.gotFocus():
            # Told once as somebody comes here: numbers that change four times a second are no words.
            self.plot.setAccessibleDescription(self.summary())
        return False

    def _key(self, event: QKeyEvent) -> bool:
        key = Qt.Key(event.key())
        begin, end = self.plot.span
        length = end - begin
        way = -1 if key == Qt.Key.Key_Left else 1
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right) and event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self._move_cursor(0, length / 100 * way)
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right) and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self._move_cursor(1, length / 100 * way)
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self.stand_still()
            self.plot.set_span(begin + length * MOVE * way, end + length * MOVE * way)
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Plus, Qt.Key.Key_Down, Qt.Key.Key_Minus):
            self._zoom(1 / ZOOM if key in (Qt.Key.Key_Up, Qt.Key.Key_Plus) else ZOOM)
        elif key in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
            bar = self._area.verticalScrollBar()
            bar.setValue(bar.value() + (bar.pageStep() if key == Qt.Key.Key_PageDown else -bar.pageStep()))
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

    def minimumSizeHint(self) -> QSize:
        """One lane at least, with what stands above and below it."""
        return QSize(super().minimumSizeHint().width(), scaled(HEAD + LEAST + SCALE))


class _Lanes(QScrollArea):
    """Scrolls the lanes where they would become too low."""

    def __init__(self, arrange: Callable[[], None]) -> None:
        super().__init__()
        self._arrange = arrange
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()


def _stacked(*parts: QWidget) -> QWidget:
    """Parts above one another, without anything between them."""
    whole = QWidget()
    layout = QVBoxLayout(whole)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(0)
    for part in parts:
        layout.addWidget(part)
    return whole


def _swatch(number: int) -> QIcon:
    picture = QPixmap(scaled(16), scaled(16))
    picture.fill(pen(number, dark=palette.current().dark).color())
    return QIcon(picture)


def usual_curves(source: CurveSource) -> tuple[str, ...]:
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
