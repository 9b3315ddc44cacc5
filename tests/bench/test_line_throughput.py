"""Reads per second of the engine's client against bare pymodbus, on the same server in the same run."""

from __future__ import annotations

import asyncio
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from statistics import median

import pytest
from pymodbus.client import AsyncModbusTcpClient

from app.client.client import Client
from app.client.endpoint import Endpoint
from app.client.transactions import TransactionLog
from app.modbus.requests import read_request, registers_of

LEAST_RATIO = 0.95
READS = 300
ROUNDS = 7

# A server that does nothing but answer, so that the client is what is measured; in a process of its own.
SERVER = r"""
import asyncio, struct

class Answers(asyncio.Protocol):
    def connection_made(self, transport):
        self.transport = transport
    def data_received(self, data):
        count = int.from_bytes(data[10:12], "big")
        size = 2 * count
        self.transport.write(data[:4] + struct.pack(">HBBB", size + 3, data[6], data[7], size) + bytes(size))

async def main():
    server = await asyncio.get_running_loop().create_server(Answers, "127.0.0.1", 0)
    print(server.sockets[0].getsockname()[1], flush=True)
    await server.serve_forever()

asyncio.run(main())
"""


@pytest.fixture(scope="module")
def port() -> Iterator[int]:
    process = subprocess.Popen([sys.executable, "-c", SERVER], stdout=subprocess.PIPE, env=os.environ.copy())
    try:
        assert process.stdout is not None
        yield int(process.stdout.readline())
    finally:
        process.kill()
        process.communicate()


async def ours(port: int, registers: int, reads: int) -> float:
    log = TransactionLog()
    client = Client("line", Endpoint.tcp("127.0.0.1", port, timeout_ms=2000), log.append)
    await client.open()
    request = read_request(1, "holding", 10, registers)
    started = time.perf_counter()
    for _ in range(reads):
        words = registers_of((await client.exchange(request)).pdu)
        assert len(words) == registers
    took = time.perf_counter() - started
    client.close()
    assert log.count == reads
    return reads / took


async def bare(port: int, registers: int, reads: int) -> float:
    client = AsyncModbusTcpClient("127.0.0.1", port=port, timeout=2, retries=0, reconnect_delay=0)
    await client.connect()
    started = time.perf_counter()
    for _ in range(reads):
        words = (await client.read_holding_registers(10, count=registers, device_id=1)).registers
        assert len(words) == registers
    took = time.perf_counter() - started
    client.close()
    return reads / took


@pytest.mark.parametrize("registers", [10, 100])
def test_reads_per_second_against_bare_pymodbus(
    port: int, registers: int, record_property: Callable[[str, object], None]
) -> None:
    async def compare() -> list[float]:
        await ours(port, registers, 50)
        await bare(port, registers, 50)
        ratios = []
        for _ in range(ROUNDS):
            there = await bare(port, registers, READS)
            here = await ours(port, registers, READS)
            ratios.append(here / there)
        return ratios

    ratios = asyncio.run(compare())
    assert median(ratios) >= LEAST_RATIO, [round(ratio, 2) for ratio in ratios]
    record_property(f"of bare pymodbus, {registers} registers", round(median(ratios), 2))


@pytest.mark.parametrize("registers", [10, 100])
def test_one_read(port: int, registers: int, benchmark: pytest.FixtureRequest) -> None:
    loop = asyncio.new_event_loop()
    log = TransactionLog()

    async def opened() -> Client:
        client = Client("line", Endpoint.tcp("127.0.0.1", port, timeout_ms=2000), log.append)
        await client.open()
        return client

    client = loop.run_until_complete(opened())
    request = read_request(1, "holding", 10, registers)
    try:
        answer = benchmark(lambda: loop.run_until_complete(client.exchange(request)))  # type: ignore[operator]
        assert len(registers_of(answer.pdu)) == registers
    finally:
        client.close()
        loop.run_until_complete(asyncio.sleep(0))
        loop.close()
