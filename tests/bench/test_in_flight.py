"""Several requests in flight on Modbus TCP, against one client in C (libmodbus), which has one, in the same run.

The server is one of our own in C, so that it is not what is measured: libmodbus's own answers one request a turn.
"""

from __future__ import annotations

import asyncio
import subprocess
import time
from collections.abc import Callable, Iterator
from statistics import median

import pytest

from app.client.client import Client
from app.client.endpoint import Endpoint
from app.client.timing import exact_loop
from app.client.transactions import TransactionLog
from app.modbus.requests import read_request, registers_of
from tests.bench.fast_server import compiled, fast_server

LEAST_RATIO = {1: 0.4, 4: 0.8, 16: 1.2}
"""Of the reads per second of the client in C, by requests in flight; what is reached is told with -s."""

CLIENT = r"""
#include <modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
int main(int argc, char **argv) {
    int port = atoi(argv[1]), registers = atoi(argv[2]), reads = atoi(argv[3]);
    uint16_t words[125];
    struct timespec began, ended;
    modbus_t *context = modbus_new_tcp("127.0.0.1", port);
    if (argc < 4 || modbus_connect(context)) return 1;
    clock_gettime(CLOCK_MONOTONIC, &began);
    for (int i = 0; i < reads; i++)
        if (modbus_read_registers(context, 10, registers, words) != registers || words[0] != 10) return 1;
    clock_gettime(CLOCK_MONOTONIC, &ended);
    printf("%.1f\n", reads / (ended.tv_sec - began.tv_sec + 1e-9 * (ended.tv_nsec - began.tv_nsec)));
    modbus_close(context);
    modbus_free(context);
    return 0;
}
"""


@pytest.fixture(scope="module")
def port(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    """The port of a server that is never the limit."""
    with fast_server(tmp_path_factory.mktemp("server")) as port:
        yield port


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The path of the client in C."""
    return compiled(tmp_path_factory.mktemp("client"), "client", CLIENT, "-I/usr/include/modbus", "-lmodbus")


async def ours(port: int, registers: int, reads: int, in_flight: int) -> tuple[float, float]:
    """Reads per second, and the share of a core that they took."""
    log = TransactionLog()
    client = Client("line", Endpoint.tcp("127.0.0.1", port, timeout_ms=2000, in_flight=in_flight), log.append)
    await client.open()
    request = read_request(1, "holding", 10, registers)
    true = tuple(range(10, 10 + registers))

    async def one_after_the_other(count: int) -> None:
        for _ in range(count):
            assert registers_of((await client.exchange(request)).pdu) == true

    started, busy = time.perf_counter(), time.process_time()
    await asyncio.gather(*(one_after_the_other(reads // in_flight) for _ in range(in_flight)))
    took, busy = time.perf_counter() - started, time.process_time() - busy
    client.close()
    assert log.count == reads // in_flight * in_flight
    return log.count / took, busy / took


class Bare(asyncio.Protocol):
    """asyncio and nothing else: what is sent is ready, what comes is not looked at."""

    def __init__(self) -> None:
        self.answers: asyncio.Queue[bytes] = asyncio.Queue()

    def data_received(self, data: bytes) -> None:
        self.answers.put_nowait(data)


async def bare(port: int, registers: int, reads: int) -> float:
    """Requests per second of bare asyncio, one in flight."""
    transport, protocol = await asyncio.get_running_loop().create_connection(Bare, "127.0.0.1", port)
    frame = read_request(1, "holding", 10, registers).mbap(1)
    started = time.perf_counter()
    for _ in range(reads):
        transport.write(frame)
        await protocol.answers.get()
    took = time.perf_counter() - started
    transport.close()
    return reads / took


@pytest.mark.parametrize("registers", [10, 100])
@pytest.mark.parametrize("in_flight", [1, 4, 16])
def test_reads_per_second_against_libmodbus(
    port: int,
    client: str,
    registers: int,
    in_flight: int,
    measured: bool,
    record_property: Callable[[str, object], None],
) -> None:
    reads, rounds = (4800, 7) if measured else (480, 1)

    def c() -> float:
        asked = [client, str(port), str(registers), str(reads)]
        return float(subprocess.run(asked, capture_output=True, check=True).stdout)

    rates, theirs, loads, bares = [], [], [], []
    for _ in range(rounds):
        with asyncio.Runner(loop_factory=exact_loop) as runner:
            rate, load = runner.run(ours(port, registers, reads, in_flight))
            bares.append(runner.run(bare(port, registers, reads)))
        rates.append(rate)
        loads.append(load)
        theirs.append(c())
    # What else runs on the machine only ever takes away: the best round of each says what it can do.
    ratio = max(rates) / max(theirs)
    print(
        f"{registers} registers, {in_flight} in flight: {max(rates):.0f} reads/s at {100 * median(loads):.0f} % of "
        f"a core, libmodbus {max(theirs):.0f}, bare asyncio {max(bares):.0f}, ratios {ratio:.2f} and "
        f"{max(rates) / max(bares):.2f}"
    )
    record_property("of libmodbus", round(ratio, 2))
    record_property("of bare asyncio, one in flight", round(max(rates) / max(bares), 2))
    if measured:
        assert ratio >= LEAST_RATIO[in_flight]
