"""The line strip along the bottom of the window: each transaction as it happens, a lane for each line."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import TYPE_CHECKING, Final, cast

from PySide6.QtCore import QCoreApplication, QEvent, QLineF, QPointF, QRect, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QFontMetrics, QHelpEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QRegion
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from app.language import with_mark
from widgets.kit import palette
from widgets.kit.own_keys import STRIP
from widgets.kit.plain import plain_tip

if TYPE_CHECKING:  # the bus is imported only when a line is connected
    from app.client.statistics import Outage, Outages
    from app.client.transactions import Transaction

LANE: Final = 26
"""Least height of one lane, in device-independent pixels; large texts have a higher one."""
EDGE: Final = 10
APART: Final = 16
"""Pixels beside all of it, and between its parts."""
LABEL: Final = (130, 1 / 6)
"""Most pixels, and most of the width, that the name of a line takes."""
TRACK: Final = 60
"""Pixels of marks that stay whatever there is to say."""
TOLD: Final = 36
"""Figures that are as wide as what is said of a good read or write."""
PITCH: Final = 7
"""Distance from one mark to the next."""
REACH: Final = 10
"""A mark lies within so many pixels of its place, on either side, with all that is drawn of it."""
GAP: Final = 5
"""How much further than others the mark of an outage stands from its neighbours."""
KEPT: Final = 400
"""How many transactions of each line are kept; more than fit on a wide screen."""
FAULT_STAYS_S: Final = 6.0
"""How long the words of a fault stay before a good transaction may replace them."""
WORDS_STAY_S: Final = 0.5
"""How long other words stay at least, so that they can be read."""
NEWS_MS: Final = 80
"""For so long after new marks others wait, to be drawn together: more often nobody can tell, and each time is work."""
MOST_LANES: Final = 4
"""Further lines share the last lane's place in the counts but are not drawn."""


@dataclass(frozen=True, slots=True)
class StripMark:
    """One transaction as the strip tells it, or an outage (`gap`). `at` is `time.monotonic()` in seconds."""

    line: str
    words: str
    good: bool
    write: bool
    at: float
    advice: str = ""
    """Of a fault: the same with what to check."""
    transaction: Transaction | None = None
    gap: bool = False


def gap_of(line: str, outage: Outage) -> StripMark:
    """A time in which no answer came over a line."""
    words = QCoreApplication.translate("ActivityStrip", "no answer for {seconds} s: {reason}")
    if outage.late:
        words = QCoreApplication.translate("ActivityStrip", "no answer in time for {seconds} s: {reason}")
    told = words.format(seconds=with_mark(f"{outage.seconds:.1f}"), reason=outage.reason)
    return StripMark(line, told, good=False, write=False, at=outage.until, gap=True)


def mark_of(transaction: Transaction) -> StripMark:
    """A transaction of the bus in the words of the strip."""
    head = f"{transaction.follower}: {transaction.kind}"
    fault = transaction.fault
    at = transaction.at + transaction.ms / 1000
    if fault is None:
        words = QCoreApplication.translate("ActivityStrip", "{what}, {ms} ms").format(what=head, ms=_ms(transaction.ms))
        return StripMark(
            transaction.line, words, good=True, write=transaction.request.writes, at=at, transaction=transaction
        )
    return StripMark(
        transaction.line,
        f"{head}: {fault.detail}",
        good=False,
        write=transaction.request.writes,
        at=at,
        advice=f"{head}: {fault.sentence}",
        transaction=transaction,
    )


def _ms(ms: float) -> str:
    return with_mark(f"{ms:.1f}") if ms < 10 else f"{ms:.0f}"


@dataclass(slots=True)
class _Lane:
    marks: deque[StripMark] = field(default_factory=lambda: deque(maxlen=KEPT))
    good: int = 0
    faults: int = 0
    counted: bool = False
    """Whether the counts are others than those that are drawn."""
    told: StripMark | None = None
    trouble: str = ""
    outages: int = 0
    new: int = 0
    """The newest passages, so many, are not among the marks yet."""
    elided: tuple[tuple[str, int], str] = (("", 0), "")
    """The words as they were drawn last: measuring them again at every frame costs more than drawing them."""


class ActivityStrip(QWidget):
    """Marks run from right to left, the newest at the right edge.

    A good read is a short stroke, a good write a dot, a fault a cross of full height with its words beside it, an
    outage two slanted strokes that break the line, so the four differ in shape. Left and Right step through the marks,
    the newest first; Escape lets go. Enter or a double click asks for more about the one that was stepped to.
    """

    selected = Signal(object)
    """The Passage that the user stepped to, or None."""
    opened = Signal(object)
    """More is wanted about this Passage; None: about the line as a whole."""

    def __init__(self, parent: QWidget | None = None, *, clock: Callable[[], float] = time.monotonic) -> None:
        super().__init__(parent)
        self._clock = clock
        self._lanes: dict[str, _Lane] = {}
        self._reserved = 1
        self._shown_at = 0.0
        self._whole = False
        """Whether somebody had the whole drawn since news were shown, perhaps into a picture and not on the screen."""
        self._asked = False
        """Whether the strip itself asked for that."""
        self._measured: tuple[int, int, int] | None = None
        self._chosen: tuple[str, StripMark] | None = None
        self._news = QTimer(self)
        self._news.setSingleShot(True)
        self._news.timeout.connect(self._show_news)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        self.setMouseTracking(True)
        self.setAccessibleName(self.tr("Line strip"))
        self._announce()

    # What it shows

    def set_lines(self, names: Sequence[str]) -> None:
        """Show these lines, all still without a transaction."""
        self._lanes = {name: _Lane() for name in names}
        self._measured = None
        self.choose(None)
        self.updateGeometry()
        self.update()

    def reserve(self, lanes: int) -> None:
        """Keep room for at least so many lanes, also while nothing is connected: what stands above must not move."""
        if lanes != self._reserved:
            self._reserved = lanes
            self.updateGeometry()

    def add(self, marks: Iterable[StripMark]) -> None:
        """Show these too, oldest first. A passage of a line that is not shown is left out."""
        come = told_anew = False
        for strip_mark in marks:
            lane = self._lanes.get(strip_mark.line)
            if lane is None:
                continue
            lane.marks.append(strip_mark)
            lane.new += 1
            before, lane.told = lane.told, _to_tell(lane.told, strip_mark)
            come, told_anew = True, told_anew or lane.told is not before
        if come:
            self._show_soon()
        if told_anew:
            self._announce()

    def marks(self, line: str) -> tuple[StripMark, ...]:
        """What is kept of a line, the oldest first."""
        return tuple(self._lanes[line].marks)

    def track(self, row: int) -> QRect:
        """Where the marks of a line are."""
        return self.places(row)[1]

    @property
    def up_to_date(self) -> bool:
        """Whether all that it was told is drawn."""
        return not self._news.isActive()

    def set_counts(self, line: str, good: int, faults: int) -> None:
        """How many requests of this line were answered well, and how many faults it had, since it was connected."""
        lane = self._lanes.get(line)
        if lane is not None and (lane.good, lane.faults) != (good, faults):
            lane.good, lane.faults, lane.counted = good, faults, True
            self._show_soon()

    def _show_soon(self) -> None:
        """At once, with what else is drawn of this frame, unless that was done just now."""
        if not self._news.isActive():
            rest = NEWS_MS - int((time.monotonic() - self._shown_at) * 1000)
            if rest > 0:
                self._news.start(rest)
            else:
                self._show_news()

    def set_outages(self, line: str, outages: Outages) -> None:
        """Mark the last of these where it was, if it is a new one: marks have no times, and an outage leaves none."""
        lane = self._lanes.get(line)
        if lane is None or outages.last is None or outages.count == lane.outages:
            return
        lane.outages = outages.count
        gap = gap_of(line, outages.last)
        after = [strip_mark for strip_mark in lane.marks if strip_mark.at > gap.at - 0.001]
        for _ in after:
            lane.marks.pop()
        lane.marks.extend((gap, *after))
        lane.told = _to_tell(lane.told, gap)
        lane.new = 0
        self.update()
        self._announce()

    @property
    def lines(self) -> tuple[str, ...]:
        """The names of the lines that are shown."""
        return tuple(self._lanes)

    def set_trouble(self, line: str, reason: str) -> None:
        """Say beside the marks why this line is down; an empty reason: it is up."""
        lane = self._lanes.get(line)
        if lane is not None and lane.trouble != reason:
            lane.trouble = reason
            self.update()
            self._announce()

    def counts(self, line: str) -> tuple[int, int]:
        """How many good answers and how many faults of `line` are shown."""
        lane = self._lanes[line]
        return lane.good, lane.faults

    def lane_text(self, line: str) -> str:
        """The words beside the marks of `line`."""
        lane = self._lanes[line]
        if self._chosen is not None and self._chosen[0] == line:
            return self._words(self._chosen[1])
        if lane.trouble:
            return f"\u26a0 {lane.trouble}"
        return self._words(lane.told) if lane.told else self.tr("nothing yet")

    @property
    def chosen(self) -> StripMark | None:
        """The transaction that the user stepped to."""
        return self._chosen[1] if self._chosen else None

    # How it looks

    def sizeHint(self) -> QSize:
        return QSize(600, self._lane_height() * self._shown_lanes() + 2)

    def _lane_height(self) -> int:
        return max(LANE, self.fontMetrics().height() + 4)

    def _shown_lanes(self) -> int:
        return max(1, min(max(len(self._lanes), self._reserved), MOST_LANES))

    def minimumSizeHint(self) -> QSize:
        return QSize(200, self.sizeHint().height())

    def _show_news(self) -> None:
        """Move the marks that are drawn, and draw the new ones and what is told besides if it is another."""
        self._shown_at = time.monotonic()
        for row, (name, lane) in enumerate(list(self._lanes.items())[:MOST_LANES]):
            by, lane.new = lane.new * PITCH, 0
            _, track, words, counts = self.places(row)
            if by > track.width() // 2:
                self.update(track)
            elif by:
                self.scroll(-by, 0, track)
                self.update(track.adjusted(track.width() - by - REACH, 0, 0, 0))
                self.update(track.adjusted(0, 0, REACH - track.width(), 0))
            if lane.counted:
                lane.counted = False
                self.update(counts)
            if self.lane_text(name) != lane.elided[0][0]:
                self.update(words)
        if self._whole:
            self.update()
        self._asked, self._whole = self._whole, False

    def paintEvent(self, event: QPaintEvent) -> None:
        colours = palette.current()
        painter = QPainter(self)
        painter.fillRect(self.rect(), colours.colour("frame"))
        painter.fillRect(QRect(0, 0, self.width(), 1), colours.colour("line"))
        metrics = self.fontMetrics()
        if not self._lanes:
            painter.setPen(colours.colour("faint"))
            painter.drawText(
                self.rect().adjusted(EDGE, 1, -EDGE, 0),
                Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight,
                self.tr("Line: not connected"),
            )
        for row, (name, lane) in enumerate(list(self._lanes.items())[:MOST_LANES]):
            self._paint_lane(painter, metrics, row, name, lane, event.region())
        if event.rect() == self.rect():
            self._asked, self._whole = False, not self._asked

    def _paint_lane(
        self, painter: QPainter, metrics: QFontMetrics, row: int, name: str, lane: _Lane, wanted: QRegion
    ) -> None:
        colours = palette.current()
        label, track, words, counts = self.places(row)
        middle = Qt.AlignmentFlag.AlignVCenter
        if wanted.intersects(label):
            painter.setPen(colours.colour("ink"))
            painter.drawText(label, middle, metrics.elidedText(name, Qt.TextElideMode.ElideRight, label.width()))
        painter.fillRect(QRect(track.left(), track.center().y(), track.width(), 1), colours.colour("line"))
        self._paint_marks(painter, track, name, lane, wanted)
        if wanted.intersects(words):
            self._paint_words(painter, metrics, words, name, lane)
        if not counts.isEmpty():
            painter.setPen(colours.colour("fault" if lane.faults else "faint"))
            painter.drawText(counts, middle | Qt.AlignmentFlag.AlignRight, self._counts(lane.good, lane.faults))

    def _paint_words(self, painter: QPainter, metrics: QFontMetrics, words: QRect, name: str, lane: _Lane) -> None:
        shown = self._chosen[1] if self._chosen and self._chosen[0] == name else lane.told
        fault = bool(lane.trouble) or (shown is not None and not shown.good)
        painter.setPen(palette.current().colour("fault" if fault else "faint"))
        told = self.lane_text(name), words.width()
        if lane.elided[0] != told:
            lane.elided = (told, metrics.elidedText(told[0], Qt.TextElideMode.ElideRight, told[1]))
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter, lane.elided[1])

    def _counts(self, good: int, faults: int) -> str:
        return self.tr("answers good: {good}, faults: {faults}").format(good=good, faults=faults)

    def _paint_marks(self, painter: QPainter, track: QRect, name: str, lane: _Lane, wanted: QRegion) -> None:
        """All marks of one kind in one call: a fast line is drawn again at every frame."""
        colours = palette.current()
        reads: list[QLineF] = []
        crosses: list[QLineF] = []
        breaks: list[QLineF] = []
        writes: list[QPointF] = []
        y = track.center().y() + 0.5
        areas = cast("Iterable[QRect]", wanted)  # what the stubs do not say of it
        among = [(area.left() - REACH, area.right() + REACH) for area in areas if area.intersects(track)]
        for x, strip_mark in self._marks(track, lane, 0 if wanted.boundingRect() == self.rect() else lane.new):
            if not any(left <= x <= right for left, right in among):
                continue
            if strip_mark.gap:
                painter.fillRect(QRectF(x - GAP, y - 2, 2 * GAP, 4), colours.colour("frame"))
                breaks += [QLineF(x - 4, y + 8, x, y - 8), QLineF(x, y + 8, x + 4, y - 8)]
            elif not strip_mark.good:
                crosses += [QLineF(x - 2.5, y - 8, x + 2.5, y + 8), QLineF(x - 2.5, y + 8, x + 2.5, y - 8)]
            elif strip_mark.write:
                writes.append(QPointF(x, y))
            else:
                reads.append(QLineF(x, y - 4, x, y + 4))
            if self._chosen is not None and self._chosen[1] is strip_mark and self._chosen[0] == name:
                painter.fillRect(QRectF(x - 4, track.top() + 1, 8, track.height() - 2), colours.colour("line"))
        painter.setPen(QPen(colours.colour("good"), 2))
        painter.drawLines(reads)
        if writes:
            # Thick round points: one call for all of them.
            painter.setPen(QPen(colours.colour("accent"), 7, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.drawPoints(writes)
        if crosses or breaks:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(colours.colour("fault"), 2))
            painter.drawLines([*crosses, *breaks])
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)

    def places(self, row: int) -> tuple[QRect, QRect, QRect, QRect]:
        """The label, the track, the words and the counts of a lane."""
        height = self._lane_height()
        top = 1 + row * height + max(0, self.height() - self.sizeHint().height()) // 2
        label, wanted, counts = self._widths()
        label = min(label, int(self.width() * LABEL[1]))
        begin, right = EDGE + label + APART // 2, self.width() - EDGE
        left = right - begin - TRACK - APART
        if left - counts - APART < wanted // 2:
            counts = 0  # they stand in the tool tip; what happens now is worth more
        words = max(0, min(wanted, left - (counts + APART if counts else 0)))
        told = right - (counts + APART if counts else 0) - words
        return (
            QRect(EDGE, top, label, height),
            QRect(begin, top, max(0, told - APART - begin), height),
            QRect(told, top, words, height),
            QRect(right - counts, top, counts, height),
        )

    def _widths(self) -> tuple[int, int, int]:
        """What the names, the words and the counts of all lanes would take; measured once, as each frame asks."""
        if self._measured is None:
            metrics = self.fontMetrics()
            names = max(map(metrics.horizontalAdvance, self._lanes), default=0)
            counts = metrics.horizontalAdvance(self._counts(1_000_000, 1_000))
            self._measured = min(LABEL[0], names) + 2, TOLD * metrics.horizontalAdvance("0"), counts
        return self._measured

    def _marks(self, track: QRect, lane: _Lane, without: int = 0) -> list[tuple[float, StripMark]]:
        """Where each mark that fits stands, the newest first, as it was before the newest `without` came."""
        marks: list[tuple[float, StripMark]] = []
        x = track.right() - 5.0
        for strip_mark in islice(reversed(lane.marks), without, None):
            x -= GAP if strip_mark.gap else 0
            if x < track.left() + 3:
                break
            marks.append((x, strip_mark))
            x -= PITCH + (GAP if strip_mark.gap else 0)
        return marks

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._measured = None
            self.updateGeometry()

    # What the user does

    def event(self, event: QEvent) -> bool:
        """Tell about the mark under the pointer."""
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            under = self._under(event.pos().x(), event.pos().y())
            QToolTip.showText(
                event.globalPos(),
                plain_tip(under[1].advice or self._words(under[1])) if under else self._legend(),
                self,
            )
            return True
        return super().event(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.choose(self._under(int(event.position().x()), int(event.position().y())))

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self.choose(self._under(int(event.position().x()), int(event.position().y())))
        self.opened.emit(self.chosen)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        deed = STRIP.deed(event)
        if deed in ("older", "newer"):
            self._step(older=deed == "older")
        elif deed in ("line above", "line below"):
            self._change_lane(-1 if deed == "line above" else 1)
        elif deed == "open":
            self.opened.emit(self.chosen)
        elif deed == "escape" and self._chosen is not None:
            self.choose(None)
        else:
            super().keyPressEvent(event)

    def _step(self, *, older: bool) -> None:
        name = self._chosen[0] if self._chosen else next(iter(self._lanes), None)
        if name is None or not self._lanes[name].marks:
            return
        kept = list(self._lanes[name].marks)
        if self._chosen is None:
            self.choose((name, kept[-1]))
            return
        place = next((i for i, strip_mark in enumerate(kept) if strip_mark is self._chosen[1]), 0)
        self.choose((name, kept[min(len(kept) - 1, max(0, place + (-1 if older else 1)))]))

    def _change_lane(self, by: int) -> None:
        names = [name for name, lane in self._lanes.items() if lane.marks][:MOST_LANES]
        if not names:
            return
        at = names.index(self._chosen[0]) if self._chosen and self._chosen[0] in names else 0
        name = names[(at + by) % len(names)]
        self.choose((name, self._lanes[name].marks[-1]))

    def choose(self, chosen: tuple[str, StripMark] | None) -> None:
        """Step to this passage of this line, or let go."""
        self._chosen = chosen
        self._announce()
        self.update()
        self.selected.emit(chosen[1] if chosen else None)

    def _under(self, x: int, y: int) -> tuple[str, StripMark] | None:
        for row, (name, lane) in enumerate(list(self._lanes.items())[:MOST_LANES]):
            track = self.places(row)[1]
            if track.contains(x, y):
                for mark, strip_mark in self._marks(track, lane):
                    if abs(mark - x) <= PITCH / 2:
                        return name, strip_mark
        return None

    def _words(self, strip_mark: StripMark) -> str:
        ago = self._clock() - strip_mark.at
        if strip_mark.good and self.chosen is not strip_mark:
            return strip_mark.words
        return f"{strip_mark.words} ({self._ago(ago)})"

    def _ago(self, seconds: float) -> str:
        return self.tr("just now") if seconds < 1 else self.tr("{seconds} s ago").format(seconds=int(seconds))

    def _legend(self) -> str:
        return self.tr(
            "Each mark is one transaction, the newest on the right. Stroke: good read. Dot: good write. "
            "Cross: fault, described beside it. Two slanted strokes: no answer for one second or more. "
            "Left and Right step through them; Enter or a double click shows the bytes."
        ) + "".join(f"\n{name}: {self._counts(lane.good, lane.faults)}" for name, lane in self._lanes.items())

    def _announce(self) -> None:
        self.setAccessibleDescription(
            "; ".join(f"{name}: {self.lane_text(name)}" for name in self._lanes) or self.tr("not connected")
        )


def _to_tell(told: StripMark | None, newest: StripMark) -> StripMark:
    """Which of the two the words are about: faults stay a while, other words long enough to be read."""
    if told is None or not newest.good:
        return newest
    return told if newest.at - told.at < (WORDS_STAY_S if told.good else FAULT_STAYS_S) else newest
