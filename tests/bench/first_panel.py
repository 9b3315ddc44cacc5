"""From nothing to a live panel of one's own: the actions, and the seconds of the program and of a person.

A plain script, not a test, since it measures this computer: `python -m tests.bench.first_panel`. A person's seconds are
those of the keystroke-level model (Card, Moran and Newell 1980, from memory): 1.35 s to make up one's mind for each
action, 1.1 s to point and 0.2 s to press a button of the mouse, 0.28 s for a key. That everything works which is made
here is for tests/widgets/shell/test_beginning.py to prove.
"""

from __future__ import annotations

import os
import time
from statistics import median

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog

from tests.bench.repaints import run_for
from tests.pictures.stage import settle_until
from tests.widgets.driving import when_asked
from tests.widgets.operator import Operator
from widgets.document.settings import Settings
from widgets.kit.palette import Appearance, Theme
from widgets.shell.application import make_application
from widgets.shell.window import START_PAGE, MainWindow

MIND_S, POINT_S, BUTTON_S, KEY_S = 1.35, 1.1, 0.2, 0.28
TITLE = "Conveyor 7"
ROUNDS = 5
TARGET_S, TARGET_ACTIONS = 60, 25


def once(theme: Theme) -> tuple[float, float, int]:
    """Seconds until the start page is drawn, and from then until the new panel shows a value; the actions."""
    began = time.perf_counter()
    window = MainWindow(Settings(keep=False), theme, START_PAGE)
    window.resize(1366, 768)
    window.show()
    window.activateWindow()
    window.repaint()
    shown = time.perf_counter()
    operator = Operator()

    def answer(_dialog: QDialog) -> None:
        operator.type(TITLE)
        operator.key(Qt.Key.Key_Return)

    when_asked(answer)
    operator.click(window.beginning.page.cards[1])
    settle_until(lambda: any("41.7 Hz" in row.text for row in window.bench.face.rows))
    live = time.perf_counter()
    run_for(0.2)
    window.leave()
    window.deleteLater()
    return shown - began, live - shown, operator.actions


def main() -> None:
    """Measure, and say it."""
    theme = Theme(make_application())
    theme.choose(Appearance.LIGHT)
    rounds = [once(theme) for _ in range(ROUNDS)]
    program = median(live for _, live, _ in rounds)
    actions = rounds[0][2]
    person = actions * MIND_S + POINT_S + BUTTON_S + len(TITLE) * KEY_S + KEY_S
    print(f"start page drawn: {median(shown for shown, _, _ in rounds):.2f} s after the window was begun")
    print(f"new panel live: {program:.2f} s of the program, {rounds[0][1]:.2f} s the first time")
    print(
        f"with a person: about {program + person:.0f} s (mark {TARGET_S} s), {actions} actions (mark {TARGET_ACTIONS})"
    )


if __name__ == "__main__":
    main()
