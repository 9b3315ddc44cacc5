"""Projects that were opened or saved last, each with a picture of its first screen."""

from __future__ import annotations

import contextlib
import threading
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from PySide6.QtCore import QDateTime, QLocale, QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QKeyEvent, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from app.panel.rendering import Rows
from app.project_file.files import ProjectFileError, load
from widgets.face.cells import cell_size
from widgets.face.colours import face_colours
from widgets.face.sample_values import FieldContents, specimen_rows
from widgets.face.thumbnails import THUMB_PIXELS, ThumbnailStyle, small_face
from widgets.kit import palette
from widgets.kit.drawn.boxes import paint_ring
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled
from widgets.kit.tables import Index

ROW: Final = 60
GLASS: Final = QSize(92, 44)
"""Pixels at 100 per cent of a row, and of the picture in it."""
LARGEST: Final = 2_000_000
"""Bytes of a file that a picture is made of: reading a larger one would be felt in the window."""


@dataclass(frozen=True, slots=True)
class FileLook:
    """What was found of a file."""

    path: Path
    there: bool
    title: str = ""
    rows: Rows = ()
    """Of its first screen; none if it cannot be read."""
    at: datetime | None = None
    """When it was written."""


def look_at(path: Path) -> FileLook:
    """What a file holds, as far as that is quickly found. Raises nothing."""
    try:
        state = path.stat()
    except OSError:
        return FileLook(path, there=False)
    at = datetime.fromtimestamp(state.st_mtime)
    if state.st_size > LARGEST:
        return FileLook(path, there=True, at=at)
    try:
        project = load(path)
    except ProjectFileError:
        return FileLook(path, there=True, at=at)
    start = project.screen_named.get(project.panel.start)
    rows = () if start is None else specimen_rows(project, start, FieldContents.SAMPLE)
    return FileLook(path, True, project.title, rows, at)


class RecentList(QListWidget):
    """Enter or a click opens one. What is not there any more says so, and stays: its disk may only be away."""

    wanted = Signal(object)
    """A file is to be opened: its path."""
    left_wanted = Signal()
    """The key to the left: back to what stands beside the list."""
    _looked = Signal(int, object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._round = 0
        self._found: dict[Path, FileLook] = {}
        self._pictures: dict[tuple[Path, str, float], QPixmap] = {}
        self.setAccessibleName(self.tr("Recent projects"))
        self.setFrameShape(QListWidget.Shape.NoFrame)
        self.viewport().setAutoFillBackground(False)
        self.setItemDelegate(_RecentRow(self))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        self.itemClicked.connect(self._open)
        self._looked.connect(self._take)

    def show_files(self, paths: tuple[Path, ...]) -> None:
        """List these; what they look like follows."""
        self._round += 1
        self.clear()
        for path in paths:
            item = QListWidgetItem(path.stem)
            item.setData(Qt.ItemDataRole.UserRole, path)
            item.setToolTip(plain_tip(str(path)))
            self.addItem(item)
            self._name(item, path)
        if paths:
            self.setCurrentRow(0)
        this = self._round

        def look() -> None:
            for path in paths:
                found = look_at(path)
                with contextlib.suppress(RuntimeError):  # the page may be gone
                    self._looked.emit(this, found)

        threading.Thread(target=look, name="recent projects", daemon=True).start()

    def found(self, path: Path) -> FileLook | None:
        """What is known of a file by now."""
        return self._found.get(path)

    def details(self, path: Path) -> str:
        """Where a file is, and when it was written."""
        found = self.found(path)
        if found is not None and not found.there:
            return self.tr("{folder} (not found)").format(folder=path.parent)
        if found is None or found.at is None:
            return str(path.parent)
        return self.tr("{folder} \u00b7 {when}").format(folder=path.parent, when=self._when(found.at))

    def picture(self, path: Path, ratio: float) -> QPixmap | None:
        """The first screen of a file; None as long as it is not known."""
        found = self.found(path)
        if found is None or not found.rows:
            return None
        colours = face_colours(self.palette())
        key = path, colours.cell.name(), ratio
        if key not in self._pictures:
            cell = cell_size(THUMB_PIXELS)
            whole = QSize(len(found.rows[0].text) * cell.width, len(found.rows) * cell.height)
            room = QSize(scaled(GLASS.width()), scaled(GLASS.height()))
            size = whole.scaled(room, Qt.AspectRatioMode.KeepAspectRatio)
            self._pictures[key] = small_face(found.rows, ThumbnailStyle(size, colours, ratio))
        return self._pictures[key]

    def keyPressEvent(self, event: QKeyEvent) -> None:
        item = self.currentItem()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and item is not None:
            self._open(item)
        elif event.key() == Qt.Key.Key_Left:
            self.left_wanted.emit()
        else:
            super().keyPressEvent(event)

    def sizeHint(self) -> QSize:
        return QSize(scaled(312), self.count() * scaled(ROW))

    def _open(self, item: QListWidgetItem) -> None:
        self.wanted.emit(item.data(Qt.ItemDataRole.UserRole))

    def _take(self, number: int, found: FileLook) -> None:
        if number != self._round:
            return
        self._found[found.path] = found
        self._pictures = {key: each for key, each in self._pictures.items() if key[0] != found.path}
        for row in range(self.count()):
            item = self.item(row)
            if item.data(Qt.ItemDataRole.UserRole) == found.path:
                item.setText(found.title or found.path.stem)
                self._name(item, found.path)

    def _name(self, item: QListWidgetItem, path: Path) -> None:
        item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{item.text()}, {self.details(path)}")

    def _when(self, at: datetime) -> str:
        locale = QLocale()
        moment = QDateTime(at.date(), at.time())  # type: ignore[call-overload]
        if at.date() == datetime.now().date():
            time = locale.toString(moment.time(), QLocale.FormatType.ShortFormat)
            return self.tr("today {time}").format(time=time)
        return locale.toString(moment.date(), QLocale.FormatType.ShortFormat)


class _RecentRow(QStyledItemDelegate):
    """A picture, the title, and where the file is."""

    def __init__(self, owner: RecentList) -> None:
        super().__init__(owner)
        self._list = owner

    def sizeHint(self, option: QStyleOptionViewItem, _index: Index) -> QSize:
        two = 2 * QFontMetrics(option.font).height() + scaled(12)
        return QSize(scaled(200), max(scaled(ROW), two))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        path = index.data(Qt.ItemDataRole.UserRole)
        found = self._list.found(path)
        colours = palette.current()
        place: QRect = option.rect
        state = option.state
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        focused = bool(state & QStyle.StateFlag.State_HasFocus) and self._list.hasFocus()
        if focused or state & QStyle.StateFlag.State_MouseOver:
            painter.fillRect(place, colours.colour("soft" if focused else "hover"))
        painter.fillRect(place.left(), place.bottom(), place.width(), 1, colours.colour("line"))
        glass = QRect(QPoint(place.left() + scaled(4), 0), QSize(scaled(GLASS.width()), scaled(GLASS.height())))
        glass.moveTop(place.center().y() - glass.height() // 2)
        self._paint_glass(painter, path, glass, missing=found is not None and not found.there)
        left = glass.right() + scaled(12)
        text = QRect(left, place.top(), place.right() - left - scaled(4), place.height())
        missing = found is not None and not found.there
        self._write(painter, index, text, "faint" if missing else "ink", "faint")
        if focused:
            paint_ring(painter, place)
        painter.restore()

    def _paint_glass(self, painter: QPainter, path: Path, glass: QRect, *, missing: bool) -> None:
        colours = palette.current()
        picture = None if missing else self._list.picture(path, painter.device().devicePixelRatioF())
        if picture is None:
            painter.setPen(QPen(colours.colour("off"), 1, Qt.PenStyle.DashLine))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(glass).adjusted(0.5, 0.5, -0.5, -0.5), 3, 3)
            return
        face = face_colours(self._list.palette())
        size = picture.deviceIndependentSize().toSize()
        screen = QRect(QPoint(0, 0), size)
        screen.moveCenter(glass.center())
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(face.bezel)
        painter.drawRoundedRect(QRectF(screen).adjusted(-3, -3, 3, 3), 4, 4)
        painter.fillRect(screen, face.cell)
        painter.drawPixmap(screen.topLeft(), picture)

    def _write(self, painter: QPainter, index: Index, room: QRect, title: str, details: str) -> None:
        colours = palette.current()
        lines = (
            (str(index.data(Qt.ItemDataRole.DisplayRole)), title, QFont.Weight.DemiBold, Qt.TextElideMode.ElideRight),
            (
                self._list.details(index.data(Qt.ItemDataRole.UserRole)),
                details,
                QFont.Weight.Normal,
                Qt.TextElideMode.ElideMiddle,
            ),
        )
        top = room.center().y() - QFontMetrics(self._list.font()).height()
        for words, ink, weight, elide in lines:
            font = QFont(self._list.font())
            font.setWeight(weight)
            metrics = QFontMetrics(font)
            painter.setFont(font)
            painter.setPen(colours.colour(ink))
            short = metrics.elidedText(words, elide, room.width())
            painter.drawText(room.left(), top + metrics.ascent(), short)
            top += metrics.height()
