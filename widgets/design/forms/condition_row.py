"""A row of a form for a condition: which signal, how it is compared, with what."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QCoreApplication, QSize
from PySide6.QtWidgets import QComboBox, QLineEdit, QSizePolicy, QWidget

from app.project.model import Condition
from app.signals.typed import number, plain
from widgets.design.forms.form import FormRow, Get, OptionsSource, Put
from widgets.document.drafts import DraftTexts
from widgets.kit.elided import ShortChoice
from widgets.kit.flow import FlowLayout
from widgets.kit.scaling import scaled

translate = QCoreApplication.translate
NO_CONDITION: Final = ("", "", "")


def comparisons() -> list[tuple[str, str]]:
    """Stored words and what a person reads."""
    return [
        ("set", translate("ConditionRow", "is set")),
        ("clear", translate("ConditionRow", "is clear")),
        ("above", translate("ConditionRow", "is above")),
        ("below", translate("ConditionRow", "is below")),
        ("equal", translate("ConditionRow", "equals")),
    ]


def condition_texts(condition: Condition | None) -> DraftTexts:
    """A condition as the row shows it."""
    return NO_CONDITION if condition is None else (condition.signal, condition.is_, plain(condition.value))


def read_condition(texts: DraftTexts) -> Condition | None:
    """The condition that the row shows; None without a signal. Raises ValueError in words."""
    signal, comparison, value = texts
    if not signal:
        return None
    if comparison in ("above", "below", "equal"):
        if not value.strip():
            raise ValueError(translate("ConditionRow", "a comparison value is needed"))
        return Condition.model_validate({"signal": signal, "is": comparison, "value": number(value)})
    return Condition.model_validate({"signal": signal, "is": comparison or "set"})


class ConditionRow(FormRow):
    """Signal, comparison and value side by side; the value only where there is one to compare with."""

    def __init__(
        self, label: str, get: Get, put: Put, signals: OptionsSource, hint: str = "", *, optional: bool = False
    ) -> None:
        super().__init__(label, get, put, hint)
        self._signals = signals
        self._offered: Sequence[tuple[str, str]] | None = None
        self._optional = optional
        self._signal = ShortChoice()
        self._signal.setAccessibleName(self.tr("{label}: signal").format(label=label))
        self._is = ShortChoice()
        self._is.setAccessibleName(self.tr("{label}: comparison").format(label=label))
        for value, text in comparisons():
            self._is.addItem(text, value)
        for box in (self._signal, self._is):
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            box.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._signal.setMinimumContentsLength(7)
        self._is.setMinimumContentsLength(6)
        self._value = _ShortEdit()
        self._value.setAccessibleName(self.tr("{label}: value").format(label=label))
        together = QWidget()
        flow = FlowLayout(together, spacing=4)
        for part in (self._signal, self._is, self._value):
            flow.addWidget(part)
        self._layout.addWidget(together, 1)
        self._signal.activated.connect(lambda _index: self._changed())
        self._is.activated.connect(lambda _index: self._changed())
        self._value.textEdited.connect(lambda _text: self.commit())

    def editors(self) -> tuple[QWidget, ...]:
        """The three."""
        return (self._signal, self._is, self._value)

    def texts(self) -> DraftTexts:
        """Signal, comparison, value."""
        return (str(self._signal.currentData() or ""), str(self._is.currentData() or ""), self._value.text())

    def set_texts(self, texts: DraftTexts) -> None:
        """Show these."""
        index = self._signal.place_of(texts[0])
        if index < 0:
            text = self.tr("{name} (missing)").format(name=texts[0]) if texts[0] else self.tr("(choose)")
            self._signal.put_missing(texts[0], text)
            self._offered = None
            index = 0
        self._signal.setCurrentIndex(index)
        self._is.setCurrentIndex(max(0, self._is.findData(texts[1])))
        self._value.setText(texts[2])
        self._show_parts()

    def before_refresh(self) -> None:
        """Bring the signals up to date."""
        signals = self._signals()
        if signals is not self._offered:
            self._offered = signals
            never = [("", self.tr("(never)"))] if self._optional else []
            self._signal.offer([*never, *signals])
            self._signal.setCurrentIndex(max(0, self._signal.currentIndex()))
        self._show_parts()

    def _show_parts(self) -> None:
        some = bool(self._signal.currentData())
        self._is.setVisible(some)
        self._value.setVisible(some and self._is.currentData() in ("above", "below", "equal"))

    def _changed(self) -> None:
        if self._is.currentData() not in ("above", "below", "equal"):
            self._value.clear()
        self._show_parts()
        self.commit()


class _ShortEdit(QLineEdit):
    def sizeHint(self) -> QSize:
        return QSize(scaled(54), super().sizeHint().height())

    def minimumSizeHint(self) -> QSize:
        return QSize(scaled(40), super().minimumSizeHint().height())
