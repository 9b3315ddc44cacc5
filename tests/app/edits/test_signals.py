"""Signals: added, changed, renamed with their uses, deleted when unused."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app import edits
from app.edits import EditRefused
from app.project.model import Bit, HeldSignal, HeldValue, Project, RegisterSignal
from app.project.references import dangling, uses


def names(project: Project) -> list[str]:
    return [signal.name for signal in project.signals]


def test_a_signal_is_added(project: Project) -> None:
    signal = edits.register_signal(name="torque", follower="fan", number=402)
    assert names(edits.add_signal(project, signal))[-1] == "torque"
    assert names(edits.add_signal(project, signal, at=0))[0] == "torque"


def test_signals_that_cannot_be_added(project: Project) -> None:
    with pytest.raises(EditRefused, match="there is already a signal 'speed'"):
        edits.add_signal(project, HeldSignal(name="speed", held=Decimal(1)))
    with pytest.raises(EditRefused, match="device 'van' does not exist; did you mean 'fan'\\?"):
        edits.add_signal(project, RegisterSignal(name="torque", follower="van", number=1))
    with pytest.raises(EditRefused, match="signal 'running' is itself a bit"):
        edits.add_signal(project, edits.bit_signal(name="x", bit=Bit(of="running", number=1)))
    with pytest.raises(EditRefused, match="'register' is missing"):
        edits.register_signal(name="torque", follower="fan")
    with pytest.raises(EditRefused, match="held: must be a number, not a text"):
        edits.held_signal(name="x", held="5")


def test_a_new_signal_finds_a_free_name(project: Project) -> None:
    assert edits.new_signal_name(project) == "signal"
    assert edits.new_signal_name(project, "speed") == "speed 2"


def test_a_copy(project: Project) -> None:
    after = edits.duplicate_signal(project, "speed")
    assert names(after)[:2] == ["speed", "speed 2"]
    assert after.signals[1] == project.signals[0].replace(name="speed 2")


def test_a_signal_is_changed(project: Project) -> None:
    after = edits.change_signal(project, "speed", unit="Hz", limits=(Decimal(0), Decimal(50)))
    assert after.signal_named["speed"] == project.signals[0].replace(unit="Hz", limits=(Decimal(0), Decimal(50)))
    assert after.signals[1] is project.signals[1]
    assert edits.change_signal(project, "speed", unit="") is project
    for changes, words in (
        ({"decimals": 12}, "decimals: must be at most 9, not 12"),
        ({"limits": (Decimal(5), Decimal(1))}, "the lower limit 5 is above the upper limit 1"),
        ({"follower": "pump"}, "device 'pump' does not exist"),
        ({"name": "preset"}, "there is already a signal 'preset'"),
    ):
        with pytest.raises(EditRefused, match=words):
            edits.change_signal(project, "speed", **changes)


def test_uses_follow_a_new_name(project: Project) -> None:
    after = edits.rename_signal(project, "command", "control word")
    assert after.signal_named["running"] == project.signal_named["running"].replace(
        bit=Bit(of="control word", number=4)
    )
    after = edits.change_signal(after, "running", name="turns", unit="x")
    assert after.screens[0].fields[1].signal == "turns"
    assert after.screen_changes[2].when == project.screen_changes[2].when.replace(signal="turns")  # type: ignore[union-attr]
    after = edits.rename_signal(after, "preset", "rate")
    assert after.actions[0].value == HeldValue(from_="rate")
    assert dangling(after) == ()


def test_a_used_signal_stays(project: Project) -> None:
    with pytest.raises(
        EditRefused, match="signal 'speed' cannot be deleted: it is used by screen 'run', field 1, action 1"
    ) as caught:
        edits.delete_parts(project, "signal", [0])
    assert caught.value.uses == uses(project, "signal", "speed")
    with pytest.raises(EditRefused, match="signal 'running', bit"):
        edits.delete_parts(project, "signal", [1])


def test_an_unused_signal_is_deleted(project: Project) -> None:
    assert names(edits.delete_parts(project, "signal", [4])) == ["speed", "command", "running", "preset"]


def test_a_signal_of_another_form(project: Project) -> None:
    bit = edits.bit_signal(name="spare", bit=Bit(of="command", number=3))
    assert edits.put_parts(project, "signal", {4: bit}).signal_named["spare"] == bit
    with pytest.raises(EditRefused, match="signal 'preset' is not a held value"):
        edits.put_parts(project, "signal", {3: bit.replace(name="preset")})
    with pytest.raises(EditRefused, match="signal 'command' is itself a bit"):
        edits.put_parts(project, "signal", {1: edits.bit_signal(name="command", bit=Bit(of="speed", number=3))})


def test_a_signal_that_is_not_there(project: Project) -> None:
    with pytest.raises(EditRefused, match="signal 'sped' does not exist; did you mean 'speed'"):
        edits.change_signal(project, "sped", unit="Hz")
    with pytest.raises(EditRefused, match="signal 'sped' does not exist; did you mean 'speed'"):
        edits.duplicate_signal(project, "sped")
    with pytest.raises(EditRefused, match="there is no signal 6; there are 5"):
        edits.delete_parts(project, "signal", [5])


def test_signals_change_places(project: Project) -> None:
    after = edits.order_parts(project, "signal", [4, 0, 1, 2, 3])
    assert names(after) == ["spare", "speed", "command", "running", "preset"]
    assert after.screens is project.screens, "what uses a signal names it, wherever it stands"
