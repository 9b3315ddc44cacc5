"""Clients that take more than their share: the others are served all the same, and the terminal stays readable."""

from __future__ import annotations

import asyncio
import contextlib
import logging
import re
import select
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from app.cli.verbs import follower as verb
from app.follower.register_bank import RegisterBank
from app.follower.requests import Responder
from app.follower.seldom import Seldom
from app.follower.server import TcpServer, serve_rtu
from app.follower.simulation import Simulation
from app.project_file.files import load
from projects import demo_path
from tests.app.follower.playing import RawClient, bank_project, client, mbap, rtu, signal
from tests.waiting import wait_for

HERE = "127.0.0.1"
POLITE_READS = 200
MOST_TIMES_SLOWER = 60
"""A polite client among greedy ones waits a turn of theirs, not for all that they have asked: about three times as
long here. Without turns it was a thousand times."""


def responder() -> Responder:
    project = bank_project(signal("level", 0))
    return Responder([RegisterBank(project, project.followers[0])], clock=lambda: 0.0)


@pytest.mark.parametrize(
    "one_of_many", [rtu(17, "03 0000 0001"), b"\0\x08", b"\xff"], ids=["requests", "nearly", "noise"]
)
def test_a_client_that_sends_a_thousand_times_at_once_is_interrupted_by_one_that_asks_once(one_of_many: bytes) -> None:
    happened: list[str] = []

    async def run() -> None:
        async def serve(name: str, arrived: bytes) -> None:
            async def send(_frame: bytes) -> None:
                happened.append(f"{name} answered")

            reader = asyncio.StreamReader()
            reader.feed_data(arrived)
            reader.feed_eof()
            await serve_rtu(responder(), reader, send)
            happened.append(f"{name} done")

        await asyncio.gather(serve("greedy", 1000 * one_of_many), serve("polite", rtu(17, "03 0000 0001")))

    asyncio.run(run())
    assert happened.count("greedy answered") == (1000 if len(one_of_many) == 8 else 0)
    assert happened.index("polite answered") < 4
    assert happened.index("polite answered") < happened.index("greedy done")


def test_the_same_on_modbus_tcp() -> None:
    async def run() -> int:
        server = await TcpServer.open(responder(), HERE, 0)
        greedy_in, greedy_out = await asyncio.open_connection(*server.address)
        polite_in, polite_out = await asyncio.open_connection(*server.address)
        greedy_out.write(5000 * mbap(17, "03 0000 0001"))
        await greedy_in.readexactly(11)  # the server is at it
        polite_out.write(mbap(17, "03 0000 0001"))
        await polite_in.readexactly(11)
        await asyncio.sleep(0)
        taken = len(await greedy_in.read(11 * 5000)) // 11
        greedy_out.close()
        polite_out.close()
        await server.close()
        return taken

    # All in one loop: what a turn is, is counted in its turns and not in time.
    assert asyncio.run(run()) < 500


def _reads(address: tuple[str, int]) -> float:
    """How long so many reads of a polite client take, in seconds."""
    with client(address) as polite:
        polite.ask(17, "03 0000 0001")
        begun = time.perf_counter()
        for _ in range(POLITE_READS):
            polite.ask(17, "03 0000 0001")
        return time.perf_counter() - begun


@contextlib.contextmanager
def greedy(address: tuple[str, int]) -> Iterator[None]:
    """Another client meanwhile, which sends all it can and never reads."""
    with client(address) as raw:
        raw.socket.setblocking(False)
        ended = threading.Event()
        sent = 0

        def send() -> None:
            nonlocal sent
            requests = 1000 * mbap(17, "03 0000 0001")
            while not ended.is_set():
                if select.select([], [raw.socket], [], 0.02)[1]:
                    with contextlib.suppress(OSError):
                        sent += raw.socket.send(requests[sent % 12 :])

        sender = threading.Thread(target=send)
        sender.start()
        try:
            wait_for(lambda: sent > 500_000)
            yield
        finally:
            ended.set()
            sender.join()


def test_a_client_that_never_reads_keeps_nobody_waiting() -> None:
    with Simulation(bank_project(signal("level", 0))) as simulation:
        address = simulation.serve_tcp(None, HERE, 0)
        alone = _reads(address)
        with greedy(address), greedy(address):
            among_greedy = _reads(address)
        assert among_greedy < MOST_TIMES_SLOWER * alone


@contextlib.contextmanager
def played(*options: str, descriptors: int = 0) -> Iterator[tuple[tuple[str, int], list[str]]]:
    """`fanlight follower` as a process of its own, where it listens, and what it says after that."""
    limit = f"import resource; resource.setrlimit(resource.RLIMIT_NOFILE, ({descriptors}, {descriptors})); "
    code = f"{limit if descriptors else ''}from app.cli.parser import main; raise SystemExit(main())"
    command = [sys.executable, "-c", code, "follower", str(demo_path("booster-pump")), *options]
    root = Path(__file__).parents[3]
    with subprocess.Popen(command, stderr=subprocess.PIPE, text=True, cwd=root) as process:
        assert process.stderr is not None
        said: list[str] = []
        listener = threading.Thread(target=said.extend, args=(process.stderr,))
        announced = process.stderr.readline()
        listener.start()
        try:
            where = re.search(r"tcp://(\S+):(\d+);", announced)
            assert where is not None, announced
            yield (where[1], int(where[2])), said
        finally:
            process.kill()
            listener.join()


@pytest.mark.skipif(sys.platform == "win32", reason="there is no such limit there")
def test_without_file_descriptors_it_says_so_once_and_goes_on() -> None:
    unit = load(demo_path("booster-pump")).followers[0].unit
    request = mbap(unit, "08 0000 1234")
    with contextlib.ExitStack() as clients, played("--tcp", f"{HERE}:0", descriptors=40) as (address, said):
        first = clients.enter_context(client(address))
        assert first.ask(unit, "08 0000 1234") == "08 00 00 12 34"
        crowd = [RawClient(address) for _ in range(60)]
        for raw in crowd:
            raw.send(request)
        wait_for(lambda: said)
        crowd[0].receive(len(request))
        assert select.select([crowd[-1].socket], [], [], 2.5)[0] == [], "it was let in"  # two more attempts
        assert first.ask(unit, "08 0000 1234") == "08 00 00 12 34"
        for raw in crowd[:-1]:
            raw.socket.close()
        crowd[-1].receive(len(request))
        crowd[-1].socket.close()
        wait_for(lambda: len(said) > 1)
    assert len(said) == 2, said
    assert "no more connections for now; those that are open go on: " in said[0]
    assert "connections are let in again" in said[1]


@pytest.mark.parametrize(
    ("host", "cautioned"), [("0.0.0.0", True), (HERE, False), ("", False), ("[::1]", False), ("[::]", True)]
)
def test_it_cautions_when_others_on_the_network_can_reach_it(
    host: str, cautioned: bool, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from app.cli.parser import main

    class Ended:
        def wait(self) -> None: ...

    monkeypatch.setattr(verb, "watch_for_end", lambda: contextlib.nullcontext(Ended()))
    if "::" in host:
        try:
            socket.create_server(("::1", 0), family=socket.AF_INET6).close()
        except OSError:
            pytest.skip("there is no IPv6 here")
    assert main(["follower", str(demo_path("booster-pump")), "--tcp", f"{host}:0"]) == 0
    said = capsys.readouterr().err
    assert f"at tcp://{host or HERE}:" in said
    assert ("caution: others on the network can also reach it" in said) is cautioned


def test_what_happens_a_thousand_times_is_said_seldom_and_counted() -> None:
    now = 100.0
    seldom = Seldom(60.0, clock=lambda: now)

    def told(text: str, *values: object) -> str | None:
        record = logging.LogRecord("it", logging.WARNING, "", 0, text, values, None)
        return record.getMessage() if seldom.filter(record) else None

    assert told("closed: %s", "a") == "closed: a"
    assert [told("closed: %s", each) for each in range(999)] == 999 * [None]
    assert told("lost: %s", "b") == "lost: b", "another kind"
    now += 61
    assert told("closed: %s", "c") == "closed: c (and 999 times more meanwhile)"
    now += 61
    assert told("closed: %s", "d") == "closed: d"


def test_rubbish_from_a_client_does_not_fill_the_terminal() -> None:
    with played("--tcp", f"{HERE}:0") as (address, said):
        for _ in range(50):
            with client(address) as raw:
                raw.send(b"GET / HTTP/1.1\r\n\r\n")
                assert raw.closed_by_peer()
    assert len(said) == 1, said
    assert "is not Modbus" in said[0]
