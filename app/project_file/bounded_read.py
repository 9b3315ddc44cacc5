"""Reading files that somebody else chose: ordinary ones only, without waiting for anybody, and never without end."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from app.errors import FanlightError


class NotOrdinary(FanlightError, ValueError):
    """A pipe, a device or a socket bears the name."""


def read_ordinary(path: Path, most: int) -> bytes:
    """The content of a file; of a larger one its first `most` + 1 bytes.

    Raises NotOrdinary, OSError, and ValueError for a name that no file can have.
    """
    with open(path, "rb", opener=_without_waiting) as file:
        # Asked of the opened file, so that nothing can be put in its place meanwhile.
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
            raise NotOrdinary(str(path))
        return file.read(most + 1)


def _without_waiting(path: str, flags: int) -> int:
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))  # a named pipe would wait for its writer
