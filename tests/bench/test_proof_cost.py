"""What it costs at 19 200 Bd to prove that no answer is the copy of another, on a line where all reads are alike.

Reads of one length in a row are the worst case: of others each proves the one before it at no cost. Both sides in turn,
in one run, on a pty that keeps a real line's time.
"""

from __future__ import annotations

import asyncio
import os
import subprocess
import sys
import time
from collections.abc import Callable
from statistics import median

import pytest

from app.client.client import Client
from app.client.endpoint import Endpoint
from app.client.repeated_answers import Chain
from app.client.timing import exact_loop
from app.modbus.requests import read_request, registers_of
from tests.bench.test_wire_pace import undisturbed

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs a pty")

BAUD = 19_200
MOST = 0.02
"""Of the throughput; asked where benchmarks are measured, not where they are only run once."""


@pytest.mark.parametrize("registers", [1, 10])
def test_cost_of_the_proof(
    registers: int,
    measured: bool,
    request: pytest.FixtureRequest,
    monkeypatch: pytest.MonkeyPatch,
    record_property: Callable[[str, object], None],
) -> None:
    rounds, reads = (12, 80) if measured else (1, 10)
    follower = subprocess.Popen(
        [sys.executable, "-m", "tests.paced_follower", str(BAUD)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        cwd=request.config.rootpath,
    )
    assert follower.stdout is not None
    device = follower.stdout.readline().strip()
    let_out = 0

    async def run() -> list[float]:
        client = Client("line", Endpoint.serial(device, baud=BAUD, timeout_ms=2000), lambda _: None)
        await client.open()
        asked = [read_request(3, "holding", 200 * place, registers) for place in range(8)]

        def count() -> None:
            nonlocal let_out
            let_out += 1

        wants_pause = Chain.wants_pause

        async def some(*, pauses: bool) -> float:
            monkeypatch.setattr(Chain, "wants_pause", wants_pause if pauses else lambda chain, at: False)
            began = time.perf_counter()
            for number in range(reads):
                each = asked[number % len(asked)]
                assert registers_of((await client.exchange(each)).pdu)[0] == each.address
                client.when_proved(each, count)
            return time.perf_counter() - began

        await some(pauses=True)
        ratios = []
        for _ in range(rounds):
            without, proved = await some(pauses=False), await some(pauses=True)
            ratios.append(proved / without)
        await client.proof(asked[-1])
        usual = client.response_times[3]
        print(f"turnaround {usual.median_ms:.2f} ms, 95 %: {usual.quantile(0.95):.2f} ms")
        client.close()
        return ratios

    try:
        with undisturbed(), asyncio.Runner(loop_factory=exact_loop) as runner:
            ratios = runner.run(run())
        follower.communicate("", timeout=10)
    finally:
        follower.kill()
        follower.wait()
    assert let_out == (2 * rounds + 1) * reads, "on a clean line every answer is let out"
    cost = median(ratios) - 1
    print(f"{registers} registers: the proof costs {100 * cost:+.2f} % of the time")
    record_property("cost of the proof", round(cost, 4))
    if measured:
        assert cost < MOST
