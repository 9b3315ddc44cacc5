"""Options that several verbs have."""

from __future__ import annotations

import argparse


def add_project(verb: argparse.ArgumentParser) -> None:
    """The project file."""
    verb.add_argument("project", metavar="PROJECT", help="a project file")


def add_json(verb: argparse.ArgumentParser) -> None:
    """JSON instead of words."""
    verb.add_argument("--json", action="store_true", help="print JSON for another program to read")


def seconds(text: str) -> float:
    """What `--for` takes. Raises argparse.ArgumentTypeError in words."""
    try:
        found = float(text)
    except ValueError:
        found = -1.0
    if not 0 <= found <= 86_400:
        raise argparse.ArgumentTypeError(f"'{text}' is not a number of seconds from 0 to 86400")
    return found


def add_endpoint(verb: argparse.ArgumentParser) -> None:
    """Where the followers are, and for how long."""
    verb.add_argument(
        "--via",
        metavar="ENDPOINT",
        help="tcp://HOST:PORT, serial:DEVICE, serial+tcp://HOST:PORT or 'simulated'; left out: as set in the project",
    )
    verb.add_argument("--for", dest="for_s", metavar="S", type=seconds, help="run for S seconds")
