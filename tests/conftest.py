"""What all tests share. Windows run without a screen unless the tests are given one."""

from __future__ import annotations

import os
import sys

import pytest

from app.project.model import Project
from tests.big_project import big_project as make_big_project

if sys.platform == "linux" and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")


@pytest.fixture(scope="session")
def big_project() -> Project:
    """200 screens and 2000 signals."""
    return make_big_project()
