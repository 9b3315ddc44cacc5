"""The verb of the command line that lists the serial ports of this computer."""

from __future__ import annotations

import argparse
from dataclasses import asdict

from app.cli.options import add_json
from app.cli.outcome import FINE, FOUND_WRONG, put, put_json, tell
from app.errors import FanlightError
from app.modbus.ports_here import ports_here


def ports_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight ports`."""
    add_json(verb)


def ports(args: argparse.Namespace) -> int:
    """List the serial ports of this computer, and what keeps this program from them."""
    try:
        found = ports_here()
    except OSError as why:
        raise FanlightError(f"the system does not tell its serial ports: {why}") from None
    if args.json:
        put_json({"ports": [{**asdict(port), "to_do": port.to_do} for port in found]})
    else:
        for port in found:
            number = port.serial_number and f"serial number {port.serial_number}"
            about = ", ".join(filter(None, (port.description, port.maker, number)))
            put(": ".join(filter(None, (port.device, about))))
            if port.trouble:
                put(f"  {port.trouble}: {port.to_do}")
    if not found:
        tell("this computer has no serial port; plug the adapter in")
    return FINE if found else FOUND_WRONG
