"""What one frame of the line view costs on a fast line. Aim: 33 new transactions listed and drawn in under 10 ms."""

from __future__ import annotations

from itertools import count

from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from app.client.transactions import Transaction
from app.diagnosis.register_names import NO_NAMES
from app.modbus.requests import read_request
from widgets.live.transactions_table import KEPT, SLACK, TransactionRow, TransactionsModel, TransactionsTable

A_FRAME = 33
"""New transactions in a frame of 33 ms at a thousand a second."""


def test_a_frame_of_a_fast_line(benchmark: BenchmarkFixture, qtbot: QtBot) -> None:
    request = read_request(3, "holding", 310, 1)
    model = TransactionsModel()
    table = TransactionsTable(model)
    qtbot.addWidget(table)
    table.resize(620, 230)
    with qtbot.waitExposed(table):
        table.show()
    numbers = count()

    def some(amount: int) -> list[TransactionRow]:
        made = []
        for _ in range(amount):
            at = next(numbers) / 1000
            sent = Transaction(
                at=at, line="hall", follower="pump", request=request, sent=request.rtu, received=request.rtu, ms=0.4
            )
            made.append(TransactionRow(sent, at, NO_NAMES))
        return made

    table.add(some(KEPT + SLACK))

    def frame() -> None:
        table.add(some(A_FRAME))
        table.viewport().repaint()

    benchmark(frame)
    assert KEPT <= model.rowCount() <= KEPT + SLACK
    assert table.following
