"""When cells of a screen blink: the question, and the answer as one step of the document."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QRect
from PySide6.QtWidgets import QWidget

from app import edits
from app.project.model import Condition
from widgets.design.forms.condition_row import ConditionRow, condition_texts, read_condition
from widgets.design.forms.form import Form
from widgets.design.forms.rows import ChoiceRow
from widgets.design.forms.signal_picker import signal_choices
from widgets.document.document import Document
from widgets.document.drafts import Drafts, DraftTexts
from widgets.kit.dialogs.dialog import Dialog

translate = QCoreApplication.translate
CELLS, SCREEN = "cells", "screen"


class BlinkDialog(Dialog):
    """Asks when the selected cells, or all cells of the screen, blink; shows what is said of them now."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent, height=300)
        self._document = document
        selection = document.selection
        row, column = selection.cell
        self._block = selection.block or QRect(column, row, 1, 1)
        screen = document.screen
        found = None if screen is None else edits.blinking_at(screen, self._block.top(), self._block.left())
        if selection.block is None and found is not None and found.at is not None:
            self._block = QRect(found.at[1], found.at[0], found.width or 1, 1)
        whole = selection.block is None and (found is None or found.at is None)
        self._target = SCREEN if whole else CELLS
        self._texts = condition_texts(found.when if found is not None else None)
        self.setWindowTitle(self.tr("Blink"))
        self.tell(
            self.tr("When does it blink?"),
            self.tr("Text and values there blink. A value that the operator is changing does not."),
        )
        form = Form(Drafts(self))
        layout = form.layout()
        assert layout is not None
        layout.setContentsMargins(0, 0, 0, 0)  # the dialog has its own
        self.target = ChoiceRow(self.tr("What blinks"), lambda: (self._target,), self._take_target, self._targets)
        self.when = ConditionRow(
            self.tr("Blinks when"),
            lambda: self._texts,
            self._take_texts,
            lambda: signal_choices(document.project),
            optional=True,
        )
        form.add(self.target)
        form.add(self.when)
        form.finish()
        form.show_subject("blink")
        self.body.addWidget(form, 1)
        self.add_deed(self.tr("Take over"), self._finish)
        self.add_cancel()
        self.when.editors()[0].setFocus()

    def _targets(self) -> list[tuple[str, str]]:
        cells = self._block.width() * self._block.height()
        words = self.tr("the selected cells ({n})").format(n=cells)
        return [(CELLS, words), (SCREEN, self.tr("the whole screen"))]

    def _take_target(self, texts: DraftTexts) -> None:
        self._target = texts[0]

    def _take_texts(self, texts: DraftTexts) -> str | None:
        try:
            read_condition(texts)
        except ValueError as error:
            self.deed.setEnabled(False)
            return str(error)
        self._texts = texts
        self.deed.setEnabled(True)
        return None

    def _finish(self) -> None:
        if set_blinking(self._document, None if self._target == SCREEN else self._block, read_condition(self._texts)):
            self.accept()


def set_blinking(document: Document, block: QRect | None, when: Condition | None) -> bool:
    """Let cells (columns in x, rows in y; None: all) blink while this holds, as one step. False if it was refused."""
    name = document.selection.screen
    cells = None if block is None else edits.Block(block.top(), block.left(), block.height(), block.width())
    step = (
        translate("BlinkDialog", "Let cells blink") if when is not None else translate("BlinkDialog", "Stop blinking")
    )
    return document.do(step, lambda project: edits.set_blinking(project, name, cells, when)) is None
