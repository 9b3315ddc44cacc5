"""An import from the file to the plan, in steps that can be done again when somebody changes a choice."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Final

from app.edits import EditRefused
from app.exchange.column_mapping import Guess, Matching, from_memory, guess, known_titles, signature
from app.exchange.import_plan import ImportPlan, ImportTarget, plan
from app.exchange.reading import ListSource, ReadOptions, read, source_of
from app.exchange.row_parser import ParsedRows, drafts_of
from app.exchange.sheet import CannotRead, Progress, Sheet, no_progress
from app.exchange.sunspec import COLUMNS
from app.project.model import Project

Memory = Callable[[str], str]
"""From the signature of a list's titles to the matching that was kept for it; an empty text if none was."""

OF_MODELS: Final = Matching(COLUMNS, heading=1, mark=".", numbering="from-0", word_order="high-first")
"""How the rows of a SunSpec model are to be understood."""

_PLAINLY_A_LIST: Final = 3
"""Known titles, one of them of the register, by which a sheet is taken for the list of registers."""


@dataclass(frozen=True, slots=True)
class Import:
    """An import as far as it is prepared. Nothing is changed by it."""

    source: ListSource
    way: ReadOptions
    sheet: Sheet
    guessed: Guess
    matching: Matching
    from_memory: bool
    """The matching is that of the last list with the same titles."""
    drafts: ParsedRows
    plan: ImportPlan
    project: Project = field(repr=False)
    """What the plan was made for."""
    edited: Project | None = field(repr=False)
    """What the plan makes of it; None if that is refused."""

    def edit(self, project: Project) -> Project:
        """The project with all that comes in. Raises EditRefused, and then nothing has changed."""
        return self.edited if self.edited is not None and project is self.project else self.plan.edit(project)

    @property
    def remarks(self) -> tuple[str, ...]:
        """What is to be said about the list as a whole."""
        return self.sheet.remarks + self.guessed.remarks

    def signature(self) -> str:
        """By which the matching is kept; empty for lists without titles and for models, which need none."""
        return "" if self.source.kind == "model" else signature(self.matching.titles(self.sheet))


def begin(
    path: Path, project: Project, target: ImportTarget, memory: Memory = lambda _: "", progress: Progress = no_progress
) -> Import:
    """Read a file and prepare its import by what it suggests. Raises CannotRead; Stopped if `progress` does."""
    return read_again(source_of(path), ReadOptions(), project, target, memory, progress)


def read_again(
    source: ListSource,
    way: ReadOptions,
    project: Project,
    target: ImportTarget,
    memory: Memory = lambda _: "",
    progress: Progress = no_progress,
    heading: int | None = None,
) -> Import:
    """The same for a file that was read before: in another way, or with its titles in another row."""
    if way.sheet is None and len(source.sheets) > 1:
        way = replace(way, sheet=_likely_sheet(source, way, _part(progress, 0.0, 0.2)))
    sheet, way = read(source, way, _part(progress, 0.2, 0.35))
    if source.kind == "model":
        return match_again(source, way, sheet, Guess(OF_MODELS), OF_MODELS, project, target, _part(progress, 0.35, 1))
    guessed = guess(sheet, heading)
    kept = memory(signature(guessed.matching.titles(sheet)))
    matching = from_memory(kept, guessed.matching) if kept else None
    done = match_again(
        source, way, sheet, guessed, matching or guessed.matching, project, target, _part(progress, 0.35, 1)
    )
    return replace(done, from_memory=matching is not None)


def _likely_sheet(source: ListSource, way: ReadOptions, progress: Progress) -> str:
    """The first sheet with titles of a register list, or the one with the most that are known: covers and histories
    come before the registers in many workbooks. Raises Stopped if `progress` does."""
    known: dict[str, int] = {}
    for at, name in enumerate(source.sheets):
        try:
            sheet, _ = read(source, replace(way, sheet=name), _part(progress, at / len(source.sheets), 1))
        except CannotRead:
            continue  # told if it is the one that is chosen
        found = known_titles(sheet)
        if len(found) >= _PLAINLY_A_LIST and found & {"register", "held", "bit_of"}:
            return name
        known[name] = len(found)
    return max(known, key=known.__getitem__, default=source.sheets[0])


def match_again(
    source: ListSource,
    way: ReadOptions,
    sheet: Sheet,
    guessed: Guess,
    matching: Matching,
    project: Project,
    target: ImportTarget,
    progress: Progress = no_progress,
) -> Import:
    """Convert the rows of a sheet by a matching, and plan what becomes of them. Raises Stopped if `progress` does."""
    drafts = drafts_of(sheet, matching, _part(progress, 0.0, 0.5))
    made = plan(project, drafts, matching, target, _part(progress, 0.5, 1))
    return Import(source, way, sheet, guessed, matching, False, drafts, made, project, _edit_ahead(made, project))


def plan_again(done: Import, project: Project, target: ImportTarget, progress: Progress = no_progress) -> Import:
    """The same rows for another target. Raises Stopped if `progress` does."""
    made = plan(project, done.drafts, done.matching, target, progress)
    return replace(done, plan=made, project=project, edited=_edit_ahead(made, project))


def _edit_ahead(made: ImportPlan, project: Project) -> Project | None:
    """Made along with the plan, in the background: the window has then only to take it."""
    try:
        return made.edit(project)
    except EditRefused:
        return None  # said when it is tried


def _part(progress: Progress, first: float, last: float) -> Progress:
    return lambda done: progress(first + (last - first) * done)
