"""How much of a serial line's time is used: reads on a pty that keeps a real line's time, against what is possible."""

from __future__ import annotations

import asyncio
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from statistics import median

import pytest

from app.client.client import Client
from app.client.endpoint import Endpoint
from app.client.timing import exact_loop, silent_intervals_ms
from app.client.transactions import Transaction
from app.modbus.requests import read_request, registers_of

pytestmark = pytest.mark.skipif(os.name != "posix", reason="needs a pty")

LEAST_SHARE = {19_200: 0.97, 115_200: 0.95}
"""Of the physical minimum, by baud rate; asked where benchmarks are measured, not where they are only run once."""


def physical_ms(baud: int, registers: int) -> float:
    """Eight characters out, 5 + 2n back, two silent intervals: MODBUS over Serial Line V1.02 (from memory)."""
    return (13 + 2 * registers) * 11_000 / baud + 2 * silent_intervals_ms(baud)[1]


@contextmanager
def undisturbed() -> Iterator[None]:
    """Ahead of other programs where the system allows it, and on another processor than the follower.

    What is measured is the client, and a wire takes no processor's time.
    """
    former = os.getpriority(os.PRIO_PROCESS, 0)
    processors = os.sched_getaffinity(0) if hasattr(os, "sched_getaffinity") else set()
    with suppress(OSError):
        os.setpriority(os.PRIO_PROCESS, 0, former - 15)
    if len(processors) > 1:
        os.sched_setaffinity(0, processors - {max(processors)})
    try:
        yield
    finally:
        if processors:
            os.sched_setaffinity(0, processors)
        with suppress(OSError):
            os.setpriority(os.PRIO_PROCESS, 0, former)


@pytest.mark.parametrize("registers", [1, 10, 50, 125])
@pytest.mark.parametrize("baud", [19_200, 115_200])
def test_share_of_the_wire(
    baud: int,
    registers: int,
    measured: bool,
    request: pytest.FixtureRequest,
    record_property: Callable[[str, object], None],
) -> None:
    wanted_s = 3.0 if measured else 0.1
    reads = max(3, int(1000 * wanted_s / physical_ms(baud, registers)))
    follower = subprocess.Popen(
        [sys.executable, "-m", "tests.paced_follower", str(baud)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        cwd=request.config.rootpath,
    )
    assert follower.stdout is not None
    device = follower.stdout.readline().strip()
    told: list[Transaction] = []

    async def run() -> tuple[list[float], float]:
        client = Client("line", Endpoint.serial(device, baud=baud, timeout_ms=200), told.append)
        await client.open()
        asked = read_request(3, "holding", 10, registers)
        await client.exchange(asked)  # the first one listens first
        cycles_ms = []
        busy, began = time.process_time(), time.perf_counter()
        ended = began
        for _ in range(reads):
            assert registers_of((await client.exchange(asked)).pdu) == tuple(range(10, 10 + registers))
            started, ended = ended, time.perf_counter()
            cycles_ms.append(1000 * (ended - started))
        load = (time.process_time() - busy) / (ended - began)
        client.close()
        return cycles_ms, load

    try:
        with undisturbed(), asyncio.Runner(loop_factory=exact_loop) as runner:
            cycles_ms, load = runner.run(run())
        rest, _ = follower.communicate("", timeout=10)
    finally:
        follower.kill()
        follower.wait()
    silence = float(rest)
    assert silence >= silent_intervals_ms(baud)[1], "a request came too soon"
    over = median(transaction.ms - transaction.predicted_ms for transaction in told[2:])
    share = physical_ms(baud, registers) / median(cycles_ms)
    print(
        f"{baud} Bd, {registers} registers: {share:.3f} of the physical minimum, {100 * load:.1f} % of a core, "
        f"measured - predicted {over:+.3f} ms, least silence {silence:.3f} ms"
    )
    record_property("share of the physical minimum", round(share, 3))
    record_property("share of a core", round(load, 3))
    if measured:
        assert share <= 1.0
        assert share >= LEAST_SHARE[baud]
