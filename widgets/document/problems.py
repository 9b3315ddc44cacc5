"""All that is wrong with a file, shown at once: where, what, and what would be right."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtGui import QTextCursor
from PySide6.QtWidgets import QApplication, QTextBrowser, QWidget

from app.project.problems import Problem
from widgets.kit.dialogs.dialog import Dialog

MOST_SHOWN: Final = 500
"""Nobody reads further; a hostile file may hold a million."""


class ProblemsDialog(Dialog):
    """A readable list, which can be copied as text."""

    def __init__(self, title: str, summary: str, problems: Sequence[Problem], parent: QWidget | None = None) -> None:
        super().__init__(parent, width=720, height=min(560, 220 + 52 * len(problems)))
        self.setWindowTitle(title)
        self.tell(summary, sign="caution")
        self._text = "\n".join([summary, "", *(_plain(problem) for problem in problems)])
        self.list = QTextBrowser()
        self.list.setOpenLinks(False)
        self.list.setAccessibleName(self.tr("Problems"))
        self._fill(problems)
        self.body.addWidget(self.list, 1)
        self.add_extra(self.tr("&Copy as text"), lambda: QApplication.clipboard().setText(self._text))
        self.add_close()

    @property
    def text(self) -> str:
        """Everything, as plain text."""
        return self._text

    def _fill(self, problems: Sequence[Problem]) -> None:
        # Built cell by cell with plain insertions: text of a file is never taken for markup.
        cursor = self.list.textCursor()
        bold, plain, faint = (cursor.charFormat() for _ in range(3))
        bold.setFontWeight(600)
        faint.setForeground(self.palette().placeholderText())
        for number, problem in enumerate(problems[:MOST_SHOWN], start=1):
            if number > 1:
                cursor.insertBlock()
                cursor.insertBlock()
            cursor.insertText(f"{number}.  {problem.where}" if problem.where else f"{number}.", bold)
            cursor.insertBlock()
            cursor.insertText(problem.message, plain)
            if problem.hint:
                cursor.insertBlock()
                cursor.insertText(f"\u2192 {problem.hint}", faint)
        if len(problems) > MOST_SHOWN:
            cursor.insertBlock()
            cursor.insertText(self.tr("... and {count} more.").format(count=len(problems) - MOST_SHOWN), faint)
        cursor.movePosition(QTextCursor.MoveOperation.Start)
        self.list.setTextCursor(cursor)


def _plain(problem: Problem) -> str:
    head = f"{problem.where}: {problem.message}" if problem.where else problem.message
    return f"{head}\n    {problem.hint}" if problem.hint else head
