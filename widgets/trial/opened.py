"""A trial file beside its project: found, read, and compared with the project that is open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Final

from app.project.model import Project
from app.project.problems import Place, Problem
from app.trial.outcome import StepPlace
from app.trial.script import Case, Trial
from app.trial.script_file import load_trial, problems_with, project_digest
from widgets.trial.steps_model import StepKey

_PARTS: Final[Mapping[str | int, StepPlace]] = {"setup": "setup", "step": "step", "clean_up": "clean-up"}
"""What the lists of a case are called in the file, and in what came of them."""


@dataclass(frozen=True, slots=True)
class FileStamp:
    """By which it is told whether a file is still the one that was read."""

    changed_ns: int
    size: int


def stamp_of(path: Path) -> FileStamp | None:
    """None if it is not there, or nobody may look."""
    try:
        found = path.stat()
    except OSError:
        return None
    return FileStamp(found.st_mtime_ns, found.st_size)


@dataclass(frozen=True)
class OpenTrial:
    """A trial as it was read from a file."""

    path: Path
    trial: Trial
    stamp: FileStamp | None

    @property
    def cases(self) -> tuple[Case, ...]:
        """As they are run, a case with rows of values once a row."""
        return self.trial.expanded

    @cached_property
    def _named(self) -> tuple[tuple[str, ...], ...]:
        """The names of the cases as they are run, by the case of the file that they come from."""
        return tuple(tuple(case.name for case in written.rows()) for written in self.trial.cases)

    def keys_at(self, place: Place) -> list[StepKey]:
        """The rows of the list that a place in the file comes to: a step, or else its case."""
        if place[:1] != ("case",) or len(place) < 2 or not isinstance(place[1], int):
            return []
        names = self._named[place[1]]
        part = _PARTS.get(place[2]) if len(place) > 3 else None
        number = place[3] if part is not None else None
        if part is None or not isinstance(number, int):
            return [StepKey(name) for name in names]
        return [key for name in names for key in (StepKey(name, part, number + 1), StepKey(name))]


def read_trial(path: Path) -> OpenTrial:
    """Read a trial file. Raises TrialFileError with all that is wrong with it."""
    stamp = stamp_of(path)
    return OpenTrial(path, load_trial(path), stamp)


@dataclass(frozen=True, slots=True)
class TrialFit:
    """How a trial fits a project: what of it points to nothing there, and whether it was made for another state."""

    problems: tuple[Problem, ...] = ()
    other_state: bool = False

    @property
    def whole(self) -> bool:
        """Whether there is nothing to say."""
        return not self.problems and not self.other_state


def fit_of(trial: Trial, project: Project) -> TrialFit:
    """Compare them. A trial that names no digest fits any state."""
    return TrialFit(problems_with(trial, project), bool(trial.digest) and trial.digest != project_digest(project))
