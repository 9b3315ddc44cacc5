"""The head of the window: its mark, the workspaces, the Connect bar and the badge of arming; the same everywhere."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QAction, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QSizePolicy, QTabBar, QToolButton, QVBoxLayout, QWidget

from widgets.document.document import Document
from widgets.frame.badge import ArmingBadge, ArmingStripe, badge_height
from widgets.frame.connect_bar import ConnectBar
from widgets.frame.connecting import Connecting
from widgets.kit import palette
from widgets.kit.commands import plain
from widgets.kit.drawn.bars import NOWHERE
from widgets.kit.icons import icon
from widgets.kit.look import set_look
from widgets.kit.scaling import scaled

MARK: Final = 40
"""Width of the mark with its margins, in pixels at 100 per cent."""
BEFORE_BADGE: Final = 12
ICON: Final = 40
"""Width of the list of workspaces as an icon, in pixels at 100 per cent."""
LEAST_NAME: Final = 4
"""Letters of the workspace in front that the list of workspaces shows at least; else it shows its sign."""
SIGNS: Final = ("screen", "panel", "curve", "trial")
"""The icons of the workspaces, in their order."""
ARROW: Final = 46
"""What the list of workspaces takes beside the longest name, in pixels at 100 per cent."""
CONNECTS: Final = 1
"""The Bench, counted from 0: what one comes there for is to connect. Elsewhere another button is the primary one."""


class Header(QWidget):
    """In a narrow window first the word "Line" goes, then the target narrows, then the tabs become one list, which at
    last is a mere icon in the place of the mark.

    The badge never gives way.
    """

    def __init__(self, workspaces: Sequence[QAction], connecting: Connecting, document: Document) -> None:
        """`workspaces` are the commands that lead to each, of which the one in front is checked."""
        super().__init__()
        self.workspaces = list(workspaces)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.tabs = QTabBar()
        set_look(self.tabs, "workspace")
        self.tabs.setAccessibleName(self.tr("Workspaces"))
        self.tabs.setDrawBase(False)
        self.tabs.setExpanding(False)
        self.tabs.setUsesScrollButtons(False)
        self.tabs.setElideMode(Qt.TextElideMode.ElideNone)
        self.tabs.setFixedHeight(badge_height())
        self.list = QToolButton()
        """Names the workspace in front, and opens the list of all, where the tabs have no room."""
        set_look(self.list, "workspace")
        self.list.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.list.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        menu = QMenu(self.list)
        menu.addActions(self.workspaces)
        self.list.setMenu(menu)
        for action in self.workspaces:
            self.tabs.addTab(plain(action.text()))
            self.tabs.setTabToolTip(self.tabs.count() - 1, action.toolTip() + "  " + action.shortcut().toString())
            action.toggled.connect(lambda _on: self._follow())
        names = max(self.list.fontMetrics().horizontalAdvance(plain(action.text())) for action in self.workspaces)
        self._list_width = names + scaled(ARROW)
        self.tabs.currentChanged.connect(self._choose)
        self.tabs.tabBarClicked.connect(self._click)
        self.connect_bar = ConnectBar(connecting, document)
        self.badge = ArmingBadge(connecting.arm_action, connecting.disarm_action)
        self.stripe = ArmingStripe()
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        self._mark = _Mark()
        row.addWidget(self._mark)
        row.addWidget(self.tabs)
        row.addWidget(self.list)
        row.addStretch()
        row.addWidget(self.connect_bar)
        row.addSpacing(scaled(BEFORE_BADGE))
        row.addWidget(self.badge)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(row)
        layout.addWidget(self.stripe)
        self._live = connecting.live
        self._live.connection_changed.connect(self._show_writing)
        self._show_writing()
        self._follow()
        self._fit()

    def show_start_page(self, shown: bool) -> None:
        """Whether the start page is in front and so no workspace is."""
        self.tabs.setProperty(NOWHERE, shown)
        self.tabs.update()

    def _click(self, number: int) -> None:
        """From the start page also the tab leads somewhere that was in front before."""
        if number >= 0 and self.tabs.property(NOWHERE):
            self.workspaces[number].trigger()

    def show_project(self, shown: bool) -> None:
        """Whether a project is there to go to, to connect and to arm. Nothing moves."""
        self.tabs.setEnabled(shown)
        self.list.setEnabled(shown)
        for part in (self.connect_bar, self.badge):
            policy = part.sizePolicy()
            policy.setRetainSizeWhenHidden(True)
            part.setSizePolicy(policy)
            part.setVisible(shown)

    def _show_writing(self) -> None:
        self.badge.show_writing(self._live.writing)
        self.stripe.show_writing(self._live.writing)

    def _choose(self, number: int) -> None:
        if not self.workspaces[number].isChecked():
            self.workspaces[number].trigger()

    def _follow(self) -> None:
        for number, action in enumerate(self.workspaces):
            if action.isChecked():
                self.tabs.setCurrentIndex(number)
                self.connect_bar.lead(number == CONNECTS)
                self._name_list()
                self.list.setAccessibleName(self.tr("Workspace: {name}").format(name=plain(action.text())))
                self.list.setToolTip(self.list.accessibleName())

    def _name_list(self) -> None:
        at = next((at for at, action in enumerate(self.workspaces) if action.isChecked()), 0)
        name = plain(self.workspaces[at].text())
        self.list.setIcon(icon(SIGNS[at]))
        room = self.list.width() - scaled(ARROW)
        self.list.setText(self.list.fontMetrics().elidedText(name, Qt.TextElideMode.ElideRight, room))

    def _fit(self) -> None:
        """Let give way what may, in its order."""
        room = self.width() - scaled(BEFORE_BADGE) - self.badge.width()
        tabs, mark = self.tabs.sizeHint().width(), scaled(MARK)
        ways = (
            (False, False, mark + tabs),
            (True, False, mark + tabs),
            (True, True, mark + tabs),
            (True, True, mark + self._list_width),
            (True, True, scaled(ICON)),
        )
        way = next(
            (at for at, (short, narrow, left) in enumerate(ways) if left + self._bar(short, narrow) <= room),
            len(ways) - 1,
        )
        narrowest = way == len(ways) - 1
        left_over = room - self._bar(True, True)
        metrics = self.list.fontMetrics()
        least = max(
            metrics.horizontalAdvance(plain(each.text())[:LEAST_NAME] + "\N{HORIZONTAL ELLIPSIS}")
            for each in self.workspaces
        )
        icon_only = narrowest and left_over < least + scaled(ARROW)
        self._mark.setVisible(not narrowest)
        self.tabs.setVisible(way < 3)
        self.list.setVisible(way >= 3)
        style = Qt.ToolButtonStyle
        self.list.setToolButtonStyle(style.ToolButtonIconOnly if icon_only else style.ToolButtonTextOnly)
        self.list.setFixedWidth(
            scaled(ICON) if icon_only else min(left_over, self._list_width) if narrowest else self._list_width
        )
        self._name_list()
        short, narrow, _left = ways[way]
        self.connect_bar.fit(short=short, narrow=narrow)
        layout = self.layout()
        if layout is not None:
            layout.activate()  # at once: what gave way must not be seen cut before

    def _bar(self, short: bool, narrow: bool) -> int:
        return self.connect_bar.width_as(short=short, narrow=narrow)

    def minimumSizeHint(self) -> QSize:
        """With everything given way that may."""
        width = scaled(ICON) + self._bar(True, True) + scaled(BEFORE_BADGE) + self.badge.width()
        return QSize(width, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(self.rect(), palette.current().colour("frame"))


class _Mark(QWidget):
    """A fanlight, drawn in the colour of what is chosen."""

    def __init__(self) -> None:
        super().__init__()
        self.setFixedSize(scaled(MARK), badge_height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(self.width() / 2, self.height() / 2 + scaled(6))
        unit = scaled(100) / 100
        painter.scale(unit, unit)
        painter.setPen(QPen(palette.current().colour("accent"), 1.8, c=Qt.PenCapStyle.RoundCap))
        painter.drawArc(QRectF(-10, -10, 20, 20), 0, 180 * 16)
        painter.drawArc(QRectF(-4, -4, 8, 8), 0, 180 * 16)
        painter.drawLine(-10, 0, 10, 0)
        for x, y in ((0, -10), (-7, -7), (7, -7)):
            painter.drawLine(round(x * 0.4), round(y * 0.4), x, y)
