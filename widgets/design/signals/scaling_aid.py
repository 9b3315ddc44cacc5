"""An aid for the scale of a signal: two points, raw, value and shown text side by side, and what comes of them."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Final

from pydantic import ValidationError
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QGridLayout,
    QLabel,
    QLineEdit,
    QWidget,
)

from app.edits.signals import change_signal
from app.project.model import Project, RegisterSignal, Scale
from app.project.scale_figures import ScaleFigures, exact_text, points_of, too_narrow
from app.project_file.validation_messages import refusal_of
from app.signals.encoding import is_float
from app.signals.typed import number, pair, plain
from widgets.kit.controls import UnitLine, WholeNumber
from widgets.kit.dialogs.dialog import Dialog, WholeArea
from widgets.kit.fonts import for_cells
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.scaling import air, scaled

MOST_NAMED: Final = 4


class ScalingAid(Dialog):
    """Edits the scale and the decimals of one signal; nothing is accepted before it is confirmed."""

    def __init__(self, project: Project, signal: RegisterSignal, parent: QWidget | None = None) -> None:
        super().__init__(parent, height=500)
        self.setObjectName("scaling")
        self.tell(
            self.tr("Scaling of '{name}'").format(name=signal.name),
            self.tr("Two points say which value a raw number of the register means."),
        )
        self._project = project
        self._signal = signal
        self._figures: ScaleFigures | None = None
        points = signal.scale
        self.raw = [self._edit(self.tr("First point, raw")), self._edit(self.tr("Second point, raw"))]
        unit = signal.unit
        self.value = [self._edit(self.tr("First point, value"), unit), self._edit(self.tr("Second point, value"), unit)]
        self.shown = [self._figure_label(), self._figure_label(), self._figure_label()]
        self.slope = self._edit(self.tr("Value of one raw count"), unit)
        self.offset = self._edit(self.tr("Value of raw 0"), unit)
        self.try_raw = self._edit(self.tr("Test value, raw"))
        self.try_value = self._edit(self.tr("Test value"), unit)
        self.decimals = WholeNumber()
        self.decimals.setRange(0, 9)
        self.decimals.setValue(signal.decimals)
        self.decimals.setAccessibleName(self.tr("Decimals"))
        self.reason = plain_label(wrap=True)
        self.told = plain_label(wrap=True)
        self.told.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._lay_out()
        if points is not None:
            for index in (0, 1):
                self.raw[index].setText(plain(points.raw[index]))
                self.value[index].setText(plain(points.value[index]))
        self.try_raw.setText(self._first_try())
        for edit in (*self.raw, *self.value):
            edit.textEdited.connect(lambda _text: self._points_edited())
        for edit in (self.slope, self.offset):
            edit.textEdited.connect(lambda _text: self._factor_edited())
        self.try_raw.textEdited.connect(lambda _text: self._try("raw"))
        self.try_value.textEdited.connect(lambda _text: self._try("value"))
        self.decimals.valueChanged.connect(lambda _value: self._points_edited())
        self._points_edited()
        self.raw[0].setFocus(Qt.FocusReason.OtherFocusReason)
        self.raw[0].selectAll()

    # What was made

    @property
    def scale(self) -> Scale | None:
        """The scale as it stands there; None: none."""
        return self._figures.scale if self._figures is not None else None

    def edit(self) -> Callable[[Project], Project]:
        """The edit that gives the signal this scale and these decimals."""
        name, scale, decimals = self._signal.name, self.scale, self.decimals.value()
        return lambda project: change_signal(project, name, scale=scale, decimals=decimals)

    # Layout

    @staticmethod
    def _edit(name: str, unit: str = "") -> QLineEdit:
        edit = UnitLine(unit)
        edit.setAccessibleName(name)
        return edit

    @staticmethod
    def _figure_label() -> QLabel:
        label = plain_label()
        label.setFont(for_cells(label.font()))
        label.setMinimumWidth(110)
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        return label

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setContentsMargins(2, 0, 2, 0)  # the focus is drawn around an editor
        grid.setHorizontalSpacing(scaled(8))
        grid.setVerticalSpacing(air(4))
        heads = (self.tr("Raw"), self.tr("Value"), self.tr("Shown on the panel"))
        for column, head in enumerate(heads, start=1):
            label = plain_label(head, "heading")
            grid.addWidget(label, 0, column)
        rows = (
            (self.tr("&First point"), self.raw[0], self.value[0], self.shown[0]),
            (self.tr("&Second point"), self.raw[1], self.value[1], self.shown[1]),
            (self.tr("&Test value"), self.try_raw, self.try_value, self.shown[2]),
        )
        for row, (title, raw, value, shown) in enumerate(rows, start=1):
            at = row if row < 3 else row + 2
            caption = QLabel(title)
            caption.setBuddy(raw)
            grid.addWidget(caption, at, 0)
            grid.addWidget(raw, at, 1)
            grid.addWidget(value, at, 2)
            grid.addWidget(shown, at, 3)
        for row, title, edit in (
            (3, self.tr("&One raw count equals"), self.slope),
            (4, self.tr("Raw &0 equals"), self.offset),
        ):
            caption = QLabel(title)
            caption.setBuddy(edit)
            grid.addWidget(caption, row, 0)
            grid.addWidget(edit, row, 2)
        caption = QLabel(self.tr("&Decimals"))
        caption.setBuddy(self.decimals)
        grid.addWidget(caption, 6, 0)
        grid.addWidget(self.decimals, 6, 2)
        grid.setColumnStretch(3, 1)
        held = QWidget()
        held.setLayout(grid)
        self.body.addWidget(WholeArea(held))
        self.body.addWidget(self.reason)
        self.body.addWidget(self.told, 1, Qt.AlignmentFlag.AlignTop)
        self.none = self.add_extra(self.tr("&No scaling"), self._clear)
        self.none.setToolTip(self.tr("The value is the raw number"))
        self.add_deed(self.tr("&Use this scale"))
        self.add_cancel()

    # What is typed

    def _points_edited(self) -> None:
        reason, waiting = "", False
        scale: Scale | None = None
        texts = [edit.text() for edit in (*self.raw, *self.value)]
        if any(text.strip() for text in texts):
            waiting = not all(text.strip() for text in texts)
            try:
                raw, value = pair((texts[0], texts[1])), pair((texts[2], texts[3]))
                if raw is None or value is None:
                    raise ValueError(self.tr("both points need raw and value"))
                scale = Scale(raw=raw, value=value)
            except ValidationError as error:
                reason = refusal_of(error)
            except ValueError as error:
                reason = str(error)
        self._take(scale, reason, waiting=waiting)
        if not reason:
            self._show_factor()

    def _factor_edited(self) -> None:
        """The factor gives the values at the two raw numbers; without any, those of 0 and the top of the encoding."""
        reason = ""
        scale: Scale | None = None
        waiting = not self.slope.text().strip()
        try:
            slope = number(self.slope.text())
            offset = number(self.offset.text()) if self.offset.text().strip() else Decimal(0)
            raw = pair((self.raw[0].text(), self.raw[1].text())) or (Decimal(0), Decimal(1000))
            scale = points_of(slope, offset, raw)
        except ValidationError as error:
            reason = refusal_of(error)
        except ValueError as error:
            reason = str(error)
        if scale is not None:
            for index in (0, 1):
                self.raw[index].setText(plain(scale.raw[index]))
                self.value[index].setText(plain(scale.value[index]))
        self._take(scale, reason, waiting=waiting)

    def _clear(self) -> None:
        for edit in (*self.raw, *self.value, self.slope, self.offset):
            edit.clear()
        self._points_edited()
        self.deed.setFocus(Qt.FocusReason.OtherFocusReason)

    def _take(self, scale: Scale | None, reason: str, *, waiting: bool) -> None:
        self._figures = None if reason else ScaleFigures(self._signal.encoding, scale, self.decimals.value())
        set_look(self.reason, "faint" if waiting else "fault")
        self.reason.setText(reason[:1].upper() + reason[1:])
        self.reason.setVisible(bool(reason))
        self.deed.setEnabled(not reason)
        self._tell()
        self._try("raw")

    def _show_factor(self) -> None:
        figures = self._figures
        if figures is None:
            return
        self.slope.setText(exact_text(figures.line.slope) if figures.scale is not None else "")
        self.offset.setText(exact_text(figures.offset) if figures.scale is not None else "")

    def _first_try(self) -> str:
        scale = self._signal.scale
        return "" if scale is None else plain(scale.raw[1])

    def _try(self, given: str) -> None:
        """Work out the other of raw and value."""
        figures = self._figures
        source, other = (self.try_raw, self.try_value) if given == "raw" else (self.try_value, self.try_raw)
        self.shown[2].clear()
        if figures is None or not source.text().strip():
            other.clear()
            return
        try:
            typed = Fraction(number(source.text()))
        except ValueError as error:
            other.clear()
            self.shown[2].setText(str(error))
            return
        raw = typed if given == "raw" else figures.raw_of(typed)
        value = figures.line.value(raw)
        other.setText(exact_text(value if given == "raw" else raw))
        text = self._panel_text(figures, value)
        if not figures.holds(raw):
            text = self.tr("raw {raw} is outside {encoding}").format(encoding=figures.encoding, raw=exact_text(raw))
        elif given == "value" and value != typed:
            text += "  " + self.tr("(exactly {value})").format(value=exact_text(value))
        self.shown[2].setText(text)

    # What comes of it

    def _panel_text(self, figures: ScaleFigures, value: Fraction) -> str:
        return f"{figures.text_of(value)} {self._signal.unit}".rstrip()

    def _tell(self) -> None:
        figures = self._figures
        for index in (0, 1):
            self.shown[index].clear()
        if figures is None:
            self.told.clear()
            return
        if figures.scale is not None:
            for index in (0, 1):
                self.shown[index].setText(self._panel_text(figures, Fraction(figures.scale.value[index])))
        self.told.setText("\n".join(self._sentences(figures)))

    def _sentences(self, figures: ScaleFigures) -> list[str]:
        unit = self._signal.unit
        slope, offset = figures.line.slope, figures.offset
        sign = "-" if offset < 0 else "+"
        found = [
            self.tr("value = raw x {slope} {sign} {offset}").format(
                slope=exact_text(slope), sign=sign, offset=exact_text(abs(offset))
            )
        ]
        raw, span = figures.raw_span, figures.value_span
        if raw is not None and span is not None:
            found.append(
                self.tr("{encoding} covers raw {least} to {greatest}: that is {low} to {high}.").format(
                    encoding=figures.encoding,
                    least=raw[0],
                    greatest=raw[1],
                    low=self._panel_text(figures, span[0]),
                    high=self._panel_text(figures, span[1]),
                )
            )
        if not is_float(figures.encoding):
            count, last = abs(slope), Fraction(1, 10**figures.decimals)
            text = self.tr("One raw count equals {count} {unit}").format(count=exact_text(count), unit=unit).rstrip()
            if count > last:
                text += self.tr("; the last decimal shown moves in steps.")
            elif count < last:
                text += self.tr("; the panel shows fewer decimals than the register holds.")
            else:
                text += self.tr("; that is one unit of the last decimal shown.")
            found.append(text)
        found += self._limits(figures)
        found += self._width(figures)
        return found

    def _limits(self, figures: ScaleFigures) -> list[str]:
        limits = self._signal.limits
        if limits is None:
            return []
        ends = [figures.raw_of(Fraction(limit)) for limit in limits]
        text = self.tr("The limits {low} to {high} are raw {first} to {last}.").format(
            low=plain(limits[0]), high=plain(limits[1]), first=exact_text(ends[0]), last=exact_text(ends[1])
        )
        if not all(figures.holds(end) for end in ends):
            text += " " + self.tr("Part of this range is outside {encoding}.").format(encoding=figures.encoding)
        return [text]

    def _width(self, figures: ScaleFigures) -> list[str]:
        widest = figures.widest
        if widest is None and self._signal.limits is not None:
            widest = max((figures.text_of(Fraction(limit)) for limit in self._signal.limits), key=len)
        if widest is None:
            return []
        width = len(widest)
        found = [self.tr("The longest text is {text}; cells: {width}.").format(text=widest, width=width)]
        narrow = too_narrow(self._project, self._signal.name, width)
        if narrow:
            places = ", ".join(f"{where} ({cells})" for where, cells in narrow[:MOST_NAMED])
            found.append(self.tr("Fields that are too narrow for it: {places}").format(places=places))
            if len(narrow) > MOST_NAMED:
                found.append(self.tr("and more: {count}").format(count=len(narrow) - MOST_NAMED))
        else:
            found.append(self.tr("It fits all number fields that show the signal."))
        return found
