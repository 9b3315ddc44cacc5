"""What tests of recordings share."""

from __future__ import annotations

import sqlite3
from typing import Any

import pytest


@pytest.fixture
def databases(monkeypatch: pytest.MonkeyPatch) -> list[sqlite3.Connection]:
    """The databases that were opened, the latest last: SQLite is told to say what it says when a disk is full."""
    opened: list[sqlite3.Connection] = []
    connect = sqlite3.connect

    def note(*args: Any, **more: Any) -> sqlite3.Connection:
        opened.append(connect(*args, **more))
        return opened[-1]

    monkeypatch.setattr(sqlite3, "connect", note)
    return opened
