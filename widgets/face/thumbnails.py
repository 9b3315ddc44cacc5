"""Small faces of the screens of one project, painted in the pauses: a key is answered before its small face follows."""

from __future__ import annotations

import time
from collections.abc import Callable, Hashable, Iterable
from typing import Final, NamedTuple

from PySide6.QtCore import QObject, QPoint, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QPainter, QPixmap

from app.panel.rendering import Rows
from app.project.model import Project
from widgets.face.cells import cell_size, paint_row
from widgets.face.colours import FaceColours
from widgets.face.sample_values import Specimens

THUMB_PIXELS: Final = 6
MOST_PICTURES: Final = 500
"""Small faces that are kept painted, of about 20 kB each."""
AFTER_MS: Final = 25
"""After a change, until the first of them are painted anew."""
SLICE_S: Final = 0.003
PAUSE_MS: Final = 4
"""How long painting goes on, and how long whatever else has come up is done then."""


class ThumbnailStyle(NamedTuple):
    """How a small face is painted: its size in pixels, its colours, and how many pixels of the screen each is."""

    size: QSize
    face: FaceColours
    ratio: float


class Thumbnails(QObject):
    """The pictures of screens as they were last painted; what has changed is painted when nothing else is due."""

    painted = Signal(str)
    """The picture of this screen is another now."""

    def __init__(self, in_view: Callable[[], Iterable[str]], parent: QObject | None = None) -> None:
        """`in_view` names the screens whose pictures can be seen; others are painted when they come into view."""
        super().__init__(parent)
        self._in_view = in_view
        self._project: Project | None = None
        self._specimens = Specimens()
        self._drawn: dict[str, Rows] = {}
        """What the picture of each screen shows."""
        self._look: ThumbnailStyle | None = None
        self._pictures: dict[tuple[Hashable, ...], QPixmap] = {}
        self._left_s = float("inf")
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._slice)

    def show(self, project: Project) -> None:
        """The screens are those of this project from now on."""
        self._project = project
        if len(self._drawn) > 2 * len(project.screens):
            self._drawn = {name: rows for name, rows in self._drawn.items() if name in project.screen_named}
        self._go_on(AFTER_MS)

    def forget(self) -> None:
        """Another project comes: screens that are called the same have nothing to do with one another."""
        self._drawn.clear()
        self._left_s = float("inf")

    @property
    def settled(self) -> bool:
        """Whether all pictures in view show what there is."""
        return not self._timer.isActive()

    @property
    def full_size(self) -> QSize:
        """Pixels of a face before it is made to fit."""
        size = cell_size(THUMB_PIXELS)
        panel = None if self._project is None else self._project.panel
        return QSize(96, 32) if panel is None else QSize(panel.columns * size.width, panel.rows * size.height)

    def picture(self, name: str, look: ThumbnailStyle) -> QPixmap | None:
        """The picture of a screen, perhaps as it was a moment ago; `painted` tells when there is another.

        None if there is none yet: of a list that is just opened all are painted at once, later only a few.
        """
        project = self._project
        screen = None if project is None else project.screen_named.get(name)
        if project is None or screen is None:
            return None
        self._look = look
        rows = self._drawn.get(name)
        if rows is None:
            if self._left_s <= 0:
                self._go_on(AFTER_MS)
                return None
            began = time.perf_counter()
            rows = self._drawn[name] = self._specimens.rows(project, screen)
            picture = self._picture_of(rows, look)
            self._left_s -= time.perf_counter() - began
            self._go_on(AFTER_MS)
            return picture
        if self._specimens.known_rows(project, screen) is not rows:
            self._go_on(AFTER_MS)
        return self._picture_of(rows, look)

    def _go_on(self, after_ms: int) -> None:
        if not self._timer.isActive():
            self._timer.start(after_ms)

    def _slice(self) -> None:
        self._left_s = SLICE_S
        project, look = self._project, self._look
        if project is None or look is None:
            return
        end = time.perf_counter() + SLICE_S
        for name in self._in_view():
            screen = project.screen_named.get(name)
            if screen is None:
                continue
            rows, before = self._specimens.rows(project, screen), self._drawn.get(name)
            self._drawn[name] = rows
            if rows is not before and rows != before:
                self._picture_of(rows, look)
                self.painted.emit(name)
            if time.perf_counter() > end:
                self._go_on(PAUSE_MS)
                return

    def _picture_of(self, rows: Rows, look: ThumbnailStyle) -> QPixmap:
        """The small face, kept: when the list moves to another screen, all that can be seen of it is painted anew."""
        size, face, ratio = look
        # Specimens have no attributes, so the characters are all that is drawn; hashing attributes would take longer.
        key = (*[row.text for row in rows], size.width(), size.height(), ratio, face.ink.rgb(), face.glass.rgb())
        picture = self._pictures.get(key)
        if picture is None:
            if len(self._pictures) >= MOST_PICTURES:
                self._pictures.clear()
            picture = self._pictures[key] = small_face(rows, look)
        return picture


def small_face(rows: Rows, look: ThumbnailStyle) -> QPixmap:
    """The cells of a screen, so small that they fit the size that is asked for."""
    cell = cell_size(THUMB_PIXELS)
    scale = look.size.width() / max(cell.width * max((len(row.text) for row in rows), default=0), 1)
    picture = QPixmap(look.size * look.ratio)
    picture.setDevicePixelRatio(look.ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(scale, scale)
    height = cell_size(THUMB_PIXELS).height
    for number, row in enumerate(rows):
        paint_row(painter, row, QPoint(0, number * height), THUMB_PIXELS, look.face)
    painter.end()
    return picture
