"""The question about signals and followers that a paste brings, and that mean something else in this project."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QTreeWidget, QWidget

from app.edits import Arrivals
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.row_list import list_row, set_up_list


class ArrivalsDialog(Dialog):
    """Lists what differs, and offers both ways out; Escape pastes nothing."""

    chosen = Signal(bool)
    """Go on: True with what differs under new names, False with what this project has."""

    def __init__(self, arrivals: Arrivals, parent: QWidget | None = None) -> None:
        super().__init__(parent, width=620, height=340)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.tell(
            self.tr("Same names, different definitions"),
            self.tr("The pasted fields use signal names that exist here with other definitions. Which should be used?"),
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
        self.body.addWidget(self.tree, 1)
        self.keep = self.add_deed(self.tr("&Use those of this project"), lambda: self._choose(False))
        self.rename = self.add_other(self.tr("Use the pasted ones under &new names"), lambda: self._choose(True))
        self.add_cancel()
        self.keep.setFocus()

    def _choose(self, renaming: bool) -> None:
        self.accept()
        self.chosen.emit(renaming)
