"""Writing back over real sockets: only armed, whole values, read back, and nothing that has changed meanwhile."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

import pytest

from app.line.engine import Engine
from app.project.model import Action, Bit, BitSignal
from app.snapshots.differences import RegisterDifference, compare
from app.snapshots.restoring import offer, restore
from app.snapshots.snapshot import RegisterSnapshot
from app.snapshots.taking import RegisterRange, take
from tests.builders import pump_project, word
from tests.staged_follower import Registers, StagedFollower
from tests.waiting import wait_for

PROJECT = pump_project(
    word("total", 10, encoding="uint32", write=True),
    word("speed", 14),
    word("limit", 15, write=True, limits=(Decimal(0), Decimal(50))),
    word("command", 16, write=True),
    BitSignal(name="run", bit=Bit(of="command", number=4), write=True),
    word("reset", 17, write=True),
    word("control", 18, write=True, drive_role="control-word"),
).replace(actions=(Action(key="enter", do="set", signal="reset"),))


@pytest.fixture(
    params=["tcp", pytest.param("serial", marks=pytest.mark.skipif(os.name != "posix", reason="needs a pty"))]
)
def staged(request: pytest.FixtureRequest) -> Iterator[StagedFollower]:
    follower = StagedFollower(request.param, Registers({10: 1, 11: 2, 14: 3, 15: 4, 16: 5, 17: 6, 18: 6, 20: 7}), 100)
    follower.start()
    yield follower
    follower.stop()


@pytest.fixture
def engine(staged: StagedFollower) -> Iterator[Engine]:
    engine = Engine(PROJECT, {"bus": staged.endpoint})
    engine.start()
    wait_for(lambda: all(reading.good for reading in engine.snapshot().readings.values()))
    yield engine
    engine.stop()


def wrote(staged: StagedFollower) -> list[str]:
    return [asked.pdu.hex() for asked in staged.asked if asked.function > 4]


@pytest.fixture
def rows(engine: Engine) -> dict[int, RegisterDifference]:
    """The registers before, against what the follower holds now."""
    now: RegisterSnapshot = take(engine, PROJECT, "pump", [RegisterRange("holding", 20, 20)])
    before = {place: word + 1 for place, word in now.registers.items()}
    return {row.address: row for row in compare(replace(now, registers=before), now)}


def test_what_is_offered_and_what_is_chosen(rows: dict[int, RegisterDifference]) -> None:
    offers = {address: offer(PROJECT, "pump", row) for address, row in rows.items()}
    assert {address for address, each in offers.items() if each.chosen} == {10, 15}
    assert {address for address, each in offers.items() if not each.possible} == {14}
    assert "command bits" in offers[16].why
    assert "action of the panel" in offers[17].why
    assert "starts or stops a drive" in offers[18].why
    assert "no signal" in offers[20].why
    beyond = replace(rows[15], before=(99,))
    assert not offer(PROJECT, "pump", beyond).possible


def test_nothing_is_written_unarmed(
    engine: Engine, staged: StagedFollower, rows: dict[int, RegisterDifference]
) -> None:
    done = restore(engine, PROJECT, "pump", list(rows.values()))
    assert [each.ok for each in done] == [False] * len(rows)
    assert all("not armed" in each.words for each in done if each.row.address != 14)
    assert wrote(staged) == []
    engine.arm("bus")
    assert restore(engine, PROJECT, "pump", [rows[15]])[0].ok
    engine.arm("bus", False)
    written = wrote(staged)
    (again,) = restore(engine, PROJECT, "pump", [replace(rows[15], before=(9,), after=(5,))])
    assert "not armed" in again.words
    assert wrote(staged) == written


def test_whole_values_are_written_and_read_back(
    engine: Engine, staged: StagedFollower, rows: dict[int, RegisterDifference]
) -> None:
    engine.arm("bus")
    done = restore(engine, PROJECT, "pump", [rows[10], rows[14], rows[15], rows[20]])
    assert [each.ok for each in done] == [True, False, True, True]
    assert wrote(staged) == ["10000a00020400020003", "06000f0005", "0600140008"]
    again = take(engine, PROJECT, "pump", [RegisterRange("holding", 20, 20)])
    assert again.words("holding", 10, 2) == (2, 3)


def test_what_changed_meanwhile_is_left_alone(
    engine: Engine, staged: StagedFollower, rows: dict[int, RegisterDifference]
) -> None:
    engine.arm("bus")
    (done,) = restore(engine, PROJECT, "pump", [replace(rows[15], after=(44,))])
    assert not done.ok
    assert "changed since" in done.words
    assert wrote(staged) == []
