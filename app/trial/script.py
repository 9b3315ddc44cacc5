"""The trial as a value: what is done, what is expected, what a person is asked.

A trial is read by technicians: a step is one deed or one expectation, there are no loops and no branches. What a case
does with several values stands in its rows (`each`), by which the case is run once a row.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal
from functools import cached_property, partial
from typing import Annotated, Any, Final, Literal, Self

from pydantic import Discriminator, Field as Key, StringConstraints, Tag, model_validator

from app.events.alarms import AlarmState
from app.events.events import EventKind
from app.language import translate
from app.project.model import Name, Number, Part
from app.signals.reading import Quality

FORMAT: Final = 1
"""The version of the trial file that this program writes."""
MOST_S: Final = 86_400
"""Seconds that one step may take at most: a day."""

Against = Literal["simulated", "device", "both"]
Seconds = Annotated[Number, Key(ge=0, le=MOST_S)]
Placeholder = Annotated[str, StringConstraints(pattern=r"^\{[^{}]+\}$", max_length=42)]
"""Stands for the value that a row of the case has under this name."""
FigureOrHole = Number | Placeholder
Sentence = Annotated[str, StringConstraints(min_length=1, max_length=400)]
"""A sentence for a person."""
QualityName = Literal["good", "stale", "none", "refused", "implausible"]
AlarmName = Literal["NORM", "UNACK", "ACKED", "RTNUN"]
assert set(map(str, Quality)) == {"good", "stale", "none", "refused", "implausible"}
assert set(map(str, AlarmState)) == {"NORM", "UNACK", "ACKED", "RTNUN"}
HOLE: Final = re.compile(r"\{([^{}]+)\}")
"""A placeholder in a text."""


class Expectation(Part):
    """What is to be seen: a screen and its rows, the value or the quality of a signal, an event, or an alarm.

    Rows are counted from 1, as people count them on the face. `text` is the whole row but for the blanks at its ends,
    or what the text of a signal's value is; `like` may have * for any letters and ? for one; `cells` is the row cell
    by cell.
    """

    screen: str | None = Key(None, description="The screen that the panel shows.")
    row: int | None = Key(None, ge=1, le=64, description="A row of the panel, counted from 1.")
    text: str | None = Key(None, max_length=160, description="Of a row, without blanks at its ends; or of a signal.")
    like: str | None = Key(None, max_length=160, description="The row: * stands for any letters, ? for one.")
    cells: str | None = Key(None, max_length=132, description="The row, cell by cell.")
    signal: str | None = None
    value: FigureOrHole | None = Key(None, description="In the signal's unit.")
    tolerance: Number | Annotated[str, StringConstraints(pattern=r"^[0-9]{1,4}(\.[0-9]{1,6})?%$")] | None = Key(
        None, description="In the signal's unit, or such as '1%' of the value. Left out: half of the last digit shown."
    )
    above: FigureOrHole | None = None
    below: FigureOrHole | None = None
    quality: QualityName | tuple[QualityName, ...] | None = None
    event: str | None = Key(None, description="What kind of event happened since the last deed.")
    about: str | None = Key(None, description="The signal, screen, line or device that the event is about.")
    alarm: str | None = Key(None, description="The screen of an override.")
    state: AlarmName | None = Key(None, description="Of the alarm, as IEC 62682 abbreviates it.")

    @model_validator(mode="after")
    def _one_subject(self) -> Self:
        subjects = [self.screen or self.row, self.signal, self.event, self.alarm]
        if sum(subject is not None for subject in subjects) != 1:
            raise ValueError(
                translate("trial", "expects one thing: a screen or a row of it, a signal, an event or an alarm")
            )
        of_row = sum(way is not None for way in (self.text, self.like, self.cells))
        figures = (self.value, self.above, self.below)
        if self.row is not None and of_row != 1:
            raise ValueError(translate("trial", "a row needs one of 'text', 'like' and 'cells'"))
        if self.row is None and (self.like is not None or self.cells is not None or (self.text and not self.signal)):
            raise ValueError(translate("trial", "'text', 'like' and 'cells' need the 'row' that they are about"))
        if self.signal is not None:
            between = self.above is not None or self.below is not None
            if sum((self.value is not None, self.text is not None, self.quality is not None, between)) != 1:
                raise ValueError(
                    translate("trial", "a signal needs one of 'value', 'above' and 'below', 'text', and 'quality'")
                )
        elif self.quality is not None or any(figure is not None for figure in figures):
            raise ValueError(translate("trial", "a value or a quality needs the 'signal' that it is of"))
        if self.tolerance is not None and self.value is None:
            raise ValueError(translate("trial", "'tolerance' needs a 'value'"))
        if (self.alarm is None) != (self.state is None):
            raise ValueError(translate("trial", "'alarm' and 'state' belong together"))
        if self.about is not None and self.event is None:
            raise ValueError(translate("trial", "'about' needs an 'event'"))
        if self.event is not None and self.event not in set(EventKind):
            kinds = ", ".join(EventKind)
            raise ValueError(
                translate("trial", "there is no event of this kind; the kinds are: {kinds}").format(kinds=kinds)
            )
        return self


class TrialStep(Part):
    """Anything that stands in a case: it is told by the first of its keys."""

    remark: str = Key("", max_length=1000, description="For whoever reads the trial and its record.")


class KeyStep(TrialStep):
    """One key is pressed, several times if so said, each time held for `hold_s`."""

    key: str
    times: int = Key(1, ge=1, le=10_000)
    hold_s: Seconds = Key(Decimal(0), description="How long it is held.")


class KeysStep(TrialStep):
    """Keys are pressed one after the other."""

    keys: tuple[Name, ...] = Key(min_length=1, max_length=1000)


class EnterStep(TrialStep):
    """The operator's entry of a value, by the keys of the panel: begun, adjusted and confirmed.

    With `refused` the panel must not let the value be reached: it stays within its limits, and the entry is abandoned.
    """

    enter: str = Key(description="The signal; the shown screen has an entry field of it.")
    value: FigureOrHole
    refused: bool = False


class OrderStep(TrialStep):
    """A simulated device is operated; at a real one a person does it, if `by_hand` says how."""

    order: str = Key(description="Such as pump.jammed=on: DEVICE.WHAT=VALUE.", max_length=200)
    by_hand: Sentence | None = Key(None, description="What a person does at the machine instead.")


class WaitStep(TrialStep):
    """Time passes, or until something is seen; if that does not come, the rest of the case is blocked."""

    wait: Seconds | Expectation
    within_s: Seconds | None = Key(None, description="Left out: twice as long as it takes to read it, and 2 s.")


class ExpectStep(TrialStep):
    """Something must be seen within a time, and stay so for `hold_s`."""

    expect: Expectation
    within_s: Seconds | None = Key(None, description="Left out: twice as long as it takes to read it, and 2 s.")
    hold_s: Seconds = Key(Decimal(0), description="How long it must stay so.")


class AskStep(TrialStep):
    """A person is asked what a program cannot see: yes, no or not tested, with a remark."""

    ask: Sentence


class MeasureStep(TrialStep):
    """A person reads an instrument; the value must lie within the range."""

    measure: Sentence
    unit: Annotated[str, StringConstraints(max_length=16)] = ""
    at_least: FigureOrHole | None = None
    at_most: FigureOrHole | None = None
    instrument: bool = Key(True, description="Whether the instrument's name, serial number and due date are asked for.")


class NoteStep(TrialStep):
    """A sentence that is shown and stands in the record."""

    note: Sentence


KINDS: Final[Mapping[str, type[TrialStep]]] = {
    "key": KeyStep,
    "keys": KeysStep,
    "enter": EnterStep,
    "order": OrderStep,
    "wait": WaitStep,
    "expect": ExpectStep,
    "ask": AskStep,
    "measure": MeasureStep,
    "note": NoteStep,
}
"""The kinds of steps, each by the key that tells it."""


def kind_of_step(value: Any) -> str:
    """Which kind of step a table or a step is; empty for none."""
    if isinstance(value, TrialStep):
        return next(kind for kind, model in KINDS.items() if type(value) is model)
    return next((kind for kind in KINDS if isinstance(value, dict) and kind in value), "")


AnyStep = Annotated[
    Annotated[KeyStep, Tag("key")]
    | Annotated[KeysStep, Tag("keys")]
    | Annotated[EnterStep, Tag("enter")]
    | Annotated[OrderStep, Tag("order")]
    | Annotated[WaitStep, Tag("wait")]
    | Annotated[ExpectStep, Tag("expect")]
    | Annotated[AskStep, Tag("ask")]
    | Annotated[MeasureStep, Tag("measure")]
    | Annotated[NoteStep, Tag("note")],
    Discriminator(kind_of_step),
]


class Case(Part):
    """Steps that prove one thing.

    Each case begins as the panel wakes up, on its first screen; simulated devices begin anew with it. `clean_up` is
    done whatever became of the steps.
    """

    name: Annotated[str, StringConstraints(min_length=1, max_length=120)]
    on: Against = Key("both", description="What it can be run against.")
    moves: bool = Key(True, description="Whether it can move the machine: then a person is asked before it begins.")
    notes: str = ""
    each: tuple[dict[Name, Number | str], ...] = Key(
        (), max_length=500, description="Rows of values: the case is run once a row, with {name} replaced by its value."
    )
    setup: tuple[Annotated[str, StringConstraints(max_length=200)], ...] = Key(
        (), description="Orders to simulated devices before the first step, such as pump.external-fault=off."
    )
    steps: tuple[AnyStep, ...] = Key((), alias="step", max_length=20_000)
    clean_up: tuple[AnyStep, ...] = Key((), max_length=1000)

    def is_on(self, *, simulated: bool) -> bool:
        """Whether it is run against simulated devices, or else against real ones."""
        return self.on == "both" or (self.on == "simulated") is simulated

    def rows(self) -> Iterator[Case]:
        """The case once a row, its placeholders replaced; itself if it has no rows.

        Raises pydantic.ValidationError if a value does not fit where it is put.
        """
        if not self.each:
            yield self
            return
        written = self.model_dump(by_alias=True, exclude_unset=True, exclude={"each"})
        for row in self.each:
            yield Case.model_validate(_changed(written, partial(fill, row=row)))

    @property
    def holes(self) -> frozenset[str]:
        """The names of the values that its placeholders stand for."""
        found: set[str] = set()
        written = self.model_dump(by_alias=True, exclude_unset=True, exclude={"each", "notes"})

        def note(text: str) -> str:
            found.update(HOLE.findall(text))
            return text

        _changed(written, note)
        return frozenset(found)


class Trial(Part):
    """Everything that a trial file holds."""

    format: Literal[1] = FORMAT
    title: Annotated[str, StringConstraints(max_length=200)] = ""
    project: str = Key("", max_length=400, description="The project file that it is for, beside this file.")
    digest: Annotated[str, StringConstraints(pattern=r"^([0-9a-f]{64})?$")] = Key(
        "", description="SHA-256 of that project's canonical text when the trial was made or last looked through."
    )
    stage: Annotated[str, StringConstraints(max_length=40)] = Key("", description="Such as fat, sat or retest.")
    notes: str = ""
    cases: tuple[Case, ...] = Key((), alias="case", max_length=5000)

    @cached_property
    def expanded(self) -> tuple[Case, ...]:
        """The cases as they are run, a case with rows once a row. Raises pydantic.ValidationError as `Case.rows`."""
        return tuple(case for written in self.cases for case in written.rows())


def fill(text: str, row: Mapping[str, object]) -> object:
    """A text with the placeholders of a row's values replaced; the value itself where it is nothing but one."""
    whole = HOLE.fullmatch(text)
    if whole is not None and whole[1] in row:
        return row[whole[1]]
    return HOLE.sub(lambda hole: str(row.get(hole[1], hole[0])), text)


def _changed(node: object, change: Callable[[str], object]) -> object:
    """The same plain tables with every text changed."""
    if isinstance(node, str):
        return change(node)
    if isinstance(node, dict):
        return {key: _changed(value, change) for key, value in node.items()}
    if isinstance(node, list | tuple):
        return [_changed(item, change) for item in node]
    return node
