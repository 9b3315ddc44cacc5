"""The findings as a table for a view: filtered and ordered, and changed row by row so that nothing jumps."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

from PySide6.QtCore import QCoreApplication, QModelIndex, QObject, Qt
from PySide6.QtGui import QIcon

from app.checks.finding import SEVERITY_ORDER, Finding, Severity
from widgets.kit.icons import icon, state_icon
from widgets.kit.tables import Index, TableModel

FindingKind = Severity | Literal["draft", "accepted"]
FindingOrder = Literal["severity", "place"]

translate = QCoreApplication.translate

_STATES: Final[dict[FindingKind, str]] = {
    "error": "alarm",
    "warning": "caution",
    "note": "note",
    "accepted": "good",
}
_SECTIONS: Final = ("panel", "line", "follower", "signal", "screen", "screen_change", "action")


@dataclass(frozen=True, slots=True)
class FindingRow:
    """One line of the list: a finding, or something typed and not accepted (then with its subject and row)."""

    kind: FindingKind
    where: str
    what: str
    hint: str
    finding: Finding | None = None
    subject: Hashable = None
    row: str = ""

    @property
    def same(self) -> tuple[Hashable, ...]:
        """By this the row is known again when its part has moved."""
        return self.kind, self.where, self.what if self.finding is None else self.finding.rule, self.subject, self.row


def severity_icon(severity: FindingKind, *, none: bool = False) -> QIcon:
    """An octagon with a cross, a triangle, a ring; a pencil for a draft. `none`: there is none of these."""
    return icon("edit", "fault") if severity == "draft" else state_icon(_STATES[severity], none=none)


def kind_names() -> dict[FindingKind, str]:
    """The names of the kinds, for what is read out and for those who see no colours."""
    return {
        "draft": translate("Findings", "pending"),
        "error": translate("Findings", "error"),
        "warning": translate("Findings", "warning"),
        "note": translate("Findings", "note"),
        "accepted": translate("Findings", "accepted"),
    }


def sort_findings(findings: Sequence[Finding], order: FindingOrder) -> list[Finding]:
    """The findings in another order than that of the checks, which is by severity."""
    if order == "severity":
        return list(findings)

    def place(finding: Finding) -> tuple[int, list[tuple[int, str]]]:
        section = finding.place[0] if finding.place else ""
        at = _SECTIONS.index(section) if section in _SECTIONS else -1
        rest = [(step, "") if isinstance(step, int) else (-1, step) for step in finding.place[1:]]
        return at, [*rest, (SEVERITY_ORDER[finding.severity], finding.rule)]

    return sorted(findings, key=place)


class FindingsModel(TableModel):
    """Severity, place, what is wrong, what to do; one row each."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.rows: list[FindingRow] = []
        self.titles = (
            translate("Findings", "Severity"),
            translate("Findings", "Location"),
            translate("Findings", "Problem"),
            translate("Findings", "Remedy"),
        )

    def show(self, rows: list[FindingRow]) -> None:
        """Show these. Rows that stay are left alone."""
        old = self.rows
        shorter = min(len(old), len(rows))
        begin = next((at for at in range(shorter) if old[at] != rows[at]), shorter)
        tail = next((at for at in range(shorter - begin) if old[-1 - at] != rows[-1 - at]), shorter - begin)
        self._take_out(begin, len(old) - tail, set(rows[begin : len(rows) - tail]))
        rest = self.rows[begin : len(self.rows) - tail]
        wanted = rows[begin : len(rows) - tail]
        going = iter(wanted)
        if not all(any(row == other for other in going) for row in rest):  # in another order
            self._take_out(begin, begin + len(rest), set())
        at = begin
        while at < len(rows):
            if at < len(self.rows) and self.rows[at] == rows[at]:
                at += 1
                continue
            end = at
            stop = self.rows[at] if at < len(self.rows) else None
            while end < len(rows) and rows[end] != stop:
                end += 1
            self.beginInsertRows(QModelIndex(), at, end - 1)
            self.rows[at:at] = rows[at:end]
            self.endInsertRows()
            at = end

    def _take_out(self, begin: int, end: int, stay: set[FindingRow]) -> None:
        last = end
        while last > begin:
            if self.rows[last - 1] in stay:
                last -= 1
                continue
            first = last - 1
            while first > begin and self.rows[first - 1] not in stay:
                first -= 1
            self.beginRemoveRows(QModelIndex(), first, last - 1)
            del self.rows[first:last]
            self.endRemoveRows()
            last = first

    def refresh(self) -> None:
        """Draw all anew: in other colours."""
        if self.rows:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.rows) - 1, len(self.titles) - 1))

    def count(self) -> int:
        """How many rows there are."""
        return len(self.rows)

    def cell(self, row: int, column: int) -> tuple[str, str]:
        """What stands in a cell."""
        shown = self.rows[row]
        return (kind_names()[shown.kind], shown.where, shown.what, shown.hint)[column], "ink"

    def tip(self, row: int, column: int) -> str:  # noqa: ARG002 - the same all along the row
        """All of the row, and what its fix would do."""
        shown = self.rows[row]
        said = f"{shown.where}: {shown.what}; {shown.hint}"
        if shown.finding is not None and shown.finding.fix is not None:
            said += "\n" + translate("Findings", "Fix: {words}").format(words=shown.finding.fix.words)
        return said

    def spoken(self, row: int, column: int) -> str:
        """All of the row at its first cell: the icon says nothing to a screen reader."""
        shown = self.rows[row]
        return f"{kind_names()[shown.kind]}: {shown.where}: {shown.what}; {shown.hint}" if column == 0 else ""

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role == Qt.ItemDataRole.DecorationRole and index.column() == 0:
            return severity_icon(self.rows[index.row()].kind)
        return super().data(index, role)
