"""What a project writes without a key, in words."""

from __future__ import annotations

import pytest

from app.project.by_itself import written_by_itself
from app.project_file.files import load
from projects import demo_path
from tests.app.panel.operating import project, register


def test_the_demos_only_stop_without_a_key() -> None:
    told = written_by_itself(load(demo_path("drying-hall")))
    assert [each.words for each in told] == [
        "when 'fan fault' is set: 6 is written to 'fan control'",
        "when 'fan fault' is set: 'heating' is set to 0",
        "when 'fan running' is clear: 'heating' is set to 0",
        "when 'upper racks' is above 60: 'heating' is set to 0",
    ]
    assert not any(each.starts for each in told)


@pytest.mark.parametrize(
    ("deed", "words", "starts"),
    [
        ({"do": "set", "signal": "run"}, "when 'remote' is 3: 'run' is set to 1", True),
        ({"do": "set", "signal": "run", "stops": True}, "when 'remote' is 3: 'run' is set to 1", False),
        (
            {"do": "write", "signal": "speed", "value": 41.65},
            "when 'remote' is 3: 41.65 Hz is written to 'speed'",
            True,
        ),
        (
            {"do": "write", "signal": "speed", "value": {"from": "preset"}},
            "when 'remote' is 3: the value of 'preset' is written to 'speed'",
            True,
        ),
    ],
)
def test_what_conditions_write(deed: dict[str, object], words: str, starts: bool) -> None:
    made = project(
        signal=[
            register("run", 1),
            register("speed", 2, unit="Hz", decimals=2),
            register("remote", 3, refresh_ms=500),
            {"name": "preset", "held": 1},
        ],
        action=[
            {"key": "up", "do": "set", "signal": "run"},
            {"when": {"signal": "remote", "is": "equal", "value": 3}, **deed},
            {"when": {"signal": "remote"}, "do": "write", "signal": "preset", "value": 5},
        ],
    )
    first, second = written_by_itself(made)
    assert (first.words, first.starts) == (words, starts)
    assert second.words == "'remote', once written, is rewritten every 500 ms"
