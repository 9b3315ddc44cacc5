"""Files that are replaced in one step: a reader finds the former content or the new one, never a part of either."""

from __future__ import annotations

import contextlib
import os
import re
import secrets
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Final

LEFT_BEHIND_S: Final = 3600.0
"""A temporary file that nobody has touched for so long, in seconds, belongs to a program that was killed."""


def write_whole(target: Path, content: bytes) -> None:
    """Make `content` the content of `target`, and have it last through a power failure. Raises OSError."""
    with temporary(target) as new:
        write_new(new, content)
        new.replace(target)
    sync_folder(target.parent)


@contextlib.contextmanager
def temporary(target: Path) -> Iterator[Path]:
    """A name in the target's folder, nothing left of it afterwards."""
    name = target.with_name(f".{target.name[:40]}.{secrets.token_hex(6)}.tmp")
    try:
        yield name
    finally:
        # Gone already when all went well. Left in place only if the drive itself is gone.
        with contextlib.suppress(OSError):
            name.unlink(missing_ok=True)


def clear_leftovers(target: Path) -> None:
    """Delete what saves of `target` that were killed have left of such names, once none can be under way any more."""
    begin = f".{target.name[:40]}."
    with contextlib.suppress(OSError):
        for path in target.parent.iterdir():
            if path.name.startswith(begin) and re.fullmatch(r"[0-9a-f]{12}\.tmp", path.name[len(begin) :]):
                with contextlib.suppress(OSError):
                    if time.time() - path.stat().st_mtime > LEFT_BEHIND_S:
                        path.unlink()


def write_new(path: Path, content: bytes) -> None:
    """Write a file that does not exist yet, down to the drive. Raises OSError."""
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def sync_folder(folder: Path) -> None:
    """Make new names in `folder` last through a power failure; only POSIX has this, and not on every drive."""
    if os.name != "posix":
        return
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def write_first(target: Path, content: bytes) -> None:
    """Make `target`, with all of `content` from its first moment on. Raises FileExistsError if it is there, OSError."""
    if target.exists():
        raise FileExistsError
    with temporary(target) as new:
        write_new(new, content)
        try:
            os.link(new, target)
        except FileExistsError:
            raise
        except OSError:  # a drive without links, such as most sticks
            if target.exists():
                raise FileExistsError from None
            new.rename(target)
