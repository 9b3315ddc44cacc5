"""New readings of all signals, shown in their table: 20 000 take no longer than 50, as only some are in sight."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import count as count_from, cycle

import pytest
from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from app.project.model import Follower, Panel, Project, RegisterSignal, Screen, TcpLine
from app.signals.reading import Quality, Reading
from widgets.live.readings_model import ReadingColumn
from widgets.live.readings_table import ReadingsTable


def readings(names: list[str], count: int) -> Mapping[str, Reading]:
    return {name: Reading(count, Fraction(count), Quality.GOOD, "", 1.0) for name in names}


@pytest.mark.parametrize("signals", [50, 20_000])
def test_new_readings(benchmark: BenchmarkFixture, qtbot: QtBot, measured: bool, signals: int) -> None:
    names = [f"value {number}" for number in range(signals if measured else 50 + signals // 10)]
    project = Project(
        panel=Panel(start="run"),
        screens=(Screen(name="run"),),
        lines=(TcpLine(name="line", host="127.0.0.1"),),
        followers=(Follower(name="device", line="line"),),
        signals=tuple(RegisterSignal(name=name, follower="device", number=at) for at, name in enumerate(names)),
    )
    table = ReadingsTable()
    qtbot.addWidget(table)
    table.set_project(project)
    table.resize(720, 640)
    with qtbot.waitExposed(table):
        table.show()
    news = cycle([readings(names, count) for count in (7, 8)])

    seconds = count_from(2)

    def show() -> None:
        table.set_readings(next(news), float(next(seconds)))  # it rests in between, which is not measured
        QApplication.processEvents()

    benchmark(show)
    assert table.model.cell(0, ReadingColumn.VALUE)[0] in ("7", "8")
