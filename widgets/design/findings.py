"""The list of what the design checks found, and of what was typed but could not be accepted yet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QModelIndex, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QToolButton,
    QTreeView,
    QVBoxLayout,
    QWidget,
)

from app.checks.finding import SEVERITY_ORDER, Finding, Fix, Severity
from app.project.model import ScreenChange
from widgets.design.findings_model import (
    FindingOrder,
    FindingRow,
    FindingsModel,
    kind_names,
    severity_icon,
    sort_findings,
)
from widgets.document.drafts import Drafts, subject_text
from widgets.document.unfinished import Unfinished, lacking
from widgets.kit.controls import Choice
from widgets.kit.elided import ShortLines
from widgets.kit.flow import FlowLayout
from widgets.kit.plain import plain_label, plain_tip
from widgets.kit.row_list import RowDelegate
from widgets.kit.scaling import scaled
from widgets.kit.tables import keep_headings_whole, row_height

_LONGEST_BUTTON: Final = 44
"""Characters of a fix on its button; the rest is in its tool tip."""
MOST_ROWS: Final = 200
"""Nobody works through more; the most severe are among them."""


class FindingsList(QWidget):
    """Findings by severity. A click or Enter asks to go to the place, a button to fix.

    What is selected stays so while findings come and go around it.
    """

    place_chosen = Signal(object)
    """A `Place` of a finding."""
    draft_chosen = Signal(object, str)
    """Subject and row of something typed and not accepted."""
    fix_wanted = Signal(object)
    """A `Finding` that has an automatic fix."""
    accept_wanted = Signal(object)
    """A `Finding` that is to be accepted, or one that is and shall not be any more."""
    shown_changed = Signal()
    """Other findings, or another one is selected."""
    left = Signal()
    """Somebody has done with the list: by Escape, or by going to a place."""

    def __init__(self, drafts: Drafts, begun: Unfinished, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._drafts = drafts
        self._begun = begun
        self._findings: tuple[Finding, ...] = ()
        self._checked = False
        self._accepted: tuple[Finding, ...] = ()
        self.model = FindingsModel(self)
        self.tree = _Tree()
        self.tree.setModel(self.model)
        keep_headings_whole(self.tree.header())
        self.tree.setAccessibleName(self.tr("Findings of the design checks"))
        self.tree.clicked.connect(lambda index: self._choose(index.row()))
        self.tree.entered_by_key.connect(self._leave_for)
        self.tree.selectionModel().currentRowChanged.connect(lambda _now, _before: self._show_current())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(self._make_top())
        layout.addWidget(self.tree, 1)
        layout.addLayout(self._make_bottom())
        drafts.changed.connect(self._fill)
        begun.changed.connect(self._fill)
        begun.completed.connect(self._fill)
        self._fill()

    def _make_top(self) -> FlowLayout:
        top = FlowLayout(spacing=6)
        top.setContentsMargins(8, 2, 8, 0)
        self.title = plain_label(self.tr("Findings"), "heading")
        top.addWidget(self.title)
        self.filters: dict[Severity, QToolButton] = {}
        for severity in SEVERITY_ORDER:
            button = QToolButton()
            button.setCheckable(True)
            button.setChecked(True)
            button.setAutoRaise(True)
            button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
            button.setIcon(severity_icon(severity))
            button.toggled.connect(lambda _on: self._fill())
            self.filters[severity] = button
            top.addWidget(button)
        self.accepted = QToolButton()
        self.accepted.setCheckable(True)
        self.accepted.setAutoRaise(True)
        self.accepted.toggled.connect(lambda _on: self._fill())
        top.addWidget(self.accepted)
        self.summary = plain_label("", "faint")
        top.addWidget(self.summary)
        top.add_stretch()
        self.order = Choice()
        self.order.addItem(self.tr("by severity"), "severity")
        self.order.addItem(self.tr("by location"), "place")
        self.order.setAccessibleName(self.tr("Order of the findings"))
        self.order.setToolTip(self.tr("Order of the findings"))
        self.order.currentIndexChanged.connect(lambda _index: self._fill())
        top.addWidget(self.order)
        return top

    def _make_bottom(self) -> QHBoxLayout:
        bottom = QHBoxLayout()
        bottom.setContentsMargins(8, 2, 8, 4)
        bottom.setSpacing(8)
        # Two lines, whether something is selected or not, so that the list never moves under the pointer.
        self.detail = ShortLines(2)
        self.detail.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.fix = QPushButton()
        self.fix.clicked.connect(lambda _checked=False: self._fix())
        self.accept = QPushButton()
        self.accept.clicked.connect(lambda _checked=False: self.accept_current())
        bottom.addWidget(self.detail, 1)
        bottom.addWidget(self.accept)
        bottom.addWidget(self.fix)
        return bottom

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What was found, also what the filters hide."""
        return self._findings

    def set_findings(
        self, findings: Sequence[Finding], accepted: Sequence[Finding] = (), *, checked: bool = True
    ) -> None:
        """List these, which come by severity, and apart from them those that are accepted.

        Without `checked` the project has not been looked at yet.
        """
        self._findings, self._accepted, self._checked = tuple(findings), tuple(accepted), checked
        self._fill()

    def current(self) -> FindingRow | None:
        """The selected row."""
        at = self.tree.currentIndex().row()
        return self.model.rows[at] if 0 <= at < len(self.model.rows) else None

    def select(self, at: int) -> FindingRow | None:
        """Select the row with this number, counted from 0 and on from the other end; None if there is no row."""
        count = len(self.model.rows)
        if not count:
            return None
        self.tree.setCurrentIndex(self.model.index(at % count, 0))
        return self.current()

    def step(self, way: int) -> None:
        """Select the next row (1) or the one before (-1), and ask to go to its place."""
        at = self.tree.currentIndex().row()
        if self.select(at + way if at >= 0 else min(way, 0)) is not None:
            self._choose(self.tree.currentIndex().row())

    def whole_height(self) -> int:
        """Pixels in which all rows can be seen, and at least three can."""
        rows = max(3, self.model.rowCount())
        around = self.sizeHint().height() - self.tree.sizeHint().height()
        return around + self.tree.header().sizeHint().height() + rows * row_height(self.tree) + 2

    def _fill(self) -> None:
        rows = [
            FindingRow(
                "draft",
                f"{subject_text(subject)}, {row}",
                self.tr("'{text}' was not accepted: {reason}").format(text=" ".join(texts), reason=reason),
                self.tr("correct it there"),
                None,
                subject,
                row,
            )
            for subject, row, texts, reason in self._drafts.all()
        ]
        rows += [
            FindingRow(
                "draft",
                self.tr("a screen change") if isinstance(rule, ScreenChange) else self.tr("an action"),
                self.tr("incomplete and without effect; missing: {what}").format(what=", ".join(lacking(rule))),
                self.tr("complete it there, or delete it"),
                None,
                ("begun", number),
            )
            for number, rule in enumerate(self._begun.all())
        ]
        wanted = [finding for finding in self._findings if self.filters[finding.severity].isChecked()]
        order: FindingOrder = "place" if self.order.currentData() == "place" else "severity"
        rows += [
            FindingRow(finding.severity, finding.where, finding.message, finding.hint, finding)
            for finding in sort_findings(wanted[:MOST_ROWS], order)
        ]
        if self.accepted.isChecked():
            rows += [
                FindingRow(
                    "accepted",
                    finding.where,
                    finding.message,
                    self.tr("accepted: {reason}").format(reason=finding.accepted),
                    finding,
                )
                for finding in sort_findings(self._accepted, order)
            ]
        before, at = self.current(), self.tree.currentIndex().row()
        self.model.show(rows)
        if before is not None and self.current() != before:
            self._select_again(before, at)
        self._count(len(wanted))
        self._show_current()

    def _select_again(self, before: FindingRow, at: int) -> None:
        """Select what was selected, though it is called otherwise now; else what stands in its place."""
        rows = self.model.rows
        found = next((number for number, row in enumerate(rows) if row.same == before.same), min(at, len(rows) - 1))
        self.tree.setCurrentIndex(self.model.index(found, 0) if found >= 0 else QModelIndex())

    def counted(self) -> dict[Severity, int]:
        """How many findings there are of each severity, also of those that the filters hide."""
        counts = dict.fromkeys(SEVERITY_ORDER, 0)
        for finding in self._findings:
            counts[finding.severity] += 1
        return counts

    def _count(self, wanted: int) -> None:
        counts = self.counted()
        words = {
            "error": self.tr("Errors: {count}"),
            "warning": self.tr("Warnings: {count}"),
            "note": self.tr("Notes: {count}"),
        }
        for severity, button in self.filters.items():
            text = words[severity].format(count=counts[severity])
            if button.text() != text:
                button.setText(text)
                button.setAccessibleName(text)
            button.setToolTip(self.tr("Hide") if button.isChecked() else self.tr("Show"))
        self.accepted.setText(self.tr("Accepted: {count}").format(count=len(self._accepted)))
        self.accepted.setAccessibleName(self.accepted.text())
        self.accepted.setToolTip(self.tr("Hide") if self.accepted.isChecked() else self.tr("Show"))
        self.accepted.setVisible(bool(self._accepted) or self.accepted.isChecked())
        parts = []
        if drafts := len(self._drafts.all()) + len(self._begun.all()):
            parts.append(self.tr("{count} pending").format(count=drafts))
        elif not self._findings:
            parts.append(self.tr("nothing found") if self._checked else self.tr("checking\u2026"))
        if hidden := sum(counts[severity] for severity, button in self.filters.items() if not button.isChecked()):
            parts.append(self.tr("{count} hidden").format(count=hidden))
        if wanted > MOST_ROWS:
            parts.append(self.tr("the first {count} of {all} listed").format(count=MOST_ROWS, all=wanted))
        self.summary.setText(", ".join(parts))

    def _show_current(self) -> None:
        row = self.current()
        self.detail.setText(
            "" if row is None else self.tr("{what}. Remedy: {hint}.").format(what=row.what, hint=row.hint)
        )
        self._show_accepting(row)
        fix = None if row is None or row.finding is None or row.finding.accepted else row.finding.fix
        # A button that went while it has the focus would take the focus elsewhere.
        self.fix.setEnabled(fix is not None or self.fix.hasFocus())
        words = self.tr("Fix") if fix is None else fix.words
        self.fix.setText(words if len(words) <= _LONGEST_BUTTON else words[: _LONGEST_BUTTON - 1] + "\u2026")
        if fix is not None:
            self.fix.setToolTip(plain_tip(self.tr("{words} (Ctrl+F7). Can be undone.").format(words=fix.words)))
        elif row is None:
            self.fix.setToolTip(self.tr("Select a finding first."))
        else:
            self.fix.setToolTip(self.tr("No automatic fix; press Enter to go to the location."))
        self.fix.setAccessibleName(self.tr("Fix: {words}").format(words=words) if fix is not None else words)
        self.shown_changed.emit()

    def shown(self) -> FindingRow | None:
        """What is told where there is room for one: the selected row, else the first, which is the most severe."""
        return self.current() or min(self.model.rows, key=_severity, default=None)

    def fix_of_shown(self) -> Fix | None:
        """The automatic fix of that one."""
        row = self.shown()
        return None if row is None or row.finding is None or row.finding.accepted else row.finding.fix

    def deed_of_shown(self) -> Fix | None:
        """The fix that one button can offer for that one; None: to go there is what it offers."""
        fix = self.fix_of_shown()
        return None if fix is None or fix.last_resort else fix

    def act(self) -> None:
        """Ask for the fix of the one that is told, or to go to its place where there is none for one button."""
        row = self.shown()
        if row is None:
            return
        if row.finding is not None and self.deed_of_shown() is not None:
            self.fix_wanted.emit(row.finding)
        else:
            self._choose(self.model.rows.index(row))

    def _show_accepting(self, row: FindingRow | None) -> None:
        finding = None if row is None else row.finding
        taken_back = finding is not None and bool(finding.accepted)
        can = finding is not None and finding.severity != "error"
        self.accept.setText(self.tr("Withdraw acceptance") if taken_back else self.tr("Accept\u2026"))
        self.accept.setEnabled(can or self.accept.hasFocus())
        if finding is None:
            self.accept.setToolTip(self.tr("Select a finding first."))
        elif not can:
            self.accept.setToolTip(self.tr("An error cannot be accepted: the panel cannot work as designed."))
        else:
            self.accept.setToolTip(self.tr("Give a reason; it is kept in the file (Ctrl+Shift+F7)"))

    def accept_current(self) -> None:
        """Ask for the finding that is told to be accepted, or not any more."""
        row = self.shown()
        if row is not None and row.finding is not None:
            self.accept_wanted.emit(row.finding)

    def _leave_for(self, at: int) -> None:
        """Go to the place of a row; the list would lie over it."""
        self.left.emit()
        self._choose(at)

    def _choose(self, at: int) -> None:
        row = self.model.rows[at] if 0 <= at < len(self.model.rows) else None
        if row is None:
            return
        if row.finding is None:
            self.draft_chosen.emit(row.subject, row.row)
        else:
            self.place_chosen.emit(row.finding.place)

    def _fix(self) -> None:
        row = self.current()
        if row is not None and row.finding is not None and row.finding.fix is not None:
            self.fix_wanted.emit(row.finding)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leaves the list."""
        if event.key() == Qt.Key.Key_Escape:
            event.accept()
            self.left.emit()
            return
        super().keyPressEvent(event)

    def refresh_colours(self) -> None:
        """Draw the shapes in the colours of now."""
        for severity, button in self.filters.items():
            button.setIcon(severity_icon(severity))
        self.model.refresh()


def _severity(row: FindingRow) -> int:
    """What is pending before all that was found, what is accepted behind it."""
    return -1 if row.kind == "draft" else len(SEVERITY_ORDER) if row.kind == "accepted" else SEVERITY_ORDER[row.kind]


class _Tree(QTreeView):
    entered_by_key = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self.setRootIsDecorated(False)
        self.setUniformRowHeights(True)
        self.setItemDelegate(RowDelegate(self))
        self.setIconSize(QSize(scaled(14), scaled(14)))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        header = self.header()
        header.setStretchLastSection(True)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            width = self.viewport().width()
            severity_order = max(map(self.fontMetrics().horizontalAdvance, kind_names().values())) + scaled(42)
            place = min(scaled(200), width // 5)
            self.header().resizeSection(0, severity_order)
            self.header().resizeSection(1, place)
            self.header().resizeSection(2, (width - severity_order - place) * 56 // 100)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.currentIndex().isValid():
            self.entered_by_key.emit(self.currentIndex().row())
            return
        super().keyPressEvent(event)
