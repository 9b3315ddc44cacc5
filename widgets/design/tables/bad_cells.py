"""Which cells could not be taken, and whether the rest shall come in all the same."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QTreeWidget,
    QWidget,
)

from widgets.design.values.cell_reading import Proposal
from widgets.design.values.pasted_tables import text_of
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.plain import plain_label
from widgets.kit.row_list import list_row, set_up_list

MOST_LISTED: Final = 500


class BadCellsDialog(Dialog):
    """Lists bad cells by row and column, in words; the rest can come in without them."""

    def __init__(self, proposal: Proposal, parent: QWidget | None = None) -> None:
        super().__init__(parent, width=720, height=400)
        self.setObjectName("bad cells")
        self.setWindowTitle(self.tr("Cells that cannot be accepted"))
        bad = proposal.bad
        changed, added = len(proposal.parts), len(proposal.added)
        rest = (
            self.tr("The rest can be accepted: changed rows: {changed}, new rows: {added}").format(
                changed=changed, added=added
            )
            if changed or added
            else self.tr("There is nothing else to accept.")
        )
        self.tell(self.tr("Cells that cannot be accepted: {count}").format(count=len(bad)), rest, "caution")
        self.left_out = plain_label(
            self.tr(
                "New rows skipped: {count}. A new row with a cell that cannot be accepted is not added, because "
                "the cell would get a value that nobody chose."
            ).format(count=len(proposal.left_out)),
            wrap=True,
        )
        self.left_out.setVisible(bool(proposal.left_out))
        self.list = QTreeWidget()
        self.list.setAccessibleName(self.windowTitle())
        set_up_list(self.list, (self.tr("Row"), self.tr("Column"), self.tr("Text"), self.tr("Reason")), stretch=(2, 3))
        self.list.setUniformRowHeights(True)
        for cell in bad[:MOST_LISTED]:
            item = list_row(str(cell.row), cell.column, cell.text, cell.reason)
            item.setTextAlignment(0, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            self.list.addTopLevelItem(item)
        self._rows = [(str(cell.row), cell.column, cell.text, cell.reason) for cell in bad]
        self.body.addWidget(self.list, 1)
        if len(bad) > MOST_LISTED:
            words = self.tr("Only the first {count} are listed.").format(count=MOST_LISTED)
            self.body.addWidget(plain_label(words, "faint"))
        self.body.addWidget(self.left_out)
        self.add_extra(self.tr("&Copy the list"), self._copy)
        self.take = self.add_deed(self.tr("Accept the &rest"), writes=True)
        self.take.setEnabled(bool(changed or added))
        self.cancel = self.add_cancel(safe=True)  # nothing comes in by an Enter that was meant for something else

    def _copy(self) -> None:
        head = tuple(self.list.headerItem().text(column) for column in range(4))
        QGuiApplication.clipboard().setText(text_of([head, *self._rows]))


def take_the_rest(proposal: Proposal, parent: QWidget) -> bool:
    """Ask what is to become of the rest."""
    dialog = BadCellsDialog(proposal, parent.window())
    try:
        return dialog.exec() == QDialog.DialogCode.Accepted
    finally:
        dialog.deleteLater()


def counted_text(proposal: Proposal) -> str:
    """What came in, in words."""
    words = QCoreApplication.translate("BadCells", "Changed rows: {changed}. New rows: {added}.").format(
        changed=len(proposal.parts), added=len(proposal.added)
    )
    if not proposal.left_out:
        return words
    left_out = QCoreApplication.translate("BadCells", "New rows skipped: {count}.")
    return f"{words} {left_out.format(count=len(proposal.left_out))}"
