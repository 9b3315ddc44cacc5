"""The question before registers are written back: every value, old and new, and the cautions."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QTreeWidget, QWidget

from app.snapshots.differences import RegisterDifference
from app.snapshots.restoring import place_text
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.row_list import list_row, set_up_list
from widgets.live.arming import HOLD_MS, Caution, HoldButton, cautions


class RestoringDialog(Dialog):
    """Accepted only when the button was held."""

    def __init__(
        self,
        follower: str,
        rows: Sequence[RegisterDifference],
        parent: QWidget | None = None,
        *,
        hold_ms: int = HOLD_MS,
    ):
        super().__init__(parent, width=620, height=460)
        self.setWindowTitle(self.tr("Write back to {follower}").format(follower=follower))
        self.tell(
            self.tr("Write back to {follower}?").format(follower=follower),
            self.tr("These values will be written to the device: {count}").format(count=len(rows)),
        )
        self.tree = QTreeWidget()
        self.tree.setAccessibleName(self.tr("Values to be written"))
        set_up_list(self.tree, (self.tr("Register"), self.tr("Now"), self.tr("New")), stretch=(0,))
        for row in rows:
            self.tree.addTopLevelItem(list_row(place_text(row), row.said_after, row.said_before))
        self.body.addWidget(self.tree, 1)
        for text in cautions():
            self.body.addWidget(Caution(text))
        self.hold = HoldButton(self.tr("Hold to write"), hold_ms=hold_ms)
        self.hold.held.connect(self.accept)
        self.add_button(self.hold)
        self.add_cancel(safe=True)
