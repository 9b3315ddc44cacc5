"""How a verb ends, and what it prints for another program."""

from __future__ import annotations

import json
import sys

FINE, FOUND_WRONG, COULD_NOT_RUN = 0, 1, 2
"""Exit statuses: fine; it ran and found something wrong; it could not run."""


class CouldNotRun(Exception):
    """The command cannot do its work; the message says what is wrong and what to do."""


def say(message: str) -> None:
    """Tell the person who runs the command, beside its results."""
    print(f"fanlight: {message}", file=sys.stderr, flush=True)


def print_json(value: object) -> None:
    """Print JSON for another program."""
    print(json.dumps(value, indent=2, ensure_ascii=False))
