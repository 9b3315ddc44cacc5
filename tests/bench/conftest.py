"""What benchmarks share: on small inputs they are quick tests of what is measured otherwise."""

from __future__ import annotations

import pytest


@pytest.fixture(scope="session")
def measured(request: pytest.FixtureRequest) -> bool:
    """Whether figures are asked for; otherwise each benchmark runs once, as a test among the others."""
    return bool(request.config.getoption("benchmark_enable"))
