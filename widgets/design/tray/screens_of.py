"""A screen of these: several signals laid out row by row, on as many new screens as they need."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from PySide6.QtWidgets import QCheckBox, QLineEdit, QWidget

from app import edits
from app.edits.refused import changed, free_name
from app.page_map.several import ring_keys
from app.project.model import Project, Screen
from widgets.design.tray.placing import Placement, in_row, unit_of, writable
from widgets.document.document import Document, Edit, Selection
from widgets.face.cells import CellGrid
from widgets.face.colours import face_colours
from widgets.face.keypad import key_legend
from widgets.face.sample_values import FieldContents, likely_kind, specimen_rows, width_needed
from widgets.kit.controls import Choice
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.plain import plain_label
from widgets.kit.scaling import scaled

LEAST_LABEL: Final = 4
"""Cells of a label below which it gets a row of its own, above its value."""
HEADED_FROM: Final = 3
"""Rows from which a screen has one to spare for its title."""
PREVIEW_PX: Final = 16
LONGEST_NAME: Final = 40


def pages_of(project: Project, names: Sequence[str], *, headed: bool) -> list[list[tuple[str, bool]]]:
    """Which signals come onto which screen; with each whether its label has a row of its own."""
    room = project.panel.rows - headed
    pages: list[list[tuple[str, bool]]] = []
    used = room
    for name in names:
        apart = room > 1 and _is_wide(project, name)
        if used + 1 + apart > room:
            pages.append([])
            used = 0
        pages[-1].append((name, apart))
        used += 1 + apart
    return pages


def screens_of(
    project: Project, names: Sequence[str], title: str, at: int, *, headed: bool
) -> tuple[Project, list[str]]:
    """With new screens of these signals from index `at` on, and how they are called: after the title."""
    title = " ".join(title.split())[:LONGEST_NAME]
    filled: dict[str, Screen] = {}
    for page in pages_of(project, names, headed=headed):
        name = free_name(title, project.screen_named)
        project = edits.add_screen(project, name, at + len(filled))
        heading = [(0, 0, writable(project, name)[: project.panel.columns])] if headed else []
        placed = _rows_of(project, page, int(headed))
        rows = [""] * project.panel.rows
        for row, column, text in (*heading, *(text for each in placed for text in each.texts)):
            rows[row] = rows[row].ljust(column) + text
        fields = tuple(each.field for each in placed)
        filled[name] = changed(project.screen_named[name], text=tuple(rows), fields=fields)
    # All at once: a project is made anew with every edit, which takes long where it has thousands of signals.
    screens = tuple(filled.get(screen.name, screen) for screen in project.screens)
    return changed(project, screens=screens), list(filled)


def _rows_of(project: Project, page: Sequence[tuple[str, bool]], row: int) -> list[Placement]:
    """The signals of one screen, their values ending in one column, so that digits stand under one another."""
    units = max((len(unit_of(project, name)) for name, _ in page), default=0)
    end = project.panel.columns - (1 + units if units else 0)
    placed = []
    for name, apart in page:
        if apart:
            alone = in_row(project, name, row + 1, label="")
            label = writable(project, name)[: project.panel.columns]
            placed.append(
                Placement(
                    alone.field, ((row, 0, label[:1].upper() + label[1:]), *alone.texts), alone.behind, alone.unit, 0
                )
            )
        else:
            wide = width_needed(project, name, likely_kind(project, name)) > end
            placed.append(in_row(project, name, row, 0 if wide else end))
        row += 1 + apart
    return placed


def _is_wide(project: Project, name: str) -> bool:
    """Whether beside value and unit too little is left for a label."""
    unit = unit_of(project, name)
    value = width_needed(project, name, likely_kind(project, name))
    room = project.panel.columns - value - (1 + len(unit) if unit else 0) - 1
    return room < min(LEAST_LABEL, len(name))


class ScreensOfDialog(Dialog):
    """Asks for the title, and shows the first screen on glass."""

    def __init__(self, document: Document, names: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._names = [name for name in names if name in document.project.signal_named]
        self.setObjectName("screens of")
        self.tell(
            self.tr("A screen of these signals"),
            self.tr("Signals stand in rows with label, value and unit, on as many new screens as they need."),
        )
        self.title = QLineEdit(self._likely_title())
        self.title.setMaxLength(LONGEST_NAME)
        self.title.selectAll()
        self.headed = QCheckBox(self.tr("Title in the first ro&w"))
        self.headed.setChecked(document.project.panel.rows >= HEADED_FROM)
        self.headed.setEnabled(document.project.panel.rows > 1)
        self.ring = Choice()
        self._ring_keys: tuple[tuple[str, ...], ...] = ()
        self.grid = CellGrid()
        self.grid.setAccessibleName(self.tr("The first of the screens"))
        self.grid.set_pixels(scaled(PREVIEW_PX))
        self.grid.set_colours(face_colours(self.palette()))
        self.summary = plain_label("", wrap=True)
        self.make = self.add_deed(self.tr("Make screens"), self._make)
        self.add_cancel()
        self.add_row(self.tr("&Title"), self.title)
        self.add_row("", self.headed)
        self.add_row(self.tr("&From one to the next"), self.ring)
        self.body.addWidget(self.grid)
        self.body.addWidget(self.summary)
        self.title.textChanged.connect(lambda _text: self._show())
        self.headed.toggled.connect(lambda _on: self._show())
        self.ring.activated.connect(lambda _index: self._show())
        self._show()

    def _likely_title(self) -> str:
        """What all names begin with, by whole words; else a word that fits all."""
        words = [name.split() for name in self._names]
        common = []
        for together in zip(*words, strict=False):
            if len(set(together)) > 1:
                break
            common.append(together[0])
        title = " ".join(common) if 0 < len(common) < min(map(len, words), default=0) else self.tr("Values")
        return title[:1].upper() + title[1:]

    def _edit(self) -> Edit:
        names, title, headed = self._names, self.title.text(), self.headed.isChecked()
        chosen, listed = self._document.selection.screen, list(self._document.project.screen_named)
        at = listed.index(chosen) + 1 if chosen in listed else 0
        keys = self._ring_keys[self.ring.currentIndex() - 1] if self.ring.currentIndex() > 0 else ()

        def make(project: Project) -> Project:
            project, made = screens_of(project, names, title, at, headed=headed)
            return edits.make_ring(project, made, keys) if keys else project

        return make

    def _show(self) -> None:
        project = self._document.project
        usable = bool(self.title.text().strip()) and bool(self._names)
        self.make.setEnabled(usable)
        if not usable:
            self.summary.setText(self.tr("The screens are called after the title."))
            return
        after, made = screens_of(project, self._names, self.title.text(), 0, headed=self.headed.isChecked())
        self._offer_rings(after, made)
        self.grid.set_count(project.panel.rows, project.panel.columns)
        self.grid.set_rows(specimen_rows(after, after.screen_named[made[0]], FieldContents.SAMPLE))
        self.grid.setFixedSize(self.grid.sizeHint())
        self.summary.setText(
            self.tr("{signals} signals on {screens} screens: {names}").format(
                signals=len(self._names), screens=len(made), names=", ".join(made)
            )
        )

    def _offer_rings(self, after: Project, made: Sequence[str]) -> None:
        """By which keys the new screens can become a ring; the best is chosen until somebody chooses."""
        keys = ring_keys(after, made) if len(made) > 1 else ()
        self.ring.setEnabled(bool(keys))
        if keys == self._ring_keys and self.ring.count():
            return
        self._ring_keys = keys
        self.ring.clear()
        self.ring.addItem(self.tr("no screen changes"))
        for each in keys:
            words = self.tr("a ring by {onward} and {back}") if len(each) > 1 else self.tr("a ring by {onward} alone")
            self.ring.addItem(words.format(onward=key_legend(each[0]), back=key_legend(each[-1])))
        self.ring.setCurrentIndex(1 if keys else 0)

    def _make(self) -> None:
        before = self._document.project.screen_named
        step = self.tr("Make screens of {count} signals").format(count=len(self._names))

        def select(project: Project) -> Selection:
            return Selection(next(name for name in project.screen_named if name not in before))

        self._document.seal()
        if self._document.do(step, self._edit(), select=select) is None:
            self._document.seal()
            self.accept()
