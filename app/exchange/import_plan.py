"""What an import makes of a project: names and followers looked up, every row accounted for, and the one edit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from functools import lru_cache
from typing import Any, Final, Literal, TypeAlias

from app import edits
from app.edits import EditRefused
from app.edits.lines import AnyLine
from app.edits.refused import made
from app.exchange.column_mapping import Matching, prefixed_table
from app.exchange.row_parser import LONGEST_NAME, Draft, Note, ParsedRows
from app.exchange.sheet import Progress, no_progress
from app.language import translate
from app.project.attributes import SIGNAL
from app.project.model import AnySignal, BitSignal, Follower, HeldValue, Project, RegisterSignal, Scale
from app.signals.encoding import has_word_order, is_integer, register_count
from app.signals.numbering import (
    LAST_ADDRESS,
    NotARegister,
    Numbering,
    Table,
    documented_number,
    wire_address,
)

WhatIsThere: TypeAlias = Literal["skip", "replace", "rename"]
"""What becomes of a row for a signal that the project has already, by its name or by its register or bit: it is left
as it is; it gets what the list says, and keeps its name and what the list has no column for; the row comes in beside
it, under another name where its own is taken."""

_PLACES: Final = ("name", "follower", "table", "register", "number", "bit", "bit_of", "held")
"""What says which signal it is and where it stands, not what it is like."""


@dataclass(frozen=True, slots=True)
class ImportTarget:
    """Where the signals of a list go."""

    follower: Follower | None
    """For rows that name none. None: such rows stay out.

    One that the project does not have yet comes in too, and counts registers as the list does.
    """
    line: AnyLine | None
    """For followers that the project does not have; it may be new itself. None: their rows stay out."""
    there: WhatIsThere = "skip"


@dataclass(frozen=True, slots=True)
class Incoming:
    """A signal that comes in, and how."""

    row: int
    signal: AnySignal
    how: Literal["new", "replaces", "renamed"]


@dataclass(frozen=True, slots=True)
class ImportPlan:
    """What an import would do. Nothing is done before `edit` is."""

    incoming: tuple[Incoming, ...]
    followers: tuple[Follower, ...]
    """New ones."""
    lines: tuple[AnyLine, ...]
    """New ones."""
    notes: tuple[Note, ...]
    """About rows, in their order."""
    rows: int
    """Rows of the list that are or should be signals."""

    def count(self, how: str) -> int:
        """How many signals come in as `new`, `replaces` or `renamed`."""
        return sum(incoming.how == how for incoming in self.incoming)

    def left_out(self) -> frozenset[int]:
        """The rows that stay out."""
        return frozenset(note.row for note in self.notes if note.level != "remark")

    def edit(self, project: Project) -> Project:
        """The project with all of it. Raises EditRefused, and then nothing has changed."""
        return edits.bring_in_signals(
            project, [incoming.signal for incoming in self.incoming], followers=self.followers, lines=self.lines
        )


def plan(
    project: Project, drafts: ParsedRows, matching: Matching, target: ImportTarget, progress: Progress = no_progress
) -> ImportPlan:
    """What becomes of the drafts in a project. Rows that cannot come in are noted, the others do not mind.

    Raises Stopped if `progress` does.
    """
    return _Planner(project, drafts, matching, target).plan(progress)


@dataclass(slots=True)
class _Placed:
    """A draft whose follower and register are known."""

    draft: Draft
    follower: Follower | None = None
    table: Table = "holding"
    number: int = 0
    name: str = ""
    how: Literal["new", "replaces", "renamed"] = "new"

    @property
    def where(self) -> _Where | None:
        """The register that it is, or a bit of which it is, if it says so itself."""
        return (self.follower.name, self.table, self.number) if self.follower is not None else None


_Where: TypeAlias = tuple[str, Table, int]
_Spot: TypeAlias = tuple[_Where, int | None]
"""A register, or a bit of one."""


@dataclass(slots=True)
class _Planner:
    project: Project
    drafts: ParsedRows
    matching: Matching
    target: ImportTarget
    notes: list[Note] = field(default_factory=list)
    followers: dict[str, Follower] = field(default_factory=dict)
    """New ones by name."""
    taken: dict[str, int] = field(default_factory=dict)
    """Names that a row of the list has, with that row."""
    final: dict[str, str] = field(default_factory=dict)
    """Names of the list and what they became."""
    numbers: dict[str, int] = field(default_factory=dict)
    """The last number that was tried behind a name."""
    listed: dict[str, _Where] = field(default_factory=dict)
    """The registers of the list by its names for them."""
    free_spots: dict[_Spot, str] = field(default_factory=dict)
    """Signals of the project that no row has the name of, by where they stand."""
    kept: frozenset[str] = frozenset()
    """Attributes that the list says nothing about: a signal that is replaced keeps them."""

    def plan(self, progress: Progress) -> ImportPlan:
        self.notes += self.drafts.notes
        placed: list[_Placed] = []
        for at, draft in enumerate(self.drafts.drafts):
            if at % 1000 == 0:
                progress(0.3 * at / len(self.drafts.drafts))
            found = self._find_place(draft)
            if found is not None:
                placed.append(found)
        self._look_around(placed)
        placed = [found for found in placed if self._give_name(found)]
        signals: dict[int, AnySignal] = {}
        for at, found in enumerate(placed):
            if at % 1000 == 0:
                progress(0.3 + 0.4 * at / len(placed))
            if not found.draft.is_bit:
                signal = self._make_signal(found)
                if signal is not None:
                    signals[at] = signal
        incoming = self._with_bits(placed, signals)
        progress(0.95)
        used = {one.signal.follower for one in incoming if isinstance(one.signal, RegisterSignal)}
        followers = tuple(follower for name, follower in self.followers.items() if name in used)
        line = self.target.line
        new_line = line is not None and line.name not in self.project.line_named
        aside = {note.row for note in self.drafts.notes if note.level == "aside"}
        self.notes.sort(key=lambda note: (note.row, note.column))
        return ImportPlan(
            tuple(incoming),
            followers,
            (line,) if line is not None and new_line and any(f.line == line.name for f in followers) else (),
            tuple(self.notes),
            self.drafts.rows - len(aside),
        )

    def _note(self, draft: Draft, key: str, message: str, level: Literal["fault", "aside", "remark"] = "fault") -> None:
        columns = self.matching.columns
        self.notes.append(Note(draft.row, columns.index(key) if key in columns else -1, message, level))

    def _note_refusal(self, draft: Draft, error: EditRefused) -> None:
        self._note(draft, "register" if error.attribute == "number" else error.attribute, error.message)

    # Followers and registers

    def _find_place(self, draft: Draft) -> _Placed | None:
        place = draft.place
        if place is None:
            return _Placed(draft)
        follower = self._follower(draft)
        if follower is None:
            return None
        found = _Placed(draft, follower)
        numbering: Numbering = self.matching.numbering or follower.numbering
        found.table = draft.table or self._table_of(numbering, place.number)
        if numbering == follower.numbering and (fault := _no_register(numbering, found.table, place.number)):
            self._note(draft, "register", fault)
            return None
        try:
            found.number = _renumber(numbering, follower.numbering, found.table, place.number)
        except NotARegister as error:
            self._note(draft, "register", str(error))
            return None
        return found

    def _table_of(self, numbering: Numbering, number: int) -> Table:
        return (prefixed_table(number) if numbering == "prefixed" else None) or self.matching.table

    def _follower(self, draft: Draft) -> Follower | None:
        name = draft.follower
        known = self.project.follower_named
        if not name:
            follower = self.target.follower
            if follower is None:
                self._note(
                    draft, "follower", translate("exchange", "no device given: choose one for rows without a device")
                )
            elif follower.name not in known:
                if self.matching.numbering is not None:
                    follower = follower.replace(numbering=self.matching.numbering)
                follower = self.followers.setdefault(follower.name, follower)
            return follower
        if name in known:
            return known[name]
        if name not in self.followers:
            line = self.target.line
            if line is None:
                self._note(
                    draft,
                    "follower",
                    translate("exchange", "the project has no device '{name}', and no line to add it to").format(
                        name=name[:40]
                    ),
                )
                return None
            try:
                self.followers[name] = self._new_follower(name, line)
            except EditRefused as error:
                self._note(draft, "follower", error.message)
                return None
        return self.followers[name]

    def _new_follower(self, name: str, line: AnyLine) -> Follower:
        there = (*self.project.followers, *self.followers.values())
        units = {follower.unit for follower in there if follower.line == line.name}
        unit = next((number for number in range(1, 248) if number not in units), 1)
        return edits.follower(name=name, line=line.name, unit=unit, numbering=self.matching.numbering or "from-0")

    # Names

    def _look_around(self, placed: Sequence[_Placed]) -> None:
        """Note what is there already, in the project and in the list."""
        said = set(self.matching.columns)
        self.kept = frozenset(
            attribute.key
            for attribute in SIGNAL
            if said.isdisjoint({column.key for column in attribute.list_columns}) and attribute.key not in _PLACES
        )
        for found in placed:
            if found.where is not None and not found.draft.is_bit:
                self.listed.setdefault(found.draft.name, found.where)
        names = {found.draft.name for found in placed}
        for signal in self.project.signals:
            spot = self._spot_of(signal)
            if spot is not None and signal.name not in names:
                self.free_spots.setdefault(spot, signal.name)

    def _spot_of(self, signal: AnySignal) -> _Spot | None:
        if isinstance(signal, RegisterSignal):
            return (signal.follower, signal.table, signal.number), None
        word = self.project.signal_named.get(signal.bit.of) if isinstance(signal, BitSignal) else None
        if isinstance(word, RegisterSignal) and isinstance(signal, BitSignal):
            return (word.follower, word.table, word.number), signal.bit.number
        return None

    def _there_by_place(self, placed: _Placed) -> str:
        """The signal of the project that stands where a row wants to; empty if there is none. Each is found once."""
        draft = placed.draft
        where = placed.where
        if draft.bit_of:
            word = self.project.signal_named.get(draft.bit_of)
            spot = self._spot_of(word) if word is not None else None
            where = self.listed.get(draft.bit_of) or (spot[0] if spot is not None else None)
        if where is None:
            return ""
        return self.free_spots.pop((where, draft.bit if draft.is_bit else None), "")

    def _give_name(self, placed: _Placed) -> bool:
        """Give it the name it will have. False if it stays out for its name; that has been noted."""
        draft = placed.draft
        wanted = draft.name
        if not wanted:
            wanted = f"{placed.table} {placed.number}" if not draft.is_bit else self._name_of_bit(placed)
        policy = self.target.there
        cut = len(wanted) >= LONGEST_NAME  # a cut name is not what the list says twice
        if wanted in self.taken:
            if policy != "rename" and draft.name and not cut:
                self._note(
                    draft,
                    "name",
                    translate("exchange", "the name '{name}' is already used in row {row}").format(
                        name=wanted, row=self.taken[wanted]
                    ),
                )
                return False
            placed.name, placed.how = self._free(wanted), "renamed"
        elif wanted in self.project.signal_named:
            if policy == "skip":
                self.taken[wanted] = draft.row
                self._note(
                    draft,
                    "name",
                    translate("exchange", "there is already a signal '{name}'; it is not changed").format(name=wanted),
                    "aside",
                )
                return False
            if policy == "rename":
                placed.name, placed.how = self._free(wanted), "renamed"
            else:
                placed.name, placed.how = wanted, "replaces"
        elif there := self._there_by_place(placed):
            if policy == "skip":
                words = translate("exchange", "this is signal '{name}' of the project; it is not changed")
                self._note(draft, "register", words.format(name=there), "aside")
                self.final.setdefault(wanted, there)
                return False
            if policy == "replace":
                placed.name, placed.how = there, "replaces"
                words = translate("exchange", "updates signal '{name}', which stands at the same place")
            else:
                placed.name = wanted
                words = translate("exchange", "signal '{name}' stands at the same place already")
            self._note(draft, "register", words.format(name=there), "remark")
        else:
            placed.name = wanted
        if placed.how == "renamed":
            self._note(draft, "name", translate("exchange", "imported as '{name}'").format(name=placed.name), "remark")
        self.taken.setdefault(wanted, draft.row)
        self.taken[placed.name] = draft.row
        self.final.setdefault(wanted, placed.name)
        return True

    def _name_of_bit(self, placed: _Placed) -> str:
        base = placed.draft.bit_of or f"{placed.table} {placed.number}"
        return f"{base[:32]} bit {placed.draft.bit}"

    def _free(self, wanted: str) -> str:
        number = self.numbers.get(wanted, 1)
        while True:
            number += 1
            name = f"{wanted[:34].rstrip()} {number}"
            if name not in self.taken and name not in self.project.signal_named:
                self.numbers[wanted] = number
                return name

    # Signals

    def _make_signal(self, placed: _Placed) -> AnySignal | None:
        draft = placed.draft
        if unknown := [
            language for language in draft.rest.get("texts_in", ()) if language not in self.project.panel.languages[1:]
        ]:
            self._note(
                draft,
                "texts_in",
                translate("exchange", "there is no other language '{name}' in the panel; add it first").format(
                    name=unknown[0]
                ),
            )
            return None
        if fault := self._breaks_a_use(placed):
            self._note(draft, "name", fault)
            return None
        try:
            if draft.held is not None:
                return edits.held_signal(name=placed.name, held=draft.held, **draft.rest)
            assert placed.follower is not None
            rest = self._with_kept(placed, RegisterSignal)
            if "encoding" in rest and placed.table not in ("coil", "discrete"):
                last = wire_address(placed.follower.numbering, placed.table, placed.number) - 1
                last += register_count(rest["encoding"], rest.get("length"))
                if last > LAST_ADDRESS:
                    self._note(draft, "register", translate("exchange", "the value extends beyond the last register"))
                    return None
                order = self.matching.word_order
                if order not in (None, placed.follower.word_order) and has_word_order(rest["encoding"]):
                    rest.setdefault("word_order", order)
            if "scale" in draft.rest:
                rest["scale"] = _scale(rest["scale"])
            return edits.register_signal(
                name=placed.name, follower=placed.follower.name, table=placed.table, number=placed.number, **rest
            )
        except EditRefused as error:
            self._note_refusal(draft, error)
            return None

    def _with_kept(self, placed: _Placed, kind: type[AnySignal]) -> dict[str, Any]:
        """What a row says of its signal, and what the one that it updates keeps."""
        there = self.project.signal_named.get(placed.name) if placed.how == "replaces" else None
        kept = self.kept if isinstance(there, kind) else ()
        return {key: getattr(there, key) for key in kept if key in kind.model_fields} | placed.draft.rest

    def _breaks_a_use(self, placed: _Placed) -> str:
        if placed.how != "replaces":
            return ""
        if placed.draft.is_bit and any(
            isinstance(signal, BitSignal) and signal.bit.of == placed.name for signal in self.project.signals
        ):
            return translate("exchange", "signal '{name}' already has bits and cannot become a bit").format(
                name=placed.name
            )
        if placed.draft.held is None and any(
            isinstance(action.value, HeldValue) and action.value.from_ == placed.name for action in self.project.actions
        ):
            return translate("exchange", "signal '{name}' is a held value that an action writes").format(
                name=placed.name
            )
        return ""

    def _with_bits(self, placed: list[_Placed], whole: Mapping[int, AnySignal]) -> list[Incoming]:
        """The signals in the order of the rows: bits too, and the signals that they need and nobody names."""
        by_name: dict[str, AnySignal] = {signal.name: signal for signal in self.project.signals}
        by_place: dict[_Where, RegisterSignal] = {}
        for signal in (*self.project.signals, *whole.values()):
            by_name[signal.name] = signal
            if isinstance(signal, RegisterSignal) and is_integer(signal.encoding):
                by_place.setdefault((signal.follower, signal.table, signal.number), signal)
        incoming: list[Incoming] = []
        for at, found in enumerate(placed):
            if at in whole:
                incoming.append(Incoming(found.draft.row, whole[at], found.how))
            elif found.draft.is_bit:
                incoming += self._bit(found, by_name, by_place)
        return incoming

    def _bit(
        self, placed: _Placed, by_name: Mapping[str, AnySignal], by_place: dict[_Where, RegisterSignal]
    ) -> Iterator[Incoming]:
        draft = placed.draft
        assert draft.bit is not None
        new: RegisterSignal | None = None
        base: AnySignal | None
        if draft.bit_of:
            base = by_name.get(self.final.get(draft.bit_of, draft.bit_of))
            if base is None:
                self._note(
                    draft,
                    "bit_of",
                    translate("exchange", "signal '{name}' is neither in the project nor in the imported rows").format(
                        name=draft.bit_of[:40]
                    ),
                )
                return
        else:
            assert placed.follower is not None
            where = placed.follower.name, placed.table, placed.number
            base = by_place.get(where)
            if base is None:
                name = f"{placed.table} {placed.number}"
                if name in self.taken or name in self.project.signal_named:
                    name = self._free(name)
                base = new = edits.register_signal(
                    name=name,
                    follower=placed.follower.name,
                    table=placed.table,
                    number=placed.number,
                    encoding="uint16" if draft.bit < 16 else "uint32" if draft.bit < 32 else "uint64",
                )
        if fault := _no_bit(base, draft.bit) or self._breaks_a_use(placed):
            self._note(draft, "bit", fault)
            return
        rest = self._with_kept(placed, BitSignal)
        kept = {key: value for key, value in rest.items() if key in BitSignal.model_fields}
        try:
            signal = edits.bit_signal(name=placed.name, bit={"of": base.name, "number": draft.bit}, **kept)
        except EditRefused as error:
            self._note_refusal(draft, error)
            return
        if new is not None:
            by_place[new.follower, new.table, new.number] = new
            self.taken[new.name] = draft.row
            self._note(
                draft,
                "register",
                translate("exchange", "signal '{name}' is added to hold its bits").format(name=new.name),
                "remark",
            )
            yield Incoming(draft.row, new, "new")
        yield Incoming(draft.row, signal, placed.how)


def _no_bit(base: AnySignal, bit: int) -> str:
    """Why a signal has no such bit; empty if it has."""
    if isinstance(base, BitSignal):
        return translate("exchange", "signal '{name}' is itself a bit").format(name=base.name)
    if isinstance(base, RegisterSignal):
        if not is_integer(base.encoding):
            return translate("exchange", "signal '{name}' is not a whole number and has no bits").format(name=base.name)
        if bit >= 16 * register_count(base.encoding):
            return translate("exchange", "signal '{name}' has no bit {bit}").format(name=base.name, bit=bit)
    return ""


@lru_cache(maxsize=4096)
def _scale(points: tuple[Decimal, Decimal, Decimal, Decimal]) -> Scale:
    """The scale through two raw numbers and their values; lists have few different ones. Raises EditRefused."""
    return made(Scale, raw=points[:2], value=points[2:])


@lru_cache(maxsize=65_536)
def _no_register(numbering: Numbering, table: Table, number: int) -> str:
    try:
        wire_address(numbering, table, number)
    except NotARegister as error:
        return str(error)
    return ""


@lru_cache(maxsize=65_536)
def _renumber(given: Numbering, wanted: Numbering, table: Table, number: int) -> int:
    """A register that is counted in one way, counted in another. Raises NotARegister."""
    if given == wanted:
        return number
    return documented_number(wanted, table, wire_address(given, table, number))
