"""Simulating the devices of a project, and operating them."""

from __future__ import annotations

import argparse
import re
import sys
import threading
from ipaddress import ip_address
from typing import TYPE_CHECKING

from app.cli.options import add_project
from app.cli.outcome import FINE, say, tell
from app.cli.presses import give_order
from app.cli.sessions import watch_for_end
from app.errors import FanlightError
from app.project_file.files import load

if TYPE_CHECKING:
    from app.follower.simulation import Simulation


def follower_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight follower`."""
    add_project(verb)
    verb.add_argument("--follower", metavar="NAME", action="append", help="this device only (may be repeated)")
    where = verb.add_mutually_exclusive_group(required=True)
    where.add_argument(
        "--tcp", metavar="HOST:PORT", type=_host_and_port, help="listen on this address; port 0 chooses a free one"
    )
    where.add_argument("--serial", metavar="DEVICE", help="answer on this serial port")
    verb.add_argument(
        "--order",
        metavar="NAME.WHAT=VALUE",
        action="append",
        default=[],
        help="operate a device from the start: its inputs (jammed, safe-torque-off, external-fault, local: on or "
        "off; supply, preset; trip CODE; motor-heat in per cent, run-time in s), a signal's value, or line faults "
        "(delay and jitter in ms; silence, noise, crc and exceptions in per cent of the answers; exception CODE; "
        "reboot in s; seed). May be repeated",
    )
    verb.add_argument("--operate", action="store_true", help="read more of these from standard input, one per line")


def _host_and_port(text: str) -> tuple[str, int]:
    found = re.fullmatch(r"(?:\[(?P<six>[^\]]+)\]|(?P<host>[^:]*)):(?P<port>\d{1,5})", text)
    if found is None or int(found["port"]) > 65_535:
        raise argparse.ArgumentTypeError(f"'{text}' is not HOST:PORT, such as 127.0.0.1:5020")
    return found["six"] or found["host"] or "127.0.0.1", int(found["port"])


def follower(args: argparse.Namespace) -> int:
    """Simulate the devices of a project until interrupted."""
    from app.follower.simulation import Simulation

    simulation = Simulation(load(args.project), args.follower)
    simulation.start()
    try:
        if args.tcp:
            host, port = simulation.serve_tcp(None, *args.tcp)
            where = f"tcp://[{host}]:{port}" if ":" in host else f"tcp://{host}:{port}"
        else:
            simulation.serve_serial(args.serial)
            where = f"serial:{args.serial}"
        names = ", ".join(f"'{name}'" for name in simulation.models)
        for order in args.order:
            give_order(simulation, order)
        tell(f"simulating {names} at {where}; Ctrl+C ends it")
        if args.tcp and not ip_address(host).is_loopback:
            say(
                "caution: others on the network can also reach it, read and write; "
                "with --tcp 127.0.0.1:PORT only this computer can"
            )
        with watch_for_end() as ended:
            if args.operate:
                _take_orders(simulation)
            ended.wait()
    finally:
        simulation.stop()
    return FINE


def _take_orders(simulation: Simulation) -> None:
    """Operate followers as the lines of standard input say, in a thread that ends with the program."""

    def read() -> None:
        for line in sys.stdin:
            if not line.strip():
                continue
            try:
                give_order(simulation, line.strip())
                tell(f"done: {line.strip()}")
            except FanlightError as why:
                say(str(why))

    threading.Thread(target=read, name="orders", daemon=True).start()
