"""What all tests share."""

from __future__ import annotations

import pytest

from app.project.model import Project
from tests.big_project import big_project as make_big_project


@pytest.fixture(scope="session")
def big_project() -> Project:
    """200 screens and 2000 signals."""
    return make_big_project()
