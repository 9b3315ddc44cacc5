"""What stands over the list: which trial, how far it is, how long it takes; and what does not fit the project."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from app.trial.script import Case
from widgets.kit.controls import push_button
from widgets.kit.elided import ShortLabel, StateLabel
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label
from widgets.kit.scaling import air, line_height, scaled
from widgets.trial.opened import TrialFit
from widgets.trial.progress import ProgressBlocks, RunProgress, blocks_of, planned_of

HEIGHT: Final = 44
"""Pixels at 100 per cent of the line with the name of the trial."""


class TrialHead(QWidget):
    """Nothing in it moves while a run goes on."""

    def __init__(self, show_problems: Callable[[], object]) -> None:
        super().__init__()
        bar = QFrame()
        bar.setProperty("look", "bar")
        bar.setFixedHeight(line_height(HEIGHT))
        self.title = ShortLabel()
        set_look(self.title, "heading")
        self.about = ShortLabel()
        set_look(self.about, "faint")
        self.blocks = ProgressBlocks()
        self.count = plain_label("", "heading")
        self.left = plain_label("", "faint")
        row = QHBoxLayout(bar)
        row.setContentsMargins(scaled(12), 0, scaled(16), 1)
        row.setSpacing(scaled(12))
        row.addWidget(self.title, 3)
        row.addWidget(self.about, 2)
        row.addWidget(self.blocks, 3)
        row.addWidget(self.count)
        row.addWidget(self.left)
        self.notice = QFrame()
        self.notice.setProperty("look", "notice")
        self.misfit = StateLabel()
        below = QHBoxLayout(self.notice)
        below.setContentsMargins(scaled(12), air(4), scaled(8), air(4))
        below.addWidget(self.misfit, 1)
        self.show_problems = push_button(self.tr("Show where"), show_problems)
        below.addWidget(self.show_problems)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(bar)
        layout.addWidget(self.notice)
        self.show_fit(TrialFit())

    def show_trial(self, title: str, cases: Sequence[Case], *, simulated: bool, in_moments: bool) -> None:
        """Say which trial it is, and about how long it takes unless that is over `in_moments`."""
        on = [case for case in cases if case.is_on(simulated=simulated)]
        steps = sum(len(case.setup) + len(case.steps) + len(case.clean_up) for case in on)
        minutes = max(1, round(sum(map(planned_of, on)) / 60))
        self.title.setText(title)
        words = self.tr("{cases} cases, {steps} steps \u00b7 about {minutes} min")
        if in_moments:
            words = self.tr("{cases} cases, {steps} steps")
        self.about.setText(words.format(cases=len(on), steps=steps, minutes=minutes))

    def show_progress(self, progress: RunProgress, *, running: bool) -> None:
        """Say how far it is."""
        blocks = blocks_of(progress, running=running)
        count = self.tr("{done} of {total}").format(done=progress.done, total=progress.total) if progress.total else ""
        left = progress.left_s() if running else None
        words = ""
        if left is not None:
            words = self.tr("{minutes} min left").format(minutes=round(left / 60))
            if left < 90:
                words = self.tr("{seconds} s left").format(seconds=round(left))
        self.count.setText(count)
        self.left.setText(words)
        self.left.setVisible(bool(words))
        self.blocks.show_blocks(blocks, f"{count}, {words}" if words else count)

    def show_fit(self, fit: TrialFit) -> None:
        """Say whether the trial fits the project."""
        self.notice.setVisible(not fit.whole)
        self.show_problems.setVisible(bool(fit.problems))
        if fit.problems:
            words = self.tr("Places of this trial that name what the project does not have: {count}")
            self.misfit.show_state("caution", words.format(count=len(fit.problems)))
        elif fit.other_state:
            self.misfit.show_state(
                "caution", self.tr("The project was changed since this trial was made or looked through.")
            )
