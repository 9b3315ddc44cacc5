"""The keys of a screen as small caps beneath it, from which screen changes are drawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QCoreApplication, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsView, QStyleOptionGraphicsItem, QWidget

from app.panel.layout import PanelLayout
from app.project.model import Project
from widgets.design.forms.part_texts import deed_text
from widgets.design.page_map.arrows import CAP, LEAST, label_font
from widgets.design.page_map.node import DETAIL, GAP_X, Node
from widgets.face.key_cap import cap_legend
from widgets.kit import palette
from widgets.kit.plain import plain_tip
from widgets.kit.scaling import scaled

HEIGHT: Final = 20
GAP: Final = 4
WIDEST: Final = 340
"""Pixels of the screen: a cap, the room between two, and how wide a row of caps may become."""

translate = QCoreApplication.translate


@dataclass(frozen=True, slots=True)
class KeyUse:
    """What a key does on one screen.

    `leads_to` is the screen it goes to, None if it goes to none; `own` if it does so on this screen alone.
    """

    key: str
    leads_to: str | None = None
    own: bool = False
    deeds: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """All that it does there."""
        found = []
        if self.leads_to is not None:
            text = (
                translate("PageMap", "goes to {screen}")
                if self.own
                else translate("PageMap", "goes to {screen}, from every screen")
            )
            found.append(text.format(screen=self.leads_to))
        found += self.deeds
        return ", ".join(found) or translate("PageMap", "free")


def key_uses(project: Project, screen: str) -> list[KeyUse]:
    """The keys of the panel, with what each does on a screen."""
    layout = PanelLayout.of(project)
    found = []
    for key in project.panel.keys:
        screen_change = layout.behaviour.key_screen_change(screen, key)
        deeds = tuple(deed_text(action) for action in layout.behaviour.key_actions(screen, key))
        leads_to, own = (
            (None, False) if screen_change is None else (screen_change[2], screen_change[1].from_ is not None)
        )
        found.append(KeyUse(key, leads_to, own, deeds))
    return found


def free_keys(project: Project, screen: str) -> list[KeyUse]:
    """The keys that do nothing on a screen, not even begin entry."""
    begins = bool(PanelLayout.of(project).screen(screen).entry_fields)
    return [
        use
        for use in key_uses(project, screen)
        if use.leads_to is None and not use.deeds and not (begins and use.key == project.panel.entry.begin)
    ]


def _font() -> QFont:
    return label_font(pixels=scaled(11))


class KeyStrip(QGraphicsItem):
    """A cap for every key, as large at every zoom. A key with a screen change has an arrow, one that acts a dot."""

    def __init__(self) -> None:
        super().__init__()
        self.node: Node | None = None
        self._uses: list[KeyUse] = []
        self._caps: list[QRectF] = []
        self._area = QRectF()
        self._under: int | None = None
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setZValue(10)
        self.hide()

    def show_at(self, node: Node | None, uses: list[KeyUse]) -> None:
        """Show the keys of a screen beneath it; None shows none."""
        self.node = node if uses else None
        if self.node is None:
            self.hide()
            return
        self.prepareGeometryChange()
        self._uses, self._under = uses, None
        self._caps = []
        metrics = QFontMetricsF(_font())
        height = scaled(HEIGHT)
        x = y = 0.0
        for use in uses:
            width = metrics.horizontalAdvance(self._text(use)) + scaled(12)
            if x and x + width > scaled(WIDEST):
                x, y = 0.0, y + height + GAP
            self._caps.append(QRectF(x, y, width, height))
            x += width + GAP
        right = max(cap.right() for cap in self._caps)
        self._area = QRectF(-4, -4, right + 8, self._caps[-1].bottom() + 8)
        self.follow()
        self.show()
        self.update()

    def follow(self) -> None:
        """Stay with the screen."""
        if self.node is not None:
            area = self.node.sceneBoundingRect().intersected(self.node.mapRectToScene(self.node.face_rect()))
            self.setPos(area.bottomLeft())

    @staticmethod
    def _text(use: KeyUse) -> str:
        return cap_legend(use.key) + (" \u2192" if use.leads_to is not None else "") + (" \u2022" if use.deeds else "")

    def key_at(self, point: QPoint, view: QGraphicsView) -> str | None:
        """The key at a point of the view's viewport."""
        at = self._at(point, view)
        self._mark(at)
        return None if at is None else self._uses[at].key

    def covers(self, point: QPoint, view: QGraphicsView) -> bool:
        """Whether a point of the view's viewport is on the strip."""
        return self.isVisible() and self._area.contains(self._local(point, view))

    def cap_point(self, key: str, view: QGraphicsView) -> QPoint:
        """The middle of a key's cap on the view's viewport. Raises KeyError if there is no such key."""
        for use, cap in zip(self._uses, self._caps, strict=True):
            if use.key == key and self.isVisible():
                return self.deviceTransform(view.viewportTransform()).map(cap.center()).toPoint()
        raise KeyError(key)

    def _at(self, point: QPoint, view: QGraphicsView) -> int | None:
        if not self.isVisible():
            return None
        at = self._local(point, view)
        return next((number for number, cap in enumerate(self._caps) if cap.contains(at)), None)

    def _local(self, point: QPoint, view: QGraphicsView) -> QPointF:
        inverted = self.deviceTransform(view.viewportTransform()).inverted()
        transform = inverted[0] if isinstance(inverted, tuple) else inverted
        return transform.map(QPointF(point))

    def _mark(self, number: int | None) -> None:
        if number != self._under:
            self._under = number
            self.setToolTip(plain_tip("" if number is None else self._use_text(self._uses[number])))
            self.update()

    @staticmethod
    def _use_text(use: KeyUse) -> str:
        return translate("PageMap", "{key}: {uses}. Drag it to the screen that it should go to.").format(
            key=use.key, uses=use.words
        )

    def boundingRect(self) -> QRectF:
        return self._area

    def shape(self) -> QPainterPath:
        path = QPainterPath()
        path.addRect(self._area)
        return path

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002
        window = palette.current()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(window.colour("line"), 1))
        painter.setBrush(window.colour("pane"))
        painter.drawRoundedRect(self._area.adjusted(0.5, 0.5, -0.5, -0.5), 5, 5)
        painter.setFont(_font())
        for number, (use, cap) in enumerate(zip(self._uses, self._caps, strict=True)):
            under = number == self._under
            painter.setPen(QPen(window.colour("accent" if under else "edge"), 1.6 if under else 1))
            painter.setBrush(window.colour("raised" if use.leads_to is None else "pane"))
            painter.drawRoundedRect(cap.adjusted(0.5, 0.5, -0.5, -0.5), 4, 4)
            painter.setPen(window.colour("ink" if use.leads_to is not None or use.deeds else "faint"))
            painter.drawText(cap, Qt.AlignmentFlag.AlignCenter, self._text(use))


class FreeKeys(KeyStrip):
    """The keys that do nothing yet on the chosen screen, right of its name: as many as have room before the next."""

    def show_free(self, node: Node | None, uses: list[KeyUse], scale: float) -> None:
        """Show those of a screen, on a map that is shown at this scale; None, or seen from afar, shows none."""
        room = GAP_X * scale - 2 * GAP
        shown: list[KeyUse] = []
        metrics = QFontMetricsF(_font())
        for use in uses:
            room -= metrics.horizontalAdvance(self._text(use)) + scaled(12) + GAP
            if room < -GAP:
                break
            shown.append(use)
        self.show_at(node if scale >= DETAIL else None, shown)

    def follow(self) -> None:
        """Stay with the screen."""
        if self.node is not None:
            area = self.node.mapRectToScene(self.node.face_rect())
            scale = max(self.scene().views()[0].transform().m11(), 0.01)
            # Above the first arrow that leads from this side, and the key at it.
            cap = CAP / 2 * max(scale, scaled(LEAST) / 11)
            down = min(area.height() * scale / 3 - cap - scaled(HEIGHT) - GAP, GAP / 2)
            self.setPos(area.right() + 2 * GAP / scale, area.top() + down / scale)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002
        window = palette.current()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(label_font(bold=True, pixels=scaled(11)))
        for number, (use, cap) in enumerate(zip(self._uses, self._caps, strict=True)):
            under = number == self._under
            painter.setPen(QPen(window.colour("accent"), 1.6, Qt.PenStyle.SolidLine if under else Qt.PenStyle.DashLine))
            painter.setBrush(window.colour("soft" if under else "base"))
            painter.drawRoundedRect(cap.adjusted(0.5, 0.5, -0.5, -0.5), 4, 4)
            painter.setPen(window.colour("ink"))
            painter.drawText(cap, Qt.AlignmentFlag.AlignCenter, self._text(use))
