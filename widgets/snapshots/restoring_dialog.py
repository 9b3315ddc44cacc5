"""The question before registers are written back: every value, old and new, and the cautions."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QDialogButtonBox, QTreeWidget, QVBoxLayout, QWidget

from app.snapshots.differences import RegisterDifference
from app.snapshots.restoring import place_text
from widgets.kit.focus import RingDialog
from widgets.kit.plain import plain_label
from widgets.kit.row_list import list_row, set_up_list
from widgets.kit.scaling import comfortable
from widgets.live.arming import HOLD_MS, HoldButton, cautions


class RestoringDialog(RingDialog):
    """Accepted only when the button was held."""

    def __init__(
        self,
        follower: str,
        rows: Sequence[RegisterDifference],
        parent: QWidget | None = None,
        *,
        hold_ms: int = HOLD_MS,
    ):
        super().__init__(parent)
        self.setWindowTitle(self.tr("Write back to {follower}").format(follower=follower))
        self.resize(comfortable(self, 620, 460))
        layout = QVBoxLayout(self)
        heading = plain_label(
            self.tr("These values will be written to the device: {count}").format(count=len(rows)), "heading"
        )
        layout.addWidget(heading)
        self.tree = QTreeWidget()
        self.tree.setAccessibleName(self.tr("Values to be written"))
        set_up_list(self.tree, (self.tr("Register"), self.tr("Now"), self.tr("New")), stretch=(1, 2))
        for row in rows:
            self.tree.addTopLevelItem(list_row(place_text(row), row.said_after, row.said_before))
        layout.addWidget(self.tree, 1)
        for text in cautions():
            label = plain_label("\N{WARNING SIGN} " + text, wrap=True)
            layout.addWidget(label)
        self.hold = HoldButton(self.tr("Hold to write"), hold_ms=hold_ms)
        self.hold.setToolTip(self.tr("Press and hold, with the mouse or the space bar, until the bar is full."))
        self.hold.held.connect(self.accept)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        buttons.addButton(self.hold, QDialogButtonBox.ButtonRole.ActionRole)
        buttons.rejected.connect(self.reject)
        layout.addWidget(buttons)
