"""Lines on which answers come twice: every good sample against what the device held when it was asked.

The device is a program of its own (`device`) with a log of its own. The engine reads sixteen lone registers
every 20 ms. A sample is right if it is what the device answered to the last request for that register before the sample
was taken: an older value of the same register is as wrong as one of another register.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from bisect import bisect_right
from collections import Counter, defaultdict
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path
from typing import Final

from app.client.endpoint import Endpoint
from app.client.faults import FaultKind
from app.line.engine import Engine
from app.project.model import Project
from tests.builders import SERIAL, pump_project, word
from tests.waiting import wait_for

SIGNALS: Final = 16
_ROOT: Final = Path(__file__).parents[2]
_WAIT_S: Final = 30.0


@dataclass(frozen=True, slots=True)
class Doubling:
    """How a device doubles its answers: see the options of `device`. Times in milliseconds."""

    name: str
    least: float
    most: float
    share: float = 1.0
    second: bool = False
    tight: bool = False
    alike: bool = False
    takes: float = 2.0
    deaf: int = 0
    pty: bool = False

    def options(self, seed: int) -> list[str]:
        """On the command line of the device."""
        flags = [f"--{name}" for name in ("second", "tight", "alike") if getattr(self, name)]
        values = [f"--{name}={getattr(self, name)}" for name in ("least", "most", "share", "takes", "deaf")]
        return [*flags, *values, f"--seed={seed}"]


@dataclass(slots=True)
class Doubled:
    """What came of it."""

    doubling: Doubling
    transactions: int = 0
    samples: int = 0
    wrong: list[str] = field(default_factory=list)
    faults: Counter[FaultKind] = field(default_factory=Counter)
    seconds: float = 0.0


def project(*, tight: bool = False) -> Project:
    """Sixteen registers, far apart, each read every 20 ms."""
    return pump_project(
        *(word(f"{10 * n}", 10 * n, every_ms=20, write=n == 0) for n in range(0, 13 * SIGNALS, 13)),
        line=SERIAL,
        gaps=not tight,
        write_functions=(16,),
    )


def doublings() -> list[Doubling]:
    """All kinds of them, on a pseudo terminal only where there is one."""
    kinds = [
        Doubling("always, at once", 0, 0),
        Doubling("always, after 1 ms", 1, 1),
        Doubling("always, after 5 ms", 5, 5),
        Doubling("always, after 10 ms", 10, 10),
        Doubling("always, after 30 ms", 30, 30),
        Doubling("always, after 200 ms", 200, 200),
        Doubling("always, after 1 to 200 ms", 1, 200),
        Doubling("1 %, after 1 to 200 ms", 1, 200, 0.01),
        Doubling("5 %, after 8 ms", 8, 8, 0.05),
        Doubling("20 %, after 1 to 200 ms", 1, 200, 0.2),
        Doubling("5 %, after 1 to 50 ms, a slow device", 1, 50, 0.05, takes=20),
        Doubling("20 %, after 1 to 60 ms, values alike", 1, 60, 0.2, alike=True),
        Doubling("always, after 30 ms, values alike", 30, 30, alike=True),
        Doubling("20 %, after 1 to 100 ms, named registers only", 1, 100, 0.2, tight=True),
        Doubling("a second device, 10 ms later", 10, 10, second=True),
        Doubling("a second device, 1 to 200 ms later, 5 %", 1, 200, 0.05, second=True),
    ]
    return [replace(kind, pty=pty) for kind in kinds for pty in ((False, True) if os.name == "posix" else (False,))]


def device(kind: str, timeout_ms: int, *options: str) -> tuple[subprocess.Popen[str], Endpoint]:
    """Start the device; gives how to reach it."""
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.faults.device", f"--kind={kind}", *options],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        cwd=_ROOT,
    )
    assert process.stdout is not None
    where = process.stdout.readline().strip()
    if kind == "serial":
        return process, Endpoint.serial(where, baud=19_200, timeout_ms=timeout_ms)
    reached = Endpoint.tcp if kind == "tcp" else Endpoint.serial_over_tcp
    return process, reached("127.0.0.1", int(where), timeout_ms=timeout_ms)


def doubled_line(doubling: Doubling, transactions: int, seed: int, at_most_s: float = 3600.0) -> Doubled:
    """Read from the device until there were so many transactions, and judge every good sample."""
    outcome = Doubled(doubling)
    process, endpoint = device("serial" if doubling.pty else "serial-over-tcp", 300, *doubling.options(seed))
    try:
        engine = Engine(project(tight=doubling.tight), {"bus": endpoint})
        samples = engine.samples.subscribe()
        began = time.monotonic()
        engine.start()
        last, moved = -1, began
        while engine.snapshot().lines["bus"].requests < transactions and time.monotonic() - began < at_most_s:
            time.sleep(0.02)
            count = engine.snapshot().lines["bus"].requests
            if count != last:
                last, moved = count, time.monotonic()
            assert time.monotonic() - moved < _WAIT_S, "the line stood still"
        outcome.seconds = time.monotonic() - began
        state = engine.snapshot().lines["bus"]
        engine.stop()
        outcome.transactions, outcome.faults = state.requests, Counter(state.faults)
        told, _ = process.communicate("", timeout=_WAIT_S)
    finally:
        process.kill()
        process.wait()
    held: defaultdict[int, tuple[list[float], list[int]]] = defaultdict(lambda: ([], []))
    for text in told.splitlines():
        at, function, address, _, words, _ = json.loads(text)
        if function == 3:
            for place, word in enumerate(words):
                times, values = held[address + place]
                times.append(at)
                values.append(word)
    for sample in samples.take():
        if not sample.reading.good:
            continue
        outcome.samples += 1
        times, values = held[int(sample.signal)]
        place = bisect_right(times, sample.at) - 1
        true = values[place] if place >= 0 else None
        if sample.words != (true,):
            outcome.wrong.append(f"{sample.signal}: {sample.words} instead of {true}")
    return outcome


def doubled_writes(doubling: Doubling, count: int, seed: int) -> tuple[int, int, list[str]]:
    """Write one value after the other; gives how many were told as done, how many as not, and what was untrue."""
    process, endpoint = device("serial" if doubling.pty else "serial-over-tcp", 300, *doubling.options(seed))
    told: list[tuple[int, bool]] = []
    try:
        engine = Engine(project(), {"bus": endpoint}, armed=["bus"])
        engine.start()
        try:
            for number in range(count):
                wait_for(lambda: engine.snapshot().followers["pump"].answering)
                report = engine.write("0", Fraction(1000 + number)).result(_WAIT_S)
                told.append((1000 + number, report.ok))
        finally:
            engine.stop()
        log, _ = process.communicate("", timeout=_WAIT_S)
    finally:
        process.kill()
        process.wait()
    heard = {words[0] for _, function, address, _, words, _ in map(json.loads, log.splitlines()) if function == 16}
    done = [value for value, ok in told if ok]
    return len(done), len(told) - len(done), [f"{value} was told as written" for value in done if value not in heard]
