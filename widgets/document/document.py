"""The project that a window edits: its history of named steps, its file, and what is selected in it."""

from __future__ import annotations

import gc
from collections.abc import Callable, Hashable
from dataclasses import dataclass, replace
from pathlib import Path

from pydantic import ValidationError
from PySide6.QtCore import QObject, QRect, Signal

from app.project.history import EditHistory
from app.project.languages import edited_in, in_language
from app.project.model import Project, Screen
from app.project_file.validation_messages import refusal_of

Edit = Callable[[Project], Project]


@dataclass(frozen=True, slots=True)
class Selection:
    """What is looked at: a screen, the cell of the cursor, the fields and the block of cells that are selected.

    Row and column count from 0; fields are indexes in the screen's tuple; `block` counts columns in x, rows in y.
    """

    screen: str = ""
    cell: tuple[int, int] = (0, 0)
    fields: tuple[int, ...] = ()
    block: QRect | None = None


class Document(QObject):
    """Holds the project of a window. Everything that changes it goes through `do`, so everything can be undone."""

    changed = Signal()
    """Another project value: an edit, undo, redo, or another file."""
    replaced = Signal()
    """Another project altogether; comes before `changed`."""
    selection_changed = Signal()
    language_changed = Signal()
    """The texts are shown and typed in another language of the panel."""
    shown_changed = Signal()
    """The project, what is selected of it or the language is another: once for each deed, after the signals of each."""
    status_changed = Signal()
    """The file, the unsaved mark or the names of the steps to undo and redo changed."""
    refused = Signal(str)
    """An edit was refused; the reason in words."""
    offered = Signal(str, str, object)
    """An edit was refused, but there is a way: the reason, what a button says, what it does (a call)."""

    def __init__(self, project: Project, path: Path | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._history = EditHistory(project)
        self._path = path
        self._selection = Selection(screen=_first_screen(project))
        self._language = 0
        self._looked_at: dict[int, tuple[Selection, Selection]] = {}
        """What was selected before and after each step, by its position in the history."""
        self._order = tuple(screen.name for screen in project.screens)

    def take_over(self, former: Document) -> None:
        """Go on with what another document held: its project with all steps, its file, its selection.

        For a document that nobody listens to yet; the former one is not used any more.
        """
        self._history, self._path, self._order = former._history, former._path, former._order
        self._selection, self._language, self._looked_at = former._selection, former._language, former._looked_at

    # The project and its file

    @property
    def project(self) -> Project:
        """The project as it is now."""
        return self._history.project

    @property
    def path(self) -> Path | None:
        """The file; None if it was never saved."""
        return self._path

    @property
    def modified(self) -> bool:
        """Whether the project differs from its file."""
        return self._history.dirty

    def open(self, project: Project, path: Path | None, *, saved: bool = True) -> None:
        """Edit another project from now on. There is no undo across this."""
        self._history = EditHistory(project, saved=saved)
        self._path = path
        self._language = 0
        self._looked_at = {}
        self._order = ()
        self.replaced.emit()
        self._tell(Selection(screen=_first_screen(project)))
        # Parts of a project form no cycles. Looking for some among ten thousands of them would stop a key for 80 ms now
        # and then, so the collector leaves alone what is there once a project is open.
        if gc.isenabled():  # else the program is just starting, and sees to it afterwards
            gc.unfreeze()
            gc.collect()
            gc.freeze()

    def mark_saved(self, path: Path) -> None:
        """The project as it is now stands in this file."""
        self._path = path
        self._history.mark_saved()
        self.status_changed.emit()

    # Edits

    def do(
        self,
        name: str,
        edit: Edit,
        *,
        merge: Hashable = None,
        select: Selection | Callable[[Project], Selection] | None = None,
        aloud: bool = True,
    ) -> str | None:
        """Make an edit as one step called `name`. Returns None, or in words why it was refused.

        Consecutive steps with an equal `merge` (not None) become one. `select` is selected after the edit; it may be a
        function of the project as it is then. A refusal is also emitted as `refused`, unless `aloud` is False because
        the caller shows it.
        """
        from app.edits.refused import EditRefused  # with all edits, which nobody makes before the first one

        try:
            project = edit(self.project)
        except (EditRefused, ValidationError) as error:
            text = refusal_of(error) if isinstance(error, ValidationError) else str(error)
            if aloud:
                self.refused.emit(text)
            return text
        if callable(select):
            select = select(project)
        if project is not self.project and project != self.project:
            before, at = self._selection, self._history.position
            self._history.record(project, name, merge)
            self._tell(select)
            merged = self._history.position == at
            first = self._looked_at.get(at, (before, before))[0] if merged else before
            self._looked_at[self._history.position] = (first, self._selection)
        elif select is not None:
            self._select(select)
        return None

    def undo(self) -> None:
        """Take the last step back."""
        self.go_to_step(self.position - 1)

    def redo(self) -> None:
        """Make the step again that was taken back last."""
        self.go_to_step(self.position + 1)

    def seal(self) -> None:
        """The next edit is a step of its own, whatever it is."""
        self._history.seal()

    @property
    def undo_name(self) -> str | None:
        """What undo would take back; None if there is nothing."""
        return self._history.undo_name

    @property
    def redo_name(self) -> str | None:
        """What redo would make again; None if there is nothing."""
        return self._history.redo_name

    def go_to_step(self, position: int) -> None:
        """Take steps back, or make them again, until so many of `steps` are made."""
        back = position < self._history.position
        if position == self.position or not 0 <= position <= len(self.steps):
            return
        before = self.project
        self._history.go_to(position)
        looked_at = self._looked_at.get(position + 1 if back else position)
        self._tell(self._where_changed(before, looked_at[0 if back else 1] if looked_at else None))

    @property
    def steps(self) -> tuple[str, ...]:
        """The names of all steps since the project was opened, the oldest first; also of those that were taken back."""
        return self._history.names

    @property
    def position(self) -> int:
        """How many of `steps` are made now."""
        return self._history.position

    @property
    def saved_at(self) -> int | None:
        """How many of `steps` were made when it was saved last; None if that is not among them."""
        return self._history.saved_at

    def _where_changed(self, before: Project, looked_at: Selection | None) -> Selection | None:
        """What to look at after undo or redo: the one screen that differs from `before`; None: stay here.

        `looked_at` was selected then. It comes back with the step, so that the cursor is where it was.
        """
        old = before.screen_named
        differing = [screen.name for screen in self.project.screens if old.get(screen.name) is not screen]
        if looked_at is not None and [looked_at.screen] == differing:
            return looked_at
        if len(differing) != 1 or differing[0] == self._selection.screen:
            return None
        return Selection(screen=differing[0])

    def _tell(self, select: Selection | None = None) -> None:
        before = self._selection
        self._selection = self._sound(select or before)
        self._order = tuple(screen.name for screen in self.project.screens)
        self.changed.emit()
        self.status_changed.emit()
        if self._selection != before:
            self.selection_changed.emit()
        self.shown_changed.emit()

    # The language of the panel's texts

    @property
    def language(self) -> int:
        """The language that texts are shown and typed in: its index among the panel's, 0 where there are none."""
        return self._language if self._language < len(self.project.panel.languages) else 0

    def choose_language(self, number: int) -> None:
        """Show and type texts in another language of the panel from now on."""
        if number != self._language:
            self._language = number
            self.seal()
            self.language_changed.emit()
            self.shown_changed.emit()

    @property
    def spoken(self) -> Project:
        """The project with the texts of that language, to be shown. It is never edited."""
        return in_language(self.project, self.language)

    def in_spoken(self, edit: Edit, screen: str) -> Edit:
        """`edit`, about the text of `screen` in that language, as an edit of the project."""
        return lambda project: edited_in(project, self.language, edit, only=screen)

    # The selection

    @property
    def selection(self) -> Selection:
        """What is selected; its parts exist."""
        return self._selection

    @property
    def screen(self) -> Screen | None:
        """The screen that is edited; None in a project without any."""
        return self.project.screen_named.get(self._selection.screen)

    def select(self, selection: Selection) -> None:
        """Select something else."""
        if self._select(selection):
            self.seal()  # typing at another place is another step

    def _select(self, selection: Selection) -> bool:
        selection = self._sound(selection)
        if selection == self._selection:
            return False
        self._selection = selection
        self.selection_changed.emit()
        self.shown_changed.emit()
        return True

    def select_screen(self, name: str) -> None:
        """Edit another screen, from its upper left corner."""
        if name != self._selection.screen and name in self.project.screen_named:
            self.select(Selection(screen=name))

    def _sound(self, selection: Selection) -> Selection:
        """The selection without what no longer exists. A screen that is gone gives way to the one in its place."""
        project = self.project
        screen = project.screen_named.get(selection.screen)
        if screen is None:
            if not project.screens:
                return Selection()
            place = self._order.index(selection.screen) if selection.screen in self._order else 0
            return Selection(screen=project.screens[min(place, len(project.screens) - 1)].name)
        row, column = selection.cell
        cell = (min(max(row, 0), project.panel.rows - 1), min(max(column, 0), project.panel.columns - 1))
        fields = tuple(index for index in selection.fields if 0 <= index < len(screen.fields))
        block = selection.block
        if block is not None:
            block = block.intersected(QRect(0, 0, project.panel.columns, project.panel.rows))
            block = None if block.isEmpty() else block
        return replace(selection, cell=cell, fields=fields, block=block)


def _first_screen(project: Project) -> str:
    names = project.screen_named
    return project.panel.start if project.panel.start in names else next(iter(names), "")
