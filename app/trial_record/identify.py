"""What the devices of a project call themselves, asked before a trial has their lines: for its record.

By the client that cannot write. What does not answer, or not to such questions, simply has no name there.
"""

from __future__ import annotations

from collections.abc import Mapping

from app.client.endpoint import Endpoint
from app.probing.identification import identify
from app.probing.line import ReadingLine
from app.probing.probe import CannotProbe, SomebodyElse
from app.project.model import Project


def identification(project: Project, endpoints: Mapping[str, Endpoint]) -> dict[str, dict[str, str]]:
    """The names that each device gives itself, by its name in the project. Takes a second or two for each line.

    Nobody else may have the line meanwhile.
    """
    found: dict[str, dict[str, str]] = {}
    for name, endpoint in endpoints.items():
        devices = [each for each in project.followers if each.line == name]
        try:
            with ReadingLine(endpoint) as line:
                for device in devices:
                    names, _ = identify(line, device.unit, endpoint.timeout_ms / 1000)
                    found[device.name] = names
        except (CannotProbe, SomebodyElse):
            continue
    return {name: names for name, names in found.items() if names}
