"""Locks between programs, which the system lets go of when their holder dies, however it dies."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Final

from platformdirs import user_state_path

from app.errors import FanlightError

if TYPE_CHECKING:  # imported with the first lock: a demo takes none, and is live sooner so
    from filelock import BaseFileLock

PATIENCE_S: Final = 10.0
"""How long a save waits for another one of the same file, in seconds; each takes some milliseconds."""


class HeldByOthers(FanlightError, TimeoutError):
    """Other programs hold the lock."""


def take(path: Path) -> BaseFileLock | None:
    """The lock whose file is `path`; None if somebody else holds it. Does not wait.

    Let go of it with `release()`. Raises OSError where no lock can be had at all: a folder that may not be written.
    """
    from filelock import FileLock, Timeout

    lock = FileLock(path, thread_local=False)
    try:
        lock.acquire(blocking=False)
    except Timeout:
        return None
    return lock


@contextmanager
def alone(target: Path) -> Iterator[None]:
    """Let one program of this account at a time replace the file `target`.

    The lock lies among the states of programs and not beside the file, whose folder is the user's. Where none can be
    had, on a system without such a folder, it is done without. Raises HeldByOthers if others hold it for PATIENCE_S.
    """
    from filelock import FileLock, Timeout

    name = hashlib.sha256(os.fsencode(target)).hexdigest()[:32]
    lock = FileLock(user_state_path("fanlight", appauthor=False) / "saving" / f"{name}.lock", timeout=PATIENCE_S)
    try:
        Path(lock.lock_file).parent.mkdir(parents=True, exist_ok=True)
        lock.acquire()
    except Timeout:
        raise HeldByOthers from None
    except (OSError, NotImplementedError):
        yield
        return
    try:
        yield
    finally:
        lock.release()
