"""A bar that begins another line where the window is too narrow for one."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QSizePolicy, QWidget, QWidgetItem

from widgets.kit.elided import ELIDES


class FlowLayout(QLayout):
    """Lays out its items side by side, and what does not fit beneath them.

    Items that expand (a search field) share what is left of their line. The least width is that of the widest item.
    """

    def __init__(self, parent: QWidget | None = None, spacing: int = 6) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._width_now = 0
        self.setSpacing(spacing)
        self.setContentsMargins(0, 0, 0, 0)

    def add_stretch(self) -> None:
        """Push what follows to the end of its line."""
        filler = QWidget()
        filler.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        filler.setMaximumHeight(1)
        self.addWidget(filler)

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)
        self.invalidate()

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation.Horizontal

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._arrange(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._arrange(rect, move=True)
        if rect.width() != self._width_now:
            before, self._width_now = self._width_now, rect.width()
            # A splitter does not ask for the height at a width, only for the least height.
            if self.heightForWidth(before) != self.heightForWidth(rect.width()):
                self.invalidate()
                parent = self.parentWidget()
                if parent is not None:
                    parent.updateGeometry()

    def sizeHint(self) -> QSize:
        shown = self._visible_items()
        width = sum(self._width(item) for item in shown) + self.spacing() * max(0, len(shown) - 1)
        height = max((item.sizeHint().height() for item in shown), default=0)
        return self._with_margins(QSize(width, height))

    def minimumSize(self) -> QSize:
        shown = self._visible_items()
        width = self._with_margins(QSize(max((item.minimumSize().width() for item in shown), default=0), 0)).width()
        return QSize(width, self.heightForWidth(max(width, self._width_now or self.sizeHint().width())))

    def _with_margins(self, size: QSize) -> QSize:
        margins = self.contentsMargins()
        return size + QSize(margins.left() + margins.right(), margins.top() + margins.bottom())

    def _visible_items(self) -> list[QLayoutItem]:
        return [item for item in self._items if not item.isEmpty()]

    @staticmethod
    def _expands(item: QLayoutItem) -> bool:
        return bool(item.expandingDirections() & Qt.Orientation.Horizontal)

    def _width(self, item: QLayoutItem) -> int:
        """What an item wants at least before it is pushed to another line."""
        widget = item.widget() if isinstance(item, QWidgetItem) else None
        policy = widget.sizePolicy().horizontalPolicy() if widget is not None else QSizePolicy.Policy.Preferred
        gives_way = policy == QSizePolicy.Policy.Ignored or (widget is not None and widget.property(ELIDES))
        return item.minimumSize().width() if gives_way else item.sizeHint().width()

    def _lines(self, width: int) -> list[list[QLayoutItem]]:
        lines: list[list[QLayoutItem]] = []
        used = 0
        for item in self._visible_items():
            wanted = self._width(item)
            if lines and used + self.spacing() + wanted <= width:
                lines[-1].append(item)
                used += self.spacing() + wanted
            else:
                lines.append([item])
                used = wanted
        return lines

    def _arrange(self, rect: QRect, *, move: bool) -> int:
        margins = self.contentsMargins()
        inner = rect.adjusted(margins.left(), margins.top(), -margins.right(), 0)
        top = inner.top()
        lines = self._lines(inner.width())
        for number, line in enumerate(lines):
            if number:
                top += self.spacing()
            height = max(item.sizeHint().height() for item in line)
            if move:
                self._place(line, QRect(inner.left(), top, inner.width(), height))
            top += height
        return top - rect.top() + margins.bottom()

    def _place(self, line: list[QLayoutItem], rect: QRect) -> None:
        widths = [min(self._width(item), rect.width()) for item in line]
        left_over = rect.width() - sum(widths) - self.spacing() * (len(line) - 1)
        growing = [place for place, item in enumerate(line) if self._expands(item)]
        for number, place in enumerate(growing):
            share = left_over // (len(growing) - number)
            widths[place] += share
            left_over -= share
        left = rect.left()
        for item, width in zip(line, widths, strict=True):
            height = min(item.sizeHint().height(), rect.height())
            item.setGeometry(QRect(QPoint(left, rect.top() + (rect.height() - height) // 2), QSize(width, height)))
            left += width + self.spacing()
