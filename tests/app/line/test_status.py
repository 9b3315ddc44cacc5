"""What is wrong leads, the nearest to its cause first: the line, then the device, then the data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

import pytest

from app.client.faults import Fault, FaultKind, refusal_words
from app.line.states import FollowerState, LineState, Snapshot
from app.line.status import Status, Statuses, StatusLevel
from app.project.binding import bindings
from app.project.model import HeldSignal, Project
from app.signals.reading import NEVER_READ, Quality, Reading
from tests.widgets.bench_project import bench_project

GOOD = Reading(1, Fraction(1), Quality.GOOD, "", 1.0)
DOUBTFUL = replace(GOOD, doubt="outside its limits 0 to 50 Hz")
REFUSED = Reading(quality=Quality.REFUSED, reason=refusal_words(2, "holding register 300"))
STALE = Reading(1, Fraction(1), Quality.STALE, "no newer value within 0.3 s", 1.0)
LINE = LineState("hall", "tcp://127.0.0.1:502", connected=True, good=9)
FAN = FollowerState("fan", "hall", 1, answering=True, answer_ms=4.0)
TANK = FollowerState("tank", "hall", 2, answering=True, answer_ms=4.0)
SILENT = FAN._replace(answering=False, reason="unit 1 did not answer; check its power", fault=FaultKind.SILENCE)
LATE = FAN._replace(answering=False, reason="unit 1 answered late", fault=FaultKind.LATE)


@pytest.fixture
def project() -> Project:
    return bench_project()


def statuses(
    project: Project,
    readings: Mapping[str, Reading] | None = None,
    line: LineState = LINE,
    fan: FollowerState = FAN,
    tank: FollowerState = TANK,
) -> Statuses:
    all_good = dict.fromkeys(bindings(project), GOOD)
    return Statuses(
        project, Snapshot(1.0, 1, {**all_good, **(readings or {})}, {"fan": fan, "tank": tank}, {"hall": line})
    )


def on_the_line(project: Project) -> int:
    return sum(not isinstance(signal, HeldSignal) for signal in project.signals)


def of_fan(project: Project) -> list[str]:
    return [name for name, binding in bindings(project).items() if binding.follower.name == "fan"]


def test_all_is_well_only_if_line_devices_and_data_are(project: Project) -> None:
    worst = statuses(project).worst
    assert (worst.level, worst.kind, worst.advice) == (StatusLevel.GOOD, "good", "")
    assert worst.words == f"all {on_the_line(project)} readings are good"


@pytest.mark.parametrize(
    ("fan", "words"),
    [
        (SILENT, "fan does not answer"),
        (LATE, "fan answers too late"),
        (FAN._replace(answer_ms=140.0), "fan answers slowly"),  # the project's time-out is 150 ms
    ],
)
def test_a_device_leads_before_its_data(project: Project, fan: FollowerState, words: str) -> None:
    worst = statuses(project, {"frequency": STALE, "command": REFUSED}, fan=fan).worst
    assert (worst.level, worst.words) == (StatusLevel.DEVICE, words)
    assert worst.advice
    assert worst.names == ("fan",)


def test_a_device_that_refuses_everything_is_not_well_though_it_answers(project: Project) -> None:
    """It answers, with exceptions only: said once and whole, with the standard's name."""
    readings = dict.fromkeys(of_fan(project), REFUSED)
    worst = statuses(project, readings).worst
    assert (worst.level, worst.kind) == (StatusLevel.DEVICE, "refusing")
    assert worst.words == f"fan refuses all {len(readings)} readings"
    assert worst.advice.startswith("illegal data address (02) at holding register 300; the device does not have")
    assert statuses(project, readings).of("tank").level is StatusLevel.GOOD


@pytest.mark.parametrize(
    ("reading", "kind"), [(REFUSED, "refused"), (STALE, "stale"), (DOUBTFUL, "doubtful"), (NEVER_READ, "waiting")]
)
def test_some_readings(project: Project, reading: Reading, kind: str) -> None:
    worst = statuses(project, {"frequency": reading, "remote": reading}).worst
    assert worst.kind == kind
    assert worst.level is (StatusLevel.WAITING if kind == "waiting" else StatusLevel.DATA)
    assert worst.words.startswith(f"2 of {on_the_line(project)} readings")
    assert worst.names == ("frequency", "remote")


def test_refused_leads_before_stale_and_stale_before_doubtful(project: Project) -> None:
    one = {"frequency": DOUBTFUL}
    two = one | {"remote": STALE}
    assert statuses(project, one).worst.kind == "doubtful"
    assert statuses(project, two).worst.kind == "stale"
    assert statuses(project, two | {"command": REFUSED}).worst.kind == "refused"


def test_a_line_leads_before_its_devices(project: Project) -> None:
    down = LineState("hall", "tcp://127.0.0.1:502", reason="nothing listens at port 502; check the device")
    worst = statuses(project, line=down, fan=SILENT, tank=SILENT._replace(name="tank")).worst
    assert (worst.level, worst.kind) == (StatusLevel.LINE, "cannot-open")
    assert worst.sentence == "Line hall cannot be opened: nothing listens at port 502; check the device"
    assert statuses(project, line=replace(down, good=3), fan=SILENT).worst.kind == "closed"


def test_a_line_that_is_being_opened_has_no_fault_yet(project: Project) -> None:
    opening = LineState("hall", "tcp://127.0.0.1:502", reason="connecting", connecting=True)
    unread = dict.fromkeys(bindings(project), NEVER_READ)
    fan, tank = (state._replace(answering=None) for state in (FAN, TANK))
    worst = statuses(project, unread, line=opening, fan=fan, tank=tank).worst
    assert (worst.level, worst.kind) == (StatusLevel.WAITING, "connecting")
    assert statuses(project, line=replace(opening, good=3)).worst.kind == "good"


def test_a_line_on_which_nobody_answers_is_silent(project: Project) -> None:
    worst = statuses(project, fan=SILENT, tank=SILENT._replace(name="tank")).worst
    assert (worst.level, worst.kind, worst.names) == (StatusLevel.LINE, "silent", ("hall",))
    assert statuses(project, fan=SILENT).worst.names == ("fan",)


def test_many_names_are_counted(project: Project) -> None:
    readings = dict.fromkeys(of_fan(project)[:5], STALE)
    advice = statuses(project, readings).worst.advice
    assert advice.startswith(", ".join(of_fan(project)[:3]) + " and 2 more: no newer value")


def test_for_another_program() -> None:
    told = Status(StatusLevel.DEVICE, "refusing", "fan refuses", "why", ("fan",)).as_json()
    assert told == {"level": "device", "kind": "refusing", "names": ["fan"], "words": "fan refuses", "advice": "why"}
    assert Fault(FaultKind.SILENCE, "").sentence  # every kind says what to check


def test_answers_that_come_twice_are_told_though_all_is_good(project: Project) -> None:
    reason = "unit 1 answered a second time, 12 ms after the first; two devices at one address?"
    doubled = statuses(project, fan=FAN._replace(reason=reason, fault=FaultKind.UNASKED)).worst
    assert (doubled.level, doubled.kind, doubled.names) == (StatusLevel.DEVICE, "unasked", ("fan",))
    assert doubled.sentence == f"fan answers twice: {reason}"


def test_two_devices_at_one_address_are_not_called_silent_or_slow(project: Project) -> None:
    two = FAN._replace(answering=False, reason="unit 1 gave two different answers", fault=FaultKind.UNASKED)
    worst = statuses(project, fan=two).worst
    assert (worst.kind, worst.words) == ("two-devices", "Two devices answer at the address of fan")
