"""What simulated followers cost: time of the machine, requests, a round trip over a socket."""

from __future__ import annotations

import asyncio

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from app.follower.drive import CommandBit, Drive
from app.follower.drive_bank import DriveBank
from app.follower.requests import Responder
from app.follower.simulation import Simulation
from tests.app.follower.playing import client, drive_project, mbap


def test_a_minute_of_a_running_machine(benchmark: BenchmarkFixture) -> None:
    drive = Drive()
    drive.reference = 40.0
    drive.advance(0.1)
    drive.obey(CommandBit.RUN)
    benchmark(drive.advance, 60.0)
    assert drive.run_time_s >= 59


@pytest.mark.parametrize(("name", "pdu"), [("settings", "03 0136 0003"), ("measured", "04 0190 000A")])
def test_one_request_of_a_drive(benchmark: BenchmarkFixture, name: str, pdu: str) -> None:
    project = drive_project()
    it, request = Responder([DriveBank(project, project.followers[0])]), bytes.fromhex(pdu)

    def hundred() -> bytes | None:
        async def ask() -> bytes | None:
            for _ in range(99):
                await it.answer(3, request)
            return await it.answer(3, request)

        return asyncio.run(ask())

    answer = benchmark(hundred)
    assert answer is not None
    assert answer[0] == request[0]


def test_a_round_trip_over_tcp(benchmark: BenchmarkFixture) -> None:
    request = mbap(3, "04 0190 0002")
    with Simulation(drive_project()) as simulation, client(simulation.serve_tcp(None, "127.0.0.1", 0)) as raw:

        def there_and_back() -> bytes:
            raw.send(request)
            return raw.receive(13)

        assert benchmark(there_and_back)[7:9] == b"\x04\x04"
