"""The tables of the Design workplace: turns and actions, signals, lines and followers."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from app.project import edits
from app.project.edits.refused import free_name
from app.project.model import (
    Action,
    Bit,
    BitSignal,
    Condition,
    Follower,
    HeldSignal,
    Project,
    RegisterSignal,
    SerialLine,
    Turn,
)
from widgets.document import Document
from widgets.line_forms import line_kinds, line_of_kind
from widgets.part_table import Column, PartTable
from widgets.phrases import cause_text, deed_text, from_text, target_text
from widgets.signal_picker import signal_origin
from widgets.typed import number, plain
from widgets.uses import use_counts

translate = QCoreApplication.translate


class SignalsView(QWidget):
    """All signals in one table."""

    chosen = Signal()
    opened = Signal()
    added = Signal()
    """A part was added and is current: it wants a name and the rest."""
    lines_wanted = Signal()
    """A follower is needed first."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.table = PartTable(
            self.tr("Signals"),
            [
                Column(self.tr("Name"), lambda _project, part: part.name),
                Column(self.tr("Source"), lambda project, part: signal_origin(project, part.name), 210),
                Column(self.tr("Unit"), lambda _project, part: part.unit, 56),
                Column(self.tr("Limits"), _limits_text, 96),
                Column(self.tr("Write"), lambda _project, part: _write_text(part), 62),
                Column(self.tr("Uses"), lambda project, part: str(use_counts(project)[part.name]), 50, True),
            ],
            [
                ("register", self.tr("Read from a follower")),
                ("bit", self.tr("One bit of another signal")),
                ("held", self.tr("Held in the panel")),
            ],
            narrowing=True,
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.table)
        self.table.chosen.connect(lambda _index: self.chosen.emit())
        self.table.opened.connect(lambda _index: self.opened.emit())
        self.table.add_wanted.connect(lambda kind: self.add(kind))
        self.table.duplicate_wanted.connect(self._duplicate)
        self.table.delete_wanted.connect(self._delete)
        self.table.move_wanted.connect(self._move)

    @property
    def first(self) -> QWidget:
        """What takes the focus."""
        return self.table.table

    def show_project(self, project: Project, wrong: frozenset[int]) -> None:
        """Show the signals of a project; `wrong` have errors."""
        self.table.show_parts(project, project.signals, wrong)

    def current(self) -> int:
        """The index of the current signal; -1 for none."""
        return self.table.current()

    def select(self, index: int) -> None:
        """Make a signal current."""
        self.table.select(index)

    def add(self, kind: str, name: str = "") -> None:
        """Add a signal of a kind: `register`, `bit` or `held`."""
        project = self._document.project
        name = name if name and name not in project.signal_named else free_name(name or "signal", project.signal_named)
        signal: RegisterSignal | BitSignal | HeldSignal
        if kind == "bit":
            words = [part.name for part in project.signals if isinstance(part, RegisterSignal)]
            if not words:
                self._document.refused.emit(self.tr("A bit is taken of a register signal; add one of those first."))
                return
            current = self.current()
            base = project.signals[current].name if 0 <= current < len(project.signals) else words[0]
            signal = BitSignal(name=name, bit=Bit(of=base if base in words else words[0], number=0))
        elif kind == "held":
            signal = HeldSignal(name=name, held=number("0"))
        else:
            if not project.followers:
                self._document.offered.emit(
                    self.tr("A register belongs to a follower; add one first."),
                    self.tr("Lines and followers"),
                    self.lines_wanted.emit,
                )
                return
            signal = RegisterSignal(name=name, follower=project.followers[0].name, number=_free_register(project))
        at = len(project.signals)
        if self._document.do(self.tr("Add signal"), lambda project: edits.add_signal(project, signal)) is None:
            self.select(at)
            self.chosen.emit()
            self.added.emit()

    def _duplicate(self, index: int) -> None:
        project = self._document.project
        name = project.signals[index].name
        if self._document.do(self.tr("Duplicate signal"), lambda p: edits.duplicate_signal(p, name)) is None:
            self.select(index + 1)
            self.chosen.emit()
            self.added.emit()

    def _delete(self, index: int) -> None:
        name = self._document.project.signals[index].name
        self._document.do(self.tr("Delete signal"), lambda project: edits.delete_signal(project, name))

    def _move(self, index: int, to: int) -> None:
        name = self._document.project.signals[index].name
        if self._document.do(self.tr("Move signal"), lambda p: edits.move_signal(p, name, to)) is None:
            self.select(to)


class _TwoTables(QWidget):
    """Two tables under one another; the one that was used last is the current one."""

    chosen = Signal()
    opened = Signal()
    added = Signal()
    """A part was added and is current: it wants a name and the rest."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tables: dict[str, PartTable] = {}
        self._kind = ""

    def _add_tables(self, upper: tuple[str, PartTable], lower: tuple[str, PartTable], sizes: list[int]) -> None:
        self._tables = dict((upper, lower))
        self._kind = upper[0]
        splitter = QSplitter(Qt.Orientation.Vertical)
        for kind, table in self._tables.items():
            splitter.addWidget(table)
            table.chosen.connect(lambda index, kind=kind: self._choose(kind, index))
            table.opened.connect(lambda _index, kind=kind: self._open(kind))
            table.table.gained_focus.connect(lambda kind=kind: self._choose(kind, 0))
        splitter.setSizes(sizes)
        splitter.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(splitter)

    @property
    def first(self) -> QWidget:
        """What takes the focus."""
        return self._tables[self._kind].table

    def _choose(self, kind: str, index: int) -> None:
        if index >= 0:
            self._make_current(kind)
            self.chosen.emit()

    def _make_current(self, kind: str) -> None:
        self._kind = kind
        for other, table in self._tables.items():
            if other != kind:
                table.fade()
        self._tables[kind].light_up()

    def _open(self, kind: str) -> None:
        self._make_current(kind)
        self.opened.emit()

    def current(self) -> tuple[str, int]:
        """Kind and index of the current part; -1 for none."""
        return self._kind, self._tables[self._kind].current()

    def select(self, kind: str, index: int) -> None:
        """Make a part current."""
        self._tables[kind].select(index)
        self._make_current(kind)

    def focus(self, kind: str) -> None:
        """Give a table the focus."""
        self._tables[kind].table.setFocus(Qt.FocusReason.OtherFocusReason)


class BehaviourView(_TwoTables):
    """All turns and all actions, in their order: of two that could count, the first does."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.turns = PartTable(
            self.tr("Turns"),
            [
                Column(self.tr("Cause"), lambda _project, part: cause_text(part)),
                Column(self.tr("On"), lambda _project, part: from_text(part), 150),
                Column(self.tr("To"), lambda _project, part: target_text(part), 170),
            ],
            [("key", self.tr("By a key")), ("when", self.tr("By a condition")), ("idle", self.tr("After idle time"))],
        )
        self.actions_table = PartTable(
            self.tr("Actions"),
            [
                Column(self.tr("Cause"), lambda _project, part: cause_text(part)),
                Column(self.tr("On"), lambda _project, part: from_text(part), 150),
                Column(self.tr("Does"), lambda _project, part: deed_text(part), 270),
            ],
            [("key", self.tr("By a key")), ("when", self.tr("By a condition"))],
        )
        self._add_tables(("turn", self.turns), ("action", self.actions_table), [260, 220])
        self.turns.add_wanted.connect(lambda cause: self.add_turn(cause))
        self.turns.duplicate_wanted.connect(self._duplicate_turn)
        self.turns.delete_wanted.connect(
            lambda index: document.do(self.tr("Delete turn"), lambda project: edits.delete_turn(project, index))
        )
        self.turns.move_wanted.connect(self._move_turn)
        self.actions_table.add_wanted.connect(lambda cause: self.add_action(cause))
        self.actions_table.duplicate_wanted.connect(self._duplicate_action)
        self.actions_table.delete_wanted.connect(
            lambda index: document.do(self.tr("Delete action"), lambda project: edits.delete_action(project, index))
        )
        self.actions_table.move_wanted.connect(self._move_action)

    def show_project(self, project: Project, wrong_turns: frozenset[int], wrong_actions: frozenset[int]) -> None:
        """Show the turns and actions of a project; the wrong ones have errors."""
        self.turns.show_parts(project, project.turns, wrong_turns)
        self.actions_table.show_parts(project, project.actions, wrong_actions)

    def add_turn(self, cause: str, screen: str | None = None) -> None:
        """Add a turn by `key`, by a condition (`when`) or after `idle` time; with `screen` from there."""
        project = self._document.project
        if not project.screens:
            self._document.refused.emit(self.tr("A turn leads to a screen; add one first."))
            return
        if cause == "when":
            signal = next(iter(project.signal_named), None)
            if signal is None:
                self._document.refused.emit(self.tr("A condition needs a signal; add one first."))
                return
            turn = Turn(when=Condition(signal=signal), to=project.screens[-1].name)
        elif cause == "idle":
            turn = Turn(idle_s=120, to=project.panel.start)
        elif not project.panel.keys:
            self._document.refused.emit(self.tr("The panel has no keys; name some in its properties first."))
            return
        else:
            turn = Turn(key=_free_key(project, screen), from_=screen, to="next")
        if self._document.do(self.tr("Add turn"), lambda project: edits.add_turn(project, turn)) is None:
            self.select("turn", len(self._document.project.turns) - 1)
            self.chosen.emit()
            self.added.emit()

    def add_action(self, cause: str, screen: str | None = None) -> None:
        """Add an action by `key` or by a condition (`when`); with `screen` on that screen only."""
        project = self._document.project
        signal = next(iter(project.signal_named), None)
        if signal is None:
            self._document.refused.emit(self.tr("An action needs a signal; add one first."))
            return
        if cause == "when":
            action = Action(when=Condition(signal=signal), do="set", signal=signal)
        elif not project.panel.keys:
            self._document.refused.emit(self.tr("The panel has no keys; name some in its properties first."))
            return
        else:
            action = Action(key=_free_key(project, screen), from_=screen, do="set", signal=signal)
        if self._document.do(self.tr("Add action"), lambda project: edits.add_action(project, action)) is None:
            self.select("action", len(self._document.project.actions) - 1)
            self.chosen.emit()
            self.added.emit()

    def _duplicate_turn(self, index: int) -> None:
        turn = self._document.project.turns[index]
        if self._document.do(self.tr("Duplicate turn"), lambda p: edits.add_turn(p, turn, index + 1)) is None:
            self.select("turn", index + 1)
            self.chosen.emit()
            self.added.emit()

    def _duplicate_action(self, index: int) -> None:
        action = self._document.project.actions[index]
        if self._document.do(self.tr("Duplicate action"), lambda p: edits.add_action(p, action, index + 1)) is None:
            self.select("action", index + 1)
            self.chosen.emit()
            self.added.emit()

    def _move_turn(self, index: int, to: int) -> None:
        if self._document.do(self.tr("Move turn"), lambda project: edits.move_turn(project, index, to)) is None:
            self.select("turn", to)
            self.chosen.emit()

    def _move_action(self, index: int, to: int) -> None:
        if self._document.do(self.tr("Move action"), lambda project: edits.move_action(project, index, to)) is None:
            self.select("action", to)
            self.chosen.emit()


class LinesView(_TwoTables):
    """All lines and all followers."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        kinds = dict(line_kinds())
        self.lines = PartTable(
            self.tr("Lines"),
            [
                Column(self.tr("Name"), lambda _project, part: part.name),
                Column(self.tr("Kind"), lambda _project, part: kinds[part.kind], 170),
                Column(self.tr("Where"), lambda _project, part: _where(part), 200),
                Column(self.tr("Time-out"), lambda _project, part: f"{part.timeout_ms} ms", 80, True),
            ],
            line_kinds(),
            ordered=False,
        )
        self.followers = PartTable(
            self.tr("Followers"),
            [
                Column(self.tr("Name"), lambda _project, part: part.name),
                Column(self.tr("Line"), lambda _project, part: part.line, 150),
                Column(self.tr("Unit"), lambda _project, part: str(part.unit), 60, True),
                Column(self.tr("Signals"), _signal_count, 70, True),
                Column(self.tr("Simulated as"), lambda _project, part: part.simulate, 110),
            ],
            [("follower", self.tr("Follower"))],
        )
        self._add_tables(("line", self.lines), ("follower", self.followers), [190, 260])
        self.lines.add_wanted.connect(self._add_line)
        self.lines.duplicate_wanted.connect(self._duplicate_line)
        self.lines.delete_wanted.connect(self._delete_line)
        self.followers.add_wanted.connect(lambda _kind: self._add_follower())
        self.followers.duplicate_wanted.connect(self._duplicate_follower)
        self.followers.delete_wanted.connect(self._delete_follower)
        self.followers.move_wanted.connect(self._move_follower)

    def show_project(self, project: Project, wrong_lines: frozenset[int], wrong_followers: frozenset[int]) -> None:
        """Show the lines and followers of a project; the wrong ones have errors."""
        self.lines.show_parts(project, project.lines, wrong_lines)
        self.followers.show_parts(project, project.followers, wrong_followers)

    def _add_line(self, kind: str) -> None:
        project = self._document.project
        line = line_of_kind(kind, free_name(self.tr("line"), project.line_named))
        self._add("line", self.tr("Add line"), lambda p: edits.add_line(p, line), len(project.lines))

    def _duplicate_line(self, index: int) -> None:
        project = self._document.project
        line = project.lines[index].but(name=free_name(project.lines[index].name, project.line_named))
        self._add("line", self.tr("Duplicate line"), lambda p: edits.add_line(p, line), len(project.lines))

    def _delete_line(self, index: int) -> None:
        name = self._document.project.lines[index].name
        self._document.do(self.tr("Delete line"), lambda project: edits.delete_line(project, name))

    def _add_follower(self) -> None:
        project = self._document.project
        if not project.lines:
            self._document.refused.emit(self.tr("A follower answers on a line; add one first."))
            return
        kind, index = self.current()
        line = project.lines[index if kind == "line" and index >= 0 else 0].name
        taken = {part.unit for part in project.followers if part.line == line}
        unit = next((number for number in range(1, 248) if number not in taken), 1)
        follower = Follower(name=free_name(self.tr("follower"), project.follower_named), line=line, unit=unit)
        self._add(
            "follower", self.tr("Add follower"), lambda p: edits.add_follower(p, follower), len(project.followers)
        )

    def _duplicate_follower(self, index: int) -> None:
        project = self._document.project
        part = project.followers[index]
        taken = {other.unit for other in project.followers if other.line == part.line}
        unit = next((number for number in range(1, 248) if number not in taken), part.unit)
        copy = part.but(name=free_name(part.name, project.follower_named), unit=unit)
        self._add(
            "follower", self.tr("Duplicate follower"), lambda p: edits.add_follower(p, copy), len(project.followers)
        )

    def _delete_follower(self, index: int) -> None:
        name = self._document.project.followers[index].name
        self._document.do(self.tr("Delete follower"), lambda project: edits.delete_follower(project, name))

    def _move_follower(self, index: int, to: int) -> None:
        name = self._document.project.followers[index].name
        self._done("follower", self.tr("Move follower"), lambda p: edits.move_follower(p, name, to), to)

    def _done(self, kind: str, name: str, edit: Any, at: int) -> bool:
        if self._document.do(name, edit) is not None:
            return False
        self.select(kind, at)
        self.chosen.emit()
        return True

    def _add(self, kind: str, name: str, edit: Any, at: int) -> None:
        if self._done(kind, name, edit, at):
            self.added.emit()


def _limits_text(_project: Project, part: Any) -> str:
    if part.limits is None:
        return ""
    return translate("SignalsView", "{low} to {high}").format(low=plain(part.limits[0]), high=plain(part.limits[1]))


def _write_text(part: Any) -> str:
    if isinstance(part, HeldSignal):
        return ""
    return translate("SignalsView", "yes") if part.write else translate("SignalsView", "no")


def _where(line: Any) -> str:
    if isinstance(line, SerialLine):
        parity = {"even": "E", "odd": "O", "none": "N"}[line.parity]
        return f"{line.device}  {line.baud} 8{parity}{line.stop_bits}"
    return f"{line.host}:{line.port}"


def _signal_count(project: Project, part: Follower) -> str:
    return str(sum(getattr(signal, "follower", None) == part.name for signal in project.signals))


def _free_register(project: Project) -> int:
    """The number after the last register of the first follower."""
    follower = project.followers[0]
    numbers = [
        part.number
        for part in project.signals
        if isinstance(part, RegisterSignal) and part.follower == follower.name and part.table == "holding"
    ]
    first = {"from-0": 0, "from-1": 1, "prefixed": 40001}[follower.numbering]
    return max(numbers) + 1 if numbers else first


def _free_key(project: Project, screen: str | None) -> str:
    """A key that turns nothing and does nothing there yet, or the first one."""
    taken = {turn.key for turn in project.turns if turn.from_ in (None, screen)}
    taken |= {action.key for action in project.actions if action.from_ in (None, screen)}
    return next((key for key in project.panel.keys if key not in taken), project.panel.keys[0])
