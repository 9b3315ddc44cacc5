"""How long each dialog takes until it is seen: beside an empty one, opened the same way in the same run."""

from __future__ import annotations

import time
from collections.abc import Iterator
from statistics import median

import pytest
from PySide6.QtWidgets import QDialog, QLineEdit, QTableView, QVBoxLayout, QWidget
from pytest_benchmark.fixture import BenchmarkFixture

from tests.pictures.panes import Pane, _dialog, panes
from tests.pictures.stage import Setting, staged
from widgets.shell.window import MainWindow

ROUNDS = 5
ANOTHER_BEGINNING = ("snapshots-taken", "snapshots-compared", "follower-trouble", "import", "recovery")
"""Parts of the names of panes that connect, read or write something before their dialog is open."""


def _empty(window: MainWindow) -> QDialog:
    dialog = QDialog(window)
    layout = QVBoxLayout(dialog)
    layout.addWidget(QLineEdit())
    layout.addWidget(QTableView())
    dialog.resize(780, 480)
    return dialog


@pytest.fixture(scope="module")
def window() -> Iterator[MainWindow]:
    with staged(Setting()) as made:
        _ = made.design, made.start_up
        yield made


def seconds(pane: Pane, window: MainWindow) -> tuple[float, QWidget]:
    """From nothing to a pane that is drawn."""
    began = time.perf_counter()
    with pane.open(window) as shown:
        return time.perf_counter() - began, shown


def test_every_dialog_opens(window: MainWindow, benchmark: BenchmarkFixture) -> None:
    empty = Pane("empty", _dialog(_empty))
    floor = median(seconds(empty, window)[0] for _ in range(3 * ROUNDS))
    told: list[tuple[float, str]] = []
    for pane in panes():
        if any(part in pane.name for part in ANOTHER_BEGINNING):
            continue
        _, shown = seconds(pane, window)  # what is imported for the first time is no matter of the dialog
        if isinstance(shown, QDialog):
            told.append((median(seconds(pane, window)[0] for _ in range(ROUNDS)), pane.name))
    assert len(told) > 10
    benchmark.pedantic(lambda: seconds(empty, window), rounds=ROUNDS, iterations=1)
    benchmark.extra_info.update({name: f"{took / floor:.1f}" for took, name in told})
    print(f"\nan empty dialog: {1000 * floor:.0f} ms")
    for took, name in sorted(told, reverse=True):
        print(f"{name:32} {1000 * took:5.0f} ms {took / floor:5.1f} times")
