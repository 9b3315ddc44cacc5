"""Several requests in flight on Modbus TCP, against one client in C (libmodbus) on the same server in the same run."""

from __future__ import annotations

import asyncio
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median

import pytest

from app.bus.client import Client
from app.bus.endpoint import Endpoint
from app.bus.requests import read_request, registers_of
from app.bus.timing import exact_loop
from app.bus.transactions import TransactionLog

LEAST_RATIO = 0.5
"""Of the reads per second of the client in C with 16 requests in flight; what is reached is told with -s."""

SERVER = r"""
#include <modbus.h>
#include <stdio.h>
#include <unistd.h>
#include <netinet/in.h>
#include <sys/socket.h>
int main(void) {
    modbus_t *context = modbus_new_tcp("127.0.0.1", 0);
    modbus_mapping_t *mapping = modbus_mapping_new(0, 0, 500, 0);
    for (int i = 0; i < 500; i++) mapping->tab_registers[i] = i;
    int listener = socket(AF_INET, SOCK_STREAM, 0);
    struct sockaddr_in name = { .sin_family = AF_INET, .sin_addr.s_addr = htonl(INADDR_LOOPBACK) };
    socklen_t size = sizeof name;
    if (bind(listener, (struct sockaddr *) &name, size) || listen(listener, 5)) return 1;
    getsockname(listener, (struct sockaddr *) &name, &size);
    printf("%d\n", ntohs(name.sin_port));
    fflush(stdout);
    for (;;) {
        unsigned char query[MODBUS_TCP_MAX_ADU_LENGTH];
        if (modbus_tcp_accept(context, &listener) < 0) return 1;
        for (;;) {
            int length = modbus_receive(context, query);
            if (length < 0) break;
            if (length > 0) modbus_reply(context, query, length, mapping);
        }
        modbus_close(context);
    }
}
"""

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


def compiled(folder: Path, name: str, source: str) -> str:
    """The path of a program made of `source`."""
    written = folder / f"{name}.c"
    written.write_text(source)
    flags = ["-O2", "-I/usr/include/modbus", "-o", str(folder / name), str(written), "-lmodbus"]
    made = subprocess.run(["gcc", *flags], capture_output=True, text=True)
    if made.returncode:
        pytest.skip("libmodbus-dev is not installed")
    return str(folder / name)


@pytest.fixture(scope="module")
def programs(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[int, str]]:
    """The port of a libmodbus server that runs, and the path of the client."""
    if shutil.which("gcc") is None:
        pytest.skip("there is no gcc")
    folder = tmp_path_factory.mktemp("c")
    server, client = compiled(folder, "server", SERVER), compiled(folder, "client", CLIENT)
    process = subprocess.Popen([server], stdout=subprocess.PIPE)
    try:
        assert process.stdout is not None
        yield int(process.stdout.readline()), client
    finally:
        process.kill()
        process.communicate()


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


@pytest.mark.parametrize("registers", [10, 100])
@pytest.mark.parametrize("in_flight", [1, 4, 16])
def test_reads_per_second_against_libmodbus(
    programs: tuple[int, str],
    registers: int,
    in_flight: int,
    request: pytest.FixtureRequest,
    record_property: Callable[[str, object], None],
) -> None:
    port, client = programs
    measured = request.config.getoption("benchmark_enable")
    reads, rounds = (4800, 5) if measured else (480, 1)

    def c() -> float:
        return float(subprocess.run([client, str(port), str(registers), str(reads)], capture_output=True).stdout)

    rates, theirs, loads = [], [], []
    for _ in range(rounds):
        with asyncio.Runner(loop_factory=exact_loop) as runner:
            rate, load = runner.run(ours(port, registers, reads, in_flight))
        rates.append(rate)
        loads.append(load)
        theirs.append(c())
    ratio = median(rate / there for rate, there in zip(rates, theirs, strict=True))
    print(
        f"{registers} registers, {in_flight} in flight: {median(rates):.0f} reads/s at {100 * median(loads):.0f} % of "
        f"a core, libmodbus {median(theirs):.0f}, ratio {ratio:.2f}"
    )
    record_property("of libmodbus", round(ratio, 2))
    if measured and in_flight == 16:
        assert ratio >= LEAST_RATIO
