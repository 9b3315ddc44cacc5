"""What is done to the selected cells of a table: copied, pasted, filled, emptied. Each is one step."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication

from app.edits.refused import free_name
from widgets.design.tables.bad_cells import counted_text
from widgets.design.tables.overwriting import Over, Overwritten, what_of_overwriting
from widgets.design.tables.part_editing import PartEditing
from widgets.design.tables.part_grid import PartGrid
from widgets.design.values.cell_reading import BadCell, Proposal, RowOfTexts
from widgets.design.values.pasted_tables import cells_of, decimal_mark, plain_numbers, table_of, text_of

_NUMBER_MARK: Final = "#"


class TableWork(QObject):
    """Works on the selection of one grid."""

    told = Signal(str)
    """Something was done, in words."""
    hidden = Signal()
    """A part was added that the filter leaves out."""

    def __init__(self, grid: PartGrid, editing: PartEditing) -> None:
        super().__init__(grid)
        self._grid = grid
        self._model = grid.parts
        self._editing = editing

    # Moving as in a spreadsheet

    def down(self, way: int) -> None:
        """To the cell under (1) or over (-1) the current one."""
        index = self._grid.currentIndex()
        row = min(max(index.row() + way, 0), self._model.rowCount() - 1)
        self._grid.go(row, max(index.column(), 0))

    def follow_edit(self, row: int, column: int, text: str, way: str) -> None:
        """A cell was edited and left by a key; see CellEditor.done."""
        if way == "escape":
            return
        begun = self._model.place(row) < 0
        if way == "all" and not begun:
            self.fill(text, column)
            return
        if not self._editing.take(self._model.place(row), column, text):
            return
        if begun and text.strip():
            row = self._row_of_new()
        if way in ("tab", "back tab"):
            there = self._grid.next_editable(row, column, 1 if way == "tab" else -1)
            if there is not None:
                self._grid.edit_cell(*there)
        else:
            self._grid.go(row, column)
            self.down(-1 if way == "enter up" else 1)

    def _row_of_new(self) -> int:
        """Where the part is shown that was added last."""
        place = len(self._model.parts) - 1
        if self._model.row_of(place) < 0:
            self.hidden.emit()
        return self._model.row_of(place)

    # Bulk edits

    def fill(self, text: str, column: int) -> None:
        """The same text in a column of all selected rows. In names '#' stands for a number, counted from 1."""
        rows = self._grid.area().rows
        key = self._model.columns[column].key
        if column == 0 and len(rows) > 1:
            self._number(text, rows)
            return
        self._accept([self._row(row, {key: text}) for row in rows])

    def fill_current(self) -> None:
        """What stands in the current cell in the same column of all selected rows."""
        index = self._grid.currentIndex()
        if self._grid.area().rows and self._model.editable(index.row(), index.column()):
            column = self._model.columns[index.column()]
            self.fill(column.edit_text(self._editing.project, self._model.part(index.row())), index.column())

    def _number(self, text: str, rows: tuple[int, ...]) -> None:
        if _NUMBER_MARK not in text:
            self._editing.document.refused.emit(
                self.tr("Several rows cannot have the same name. Enter # where the number goes: {name} #").format(
                    name=text.strip()
                )
            )
            return
        key = self._model.columns[0].key
        texts = [text.replace(_NUMBER_MARK, str(number)) for number in range(1, len(rows) + 1)]
        self._accept([self._row(row, {key: each}) for row, each in zip(rows, texts, strict=True)])

    def fill_down(self) -> None:
        """The cells of the first selected row in all rows under it."""
        area = self._grid.area()
        if len(area.rows) < 2:
            self._editing.document.refused.emit(self.tr("Select the cells to fill as well: Shift+Down."))
            return
        project = self._editing.project
        first = self._model.part(area.rows[0])
        columns = [column for column in area.columns if column != 0 and self._model.editable(area.rows[0], column)]
        texts = {
            self._model.columns[column].key: self._model.columns[column].edit_text(project, first) for column in columns
        }
        self._accept([self._row(row, texts) for row in area.rows[1:]])

    def count_on(self) -> None:
        """Go on with the series that the first one or two selected cells begin: 100, 102, 104."""
        area = self._grid.area()
        project = self._editing.project
        rows: dict[int, dict[str, str]] = {}
        for column in area.columns:
            each = self._model.columns[column]
            cells = [each.edit_text(project, self._model.part(row)) for row in area.rows]
            if len(cells) < 2 or each.read is None or not cells[0].lstrip("-").isdecimal():
                continue
            first, second = int(cells[0]), cells[1]
            given = second.lstrip("-").isdecimal() and int(second) != first and len(cells) > 2
            step = int(second) - first if given else 1
            for number, row in enumerate(area.rows[1:], start=1):
                rows.setdefault(row, {})[each.key] = str(first + number * step)
        if not rows:
            self._editing.document.refused.emit(
                self.tr("Select cells with whole numbers, one under the other; the first one or two begin the series.")
            )
            return
        self._accept([self._row(row, texts) for row, texts in rows.items()])

    def clear(self) -> None:
        """Empty the selected cells."""
        area = self._grid.area()
        columns = self._model.columns
        rows = [
            self._row(row, {columns[column].key: "" for column in area.columns if self._model.editable(row, column)})
            for row in area.rows
        ]
        self._accept([row for row in rows if row.texts])

    # The clipboard

    def copy(self, *, headed: bool = False) -> None:
        """The selected cells as text with tabs between them; with headings also those that cannot be pasted."""
        area = self._grid.area()
        if not area.rows:
            self._editing.document.refused.emit(self.tr("Nothing is selected to copy."))
            return
        columns = [self._model.columns[column] for column in area.columns]
        if not headed and len(columns) > 1:
            columns = [column for column in columns if column.read is not None]
        project = self._editing.project
        rows = [[column.edit_text(project, self._model.part(row)) for column in columns] for row in area.rows]
        if headed:
            rows.insert(0, [column.title for column in columns])
        text = text_of(rows)
        QGuiApplication.clipboard().setText(text if len(rows) > 1 or len(columns) > 1 else rows[0][0])

    def paste(self, *, as_new: bool = False) -> None:
        """Over the cells from the first selected one on, new rows behind the last one; `as_new`, and with the empty
        row selected: as new rows only.

        Under headings, rows with the name of a part go to that part, the others are new. Whole rows pasted where whole
        rows are selected are copies, and new too. New rows whose names are taken get a number.
        """
        area = self._grid.area()
        try:
            cells = cells_of(QGuiApplication.clipboard().text())
        except ValueError as error:
            self._editing.document.refused.emit(str(error))
            return
        if not cells:
            self._editing.document.refused.emit(self.tr("There is no text on the clipboard."))
            return
        columns = self._model.columns
        whole = len(cells[0]) == sum(column.read is not None for column in columns)
        as_new = as_new or not area.rows or (area.whole and whole)
        at = 0 if as_new else area.columns[0]
        hidden = () if whole else [each for each in range(len(columns)) if self._grid.isColumnHidden(each)]
        table = table_of(cells, columns, at, hidden)
        places: list[int | None]
        if table.headed and not as_new:
            known = {part.name: place for place, part in enumerate(self._model.parts)}
            unnamed = not any("name" in row for row in table.rows)
            start = area.rows[0]
            places = [
                self._place(start + number) if unnamed else known.get(row.get("name", "").strip())
                for number, row in enumerate(table.rows)
            ]
        elif as_new:
            places = [None] * len(table.rows)
        elif len(cells) == 1 and len(cells[0]) == 1 and len(area.rows) > 1 and at > 0:
            self.fill(cells[0][0], at)  # one cell on the clipboard goes into all that are selected
            return
        else:
            places = [self._place(area.rows[0] + number) for number in range(len(table.rows))]
        rows = [dict(row) for row in table.rows]
        said = (
            [self.tr("Not accepted: {columns}.").format(columns=", ".join(table.unknown[:8]))] if table.unknown else []
        )
        if as_new and (count := self._free_names(rows)):
            said.append(self.tr("Names already in use, given a number: {count}.").format(count=count))
        self._put_table(rows, places, table.first, said)

    def _free_names(self, rows: list[dict[str, str]]) -> int:
        """Give rows whose names are taken others; returns how many."""
        taken = {part.name for part in self._model.parts}
        count = 0
        for row in rows:
            name = row.get("name", "").strip()
            free = free_name(name, taken)
            if name and free != name:
                row["name"] = free
                count += 1
            taken.add(free)
        return count

    def _place(self, row: int) -> int | None:
        return self._model.place(row) if row < self._model.shown else None

    def _put_table(
        self, texts: list[dict[str, str]], places: list[int | None], first: int, said: Sequence[str]
    ) -> None:
        numeric = [column for column in self._model.columns if column.numbers]
        mark = decimal_mark(text[column.key] for text in texts for column in numeric if column.key in text)
        bad: list[BadCell] = []
        for number, row in enumerate(texts, start=first):
            for column in numeric:
                if column.key not in row:
                    continue
                try:
                    row[column.key] = plain_numbers(row[column.key], mark)
                except ValueError as error:
                    bad.append(BadCell(number, column.title, row.pop(column.key), str(error)))
        step = self._editing.steps.paste
        done = self._editing.put(
            [
                RowOfTexts(row, place, number)
                for number, (row, place) in enumerate(zip(texts, places, strict=True), start=first)
                if any(text.strip() for text in row.values()) or place is not None
            ],
            step,
            self._grid,
            bad,
            self._may_overwrite,
        )
        if done is not None:
            self._select(done)
            self.told.emit(" ".join([counted_text(done), *said]))

    def _may_overwrite(self, proposal: Proposal) -> bool:
        """Ask before cells are overwritten that nobody selected, such as more rows than were in sight."""
        cells = list(self._overwritten(proposal))
        replaced = len(proposal.parts)
        pasted = replaced + len(proposal.added)
        answer = what_of_overwriting(cells, replaced, pasted, self._grid) if cells else Over.OVERWRITE
        if answer is Over.AS_NEW:
            self.paste(as_new=True)
        return answer is Over.OVERWRITE

    def _overwritten(self, proposal: Proposal) -> Iterator[Overwritten]:
        project, area = self._editing.project, self._grid.area()
        for place, new in sorted(proposal.parts.items()):
            old = self._model.parts[place]
            for at, column in enumerate(self._model.columns):
                selected = at in area.columns and self._model.row_of(place) in area.rows
                before, after = column.edit_text(project, old), column.edit_text(project, new)
                if column.read is not None and not selected and before not in ("", after):
                    yield Overwritten(old.name, column.title, before, after)

    def _select(self, done: Proposal) -> None:
        count = len(self._model.parts)
        places = [*done.parts, *range(count - len(done.added), count)]
        rows = sorted(row for place in places if (row := self._model.row_of(place)) >= 0)
        if rows and (done.added or rows != list(self._grid.area().rows)):  # or Delete would then be of whole rows
            self._grid.select_rows(rows)
            self._grid.scrollTo(self._model.index(rows[-1], max(self._grid.currentIndex().column(), 0)))

    def _row(self, row: int, texts: dict[str, str]) -> RowOfTexts:
        place = self._model.place(row)
        return RowOfTexts(texts, place, place + 1)

    def _accept(self, rows: list[RowOfTexts]) -> None:
        self._editing.put(rows, self._editing.change_of(rows), self._grid)
