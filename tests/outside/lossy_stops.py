"""Stops on lossy lines: how many arrive, and how long they take from the key to the wire.

python -m tests.outside.lossy_stops                  500 stops on every line
python -m tests.outside.lossy_stops --stops 50
"""

# ruff: noqa: T201 - a command
from __future__ import annotations

import argparse
import os
import random
import time
from dataclasses import dataclass, field
from typing import Literal

from app.client.endpoint import Endpoint
from app.project.model import Project
from app.project_file.files import parse
from app.session.session import Session
from tests.outside.lossy_device import Loses, LossyDevice
from tests.waiting import wait_for

TIMEOUT_MS = 300
"""What a line has unless its project says otherwise."""
STOPS = {"coil": 5, "register": 6, "pair": 16, "bit": 22}
"""The keys that stop, and the function that each writes with."""

PROJECT = """
format = 2
[panel]
start = "run"
keys = ["coil", "register", "pair", "bit"]
[[line]]
name = "line"
kind = "tcp"
host = "unused"
[[follower]]
name = "drive"
line = "line"
write_functions = [5, 6, 16, 22]
[[signal]]
name = "run coil"
follower = "drive"
table = "coil"
register = 5
write = true
every_ms = 50
[[signal]]
name = "set point"
follower = "drive"
register = 10
write = true
every_ms = 50
[[signal]]
name = "long set point"
follower = "drive"
register = 20
encoding = "uint32"
write = true
every_ms = 50
[[signal]]
name = "command"
follower = "drive"
register = 30
write = true
every_ms = 50
[[signal]]
name = "run bit"
bit = { of = "command", number = 3 }
write = true
[[screen]]
name = "run"
[[action]]
key = "coil"
do = "clear"
signal = "run coil"
[[action]]
key = "register"
do = "write"
value = 0
signal = "set point"
stops = true
[[action]]
key = "pair"
do = "write"
value = 0
signal = "long set point"
stops = true
[[action]]
key = "bit"
do = "clear"
signal = "run bit"
"""


@dataclass
class Tally:
    """What became of the stops of one run; times in milliseconds, those of the stops that came."""

    asked: int = 0
    done: int = 0
    """The device has carried it out."""
    proved: int = 0
    """And the program knows it."""
    to_the_wire: list[float] = field(default_factory=list)
    """From the key to the first request that was on the wire."""
    to_be_done: list[float] = field(default_factory=list)
    """From the key to the first request that was carried out."""
    lost: int = 0
    requests: int = 0


def set_going(device: LossyDevice) -> None:
    """Somebody has started everything."""
    device.coils[5] = 1
    device.words.update({10: 4165, 20: 1, 21: 2, 30: 0b1001_1000})


def stands(device: LossyDevice, key: str) -> bool:
    """Whether what the key stops is stopped."""
    if key == "coil":
        return not device.coils[5]
    if key == "register":
        return not device.words[10]
    if key == "pair":
        return not device.words[20] and not device.words[21]
    return device.words[30] == 0b1001_0000


def run(kind: Literal["tcp", "serial"], share: float, loses: Loses, stops: int, seed: int = 1) -> Tally:
    """Press stop keys one after another, each at a moment of chance, on a line that loses a share of 1."""
    project: Project = parse(PROJECT)
    chance = random.Random(seed)
    tally = Tally()
    with LossyDevice(kind, 0.0, loses, seed) as device:
        if kind == "tcp":
            endpoint = Endpoint.tcp("127.0.0.1", int(device.where), timeout_ms=TIMEOUT_MS)
        else:
            endpoint = Endpoint.serial(device.where, baud=19_200, timeout_ms=TIMEOUT_MS)
        with Session(project, endpoint, armed=True) as session:
            wait_for(lambda: all(reading.good for reading in session.snapshot().readings.values()))
            device.share = share
            for _ in range(stops):
                set_going(device)
                pause(session, chance.uniform(0.0, 0.4))
                session.engine.arm("line")  # a lossy line may have disarmed itself; stops would go out all the same
                key = chance.choice(sorted(STOPS))
                seen = len(device.log)
                pressed = time.monotonic()
                session.panel.key_down(key)
                session.panel.key_up(key)
                tally.asked += 1
                wait_for(lambda: session.panel.tick() is not None and not session.writing, limit_s=40)
                reports = session.take_reports()
                mine = [one for one in device.log[seen:] if one.function == STOPS[key] and one.at >= pressed]
                tally.done += stands(device, key)
                tally.proved += all(report.ok for report in reports)
                if mine:
                    tally.to_the_wire.append(1000 * (mine[0].at - pressed))
                if any(one.done for one in mine):
                    tally.to_be_done.append(1000 * (next(one.at for one in mine if one.done) - pressed))
        tally.lost, tally.requests = device.lost, device.requests
    return tally


def pause(session: Session, seconds: float) -> None:
    """Let the line go on for a while."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        session.panel.tick()
        time.sleep(0.005)


LINES: tuple[tuple[float, Loses], ...] = ((0.0, "answers"), (0.05, "answers"), (0.2, "answers"), (0.2, "requests"))


def main() -> int:
    """Exit status 1 if a stop did not arrive."""
    ask = argparse.ArgumentParser(prog="python -m tests.outside.lossy_stops", description=__doc__)
    ask.add_argument("--stops", metavar="N", type=int, default=500, help="stops on every line")
    stops = ask.parse_args().stops
    print("| line | lost | stops | arrived | proved | key to wire: median, 99 %, most | to be carried out: the same |")
    print("| --- | --- | --- | --- | --- | --- | --- |")
    missing = 0
    for kind in ("tcp", "serial") if os.name == "posix" else ("tcp",):
        for share, loses in LINES:
            tally = run(kind, share, loses, stops)
            missing += tally.asked - tally.done
            lost = f"{share:.0%} of {loses}" if share else "nothing"
            print(
                f"| {kind} | {lost} | {tally.asked} | {tally.done} | {tally.proved} | "
                f"{_figures(tally.to_the_wire)} | {_figures(tally.to_be_done)} |",
                flush=True,
            )
    return 1 if missing else 0


def _figures(times: list[float]) -> str:
    ordered = sorted(times)
    if not ordered:
        return "-"
    return ", ".join(
        f"{ms:.0f} ms"
        for ms in (ordered[len(ordered) // 2], ordered[min(len(ordered) - 1, 99 * len(ordered) // 100)], ordered[-1])
    )


if __name__ == "__main__":
    raise SystemExit(main())
