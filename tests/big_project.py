"""A project far larger than any panel needs, for measuring."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from app.project.model import Project

_ENCODINGS = ("uint16", "int16", "uint32", "int32")


def big_project(screens: int = 200, signals: int = 2000, fields: int = 8) -> Project:
    """A clean project of so many screens and signals, with so many (at most 8) fields on a screen.

    Two lines with five followers each. Of ten signals seven are read from registers, two are bits and one is held.
    """
    followers = [
        {"name": f"conveyor {number}", "line": f"hall {number % 2 + 1}", "unit": number + 1, "simulate": "bank"}
        for number in range(10)
    ]
    return Project.model_validate(
        {
            "title": f"Parcel hall, {screens} screens",
            "panel": {
                "rows": 4,
                "columns": 40,
                "start": "screen 1",
                "keys": ["left", "right", "up", "down", "enter", "escape"],
            },
            "line": [
                {"name": "hall 1", "kind": "tcp", "host": "192.0.2.1"},
                {"name": "hall 2", "kind": "serial", "device": "/dev/ttyUSB0"},
            ],
            "follower": followers,
            "signal": [_signal(number) for number in range(signals)],
            "screen": [_screen(number, signals, fields) for number in range(screens)],
            "screen_change": [
                {"key": "right", "to": "next"},
                {"key": "left", "to": "previous"},
                *(
                    {"from": f"screen {number + 1}", "key": "up", "to": f"screen {number // 2 + 1}"}
                    for number in range(1, screens)
                ),
                {"idle_s": 300, "to": "screen 1"},
            ],
        }
    )


def _signal(number: int) -> dict[str, Any]:
    shown: dict[str, Any] = {"name": f"signal {number}"}
    if number % 10 in (7, 8):
        return shown | {"bit": {"of": f"signal {number - 7}", "number": number % 16}, "texts": {"0": "off", "1": "on"}}
    if number % 10 == 9:
        return shown | {"held": Decimal("12.5"), "unit": "s", "decimals": 1, "limits": [0, 100], "step": Decimal("0.5")}
    encoding = _ENCODINGS[number % 10 % 4]
    return shown | {
        "follower": f"conveyor {number % 10}",
        "register": 2 * (number // 10),
        "encoding": "uint16" if number % 10 == 0 or number % 10 == 1 else encoding,
        "scale": {"raw": [0, 10_000], "value": [0, Decimal("2.5")]},
        "unit": "m/s",
        "decimals": 2,
        "limits": [0, Decimal("2.5")],
        "write": number % 3 == 0,
        "notes": f"Belt speed, section {number}.",
    }


def _screen(number: int, signals: int, fields: int) -> dict[str, Any]:
    shown = []
    for index in range(min(fields, 8)):
        signal = (number * fields + index) % signals
        shown.append(
            {
                "at": [index // 2, 20 * (index % 2) + 6],
                "width": 11,
                "signal": f"signal {signal}",
                "kind": "choice" if signal % 10 in (7, 8) else "number",
                "entry": signal % 10 == 9 or (signal % 10 < 7 and signal % 3 == 0),
            }
        )
    return {
        "name": f"screen {number + 1}",
        "text": [f"{'Belt':<18}m  {'Belt':<17}m" for _ in range(4)],
        "field": shown,
    }
