"""Signals that are dropped on the glass, or placed at the cursor by a key; what will stand there is shown before."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QCoreApplication, QEvent, QMimeData, QObject, QPoint, Qt, Signal
from PySide6.QtGui import QDragMoveEvent, QDropEvent

from app.edits.refused import EditRefused
from app.project.model import Project, Screen
from widgets.design.screen.commands import ScreenCommands
from widgets.design.tray.placing import NoRoom, Placement, edit_of, in_row, placement
from widgets.document.document import Document
from widgets.face.accessibility import announce
from widgets.face.cells import CellGrid
from widgets.face.marks import Ghost, Outline, Piece
from widgets.face.sample_values import FieldContents, field_text

SIGNALS: Final = "application/x-fanlight-signals"
"""What signals are dragged as: a list of names in JSON."""


def dragged(names: Sequence[str]) -> QMimeData:
    """Signals as they are dragged; other programs get their names."""
    data = QMimeData()
    data.setData(SIGNALS, json.dumps(list(names)).encode())
    data.setText("\n".join(names))
    return data


def names_in(data: QMimeData) -> list[str]:
    """The signals that are dragged; none if it is something else."""
    return list(json.loads(bytes(data.data(SIGNALS).data()))) if data.hasFormat(SIGNALS) else []


@dataclass(frozen=True, slots=True)
class Plan:
    """What would stand where, and why it cannot; `ghost` shows both."""

    placed: tuple[Placement, ...]
    ghost: Ghost
    words: str
    refused: str = ""


class Dropping(QObject):
    """Places signals on the screen under edit, each deed as one step."""

    said = Signal(str)
    """While something is dragged: what will stand there, or why it does not fit; empty once that is over."""
    placed = Signal()

    def __init__(self, grid: CellGrid, document: Document, commands: ScreenCommands, parent: QObject) -> None:
        super().__init__(parent)
        self._grid = grid
        self._document = document
        self._commands = commands
        self._over: tuple[object, ...] = ()
        grid.setAcceptDrops(True)
        grid.installEventFilter(self)

    def plan(self, names: Sequence[str], cell: tuple[int, int], *, value_only: bool = False) -> Plan | None:
        """What these signals would become at a cell of the screen under edit; None without a screen."""
        project = self._document.spoken
        screen = project.screen_named.get(self._document.selection.screen)
        names = [name for name in names if name in project.signal_named]
        if screen is None or not names:
            return None
        try:
            placed = _placed(project, screen, names, cell, value_only=value_only)
            edit_of(screen.name, placed, self._document.in_spoken)(self._document.project)
        except NoRoom as why:
            ghost = Ghost((Outline(*why.run, Qt.PenStyle.SolidLine),), fits=False)
            return Plan((), ghost, "", str(why))
        except EditRefused as why:
            return Plan((), Ghost((Outline(*cell, 1),), fits=False), "", str(why))
        return Plan(placed, _ghost(project, placed), self._in_words(placed, value_only=value_only))

    def place(self, names: Sequence[str], cell: tuple[int, int] | None = None, *, value_only: bool = False) -> bool:
        """Place signals at a cell, or at the cursor, or where that has no room in the first empty rows.

        Returns whether there was room; if not, that has been said.
        """
        plan = self.plan(names, cell or self._document.selection.cell, value_only=value_only)
        if cell is None and plan is not None and plan.refused:
            others = (self.plan(names, (row, 0), value_only=value_only) for row in self._empty_rows())
            plan = next((other for other in others if other is not None and not other.refused), plan)
        if plan is None:
            return False
        if plan.refused:
            self._commands.refuse(self.tr("Does not fit: {why}.").format(why=plan.refused))
            return False
        self._document.seal()
        step = (
            self.tr("Place \u201c{signal}\u201d").format(signal=names[0])
            if len(plan.placed) == 1
            else self.tr("Place {count} signals").format(count=len(plan.placed))
        )
        edit = edit_of(self._document.selection.screen, plan.placed, self._document.in_spoken)
        if not self._commands.edit(step, edit, cell=plan.placed[-1].behind, fields=()):
            return False
        self._document.seal()
        announce(self._grid, self.tr("Placed: {what}").format(what=plan.words))
        self.placed.emit()
        return True

    def _empty_rows(self) -> list[int]:
        screen, panel = self._document.screen, self._document.project.panel
        if screen is None:
            return []
        full = {row for row, text in enumerate(screen.text) if text.strip()} | {field.at[0] for field in screen.fields}
        return [row for row in range(panel.rows) if row not in full]

    def _in_words(self, placed: Sequence[Placement], *, value_only: bool) -> str:
        first = placed[0]
        row = first.field.at[0] + 1
        if len(placed) > 1:
            return self.tr("{count} signals in rows {first} to {last}").format(
                count=len(placed), first=row, last=placed[-1].field.at[0] + 1
            )
        parts = [self.tr("value of {count} cells").format(count=first.field.width)]
        if first.label:
            parts.insert(0, f"\u201c{first.label}\u201d")
        if first.unit:
            parts.append(f"\u201c{first.unit}\u201d")
        if first.field.entry:
            parts.append(self.tr("entry on"))
        where = self.tr("Row {row}, column {column}").format(row=row, column=first.field.at[1] + 1)
        hint = "" if value_only or len(parts) == 1 else self.tr(" \u2013 Ctrl: the value only")
        return f"{where}: {', '.join(parts)}{hint}"

    # Drag and drop

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Show what is dragged over the glass, and place it where it is dropped."""
        if watched is self._grid:
            if isinstance(event, QDragMoveEvent):  # of which the event of entering is one
                return self._move(event)
            if event.type() == QEvent.Type.DragLeave:
                self._end()
            elif isinstance(event, QDropEvent):
                return self._drop(event)
        return super().eventFilter(watched, event)

    def _move(self, event: QDragMoveEvent) -> bool:
        names = names_in(event.mimeData())
        if not names:
            return False
        plan = self._show(names, event.position().toPoint(), event.modifiers())
        event.setDropAction(Qt.DropAction.CopyAction)
        # A drag is entered wherever it comes in, or it would hear of nothing any more.
        event.setAccepted(event.type() == QEvent.Type.DragEnter or (plan is not None and not plan.refused))
        return True

    def _drop(self, event: QDropEvent) -> bool:
        names = names_in(event.mimeData())
        if not names:
            return False
        cell = self._grid.cell_at(event.position().toPoint())
        self._end()
        only = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        event.setDropAction(Qt.DropAction.CopyAction)
        event.setAccepted(self.place(names, cell, value_only=only))
        face = self._grid.parentWidget()
        if face is not None:  # where typing goes on
            face.setFocus(Qt.FocusReason.MouseFocusReason)
        return True

    def _show(self, names: Sequence[str], at: QPoint, modifiers: Qt.KeyboardModifier) -> Plan | None:
        cell = self._grid.cell_at(at)
        if cell is None:
            return None
        only = bool(modifiers & Qt.KeyboardModifier.ControlModifier)
        plan = self.plan(names, cell, value_only=only)
        over = (tuple(names), cell, only)
        if plan is not None and over != self._over:
            self._over = over
            self._grid.set_ghost(plan.ghost)
            self.said.emit(
                self.tr("Does not fit: {why}.").format(why=plan.refused)
                if plan.refused
                else self.tr("Drop here: {what}").format(what=plan.words)
            )
        return plan

    def _end(self) -> None:
        self._over = ()
        self._grid.set_ghost(None)
        self.said.emit("")


def _placed(
    project: Project, screen: Screen, names: Sequence[str], cell: tuple[int, int], *, value_only: bool
) -> tuple[Placement, ...]:
    """One signal at the cell, or several in the empty rows from there on."""
    if len(names) == 1:
        return (placement(project, screen, names[0], cell, value_only=value_only),)
    row, columns = cell[0], project.panel.columns
    rows = range(row, row + len(names))
    free = [
        each < project.panel.rows
        and not "".join(screen.text[each : each + 1]).strip()
        and all(field.at[0] != each for field in screen.fields)
        for each in rows
    ]
    if not all(free):
        why = QCoreApplication.translate(
            "Dropping", "{count} signals need as many empty rows below one another, and there are {free} from here on"
        )
        raise NoRoom(why.format(count=len(names), free=free.index(False)), (row, 0, columns))
    return tuple(in_row(project, name, each) for name, each in zip(names, rows, strict=True))


def _ghost(project: Project, placed: Sequence[Placement]) -> Ghost:
    outlines = tuple(
        Outline(*each.field.at, each.field.width, Qt.PenStyle.DashLine, entry=each.field.entry) for each in placed
    )
    pieces = [Piece(*text) for each in placed for text in each.texts]
    pieces += [Piece(*each.field.at, field_text(project, each.field, FieldContents.SAMPLE)) for each in placed]
    return Ghost(outlines, None, tuple(pieces))
