"""What tests of windows share."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import QSettings


@pytest.fixture
def own_settings(tmp_path: Path) -> None:
    """What the program remembers between runs goes to a folder of the test."""
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(tmp_path / "settings"))
