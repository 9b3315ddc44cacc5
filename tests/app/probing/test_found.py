"""What was found, as JSON for scripts and back from the file of a search."""

from __future__ import annotations

import json
from dataclasses import asdict

import pytest

from app.probing.found import Found, FoundFollower, FoundRange
from app.probing.probe import LineSettings

PUMP = FoundFollower(
    17,
    12.5,
    functions=(3, 4),
    identification={"ProductCode": "P1"},
    longest_read=64,
    ranges=(FoundRange("holding", 0, 9),),
    notes=("refuses odd addresses",),
)


def test_json_has_the_keys_that_scripts_rely_on() -> None:
    gateway = FoundFollower(3, gateway="no answer")
    found = Found(LineSettings(9600, "none", 2), None, (PUMP, gateway), 40, 2.50049, "person")
    assert json.loads(json.dumps(found.as_json())) == {
        "settings": {"baud": 9600, "parity": "none", "stop_bits": 2},
        "heard": None,
        "followers": [
            {
                "unit": 17,
                "response_ms": 12.5,
                "functions": [3, 4],
                "identification": {"ProductCode": "P1"},
                "longest_read": 64,
                "in_flight": None,
                "ranges": [{"table": "holding", "first": 0, "last": 9}],
            }
        ],
        "probes": 40,
        "seconds": 2.5,
        "stopped_by": "person",
    }


def test_a_device_comes_back_from_a_file() -> None:
    assert FoundFollower.from_json(json.loads(json.dumps(asdict(PUMP)))) == PUMP


def test_a_file_with_an_unknown_table_is_refused() -> None:
    with pytest.raises(ValueError, match="relay"):
        FoundRange.from_json({"table": "relay", "first": 0, "last": 1})
