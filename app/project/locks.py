"""Locks between programs, which the system lets go of when their holder dies, however it dies."""

from __future__ import annotations

from pathlib import Path

from filelock import BaseFileLock, FileLock, Timeout


def take(path: Path) -> BaseFileLock | None:
    """The lock whose file is `path`; None if somebody else holds it. Does not wait.

    Let go of it with `release()`. Raises OSError where no lock can be had at all: a folder that may not be written.
    """
    lock = FileLock(path, thread_local=False)
    try:
        lock.acquire(blocking=False)
    except Timeout:
        return None
    return lock
