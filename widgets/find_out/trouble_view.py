"""What may be wrong with a line: each suspicion with how likely it is, its evidence, and what to do about it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.listening.trouble import LineTrouble, Suspicion
from widgets.kit.dialogs.dialog import Sign, WholeArea
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled


class TroubleView(WholeArea):
    """Scrolls where there is not room for all. What is said can be copied."""

    def __init__(self) -> None:
        rows = QWidget()
        self._lines = QVBoxLayout(rows)
        self._lines.setContentsMargins(0, 0, 0, 0)
        self._lines.setSpacing(scaled(12))
        self.summary = _copied("")
        self._lines.addWidget(self.summary)
        self._lines.addStretch(1)
        super().__init__(rows)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)  # arrows scroll it
        self.setAccessibleName(self.tr("What may be wrong with the line"))
        self._trouble: LineTrouble | None = None
        self._shown: list[QWidget] = []

    def show_trouble(self, trouble: LineTrouble) -> None:
        """Show these suspicions, the likeliest first."""
        if trouble == self._trouble:
            return
        self._trouble = trouble
        self.summary.setText(trouble.summary)
        for each in self._shown:
            each.deleteLater()
        self._shown = [self._row(each) for each in trouble.suspicions]
        for place, row in enumerate(self._shown, 1):
            self._lines.insertWidget(place, row)
        said = [(each.title, each.evidence, each.to_do) for each in trouble.suspicions]
        self.setAccessibleDescription("\n".join((trouble.summary, *(words for each in said for words in each))))
        self.verticalScrollBar().setValue(0)
        self.updateGeometry()

    def _row(self, suspicion: Suspicion) -> QWidget:
        row, words = QWidget(), QVBoxLayout()
        words.setSpacing(scaled(2))
        title = self.tr("{title} ({likely})").format(title=suspicion.title, likely=suspicion.likely)
        for label in (_copied(title, "heading"), _copied(suspicion.evidence, "faint"), _copied(suspicion.to_do)):
            words.addWidget(label)
        layout = QHBoxLayout(row)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(scaled(8))
        sign = "note" if suspicion.kind == "echo" or suspicion.likelihood == "possible" else "caution"
        layout.addWidget(Sign(sign), 0, Qt.AlignmentFlag.AlignTop)
        layout.addLayout(words, 1)
        return row


def _copied(text: str, look: str = "") -> QLabel:
    label = plain_label(text, look, wrap=True)
    label.setAlignment(Qt.AlignmentFlag.AlignTop)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
