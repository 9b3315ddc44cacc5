"""Waiting for what happens elsewhere: in a thread, a process, on a socket."""

from __future__ import annotations

import time
from collections.abc import Callable


def wait_for(condition: Callable[[], object], limit_s: float = 20.0) -> None:
    """Ask again and again until `condition` holds; fail after `limit_s` seconds."""
    end = time.monotonic() + limit_s
    while not condition():
        assert time.monotonic() < end, "it did not happen in time"
        time.sleep(0.01)
