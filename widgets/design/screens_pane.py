"""The screens of the document in their list: what is shown there, and the edits that it asks for."""

from __future__ import annotations

import operator

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app import edits
from app.checks.finding import Finding
from app.edits.refused import free_name
from app.panel.paging import PagingGraph
from app.project.model import Project
from widgets.design.forms.part_texts import when_text
from widgets.design.screen.clipboard import Clipboard
from widgets.design.screens_list import ListedScreen, ScreensList
from widgets.document.document import Document, Selection


class ScreensPane(QWidget):
    """Adds, duplicates, renames, reorders and deletes screens."""

    opened = Signal(str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._shown: list[ListedScreen] = []
        self._shown_of: tuple[object, ...] = ()
        self.list = ScreensList()
        document.replaced.connect(self.list.thumbs.forget)
        document.language_changed.connect(lambda: self.list.thumbs.show(document.spoken))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.list)
        self.list.chosen.connect(document.select_screen)
        self.list.opened.connect(self.opened)
        self.list.add_wanted.connect(self.add)
        self.list.duplicate_wanted.connect(self._duplicate)
        self.list.delete_wanted.connect(self.delete)
        self.list.delete_several_wanted.connect(self._delete_several)
        self.list.move_wanted.connect(self._move)
        self.list.rename_wanted.connect(self._rename)
        self.list.start_wanted.connect(self._start)

    def use_clipboard(self, clipboard: Clipboard) -> None:
        """Copy and paste whole screens by this clipboard."""
        self.list.copy_wanted.connect(clipboard.copy_screens)
        self.list.paste_wanted.connect(clipboard.paste_screens)

    def show_project(self, project: Project, graph: PagingGraph, findings: tuple[Finding, ...]) -> None:
        """List the screens of the document's project with their marks, in the language that its texts are shown in."""
        self.list.thumbs.show(self._document.spoken)
        names = [screen.name for screen in project.screens]
        now = (project.screen_changes, graph, findings)
        if names != [listed[0] for listed in self._shown] or not all(map(operator.is_, now, self._shown_of)):
            self._shown_of = now
            self._shown = self._list_screens(project, graph, findings)
        self.show_selection()

    def _list_screens(self, project: Project, graph: PagingGraph, findings: tuple[Finding, ...]) -> list[ListedScreen]:
        unreachable, stuck = frozenset(graph.unreachable), frozenset(graph.no_way_back)
        wrong = {
            finding.place[1] for finding in findings if finding.severity == "error" and finding.place[:1] == ("screen",)
        }
        when: dict[str, list[str]] = {}
        for screen_change in project.screen_changes:
            if screen_change.when is not None:
                when.setdefault(screen_change.to, []).append(when_text(screen_change.when))
        shown: list[ListedScreen] = []
        for number, screen in enumerate(project.screens):
            marks = tuple(when.get(screen.name, ()))
            if screen.name == graph.start:
                marks = (self.tr("start"), *marks)
            caution = True
            if screen.name in unreachable:
                marks = (self.tr("unreachable"), *marks)
            elif screen.name in stuck:
                marks = (self.tr("no way back"), *marks)
            elif number in wrong:
                marks = (self.tr("has errors"), *marks)
            else:
                caution = False
            shown.append((screen.name, marks, caution))
        return shown

    def show_selection(self) -> None:
        """Mark the screen that is edited."""
        self.list.show_screens(self._shown, self._document.selection.screen)

    def add(self) -> None:
        """Add an empty screen after the current one."""
        project = self._document.project
        name = free_name(self.tr("screen"), project.screen_named)
        at = self._place() + 1
        self._document.do(
            self.tr("Add screen"),
            lambda project: edits.add_screen(project, name, at),
            select=Selection(screen=name),
        )
        self.list.rename_current()

    def _place(self) -> int:
        names = list(self._document.project.screen_named)
        current = self._document.selection.screen
        return names.index(current) if current in names else len(names) - 1

    def _duplicate(self, name: str) -> None:
        copy = free_name(name, self._document.project.screen_named)
        self._document.do(
            self.tr("Duplicate screen"),
            lambda project: edits.duplicate_screen(project, name, copy),
            select=Selection(screen=copy),
        )

    def delete(self, name: str) -> None:
        """Delete a screen; where screen changes lead to it, offer to delete them too."""
        step = self.tr("Delete screen")
        reason = self._document.do(step, lambda project: edits.delete_screen(project, name), aloud=False)
        if reason is None:
            return
        if all(use.place[0] == "screen_change" for use in edits.uses_of_screen(self._document.project, name)):
            self._document.offered.emit(
                reason,
                self.tr("Delete it with these screen changes"),
                lambda: self._document.do(
                    step, lambda project: edits.delete_screen(project, name, with_screen_changes=True)
                ),
            )
        else:
            self._document.refused.emit(reason)

    def _delete_several(self, names: list[str]) -> None:
        """Delete several screens as one step, all or none; screen changes among them go along."""

        def edit(project: Project) -> Project:
            going = frozenset(names)
            screen_changes = tuple(
                screen_change
                for screen_change in project.screen_changes
                if screen_change.from_ not in going or screen_change.to not in going
            )
            project = (
                project
                if len(screen_changes) == len(project.screen_changes)
                else project.replace(screen_changes=screen_changes)
            )
            for name in names:
                project = edits.delete_screen(project, name)
            return project

        self._document.do(self.tr("Delete screens"), edit)

    def _move(self, name: str, to: int) -> None:
        self._document.do(self.tr("Move screen"), lambda project: edits.move_screen(project, name, to))
        self.show_selection()

    def _rename(self, old: str, new: str) -> None:
        self._document.do(
            self.tr("Rename screen"),
            lambda project: edits.rename_screen(project, old, new),
            select=Selection(new, self._document.selection.cell),
        )

    def _start(self, name: str) -> None:
        self._document.do(self.tr("Change the start screen"), lambda project: edits.set_start(project, name))
