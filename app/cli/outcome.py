"""How a verb ends, and the one way to a terminal: results to standard output, messages to standard error.

Names, texts of devices and names of files come from others. None of them reaches a terminal as it is
(`app/signals/visible.py`), and none ends the command because the terminal has no such letter.
"""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path
from typing import TextIO

from app.errors import FanlightError
from app.signals.visible import visible, visible_json

FINE, FOUND_WRONG, COULD_NOT_RUN = 0, 1, 2
"""Exit statuses: fine; it ran and found something wrong; it could not run."""


class CouldNotRun(FanlightError):
    """The command cannot do its work; the message says what is wrong and what to do."""


def take_any_letter() -> None:
    """Let the streams write what their encoding does not have as codes, such as \\u03a9, instead of failing."""
    for stream in (sys.stdout, sys.stderr):
        with suppress(AttributeError, ValueError):  # there is none, another one stands in, or it is closed
            stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]


def put(*lines: str) -> None:
    """Print lines of a result."""
    _print(sys.stdout, lines)


def tell(*lines: str) -> None:
    """Tell the person who runs the command, beside its results, and at once.

    Where nobody listens any more (the terminal was closed, the disk is full) the work goes on without a word.
    """
    try:
        _print(sys.stderr, lines)
        sys.stderr.flush()
    except OSError:
        sys.stderr = Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115  # until the end, which flushes it


def say(message: str) -> None:
    """Tell them in the name of the program: what could not be done, what they should know."""
    tell(*f"fanlight: {message}".split("\n"))


class Results:
    """Standard output as a file that others write to: lines of any length, which may come in pieces."""

    def write(self, text: str) -> int:
        """Print `text`; gives how many characters it had."""
        sys.stdout.write("\n".join(map(visible, text.split("\n"))))
        return len(text)


def put_json(value: object, *, indent: int | None = 2) -> None:
    """Print JSON for another program: several lines, or with `indent` None one."""
    import json

    unicode = (getattr(sys.stdout, "encoding", None) or "").lower().replace("-", "") in ("utf8", "utf8sig")
    print(visible_json(json.dumps(value, indent=indent, ensure_ascii=not unicode)))


def _print(stream: TextIO, lines: tuple[str, ...]) -> None:
    for line in lines:
        print(visible(line), file=stream)
