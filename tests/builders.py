"""Projects for tests, in a line or two each: made of models, or of parts as a file has them."""

from __future__ import annotations

from typing import Any, Final

from app.project.model import Follower, Line, Panel, Project, RegisterSignal, Screen, SerialLine, Signal, TcpLine
from app.project_file.files import load
from projects import demo_path

TCP: Final = TcpLine(name="bus", host="unused")
SERIAL: Final = SerialLine(name="bus", device="unused")
"""Lines of tests that say themselves where their follower is."""


def demo(name: str) -> Project:
    """One of the demo projects."""
    return load(demo_path(name))


def fresh_project() -> Project:
    """A panel of 4 rows and 20 columns with one empty screen, and no line yet."""
    panel = Panel(start="first")
    return Project(panel=panel, screens=(Screen(name="first", text=("",) * panel.rows),))


def word(name: str, number: int, **more: Any) -> RegisterSignal:
    """A holding register of the follower 'pump', or what `more` makes of it."""
    return RegisterSignal(**{"name": name, "follower": "pump", "number": number, **more})


def pump_project(
    *signals: Signal, line: Line = TCP, followers: tuple[Follower, ...] | None = None, **follower: Any
) -> Project:
    """These signals on one line, of its follower 'pump' at unit 3 as `follower` tells more of it, or of `followers`."""
    return Project(
        panel=Panel(start="a"),
        lines=(line,),
        followers=followers or (Follower(**{"name": "pump", "line": line.name, "unit": 3, **follower}),),
        signals=signals,
    )


def project_of(**parts: Any) -> Project:
    """A project of these parts, as a file has them; with a panel and one screen where nothing is said of them."""
    panel = {"start": "run", **parts.pop("panel", {})}
    return Project.model_validate({"screen": [{"name": "run"}], **parts, "panel": panel})
