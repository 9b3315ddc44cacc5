"""Opening the file of a recording as if an attacker had made it: it comes by mail, on a stick, from somebody else.

After "Defense Against The Dark Arts" in SQLite's documentation (https://www.sqlite.org/security.html): nothing that is
written in the file is ever carried out, what it may ask of the computer is bounded by its size, and it is not written
to. What a recording does not hold (a view, a trigger, a table that works something out) is refused before any of its
rows are read.
"""

from __future__ import annotations

import contextlib
import os
import sqlite3
from pathlib import Path
from typing import Final

from app.errors import FanlightError
from app.recording.tables import TABLES

LONGEST_CELL: Final = 64_000_000
"""Bytes of the longest cell: the project file of a hundred thousand signals, say."""
LIMITS: Final = {
    sqlite3.SQLITE_LIMIT_LENGTH: LONGEST_CELL,
    sqlite3.SQLITE_LIMIT_SQL_LENGTH: 100_000,
    sqlite3.SQLITE_LIMIT_COLUMN: 100,
    sqlite3.SQLITE_LIMIT_EXPR_DEPTH: 100,
    sqlite3.SQLITE_LIMIT_COMPOUND_SELECT: 8,
    sqlite3.SQLITE_LIMIT_VDBE_OP: 25_000,
    sqlite3.SQLITE_LIMIT_FUNCTION_ARG: 8,
    sqlite3.SQLITE_LIMIT_ATTACHED: 0,
    sqlite3.SQLITE_LIMIT_LIKE_PATTERN_LENGTH: 50,
    sqlite3.SQLITE_LIMIT_VARIABLE_NUMBER: 20,
    sqlite3.SQLITE_LIMIT_TRIGGER_DEPTH: 1,
    sqlite3.SQLITE_LIMIT_WORKER_THREADS: 0,
}
"""No more than our own questions need."""
FIRST_STEPS: Final = 2_000_000
STEPS_A_BYTE: Final = 20
"""Steps of SQLite's machine that one question may take, and more for each byte of the file: no row of it takes fewer
than a few bytes, and none of our questions takes a hundred steps for one. One that takes more goes in circles."""
LOOK_EVERY: Final = 100_000
"""Steps between two looks at how many it were."""


class Foreign(FanlightError):
    """There is something in the file that no recording holds; the message says what, in words."""


class Budget:
    """Ends a question that takes more steps than a file of this size can need."""

    def __init__(self, path: Path) -> None:
        self._most = (FIRST_STEPS + STEPS_A_BYTE * _size(path)) // LOOK_EVERY
        self._looks = 0

    def begin(self) -> None:
        """Another question is asked."""
        self._looks = 0

    @property
    def spent(self) -> bool:
        """Whether the last question was ended."""
        return self._looks > self._most

    def look(self) -> int:
        """Called by SQLite; what is not 0 ends the question with `sqlite3.OperationalError`."""
        self._looks += 1
        return int(self.spent)


def connect(path: Path) -> tuple[sqlite3.Connection, Budget]:
    """Open a file for nothing but reading. Raises sqlite3.Error."""
    # Without a log beside it nobody writes to it, and none has to be made: it may lie where nothing can be written.
    alone = "" if has_log(path) else "&immutable=1"
    database = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro{alone}", uri=True, check_same_thread=False)
    try:
        budget = Budget(path)
        database.set_progress_handler(budget.look, LOOK_EVERY)
        for limit, value in LIMITS.items():
            database.setlimit(limit, value)
        if hasattr(database, "setconfig"):  # Python 3.12
            for option in ("SQLITE_DBCONFIG_ENABLE_TRIGGER", "SQLITE_DBCONFIG_ENABLE_VIEW"):
                with contextlib.suppress(sqlite3.Error):  # views of our own are temporary, and not meant
                    database.setconfig(getattr(sqlite3, option), False)
        database.execute("PRAGMA trusted_schema = OFF")
        database.execute("PRAGMA cell_size_check = ON")
        database.execute("PRAGMA mmap_size = 0")
        database.execute("PRAGMA temp_store = MEMORY")
        # Without this SQLite refuses a file that was cut off, from its first page on.
        database.execute("PRAGMA writable_schema = ON")
    except BaseException:
        database.close()
        raise
    return database, budget


def check_schema(database: sqlite3.Connection) -> None:
    """Make sure that there is nothing but the tables of a recording. Raises Foreign, or sqlite3.Error."""
    tables, indexes = _statements()
    for kind, name, table, sql in database.execute("SELECT type, name, tbl_name, sql FROM sqlite_master"):
        words = _plain(sql)
        if kind == "table" and name in tables:
            fits = words == tables[name]
        elif kind == "index" and name in indexes:
            fits = words == indexes[name]
        else:
            fits = kind == "index" and sql is None and table in tables  # SQLite's own, of a UNIQUE column
        if not fits:
            raise Foreign(f"{kind} '{name}'")


def has_log(path: Path) -> bool:
    """Whether the newest of a recording lies in a file beside it: it is being written, or whoever wrote it died."""
    return path.with_name(path.name + "-wal").exists()


def _statements() -> tuple[dict[str, str], dict[str, str]]:
    """What makes the tables and the indexes of a recording, by their names."""
    statements = [_plain(statement) for statement in TABLES.split(";") if statement.strip()]
    found: tuple[dict[str, str], dict[str, str]] = {}, {}
    for statement in statements:
        _, kind, name, *_rest = statement.split()
        found[kind == "INDEX"][name] = statement
    return found


def _plain(sql: object) -> str:
    return " ".join(str(sql).split())


def _size(path: Path) -> int:
    try:
        return os.stat(path).st_size  # noqa: PTH116  # Path.stat raises for names that no file can have
    except (OSError, ValueError):
        return 0
