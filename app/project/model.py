"""The project as a value: frozen models of all that a project file holds.

Every model is immutable and shares its parts freely, so an edited project costs only what the edit changed. Names that
point to nothing are possible in a value (see `app.project.references`); reading a file refuses them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from functools import cached_property
from itertools import product
from typing import Annotated, Any, Final, Literal, Protocol, Self, TypeVar

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Discriminator,
    Field as Key,
    StringConstraints,
    Tag,
    model_validator,
)

from app.language import translate
from app.project.drive_roles import DriveValue, RegisterMap
from app.signals.encoding import EncodingName
from app.signals.numbering import Numbering, Table
from app.signals.order import WordOrder

FORMAT: Final = 2
"""The version of the project file that this program writes."""

Name = Annotated[
    str,
    StringConstraints(
        min_length=1, max_length=40, pattern=r"^[^\s\x00-\x1f\x7f](?:[^\x00-\x1f\x7f]*[^\s\x00-\x1f\x7f])?$"
    ),
]
"""What a thing is called: 1 to 40 characters, no control characters, no blank at either end."""


def _exact(value: Any) -> Any:
    return Decimal(value) if isinstance(value, int) and not isinstance(value, bool) else value


Number = Annotated[Decimal, BeforeValidator(_exact), Key(allow_inf_nan=False, max_digits=40)]
"""A number as it is written in the file, kept exactly."""

RepertoireName = Literal["ascii", "latin-1", "lcd-kana", "lcd-european"]
FieldKind = Literal["number", "hexadecimal", "choice", "bar"]
Comparator = Literal["set", "clear", "above", "below", "equal"]
Deed = Literal["set", "clear", "toggle", "write", "begin-entry", "momentary", "next-language"]
Model = Literal["bank", "drive"]
PanelMessage = Literal[
    "at_most",
    "at_least",
    "no_room",
    "read_only",
    "nothing_to_enter",
    "no_value",
    "not_possible",
    "still_on",
    "writing_off",
    "no_connection",
    "no_answer",
    "refused",
    "kept",
    "not_confirmed",
    "not_written",
]
"""What a panel says of its own accord; `app.project.messages` has words for it."""

Messages = dict[PanelMessage, Annotated[str, StringConstraints(min_length=1, max_length=160)]]


class Part(BaseModel):
    """Anything that stands in a project: frozen, strict, without unknown keys."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", strict=True, populate_by_name=True, arbitrary_types_allowed=False
    )

    @model_validator(mode="before")
    @classmethod
    def _arrays_are_tuples(cls, data: Any) -> Any:
        if not isinstance(data, dict):
            return data
        return {key: tuple(value) if isinstance(value, list) else value for key, value in data.items()}

    def replace(self, **changes: Any) -> Self:
        """The same part with some attributes changed. Validated; unchanged parts are shared, not copied.

        Raises pydantic.ValidationError if a changed attribute does not fit.
        """
        kept = {key: self.__dict__[key] for key in self.model_fields_set if key not in changes}
        edited = type(self)(**kept, **changes)
        # Validation copies every tuple; the old ones put back, a long list of edits shares what they left alone.
        edited.__dict__.update(kept)
        return edited


class EntryKeys(Part):
    """Which keys serve while the operator changes a value, and how.

    A key name may be absent from the panel: then that step is simply not offered.
    """

    begin: str = "enter"
    up: str = "up"
    down: str = "down"
    left: str = "left"
    right: str = "right"
    confirm: str = "enter"
    abandon: str = "escape"
    by: Literal["step", "digit"] = "step"
    timeout_s: int = Key(
        30, ge=0, le=3600, description="Cancels the entry after this time without a key press; 0 never."
    )


class Panel(Part):
    """The text display with its keys: rows x columns of cells, a character repertoire, named keys."""

    rows: int = Key(4, ge=1, le=64)
    columns: int = Key(20, ge=1, le=132)
    repertoire: RepertoireName = "ascii"
    keys: Annotated[tuple[Name, ...], Key(max_length=40)] = ("left", "right", "up", "down", "enter", "escape")
    languages: Annotated[tuple[Name, ...], Key(max_length=9)] = Key(
        (), description="Of the texts; the first is the one of 'text' and 'texts'. Left out: one, without a name."
    )
    language: str | None = Key(
        None, description="The signal that chooses: 0 is the first language. Left out: keys choose, or nobody."
    )
    start: str = Key(description="The first screen.")
    entry: EntryKeys = EntryKeys()
    messages: Messages = Key({}, description="What the panel itself says, in the first language. Left out: in English.")
    messages_in: dict[Name, Messages] = Key({}, description="The same in the panel's other languages.")

    @model_validator(mode="after")
    def _languages_differ(self) -> Self:
        for language in self.languages:
            if self.languages.count(language) > 1:
                raise ValueError(
                    translate("project", "the language '{language}' is listed twice; each needs a unique name").format(
                        language=language
                    )
                )
        return self


class LinePart(Part):
    """What every kind of line has."""

    name: Name
    timeout_ms: int = Key(300, ge=10, le=60_000, description="How long an answer may take.")


class SerialLine(LinePart):
    """A serial port of this computer, Modbus RTU framing."""

    kind: Literal["serial"] = "serial"
    device: str = Key(min_length=1, description="The port: /dev/ttyUSB0, COM3, ...")
    baud: int = Key(19_200, ge=50, le=4_000_000)
    parity: Literal["none", "even", "odd"] = "even"
    stop_bits: Literal[1, 2] = 1


UNCHOSEN_HOST: Final = "address.invalid"
"""Stands for an address that nobody has chosen yet. No host has a name under "invalid" (RFC 6761, 6.4)."""


class TcpLine(LinePart):
    """Modbus TCP."""

    kind: Literal["tcp"] = "tcp"
    host: str = Key(min_length=1)
    port: int = Key(502, ge=1, le=65_535)
    in_flight: int = Key(
        1,
        ge=1,
        le=16,
        description="Requests sent before the first is answered; above 1 only if the devices can do that.",
    )


class SerialOverTcpLine(LinePart):
    """RTU frames in a TCP stream, as a plain serial-to-network converter carries them."""

    kind: Literal["serial-over-tcp"] = "serial-over-tcp"
    host: str = Key(min_length=1)
    port: int = Key(502, ge=1, le=65_535)


Line = Annotated[SerialLine | TcpLine | SerialOverTcpLine, Discriminator("kind")]


class NeverRead(Part):
    """Registers of a device that must not be read: reading them does harm, or is refused."""

    table: Table = "holding"
    first: int = Key(ge=0, le=465_536, description="In the numbering of the device's manual.")
    last: int = Key(ge=0, le=465_536, description="In the numbering of the device's manual; included.")

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.first > self.last:
            raise ValueError(
                translate("project", "the first register {first} is after the last one {last}").format(
                    first=self.first, last=self.last
                )
            )
        return self


WriteFunction = Literal[5, 6, 15, 16, 22]
"""Function codes that write: one coil, one register, several coils, several registers, bits of one register by mask."""


class Simulated(Part):
    """What simulates a device, with the data of the machine that a drive moves.

    The name plate is that of the motor; `load` says how the torque of the machine goes with the speed, `load_share` how
    much of the rated torque it takes at rated speed, `friction` how much of it at any speed, `inertia` is of all that
    turns, in kg m^2; `trip_class` is that of the overload protection (IEC 60947-4-1).
    """

    model: Model = "drive"
    register_map: RegisterMap = Key(
        "plain",
        description="Of a drive's built-in registers: a plain control word and status word (control: bit 2 quick stop, "
        "4 run, 5 reverse, 7 fault reset), or those of IEC 61800-7-201 with its states.",
    )
    power_kw: Number = Key(Decimal("7.5"), gt=0, le=1000)
    speed_rpm: Number = Key(Decimal(1450), gt=0, le=3000, description="Rated, at 50 Hz.")
    poles: Literal[2, 4, 6, 8] = 4
    voltage: Number = Key(Decimal(400), ge=100, le=1000, description="Rated, of motor and supply.")
    power_factor: Number = Key(Decimal("0.84"), ge=Decimal("0.3"), le=Decimal("0.99"))
    efficiency: Number = Key(Decimal("0.89"), ge=Decimal("0.3"), le=Decimal("0.99"))
    load: Literal["quadratic", "linear", "constant"] = "quadratic"
    load_share: Number = Key(Decimal("0.9"), ge=0, le=3)
    friction: Number = Key(Decimal("0.02"), ge=0, le=3)
    inertia: Number = Key(Decimal("0.6"), ge=Decimal("0.01"), le=1000)
    trip_class: Literal[10, 20, 30] = 10

    @model_validator(mode="after")
    def _slips(self) -> Self:
        field = Decimal(6000) / self.poles
        if not field * Decimal("0.8") <= self.speed_rpm < field:
            why = translate(
                "project",
                "a motor with {poles} poles runs slightly below {field} 1/min at 50 Hz, not at {rated}",
            )
            raise ValueError(why.format(poles=self.poles, field=f"{field.normalize():f}", rated=self.speed_rpm))
        if self.load_share < self.friction:
            raise ValueError(translate("project", "the load torque must be at least its friction torque"))
        return self


def _how_simulated(value: Any) -> str:
    return "table" if isinstance(value, dict | Simulated) else "name"


LAST_UNIT: Final = 247
"""Of the units 1 to 247 that devices of a serial line have (MODBUS over Serial Line V1.02, from memory)."""
DIRECT_UNITS: Final = frozenset({0, 255})
"""The units of a device that is reached by its network address alone, not through a converter: Modbus TCP only. 255 is
what the MODBUS Messaging on TCP/IP Implementation Guide V1.0b recommends, 0 what it accepts as well (from memory). On a
serial line 0 is everybody and 255 reserved."""


def _a_unit(unit: int) -> int:
    if not 1 <= unit <= LAST_UNIT and unit not in DIRECT_UNITS:
        raise ValueError(
            translate("project", "{unit} is not a unit address; use 1 to 247, on Modbus TCP also 255 or 0").format(
                unit=unit
            )
        )
    return unit


class Follower(Part):
    """The device that answers."""

    name: Name
    line: str
    unit: Annotated[int, AfterValidator(_a_unit)] = Key(
        1,
        description="Its address: 1 to 247; on Modbus TCP also 255 or 0, of a device that is no converter.",
        json_schema_extra={"minimum": 0, "maximum": 255, "not": {"minimum": LAST_UNIT + 1, "maximum": 254}},
    )
    numbering: Numbering = Key("from-0", description="How its manual counts registers.")
    word_order: WordOrder = Key("high-first", description="Of the words of a value of two or more registers.")
    byte_order: WordOrder = Key(
        "high-first", description="Of the two bytes of each word; the standard says high-first."
    )
    max_registers: int = Key(125, ge=1, le=125, description="Most registers that it returns in one read.")
    gaps: bool = Key(True, description="May read across unused registers.")
    never_read: tuple[NeverRead, ...] = Key(
        (), description="Registers that are never read, not even along with others."
    )
    write_functions: tuple[WriteFunction, ...] = Key(
        (5, 6, 15, 16), description="The function codes that it offers for writing; 22 writes bits by mask."
    )
    communication_timeout_ms: int = Key(
        0, ge=0, le=600_000, description="It stops by itself when it is not polled for this long; 0 = not monitored."
    )
    simulate: Annotated[
        Annotated[Model, Tag("name")] | Annotated[Simulated, Tag("table")], Discriminator(_how_simulated)
    ] = Key("bank", description="What simulates it: the name of a model, or a table with the data of the machine.")

    @property
    def simulated(self) -> Simulated:
        """What simulates it, with all its data."""
        return self.simulate if isinstance(self.simulate, Simulated) else Simulated(model=self.simulate)


class Scale(Part):
    """Two points of a straight line between raw counts and engineering values."""

    raw: tuple[Number, Number]
    value: tuple[Number, Number]

    @model_validator(mode="after")
    def _a_line(self) -> Self:
        if self.raw[0] == self.raw[1]:
            raise ValueError(
                translate("project", "the two raw numbers are equal; a straight line needs two different ones")
            )
        if self.value[0] == self.value[1]:
            raise ValueError(translate("project", "the two values are equal; a straight line needs two different ones"))
        return self


OTHERWISE: Final = "otherwise"
"""The key of the text for all values that have no text of their own."""
ValueTexts = dict[Annotated[str, StringConstraints(pattern=r"^(-?[0-9]{1,20}|otherwise)$")], str]


def by_number(texts: Mapping[str, str]) -> dict[int, str]:
    """The texts by their values, without the one for all others."""
    return {int(value): text for value, text in texts.items() if value != OTHERWISE}


def _lists_are_tuples(value: Any) -> Any:
    if not isinstance(value, dict):
        return value
    return {key: tuple(rows) if isinstance(rows, list) else rows for key, rows in value.items()}


class Presentation(Part):
    """How a signal is shown and changed, wherever it comes from. `app.project.attributes` says what each key means."""

    name: Name
    unit: Annotated[str, StringConstraints(max_length=16)] = ""
    decimals: int = Key(0, ge=0, le=9)
    limits: tuple[Number, Number] | None = None
    step: Number | None = Key(None, gt=0)
    texts: ValueTexts = {}
    texts_in: dict[Name, ValueTexts] = {}
    notes: str = ""

    @model_validator(mode="after")
    def _limits_in_order(self) -> Self:
        if self.limits is not None and self.limits[0] > self.limits[1]:
            raise ValueError(
                translate("project", "the lower limit {low} is above the upper limit {high}").format(
                    low=self.limits[0], high=self.limits[1]
                )
            )
        return self


class RegisterSignal(Presentation):
    """Registers of a device, decoded and scaled; or one coil or discrete input."""

    follower: str
    table: Table = "holding"
    number: int = Key(ge=0, le=465_536, alias="register")
    encoding: EncodingName = "uint16"
    length: int | None = Key(None, ge=1, le=125)
    word_order: WordOrder | None = None
    scale: Scale | None = None
    hex: bool = False
    write: bool = False
    every_ms: int = Key(500, ge=10, le=3_600_000)
    refresh_ms: int = Key(0, ge=0, le=600_000)
    start_value: Number | str | None = None
    drive_role: DriveValue | None = None


class Bit(Part):
    """One bit of another signal, counted from 0 at the least significant end."""

    of: str
    number: int = Key(ge=0, le=63)


class BitSignal(Presentation):
    """A bit of another signal."""

    bit: Bit
    write: bool = False
    drive_role: DriveValue | None = None


class HeldSignal(Presentation):
    """A value that lives in the panel, not on the line."""

    held: Number


AnySignal = RegisterSignal | BitSignal | HeldSignal


def _signal_kind(value: Any) -> str:
    if isinstance(value, dict):
        return "bit" if "bit" in value else "held" if "held" in value else "register"
    return "bit" if isinstance(value, BitSignal) else "held" if isinstance(value, HeldSignal) else "register"


Signal = Annotated[
    Annotated[RegisterSignal, Tag("register")] | Annotated[BitSignal, Tag("bit")] | Annotated[HeldSignal, Tag("held")],
    Discriminator(_signal_kind),
]


class Condition(Part):
    """A condition on a signal, judged on good readings only."""

    signal: str
    is_: Comparator = Key("set", alias="is")
    value: Number | None = None

    @model_validator(mode="after")
    def _value_where_needed(self) -> Self:
        if self.is_ in ("above", "below", "equal") and self.value is None:
            raise ValueError(
                translate("project", "'is = \"{is_}\"' needs a value to compare with").format(is_=self.is_)
            )
        if self.is_ in ("set", "clear") and self.value is not None:
            raise ValueError(translate("project", "'is = \"{is_}\"' has no value").format(is_=self.is_))
        return self


class Field(Part):
    """A run of cells on one row that shows a signal."""

    at: tuple[int, int] = Key(description="Row and column, counted from 0.")
    width: int = Key(ge=1, le=132)
    signal: str
    kind: FieldKind = "number"
    entry: bool = False
    range: tuple[Number, Number] | None = Key(None, description="Of a bar: empty and full. Left out: the limits.")
    blink: Condition | None = None


class Blinking(Part):
    """Cells of a screen that blink while a condition holds, whatever stands in them: a run on one row, or all."""

    at: tuple[int, int] | None = Key(None, description="Row and column, counted from 0. Left out: the whole screen.")
    width: int | None = Key(None, ge=1, le=132)
    when: Condition

    @model_validator(mode="after")
    def _whole_or_run(self) -> Self:
        if (self.at is None) != (self.width is None):
            raise ValueError(translate("project", "'at' and 'width' belong together; without both all cells blink"))
        return self

    def cells(self, panel: Panel) -> Iterator[tuple[int, int]]:
        """The cells of a panel that it is about, by row and column; what lies outside is left out."""
        row, column = self.at or (0, 0)
        rows, columns = range(panel.rows), range(panel.columns)
        if self.width is not None:
            rows = range(max(row, 0), min(row + 1, panel.rows))
            columns = range(max(column, 0), min(column + self.width, panel.columns))
        return product(rows, columns)


MapEighths = Annotated[int, Key(ge=-10_000, le=10_000)]


class Screen(Part):
    """What the panel shows at one time.

    `map` is the screen's place on the page map, right and down, in eighths of the step from one screen to the one
    beside or below it; so the picture of a map lasts when the panel gets another size.
    """

    name: Name
    text: tuple[str, ...] = ()
    text_in: Annotated[dict[Name, tuple[str, ...]], BeforeValidator(_lists_are_tuples)] = Key(
        {}, description="The text in the panel's other languages; where it is left out, 'text' is shown."
    )
    blinking: tuple[Blinking, ...] = Key((), alias="blink")
    fields: tuple[Field, ...] = Key((), alias="field")
    notes: str = ""
    map: tuple[MapEighths, MapEighths] | None = Key(
        None, description="Place on the page map, right and down, in eighths of a step. Left out: found by itself."
    )

    @property
    def conditions(self) -> Iterator[tuple[tuple[str | int, ...], Condition]]:
        """The conditions by which something on it blinks, each with its place on the screen."""
        for index, blinking in enumerate(self.blinking):
            yield ("blink", index), blinking.when
        for index, field in enumerate(self.fields):
            if field.blink is not None:
                yield ("field", index), field.blink

    @property
    def signal_names(self) -> frozenset[str]:
        """The signals that it shows or that something on it blinks by."""
        shown = {field.signal for field in self.fields}
        return frozenset(shown | {condition.signal for _, condition in self.conditions})


class ScreenChange(Part):
    """A change of screen: by a key, by a condition (an override), or after idle time."""

    from_: str | None = Key(None, alias="from", description="Left out: from every screen.")
    key: str | None = None
    when: Condition | None = None
    idle_s: int | None = Key(None, ge=1, le=86_400)
    to: str = Key(description="A screen; with a key also 'next' or 'previous'.")

    @model_validator(mode="after")
    def _one_cause(self) -> Self:
        if sum(cause is not None for cause in (self.key, self.when, self.idle_s)) != 1:
            raise ValueError(translate("project", "a screen change needs exactly one of 'key', 'when' and 'idle_s'"))
        if self.when is not None and self.from_ is not None:
            raise ValueError(translate("project", "an override ('when') works on every screen and has no 'from'"))
        if self.to in ("next", "previous") and self.key is None:
            raise ValueError(translate("project", "'to = \"{to}\"' is only possible with a key").format(to=self.to))
        return self


class HeldValue(Part):
    """Where a written value comes from: a held value."""

    from_: str = Key(alias="from")


class Action(Part):
    """What else a key or a condition does."""

    from_: str | None = Key(None, alias="from")
    key: str | None = None
    when: Condition | None = None
    do: Deed
    signal: str | None = None
    value: Number | HeldValue | None = None
    stops: bool | None = Key(
        None,
        description="Whether it stops something: such a write is sent again until it is proved. Left out: the 0 of "
        "'clear', 'toggle' and 'momentary' does, the value of 'set' and 'write' does not.",
    )

    @model_validator(mode="after")
    def _complete(self) -> Self:
        if (self.key is None) == (self.when is None):
            raise ValueError(translate("project", "an action needs exactly one of 'key' and 'when'"))
        if self.when is not None and self.from_ is not None:
            raise ValueError(translate("project", "an action with a condition works on every screen and has no 'from'"))
        if self.key is None and self.do in ("begin-entry", "momentary", "next-language"):
            raise ValueError(translate("project", "'do = \"{do}\"' is only possible with a key").format(do=self.do))
        if self.signal is None and self.do not in ("begin-entry", "next-language"):
            raise ValueError(translate("project", "'do = \"{do}\"' needs a signal").format(do=self.do))
        if self.signal is not None and self.do == "next-language":
            raise ValueError(
                translate("project", "'do = \"next-language\"' has no signal; it is set by the panel's 'language'")
            )
        if (self.value is None) != (self.do != "write"):
            raise ValueError(translate("project", "'value' is required for 'do = \"write\"', and only allowed there"))
        if self.stops is not None and self.do in ("begin-entry", "next-language"):
            raise ValueError(
                translate("project", "'stops' is only for actions that write a value, not for '{do}'").format(
                    do=self.do
                )
            )
        if self.stops and isinstance(self.value, HeldValue):
            raise ValueError(translate("project", "a held value can start something, so it cannot be a stop ('stops')"))
        return self


class Accepted(Part):
    """An accepted finding of the design checks, and the reason."""

    rule: str = Key(min_length=1, max_length=80)
    about: str = Key(max_length=1000, description="The place, as the checks write it.")
    reason: str = Key(min_length=1, max_length=1000)


class Project(Part):
    """Everything that a project file holds."""

    format: Literal[2] = FORMAT
    title: str = ""
    notes: str = ""
    panel: Panel
    lines: tuple[Line, ...] = Key((), alias="line")
    followers: tuple[Follower, ...] = Key((), alias="follower")
    signals: tuple[Signal, ...] = Key((), alias="signal")
    screens: tuple[Screen, ...] = Key((), alias="screen")
    screen_changes: tuple[ScreenChange, ...] = Key((), alias="screen_change")
    actions: tuple[Action, ...] = Key((), alias="action")
    accepted: tuple[Accepted, ...] = Key((), description="Accepted findings of the design checks.")

    def replace(self, **changes: Any) -> Self:
        """As of any part; only what is new among the parts is validated, since edits are made at every key.

        What was looked up by name and has not changed is taken over.
        """
        if not changes.keys() <= type(self).model_fields.keys():
            return super().replace(**changes)
        fresh = changes.copy()
        known: dict[str, set[int]] = {}
        for name, value in changes.items():
            if isinstance(value, tuple):
                known[name] = {id(part) for part in self.__dict__[name]}
                fresh[name] = tuple([part for part in value if id(part) not in known[name]])
        edited = type(self)(**{"panel": self.panel, **fresh})
        for name, same in known.items():
            validated = iter(edited.__dict__[name])
            edited.__dict__[name] = tuple([part if id(part) in same else next(validated) for part in changes[name]])
        edited.__dict__.update({name: self.__dict__[name] for name in type(self).model_fields if name not in changes})
        edited.__pydantic_fields_set__.update(self.model_fields_set)
        self.hand_down(edited)
        return edited

    def hand_down(self, successor: Project) -> None:
        """Let a successor share what was looked up by name here, as far as it is the same there."""
        for lookup, parts in _LOOKED_UP_IN.items():
            if lookup in self.__dict__ and self.__dict__[parts] is successor.__dict__[parts]:
                successor.__dict__[lookup] = self.__dict__[lookup]

    @cached_property
    def line_named(self) -> dict[str, SerialLine | TcpLine | SerialOverTcpLine]:
        """Lines by name; of two with one name the first (a check reports the second)."""
        return _by_name(self.lines)

    @cached_property
    def follower_named(self) -> dict[str, Follower]:
        """Followers by name."""
        return _by_name(self.followers)

    @cached_property
    def signal_named(self) -> dict[str, RegisterSignal | BitSignal | HeldSignal]:
        """Signals by name."""
        return _by_name(self.signals)

    @cached_property
    def screen_named(self) -> dict[str, Screen]:
        """Screens by name."""
        return _by_name(self.screens)


_LOOKED_UP_IN: Final = {
    "line_named": "lines",
    "follower_named": "followers",
    "signal_named": "signals",
    "screen_named": "screens",
}


class _Named(Protocol):
    @property
    def name(self) -> str: ...


_N = TypeVar("_N", bound=_Named)


def _by_name(parts: Iterable[_N]) -> dict[str, _N]:
    found: dict[str, _N] = {}
    for part in parts:
        found.setdefault(part.name, part)
    return found
