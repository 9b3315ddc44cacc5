"""How far a run is: a block for each step or case, how many are done, and how long it may still take."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Final

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QAccessible, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.trial.outcome import Result
from app.trial.script import AskStep, Case, ExpectStep, KeysStep, KeyStep, MeasureStep, OrderStep, TrialStep, WaitStep
from widgets.kit import palette
from widgets.kit.scaling import scaled
from widgets.speech.roles import give_role

MOST_BLOCKS: Final = 40
"""Blocks that can be told apart; with more steps a block stands for a case, with more cases for several."""
KEY_S: Final = 0.15
STEP_S: Final = 0.4
PERSON_S: Final = 15.0
"""Seconds in real time of a key, of a step that is soon true, and of a person: common practice, no source."""
SURE_AFTER_S: Final = 3.0
"""So long a run must have lasted before its own pace is believed."""


def planned_s(step: TrialStep) -> float:
    """About how many seconds a step takes in real time if all goes well."""
    if isinstance(step, KeyStep):
        return step.times * (float(step.hold_s) + KEY_S)
    if isinstance(step, KeysStep):
        return len(step.keys) * KEY_S
    if isinstance(step, WaitStep) and isinstance(step.wait, Decimal):
        return float(step.wait)
    if isinstance(step, ExpectStep):
        return STEP_S + float(step.hold_s)
    if isinstance(step, AskStep | MeasureStep):
        return PERSON_S
    if isinstance(step, OrderStep) and step.by_hand:
        return PERSON_S
    return STEP_S


def planned_of(case: Case) -> float:
    """About how many seconds a case takes in real time."""
    steps: Sequence[TrialStep] = (*case.steps, *case.clean_up)
    return sum(map(planned_s, steps)) + STEP_S * (1 + len(case.setup))


@dataclass(slots=True)
class RunProgress:
    """How far a run is. Time in which a person is asked does not count as the pace of the run."""

    steps: dict[str, int] = field(default_factory=dict)
    """How many steps each case has."""
    planned: dict[str, float] = field(default_factory=dict)
    """Seconds that each case would take in real time."""
    clock: Callable[[], float] = time.monotonic
    results: list[Result] = field(default_factory=list)
    """Of the steps that are done."""
    of_cases: dict[str, Result] = field(default_factory=dict)
    asking: bool = False
    _began: float = 0.0
    _asked_at: float = 0.0
    _asked_s: float = 0.0
    _done_s: float = 0.0

    def begin(self, cases: Sequence[Case]) -> None:
        """These cases are to be run."""
        self.steps = {case.name: len(case.setup) + len(case.steps) + len(case.clean_up) for case in cases}
        self.planned = {case.name: planned_of(case) for case in cases}
        self.results, self.of_cases, self.asking = [], {}, False
        self._began, self._asked_s, self._done_s = self.clock(), 0.0, 0.0

    @property
    def total(self) -> int:
        """How many steps there are."""
        return sum(self.steps.values())

    @property
    def done(self) -> int:
        """How many are done."""
        return len(self.results)

    def end_step(self, case: str, result: Result) -> None:
        """A step of a case is done. The clean-up after a killed run is none of them."""
        if self.steps.get(case):
            self.results.append(result)
            self._done_s += self.planned[case] / self.steps[case]

    def ask(self, on: bool) -> None:
        """A person is asked from now on, or no longer."""
        now = self.clock()
        if on and not self.asking:
            self._asked_at = now
        elif self.asking and not on:
            self._asked_s += now - self._asked_at
        self.asking = on

    def left_s(self) -> float | None:
        """About how many seconds it still takes, by its pace so far; None as long as that says nothing."""
        now = self.clock()
        asked = self._asked_s + (now - self._asked_at if self.asking else 0.0)
        ran = now - self._began - asked
        if ran < SURE_AFTER_S or self._done_s <= 0:
            return None
        return max(0.0, sum(self.planned.values()) - self._done_s) * ran / self._done_s


@dataclass(frozen=True, slots=True)
class ProgressBlock:
    """What a block says: the colour of it, whether it is filled, and whether it stands out."""

    ink: str
    filled: bool = True
    tall: bool = False


HOLLOW: Final = ProgressBlock("edge", filled=False)
NOW: Final = ProgressBlock("accent")
_OF: Final = {
    Result.PASS: ProgressBlock("good"),
    Result.FAIL: ProgressBlock("fault", tall=True),
    Result.BLOCKED: ProgressBlock("caution", tall=True),
    Result.NOT_TESTED: ProgressBlock("off"),
}


def blocks_of(progress: RunProgress, *, running: bool) -> list[ProgressBlock]:
    """A block for each step; where these are too many for each case; or for several, which are as the worst of them."""
    if progress.total <= MOST_BLOCKS:
        done = [_OF[result] for result in progress.results][: progress.total]
        now = [NOW] if running and len(done) < progress.total else []
        return [*done, *now, *[HOLLOW] * (progress.total - len(done) - len(now))]
    cases = list(progress.steps)
    each = -(-len(cases) // MOST_BLOCKS)
    blocks: list[ProgressBlock] = []
    first_open = True
    for start in range(0, len(cases), each):
        group = cases[start : start + each]
        results = [progress.of_cases[name] for name in group if name in progress.of_cases]
        if len(results) == len(group):
            blocks.append(next((_OF[kind] for kind in _GRAVEST if kind in results), HOLLOW))
        else:
            blocks.append(NOW if running and first_open else HOLLOW)
            first_open = False
    return blocks


_GRAVEST: Final = (Result.FAIL, Result.BLOCKED, Result.NOT_TESTED, Result.PASS)


class ProgressBlocks(QWidget):
    """Draws them in one row, whatever its width."""

    def __init__(self) -> None:
        super().__init__()
        self._blocks: list[ProgressBlock] = []
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(self.tr("Progress"))

    def show_blocks(self, blocks: list[ProgressBlock], words: str) -> None:
        """Show these; `words` is how far it is for those who do not see them."""
        if blocks != self._blocks:
            self._blocks = blocks
            self.updateGeometry()
            self.update()
        if words != self.accessibleDescription():
            self.setAccessibleDescription(words)

    @property
    def blocks(self) -> tuple[ProgressBlock, ...]:
        """What is shown."""
        return tuple(self._blocks)

    def sizeHint(self) -> QSize:
        return QSize(min(len(self._blocks), MOST_BLOCKS) * scaled(17), scaled(20))

    def minimumSizeHint(self) -> QSize:
        return QSize(min(len(self._blocks), MOST_BLOCKS) * 4, scaled(20))

    def paintEvent(self, _event: QPaintEvent) -> None:
        if not self._blocks:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = palette.current()
        step = min(self.width() / len(self._blocks), scaled(17))
        gap = 2.0 if step > 8 else 1.0
        left = self.width() - step * len(self._blocks)
        for number, block in enumerate(self._blocks):
            high = scaled(18 if block.tall else 9)
            place = QRectF(left + number * step, (self.height() - high) / 2, max(1.0, step - gap), high)
            ink = colours.colour(block.ink)
            if block.filled:
                painter.setPen(Qt.PenStyle.NoPen)
                painter.setBrush(ink)
            else:
                painter.setPen(QPen(ink, 1))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                place.adjust(0.5, 0.5, -0.5, -0.5)
            painter.drawRoundedRect(place, 2, 2)


give_role(ProgressBlocks, QAccessible.Role.ProgressBar)
