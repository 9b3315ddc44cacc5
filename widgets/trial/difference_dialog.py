"""What came to another result than in an earlier run, before and after an update of the project or of a device."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QApplication, QTreeWidget, QWidget

from app.trial.outcome import Result
from app.trial_record.comparison import RecordDifference
from app.trial_record.record import TrialRecord
from widgets.kit.dialogs.dialog import TABLE, Dialog
from widgets.kit.icons import icon
from widgets.kit.row_list import list_row, set_up_list
from widgets.trial.steps_model import RESULTS, result_words

translate = QCoreApplication.translate
_RESULT: Final = (2, 4)
"""The columns of the results, before and now."""


class DifferenceDialog(Dialog):
    """A row for each step, what became worse at the top."""

    def __init__(
        self,
        name: str,
        before: TrialRecord,
        differences: Sequence[RecordDifference],
        parent: QWidget | None = None,
    ) -> None:
        """`name` is that of the file of the record `before`."""
        super().__init__(parent, width=TABLE, height=460)
        worse = sum(each.worse for each in differences)
        self.setWindowTitle(self.tr("Compared with an earlier record"))
        when = f"{before.began.astimezone():%Y-%m-%d %H:%M}"
        if differences:
            headline = self.tr("Steps with another result: {count}; no longer passed: {worse}")
            self.tell(
                headline.format(count=len(differences), worse=worse),
                self.tr("Before: {file}, {when}").format(file=name, when=when),
                "alarm" if worse else "note",
            )
        else:
            self.tell(
                self.tr("Every step came to the same result"),
                self.tr("Before: {file}, {when}").format(file=name, when=when),
                "good",
            )
        self.tree = QTreeWidget()
        self.tree.setAccessibleName(self.tr("Differences"))
        titles = (
            self.tr("Case"),
            self.tr("Step"),
            self.tr("Before"),
            self.tr("Seen before"),
            self.tr("Now"),
            self.tr("Seen now"),
        )
        set_up_list(self.tree, titles, stretch=(1,))
        self._text = "\n".join("\t".join(self._cells(each)) for each in differences)
        for each in sorted(differences, key=lambda each: not each.worse):
            row = list_row(*self._cells(each))
            for column, result in zip(_RESULT, (each.before, each.after), strict=True):
                if result is not None:
                    row.setIcon(column, icon(RESULTS[result].icon, RESULTS[result].ink))
            self.tree.addTopLevelItem(row)
        self.tree.setVisible(bool(differences))
        self.body.addWidget(self.tree, 1)
        if differences:
            self.add_extra(self.tr("&Copy as text"), lambda: QApplication.clipboard().setText(self._text))
        self.add_close()

    def _cells(self, each: RecordDifference) -> tuple[str, ...]:
        words = each.words or self.tr("the whole case")
        before, after = map(_result_words, (each.before, each.after))
        return each.case, words, before, each.found_before, after, each.found_after


def _result_words(result: Result | None) -> str:
    return translate("DifferenceDialog", "not there") if result is None else result_words(result)
