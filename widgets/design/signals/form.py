"""The properties of a signal: where it comes from, how it is scaled, shown and changed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from pydantic import ValidationError
from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QWidget

from app import edits
from app.project.attributes import SIGNAL, PartAttribute, attribute_text, is_scaled, is_string
from app.project.binding import Unbound, bind, bindings, value_span
from app.project.model import OTHERWISE, AnySignal, BitSignal, HeldSignal, Project, RegisterSignal, Scale
from app.project_file.validation_messages import refusal_of
from app.signals.encoding import is_text
from app.signals.text import number_width, spoken_digits
from app.signals.typed import number, pair, plain, whole
from widgets.design.forms.form import NotYet, Put
from widgets.design.forms.link_rows import ButtonRow, PlacesRow
from widgets.design.forms.part_form import PartForm
from widgets.design.forms.rows import ChoiceRow, InfoRow, LineRow, NotesRow
from widgets.design.signals.cells import units
from widgets.design.signals.scaling_aid import ScalingAid
from widgets.design.signals.uses import places_of
from widgets.document.document import Document, Edit
from widgets.document.drafts import Drafts, DraftTexts

translate = QCoreApplication.translate


class SignalForm(PartForm):
    """Shows and edits one signal, by name."""

    place_wanted = Signal(object)
    """A place where the signal is used, see app.project.problems.Place."""
    wrong_wanted = Signal(str)
    """The value of this signal looks wrong."""

    def __init__(self, document: Document, drafts: Drafts, parent: QWidget | None = None) -> None:
        super().__init__(document, drafts, parent)
        self.step_name = self.tr("Change signal")
        self.name_row(self.tr("Name"), edits.rename_signal, self.tr("Renaming updates every use"))
        self.add(InfoRow(self.tr("Kind"), self._kind_text))
        self.used_row = self.add(
            PlacesRow(
                self.tr("Used by"),
                self._used_texts,
                self._go_to_use,
                self.tr("nothing yet"),
                self.tr("Click or press Enter to go there"),
            )
        )
        for heading, *groups in (
            (self.tr("Source"), "source", "scale"),
            (self.tr("Display"), "shown"),
            (self.tr("Writing and polling"), "write", "changed"),
            (self.tr("Simulation"), "simulated"),
            (self.tr("Documentation"), "documentation"),
        ):
            self.add_heading(heading, closed=groups[0] in ("simulated", "documentation"))
            for group in groups:
                for attribute in SIGNAL:
                    if attribute.group == group:
                        self._row_of(attribute)
        self.finish()

    @property
    def part(self) -> AnySignal | None:
        """The signal that is shown."""
        name = self.subject[1] if isinstance(self.subject, tuple) else ""
        return self.project.signal_named.get(name)

    def show_signal(self, name: str | None) -> None:
        """Show this signal."""
        self.show_subject(None if name is None else ("signal", name))

    def change(self, **changes: Any) -> Edit:
        """The edit that changes attributes of the signal."""
        name = self.subject[1] if isinstance(self.subject, tuple) else ""
        return lambda project: edits.change_signal(project, name, **changes)

    def _row_of(self, attribute: PartAttribute) -> None:
        """The row of an attribute, or the rows of one that needs more than its row."""
        match attribute.key:
            case "name" | "texts_in":
                pass  # at the head of the form, and in the languages of the panel
            case "follower":
                self.attribute(attribute, options=lambda: [(part.name, part.name) for part in self.project.followers])
            case "table":
                self.attribute(attribute, options=table_names)
            case "register":
                self._add_register(attribute)
            case "bit":
                self._add_bit(attribute)
            case "held":
                self.attribute(attribute, read=number)
            case "scale":
                self._add_scale()
            case "unit":
                self.attribute(attribute, completions=lambda: units(self.project))
            case "decimals":
                self.attribute(attribute)
                self.add(InfoRow(self.tr("Range"), self._span_text))
            case "texts":
                self._add_texts(attribute)
            case "limits":
                self._add_limits(attribute)
            case "step":
                self.attribute(attribute, suffix=lambda: self.common(self._unit))
            case "start_value":
                self.attribute(attribute, read=self._read_start)
            case "drive_role":
                self.attribute(attribute, where=lambda part: can_have_role(self.project, part))
            case _:
                self.attribute(attribute)

    def _add_register(self, attribute: PartAttribute) -> None:
        self.line(attribute_text(attribute.label), "number", whole, attribute_text(attribute.hint))
        self.add(
            InfoRow(self.tr("Address (from 0)"), self._wire_text, self.tr("The address in the request, counted from 0"))
        )

    def _add_bit(self, attribute: PartAttribute) -> None:
        self.add(
            LineRow(
                attribute_text(attribute.label),
                lambda: (str(part.bit.number),) if isinstance(part := self.part, BitSignal) else None,
                self.put(lambda texts: self._change_bit(number=whole(texts[0]))),
                self.tr("Counted from 0 at the least significant bit"),
            )
        )
        self.add(
            ChoiceRow(
                self.tr("In signal"),
                lambda: (part.bit.of,) if isinstance(part := self.part, BitSignal) else None,
                self.put(lambda texts: self._change_bit(of=texts[0])),
                lambda: [(part.name, part.name) for part in self.project.signals if isinstance(part, RegisterSignal)],
            )
        )

    def _add_scale(self) -> None:
        def get(index: int) -> Callable[[], DraftTexts | None]:
            def texts() -> DraftTexts | None:
                part = self.part
                if not isinstance(part, RegisterSignal) or not is_scaled(part):
                    return None
                scale = part.scale
                return ("", "") if scale is None else (plain(scale.raw[index]), plain(scale.value[index]))

            return texts

        hint = self.tr(
            "Two points of a straight line: raw values of the register and the values that they stand "
            "for. Empty: no scaling"
        )
        labels = (self.tr("Scale, from"), self.tr("Scale, to"))
        self._scale_rows = [
            LineRow(
                label,
                get(index),
                self._scale_put(index),
                hint,
                between=[self.tr("raw =")],
                numeric=True,
                suffix=lambda: self.common(self._unit),
                names=(
                    self.tr("{label}, raw").format(label=label),
                    self.tr("{label}, value").format(label=label),
                ),
            )
            for index, label in enumerate(labels)
        ]
        for row in self._scale_rows:
            row.company = self._scale_rows
            self.add(row)
        self.add(
            ButtonRow(
                self.tr("Scaling"),
                lambda: () if isinstance(part := self.part, RegisterSignal) and is_scaled(part) else None,
                self.tr("Calculate\u2026"),
                self.open_scaling,
                self.tr("Set the scaling by two points or by a factor, and see the result"),
            )
        )
        self.add(
            ButtonRow(
                self.tr("Value"),
                lambda: () if isinstance(part := self.part, RegisterSignal) and is_scaled(part) else None,
                self.tr("Looks wrong\u2026"),
                self.ask_about_value,
                self.tr("Off by one, another order, data type or scale: see its registers in every way"),
            )
        )

    def _scale_put(self, index: int) -> Put:
        return lambda texts: self._put_scale(index, texts)

    def _put_scale(self, index: int, texts: DraftTexts) -> str | None:
        """Both rows are one value: they are accepted together."""
        other = self._scale_rows[1 - index]
        if _half(texts):
            return NotYet(self.tr("enter both raw and value, or neither"))
        if _half(other.texts()):
            return NotYet(self.tr("the other point is not complete yet"))
        try:
            first, second = (pair(each) for each in ((texts, other.texts()) if index == 0 else (other.texts(), texts)))
            if (first is None) != (second is None):
                return NotYet(self.tr("enter the other point too, or neither"))
            scale = None
            if first is not None and second is not None:
                scale = Scale(raw=(first[0], second[0]), value=(first[1], second[1]))
        except ValidationError as error:
            return refusal_of(error)
        except ValueError as error:
            return str(error)
        before = self.drafts.get(self.subject, other.label)
        self.drafts.drop(self.subject, other.label)
        reason = self.put(lambda _texts: self.change(scale=scale))(texts)
        if reason is not None and before is not None:
            self.drafts.keep(self.subject, other.label, *before)
        return reason

    def _add_texts(self, attribute: PartAttribute) -> None:
        self.add(
            NotesRow(
                attribute_text(attribute.label),
                lambda: None if self.part is None else ("\n".join(f"{k} = {t}" for k, t in self.part.texts.items()),),
                self.put(lambda texts: self.change(texts=read_texts(texts[0]))),
                self.tr(
                    "One text per value, one per line, for example 1 = running. "
                    "otherwise = unknown applies to all other values"
                ),
                fixed=True,
                example=self.tr("e.g. 0 = stopped\n1 = running\notherwise = unknown"),
            )
        )

    def _add_limits(self, attribute: PartAttribute) -> None:
        self.add(
            LineRow(
                attribute_text(attribute.label),
                lambda: None if self.part is None else tuple(plain(value) for value in self.part.limits or ("", "")),
                self.put(lambda texts: self.change(limits=pair(texts))),
                attribute_text(attribute.hint),
                between=[self.tr("to")],
                names=(self.tr("Lower limit"), self.tr("Upper limit")),
                numeric=True,
                suffix=lambda: self.common(self._unit),
            )
        )

    def _unit(self) -> str:
        return self.part.unit if self.part is not None else ""

    def _change_bit(self, **changes: Any) -> Edit:
        part = self.part
        if not isinstance(part, BitSignal):
            return lambda project: project
        return self.change(bit=part.bit.replace(**changes))

    def _read_start(self, text: str) -> Any:
        if not text.strip():
            return None
        return text if is_string(self.part) else number(text)

    # What is to be read

    def _kind_text(self) -> DraftTexts | None:
        part = self.part
        if part is None:
            return None
        if isinstance(part, BitSignal):
            return (self.tr("one bit of another signal"),)
        return (self.tr("held in the panel") if isinstance(part, HeldSignal) else self.tr("read from a device"),)

    def _wire_text(self) -> DraftTexts | None:
        part = self.part
        if not isinstance(part, RegisterSignal):
            return None
        try:
            binding = bind(self.project, part.name)
        except Unbound as error:
            return (str(error),)
        if binding.count == 1:
            return (str(binding.address),)
        last = binding.address + binding.count - 1
        return (self.tr("{first} to {last}").format(first=binding.address, last=last),)

    def _span_text(self) -> DraftTexts | None:
        part = self.part
        if part is None or is_string(part):
            return None
        span = value_span(self.project, part.name)
        if span is None:
            return (self.tr("unlimited"),)
        low, high = (spoken_digits(value, part.decimals) for value in span)
        wide = max(number_width(value, part.decimals) for value in span)
        text = self.tr("{low} to {high} {unit}").format(low=low, high=high, unit=part.unit).rstrip()
        cells = self.tr("1 cell") if wide == 1 else self.tr("{wide} cells").format(wide=wide)
        return (f"{text} ({cells})",)

    def _used_texts(self) -> DraftTexts | None:
        part = self.part
        return None if part is None else tuple(use.where for use in places_of(self.project, part.name))

    def _go_to_use(self, row: int) -> None:
        part = self.part
        places = () if part is None else places_of(self.project, part.name)
        if 0 <= row < len(places):
            self.place_wanted.emit(places[row].place[:-1])

    def ask_about_value(self) -> None:
        """The value of the signal looks wrong: somebody else shows its registers in every way."""
        part = self.part
        if isinstance(part, RegisterSignal) and is_scaled(part):
            self.wrong_wanted.emit(part.name)
        else:
            self.document.refused.emit(self.tr("Only a number in registers can be read in several ways."))

    def open_scaling(self) -> None:
        """Edit the scale of the signal with everything in sight that comes of it."""
        part = self.part
        if not isinstance(part, RegisterSignal) or not is_scaled(part):
            self.document.refused.emit(self.tr("Only a number in registers can be scaled."))
            return
        aid = ScalingAid(self.project, part, self.window())
        if aid.exec() == ScalingAid.DialogCode.Accepted:
            for row in self._scale_rows:
                self.drafts.drop(self.subject, row.label)
            self.document.do(self.tr("Change scaling"), aid.edit())
        aid.deleteLater()


def _half(texts: DraftTexts) -> bool:
    return len({bool(text.strip()) for text in texts}) > 1


def can_have_role(project: Project, part: Any) -> bool:
    """Whether a drive can stand behind the signal: its follower is simulated as one, or it says already what it is."""
    if not isinstance(part, RegisterSignal | BitSignal):
        return False
    if part.drive_role is not None:
        return True
    binding = bindings(project).get(part.name)
    if binding is None or (is_text(binding.base.encoding) and not binding.single):
        return False
    return binding.follower.simulated.model == "drive"


def read_texts(text: str) -> dict[str, str]:
    """A text per value from lines such as "1 = running". Raises ValueError in words, with the number of the line."""
    found: dict[str, str] = {}
    for line_number, line in enumerate(text.splitlines(), start=1):
        if not line.strip():
            continue
        value, equals, words = line.partition("=")
        if not equals:
            raise ValueError(translate("SignalForm", "line {n}: enter value = text").format(n=line_number))
        try:
            key = OTHERWISE if value.strip().casefold() == OTHERWISE else str(whole(value))
        except ValueError as error:
            raise ValueError(translate("SignalForm", "line {n}: {why}").format(n=line_number, why=error)) from None
        if key in found:
            why = translate("SignalForm", "line {n}: the value {key} already has a text")
            raise ValueError(why.format(n=line_number, key=key))
        found[key] = words.strip()
    return found


def table_names() -> list[tuple[str, str]]:
    """The four tables: stored word and what a person reads."""
    return [
        ("holding", translate("SignalForm", "holding register")),
        ("input", translate("SignalForm", "input register")),
        ("coil", translate("SignalForm", "coil")),
        ("discrete", translate("SignalForm", "discrete input")),
    ]
