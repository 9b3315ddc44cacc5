"""The verb of the command line that lists the serial ports of this computer."""

from __future__ import annotations

import argparse

from app.cli.options import add_json
from app.cli.outcome import FINE, FOUND_WRONG, put, put_json, tell
from app.modbus.serial_port import all_ports, how_to_get


def ports_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight ports`."""
    add_json(verb)


def ports(args: argparse.Namespace) -> int:
    """List the serial ports of this computer, and what keeps this program from them."""
    found = [(port, port.trouble) for port in all_ports()]
    if args.json:
        rows = [
            {
                "device": port.device,
                "description": port.description,
                "maker": port.maker,
                "serial_number": port.serial_number,
                "trouble": trouble,
                "to_do": how_to_get(trouble),
            }
            for port, trouble in found
        ]
        put_json({"ports": rows})
    else:
        for port, trouble in found:
            words = [port.description, port.maker, port.serial_number and f"serial number {port.serial_number}"]
            put(": ".join(filter(None, (port.device, ", ".join(filter(None, words))))))
            if trouble:
                put(f"  {trouble}: {how_to_get(trouble)}")
    if not found:
        tell("this computer has no serial port; plug the adapter in")
    return FINE if found else FOUND_WRONG
