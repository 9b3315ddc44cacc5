"""Rules about lines and followers: who shares what, and whether the line is busy often enough."""

from __future__ import annotations

from collections.abc import Iterator

from app.checks.finding import Fault
from app.checks.rule import rule
from app.checks.survey import Survey
from app.project.model import RegisterSignal, SerialLine
from app.project.problems import quoted


@rule("device-shared")
def device_shared(survey: Survey) -> Iterator[Fault]:
    """Two lines on one serial port or one network address: a serial port can be opened by one of them only."""
    first: dict[tuple[str, str, int], int] = {}
    for index, line in enumerate(survey.project.lines):
        serial = isinstance(line, SerialLine)
        end = (
            ("serial", _port(line.device), 0) if isinstance(line, SerialLine) else ("net", line.host.lower(), line.port)
        )
        earlier = first.setdefault(end, index)
        if earlier != index:
            end_said = end[1] if serial else f"{end[1]} port {end[2]}"
            yield Fault(
                "error" if serial else "warning",
                ("line", index),
                f"it uses {end_said}, as line {quoted(survey.project.lines[earlier].name)} does",
                "put the followers of both on one line, or name another device",
            )


def _port(device: str) -> str:
    """The device without what makes no difference: Windows knows its ports in capitals and in small letters."""
    return device if "/" in device else device.upper().removeprefix("\\\\.\\")


@rule("unit-clash")
def unit_clash(survey: Survey) -> Iterator[Fault]:
    """Two followers at one unit address of one line: both answer at once, or the one is taken for the other."""
    first: dict[tuple[str, int], int] = {}
    for index, follower in enumerate(survey.project.followers):
        earlier = first.setdefault((follower.line, follower.unit), index)
        if earlier != index:
            yield Fault(
                "error",
                ("follower", index),
                f"unit {follower.unit} on line {quoted(follower.line)} is follower "
                f"{quoted(survey.project.followers[earlier].name)} already",
                "give every follower of a line its own unit address",
            )


@rule("polled-too-slowly")
def polled_too_slowly(survey: Survey) -> Iterator[Fault]:
    """A follower with a communication time-out that hears from the panel less often: it stops by itself in between."""
    quickest: dict[str, int] = {}
    for signal in survey.project.signals:
        if isinstance(signal, RegisterSignal):
            quickest[signal.follower] = min(quickest.get(signal.follower, signal.every_ms), signal.every_ms)
    for index, follower in enumerate(survey.project.followers):
        limit, every = follower.communication_timeout_ms, quickest.get(follower.name)
        if limit and every is not None and every >= limit:
            yield Fault(
                "warning",
                ("follower", index),
                f"it stops by itself after {limit} ms without a request, and its signals are read every {every} ms at "
                "the most",
                f"read one of them more often, say every {max(10, limit // 4)} ms ('every_ms')",
            )


@rule("refreshed-too-slowly")
def refreshed_too_slowly(survey: Survey) -> Iterator[Fault]:
    """A signal written again and again for a communication time-out, but less often than that."""
    for index, signal in enumerate(survey.project.signals):
        if not isinstance(signal, RegisterSignal) or not signal.refresh_ms:
            continue
        follower = survey.project.follower_named.get(signal.follower)
        limit = 0 if follower is None else follower.communication_timeout_ms
        if limit and signal.refresh_ms >= limit:
            yield Fault(
                "warning",
                ("signal", index),
                f"it is written every {signal.refresh_ms} ms ('refresh_ms'), and its follower stops after {limit} ms",
                f"write it more often, say every {max(10, limit // 4)} ms",
            )
