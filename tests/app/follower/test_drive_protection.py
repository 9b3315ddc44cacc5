"""What the drive watches over, and who outranks whom: trips, warnings, presets, direction lock, safe torque off."""

from __future__ import annotations

import itertools

import pytest

from app.follower.drive import STALL_S, STEP, CommandBit, Drive, FaultCode, WarningBit
from app.follower.motor import LoadData, MotorData
from app.follower.states import DriveState, StatusBit

RUN, REVERSE, RESET = CommandBit.RUN, CommandBit.REVERSE, CommandBit.FAULT_RESET


def running(reference: float = 50.0, load: LoadData | None = None, up: float = 1.0, **more: object) -> Drive:
    drive = Drive(load=load, **more)  # type: ignore[arg-type]
    drive.reference, drive.ramp_up_s, drive.ramp_down_s = reference, up, 1.0
    drive.advance(0.1)
    drive.obey(RUN)
    drive.advance(up + 2.0)
    return drive


def state(drive: Drive) -> DriveState:
    return drive.state


def fault(drive: Drive) -> FaultCode:
    return drive.fault


def reset(drive: Drive) -> None:
    drive.obey(0)
    drive.advance(0.1)
    drive.obey(RESET)
    drive.advance(0.1)


def test_too_much_current_for_too_long_trips_and_cools_before_it_may_be_reset() -> None:
    drive = running(50.0, LoadData(share=1.3))
    assert not drive.warnings & WarningBit.OVERLOAD
    seconds = 0
    while fault(drive) is FaultCode.NONE and seconds < 3600:
        drive.advance(1.0)
        seconds += 1
    assert fault(drive) is FaultCode.OVERLOAD
    assert 60 < seconds < 3600
    assert state(drive) is DriveState.FAULT
    reset(drive)
    assert fault(drive) is FaultCode.OVERLOAD, "it is still hot"
    drive.advance(600.0)
    reset(drive)
    assert fault(drive) is FaultCode.NONE


def test_it_warns_before_it_trips() -> None:
    drive = running(50.0, LoadData(share=1.3))
    while fault(drive) is FaultCode.NONE:
        warned = drive.warnings & WarningBit.OVERLOAD and drive.status_word & StatusBit.WARNING
        drive.advance(1.0)
    assert warned


def test_rated_load_never_trips() -> None:
    drive = running(50.0, LoadData(share=1.0))
    drive.advance(1800.0)
    assert fault(drive) is FaultCode.NONE
    assert drive.heat.heat == pytest.approx(1.0, abs=0.05)


def test_a_jammed_shaft_is_an_overcurrent_at_speed_and_a_stall_at_the_start() -> None:
    drive = running(50.0)
    drive.inputs.jammed = True
    drive.advance(2 * STEP)
    assert fault(drive) is FaultCode.OVERCURRENT
    assert drive.current == 0
    drive = Drive()
    drive.reference = 50.0
    drive.inputs.jammed = True
    drive.advance(0.1)
    drive.obey(RUN)
    drive.advance(STALL_S - 1.0)
    assert fault(drive) is FaultCode.NONE
    assert drive.warnings & WarningBit.TORQUE_LIMIT
    drive.advance(2.0)
    assert fault(drive) is FaultCode.BLOCKED


def test_a_sagging_supply_warns_then_trips_a_running_drive_only() -> None:
    drive = running(50.0, LoadData(share=0.3))
    drive.inputs.supply = 0.69
    drive.advance(1.0)
    assert drive.warnings & WarningBit.UNDERVOLTAGE
    assert fault(drive) is FaultCode.NONE
    drive.inputs.supply = 0.5
    drive.advance(1.0)
    assert fault(drive) is FaultCode.UNDERVOLTAGE
    reset(drive)
    assert fault(drive) is FaultCode.UNDERVOLTAGE, "the voltage is not back"
    drive.inputs.supply = 1.0
    drive.advance(1.0)
    reset(drive)
    assert fault(drive) is FaultCode.NONE
    drive.inputs.supply = 0.5
    drive.advance(5.0)
    assert fault(drive) is FaultCode.NONE, "a drive that does not run has nothing to lose"


def test_braking_a_great_inertia_on_a_high_supply_is_an_overvoltage() -> None:
    drive = running(50.0, LoadData(share=0.1, inertia=4.0), up=20.0)
    drive.inputs.supply = 1.2
    drive.advance(1.0)
    assert fault(drive) is FaultCode.NONE
    drive.ramp_down_s = 0.5
    drive.obey(0)
    drive.advance(1.0)
    assert fault(drive) is FaultCode.OVERVOLTAGE


def test_safe_torque_off_lets_it_coast_without_a_fault_and_nothing_starts_by_itself() -> None:
    drive = running(50.0)
    drive.inputs.safe_torque_off = True
    drive.advance(2 * STEP)
    assert state(drive) is DriveState.SWITCH_ON_DISABLED
    assert (drive.current, drive.frequency, fault(drive)) == (0, 0, FaultCode.NONE)
    assert drive.speed > 0.9 * drive.motor.field_speed(50.0) * 0.95
    drive.inputs.safe_torque_off = False
    drive.advance(5.0)
    assert state(drive) is DriveState.SWITCH_ON_DISABLED
    drive.obey(0)
    drive.advance(0.1)
    drive.obey(RUN)
    drive.advance(1.0)
    assert state(drive) is DriveState.OPERATION_ENABLED


def test_a_preset_outranks_the_reference_while_its_input_is_set() -> None:
    drive = running(50.0)
    drive.presets[1] = 20.0
    drive.inputs.preset = 2
    drive.advance(3.0)
    assert drive.frequency == 20.0
    drive.inputs.preset = 0
    drive.advance(3.0)
    assert drive.frequency == 50.0


@pytest.mark.parametrize(
    ("lock", "command", "sign"), [(1, RUN, 1), (1, RUN | REVERSE, 0), (2, RUN, 0), (2, RUN | REVERSE, -1)]
)
def test_a_locked_direction_is_not_driven(lock: int, command: CommandBit, sign: int) -> None:
    drive = Drive()
    drive.reference, drive.ramp_up_s, drive.direction_lock = 30.0, 1.0, lock
    drive.advance(0.1)
    drive.obey(command)
    drive.advance(3.0)
    assert drive.frequency == sign * 30.0


def test_it_warns_when_the_line_has_been_silent_for_half_its_time() -> None:
    drive = running(30.0)
    drive.communication_timeout_s = 2.0
    drive.on_request()
    drive.advance(0.9)
    assert not drive.warnings
    drive.advance(0.3)
    assert drive.warnings == WarningBit.COMMUNICATION


def test_a_rounded_ramp_takes_its_rounding_longer_and_ends_on_its_target() -> None:
    drive = Drive(load=LoadData(share=0.2, inertia=0.1))
    drive.reference, drive.ramp_up_s, drive.rounding_s = 50.0, 4.0, 1.0
    drive.advance(0.1)
    drive.obey(RUN)
    seen = []
    for _ in range(700):
        drive.advance(STEP)
        seen.append(drive.frequency)
    assert seen[-1] == 50.0
    began = next(index for index, value in enumerate(seen) if value > 0)
    ended = next(index for index, value in enumerate(seen) if value == 50.0)
    assert (ended - began) * STEP == pytest.approx(5.0, abs=0.05)
    steps = [b - a for a, b in itertools.pairwise(seen)]
    changes = [abs(b - a) for a, b in itertools.pairwise(steps)]
    assert max(changes[began:]) < 50.0 / 4.0 * STEP / (1.0 / STEP) * 1.1, "nothing jerks"
    assert all(value <= 50.0 for value in seen)


@pytest.mark.parametrize("kind", ["quadratic", "linear", "constant"])
def test_the_load_goes_with_the_speed_as_its_kind_says(kind: str) -> None:
    load = LoadData(share=0.8, friction=0.02, kind=kind)  # type: ignore[arg-type]
    torques = {}
    for reference in (25.0, 50.0):
        drive = running(reference, load)
        drive.advance(20.0)
        torques[reference] = drive.torque / drive.motor.torque
    assert torques[50.0] == pytest.approx(0.8, rel=0.03)
    half = {"quadratic": 0.02 + 0.78 / 4, "linear": 0.02 + 0.78 / 2, "constant": 0.8}[kind]
    assert torques[25.0] == pytest.approx(half, rel=0.05)


def test_the_motor_takes_what_its_name_plate_says() -> None:
    motor = MotorData()
    drive = running(50.0, LoadData(share=1.0))
    drive.advance(20.0)
    assert drive.supply_power_kw == pytest.approx(motor.power_kw / motor.efficiency, rel=0.03)
    assert drive.supply_power_kw > drive.power_kw


def test_time_gives_the_same_in_any_pieces() -> None:
    whole, pieces = running(40.0), running(40.0)
    whole.advance(600.0)
    for _ in range(600):
        pieces.advance(1.0)
    assert (whole.speed, whole.heat.heat) == (pieces.speed, pieces.heat.heat)
