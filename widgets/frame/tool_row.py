"""The row of tools over a workspace: its view tabs at the left, its tools at the right, the primary one last."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtGui import QAction, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QSizePolicy, QTabBar, QToolButton, QWidget

from widgets.kit import palette
from widgets.kit.elided import shorten_tabs
from widgets.kit.icons import icon
from widgets.kit.look import CONTROL
from widgets.kit.scaling import line_height, scaled

HEIGHT: Final = 40
"""Of the row, in pixels at 100 per cent; a hairline under it is added."""
EDGE: Final = 8
BETWEEN: Final = 8
AROUND_MORE: Final = 40
"""Pixels beside the row, between its tools, and around the word that opens the list, at 100 per cent."""


class ToolRow(QWidget):
    """One line, whatever the width: commands for which there is no room go into "More", from the left."""

    def __init__(self, tabs: QTabBar | None = None, parent: QWidget | None = None) -> None:
        """`tabs` are the views of the workspace; without them what `lead` holds begins at the left edge."""
        super().__init__(parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(line_height(HEIGHT) + 1)
        self._tools: list[QToolButton] = []
        self._listed: list[QAction] = []
        self._away: set[QAction] = set()
        self._others: list[QWidget] = []
        self._leading: list[QWidget] = []
        self._primary: QWidget | None = None
        self._tabs = tabs
        self.more = QToolButton()
        """Opens the list of the commands that have no room."""
        self.more.setText(self.tr("More"))
        self.more.setIcon(icon("more"))
        self.more.setToolTip(self.tr("More tools"))
        self.more.setAccessibleName(self.tr("More tools"))
        self.more.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.more.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.more.setMenu(QMenu(self.more))
        self.more.hide()
        self.lead = QHBoxLayout()
        """What stands right of the tabs, before the free room: a state or a choice that belongs to the view."""
        self._end = QHBoxLayout()
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(scaled(EDGE), 0, scaled(EDGE), 1)
        for layout in (self._row, self.lead, self._end):
            layout.setSpacing(scaled(BETWEEN))
        if tabs is not None:
            shorten_tabs(tabs)  # only when all tools are in the list and there still is no room
            self._row.addWidget(tabs, 0, Qt.AlignmentFlag.AlignBottom)
        self._row.addLayout(self.lead, 1)
        self._row.addStretch()
        self._row.addLayout(self._end)
        self._end.addWidget(self.more)

    def add(self, action: QAction, *, icon_only: bool = False) -> QToolButton:
        """Put a command into the row, right of those that stand there already."""
        button = QToolButton()
        button.setDefaultAction(action)
        button.setToolButtonStyle(
            Qt.ToolButtonStyle.ToolButtonIconOnly if icon_only else Qt.ToolButtonStyle.ToolButtonTextBesideIcon
        )
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        if icon_only:
            button.setAccessibleName(action.text().replace("&", ""))
        self._tools.append(button)
        self._put(button)
        return button

    def add_to_more(self, action: QAction) -> None:
        """Put a command into the list below those that have no room."""
        self._listed.append(action)
        self._fit()

    def put_away(self, actions: Iterable[QAction], *, away: bool) -> None:
        """Leave commands out of the row and of the list, where the view in front has no use for them.

        The commands stay as they are: they may stand in a menu as well.
        """
        if away:
            self._away.update(actions)
        else:
            self._away.difference_update(actions)
        self._fit()

    def add_widget(self, widget: QWidget) -> None:
        """Put something else into the row, right of what stands there already; it always stays in sight."""
        self._others.append(widget)
        self._put(widget)

    def add_lead(self, widget: QWidget) -> None:
        """Put something that comes and goes right of the tabs."""
        self._leading.append(widget)
        self.lead.addWidget(widget, 0, Qt.AlignmentFlag.AlignVCenter)
        widget.installEventFilter(self)
        self._fit()

    def set_primary(self, widget: QWidget) -> None:
        """The primary button stands at the right end and always stays in sight."""
        self._primary = widget
        self._end.addWidget(widget)
        widget.installEventFilter(self)
        self._fit()

    def _put(self, widget: QWidget) -> None:
        self._end.insertWidget(self._end.count() - (self._primary is not None), widget)
        widget.installEventFilter(self)
        self._fit()

    @property
    def in_more(self) -> list[QAction]:
        """The commands that have no room now, as they stand in the list."""
        menu = self.more.menu()
        return list(menu.actions()) if menu is not None else []

    def _fit(self) -> None:
        """Let as many tools stand in the row as there is room for, the rest in the list."""
        self._shorten_more()
        usable = [button for button in self._tools if _wanted(button) and button.defaultAction() not in self._away]
        listed = [action for action in self._listed if action not in self._away]
        room = self.width() - self._fixed_width(self._tabs.sizeHint().width() if self._tabs is not None else 0)
        needed = sum(_width(button) for button in usable)
        left_out: list[QToolButton] = []
        if needed > room or listed:
            room -= self.more.sizeHint().width() + scaled(BETWEEN)
            while usable and needed > room:
                left_out.append(usable.pop(0))
                needed -= _width(left_out[-1])
        for button in self._tools:
            button.setVisible(button in usable)
        actions = [*(button.defaultAction() for button in left_out), *listed]
        self.more.setVisible(bool(actions))
        menu = self.more.menu()
        if menu is not None and menu.actions() != actions:
            for action in menu.actions():  # not `clear`, which would delete those that no other owns
                menu.removeAction(action)
            menu.addActions(actions)

    def _shorten_more(self) -> None:
        """Where even the tabs lack room, the list is opened by three dots instead of a word."""
        tabs = self._tabs.sizeHint().width() if self._tabs is not None else 0
        word = self.more.fontMetrics().horizontalAdvance(self.more.text()) + scaled(AROUND_MORE)
        short = self._fixed_width(tabs) + word + scaled(BETWEEN) > self.width()
        style = Qt.ToolButtonStyle
        self.more.setToolButtonStyle(style.ToolButtonIconOnly if short else style.ToolButtonTextOnly)

    def _fixed_width(self, tabs: int) -> int:
        """Pixels of all that stays in sight, with so many for the tabs."""
        margins = self._row.contentsMargins()
        stays = [widget for widget in self._others if not widget.isHidden()]
        if self._primary is not None and not self._primary.isHidden():
            stays.append(self._primary)
        lead = self.lead.minimumSize().width() + 2 * scaled(BETWEEN)
        return (
            margins.left()
            + margins.right()
            + tabs
            + lead
            + sum(max(widget.minimumSizeHint().width(), widget.minimumWidth()) + scaled(BETWEEN) for widget in stays)
        )

    def minimumSizeHint(self) -> QSize:
        """What stays in sight, and the list of the others."""
        more = line_height(CONTROL) + scaled(BETWEEN) if self._tools else 0
        tabs = self._tabs.minimumSizeHint().width() if self._tabs is not None else 0
        return QSize(self._fixed_width(tabs) + more, self.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """A tool that gets another text, or comes or goes with its command, may make or take room."""
        came = event.type() in (QEvent.Type.ShowToParent, QEvent.Type.HideToParent)
        if event.type() in (QEvent.Type.ActionChanged, QEvent.Type.FontChange) or (
            came and watched in (*self._others, *self._leading)
        ):
            self._fit()
        return super().eventFilter(watched, event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The ground of the frame, with a hairline below."""
        painter = QPainter(self)
        colours = palette.current()
        painter.fillRect(self.rect(), colours.colour("frame"))
        painter.fillRect(0, self.height() - 1, self.width(), 1, colours.colour("line"))


def _wanted(button: QToolButton) -> bool:
    action = button.defaultAction()
    return action is not None and action.isVisible()


def _width(button: QToolButton) -> int:
    return button.sizeHint().width() + scaled(BETWEEN)
