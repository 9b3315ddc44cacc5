"""The question about signals and followers that a paste brings, and that mean something else in this project."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QTreeWidget,
    QVBoxLayout,
    QWidget,
)

from app.edits import Arrivals
from widgets.kit.focus import RingDialog
from widgets.kit.plain import plain_label
from widgets.kit.row_list import list_row, set_up_list
from widgets.kit.scaling import comfortable


class ArrivalsDialog(RingDialog):
    """Lists what differs, and offers both ways out; Escape pastes nothing."""

    chosen = Signal(bool)
    """Go on: True with what differs under new names, False with what this project has."""

    def __init__(self, arrivals: Arrivals, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(self.tr("Same names, different definitions"))
        self.resize(comfortable(self, 560, 340))
        heading = plain_label(
            self.tr("The pasted fields use signal names that exist here with other definitions. Which should be used?"),
            wrap=True,
        )
        self.tree = QTreeWidget()
        self.tree.setAccessibleName(self.tr("Differences"))
        titles = (self.tr("Name"), self.tr("Differs in"), self.tr("In this project"), self.tr("Pasted"))
        set_up_list(self.tree, titles, stretch=(2, 3))
        templates = {"signal": self.tr("signal '{name}'"), "follower": self.tr("device '{name}'")}
        for each in arrivals.differing:
            name = templates[each.kind].format(name=each.name)
            for unlike in each.unlike:
                self.tree.addTopLevelItem(list_row(name, unlike.key, unlike.here, unlike.there))
        first = self.tree.topLevelItem(0)
        if first is not None:
            self.tree.setCurrentItem(first)
        buttons = QDialogButtonBox()
        role = QDialogButtonBox.ButtonRole.AcceptRole
        self.keep = buttons.addButton(self.tr("&Use those of this project"), role)
        self.rename = buttons.addButton(self.tr("Use the pasted ones under &new names"), role)
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        self.keep.setDefault(True)
        self.keep.clicked.connect(lambda: self._choose(False))
        self.rename.clicked.connect(lambda: self._choose(True))
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.setSpacing(10)
        layout.addWidget(heading)
        layout.addWidget(self.tree, 1)
        layout.addWidget(buttons)
        self.keep.setFocus()

    def _choose(self, renaming: bool) -> None:
        self.accept()
        self.chosen.emit(renaming)
