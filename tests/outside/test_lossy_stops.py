"""No stop is lost on a line that loses a part of what goes over it: some of what `lossy_stops` does at length."""

from __future__ import annotations

import os

import pytest

from tests.outside.lossy_device import Loses
from tests.outside.lossy_stops import run


@pytest.mark.parametrize(
    "kind", ["tcp", pytest.param("serial", marks=pytest.mark.skipif(os.name != "posix", reason="needs ptys"))]
)
@pytest.mark.parametrize(("share", "loses"), [(0.05, "answers"), (0.2, "answers"), (0.2, "requests")])
def test_every_stop_arrives(kind: str, share: float, loses: Loses) -> None:
    tally = run(kind, share, loses, stops=8)  # type: ignore[arg-type]
    assert tally.requests > 0
    assert (tally.done, tally.proved, len(tally.to_be_done)) == (8, 8, 8)
