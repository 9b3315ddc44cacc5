"""The drive as a machine: commands in, time passes, measured values out. No clock of the wall."""

from __future__ import annotations

import random

import pytest

from app.follower.drive import BASE_FREQUENCY, STEP, CommandBit, Drive, FaultCode
from app.follower.motor import RPM, LoadData, rectifier_mean, rectifier_peak
from app.follower.ramp import ramped
from app.follower.states import DriveState, StatusBit, state_shown

RUN, REVERSE, RESET, QUICK = CommandBit.RUN, CommandBit.REVERSE, CommandBit.FAULT_RESET, CommandBit.QUICK_STOP


def state(drive: Drive) -> DriveState:
    return drive.state


def fault(drive: Drive) -> FaultCode:
    return drive.fault


def ready(reference: float = 50.0, up: float = 1.0, down: float = 1.0, load: LoadData | None = None) -> Drive:
    """A drive that waits for its run command."""
    drive = Drive(load=load)
    drive.reference, drive.ramp_up_s, drive.ramp_down_s = reference, up, down
    drive.advance(0.1)
    assert state(drive) is DriveState.READY_TO_SWITCH_ON
    return drive


def running(reference: float = 50.0, up: float = 1.0, down: float = 1.0, load: LoadData | None = None) -> Drive:
    """A drive at its reference."""
    drive = ready(reference, up, down, load)
    drive.obey(RUN)
    drive.advance(5.0)
    assert drive.frequency == reference
    return drive


def states_on_the_way(drive: Drive, seconds: float) -> list[DriveState]:
    seen = [drive.state]
    for _ in range(round(seconds / STEP)):
        drive.advance(STEP)
        if drive.state is not seen[-1]:
            seen.append(drive.state)
    return seen


def test_it_comes_up_and_waits() -> None:
    drive = Drive()
    assert state(drive) is DriveState.NOT_READY_TO_SWITCH_ON
    assert states_on_the_way(drive, 1.0)[1:] == [DriveState.SWITCH_ON_DISABLED, DriveState.READY_TO_SWITCH_ON]
    assert drive.frequency == drive.speed == drive.current == 0


def test_run_and_stop_pass_every_state_in_between() -> None:
    drive = ready()
    drive.obey(RUN)
    assert states_on_the_way(drive, 2.0) == [
        DriveState.READY_TO_SWITCH_ON,
        DriveState.SWITCHED_ON,
        DriveState.OPERATION_ENABLED,
    ]
    drive.obey(0)
    assert states_on_the_way(drive, 2.0) == [
        DriveState.OPERATION_ENABLED,
        DriveState.SWITCHED_ON,
        DriveState.READY_TO_SWITCH_ON,
    ]
    assert drive.frequency == 0
    assert drive.current == 0


@pytest.mark.parametrize(("reference", "ramp"), [(50.0, 5.0), (25.0, 5.0), (50.0, 20.0)])
def test_the_ramp_takes_its_time_from_standstill(reference: float, ramp: float) -> None:
    drive = ready(reference, up=ramp)
    drive.obey(RUN)
    drive.advance(2 * STEP)  # switched on, operation enabled
    started = drive.frequency
    due = ramp * reference / BASE_FREQUENCY
    drive.advance(due / 2)
    assert drive.frequency - started == pytest.approx(reference / 2, abs=0.001)
    drive.advance(due / 2 - 2 * STEP)
    assert drive.frequency < reference
    drive.advance(2 * STEP)
    assert drive.frequency == reference


def test_the_ramp_down_takes_its_own_time() -> None:
    drive = running(50.0, down=10.0)
    drive.obey(0)
    drive.advance(5.0)
    assert drive.frequency == pytest.approx(25.0, abs=0.001)


def test_a_reversal_goes_down_through_zero_and_up_on_the_other_side() -> None:
    drive = running(50.0, up=2.0, down=4.0, load=LoadData(inertia=0.1))
    drive.obey(RUN | REVERSE)
    seen = []
    for _ in range(700):
        drive.advance(STEP)
        seen.append(drive.frequency)
    assert seen == sorted(seen, reverse=True)
    assert 0.0 in seen
    down, up = seen.index(0.0) + 1, seen.index(-50.0) - seen.index(0.0)
    assert down * STEP == pytest.approx(4.0)
    assert up * STEP == pytest.approx(2.0)
    assert drive.speed_rpm < -1400
    assert state(drive) is DriveState.OPERATION_ENABLED


def test_ramped_never_passes_its_goal() -> None:
    assert ramped(49.95, 50.0, 0.1, 0.2) == 50.0
    assert ramped(0.05, -50.0, 0.1, 0.2) == 0.0
    assert ramped(10.0, -50.0, 0.1, 0.2) == pytest.approx(9.8)
    assert ramped(-10.0, -50.0, 0.1, 0.2) == pytest.approx(-10.1)


def test_results_depend_on_the_time_that_passed_and_not_on_who_looked() -> None:
    chance = random.Random(61800)
    steady, polled = ready(37.0, up=3.0), ready(37.0, up=3.0)
    for drive in (steady, polled):
        drive.obey(RUN)
    steady.advance(4.0)
    left = 4.0
    while left > 0:
        dt = min(left, chance.choice((0.0001, 0.003, 0.0173, 0.4)))
        polled.advance(dt)
        left -= dt
    polled.advance(1e-9)
    assert polled.frequency == steady.frequency
    assert polled.speed == steady.speed
    assert polled.dc_voltage == steady.dc_voltage


def test_the_run_time_is_counted_to_the_step() -> None:
    drive = running(50.0)
    before = drive.run_time_s
    drive.advance(600.0)
    assert drive.run_time_s - before == pytest.approx(600.0, abs=STEP / 2)
    assert state(drive) is DriveState.OPERATION_ENABLED


def test_the_run_time_stands_still_while_the_motor_does() -> None:
    drive = ready()
    drive.advance(100.0)
    assert drive.run_time_s == 0


def test_the_status_word_shows_the_state_throughout() -> None:
    drive = ready()
    words = set()
    for step in range(1200):
        if step == 50:
            drive.obey(RUN)
        if step == 400:
            drive.obey(RUN | QUICK)
        if step == 600:
            drive.obey(0)
        if step == 700:
            drive.inputs.external_fault = True
        if step == 900:
            drive.inputs.external_fault = False
            drive.obey(RESET)
        drive.advance(STEP)
        assert state_shown(drive.status_word) is drive.state
        words.add(drive.state)
    assert words == set(DriveState) - {DriveState.NOT_READY_TO_SWITCH_ON}


def test_the_other_bits_of_the_status_word() -> None:
    drive = ready(20.0)
    word = StatusBit(drive.status_word)
    assert word & StatusBit.REMOTE
    assert word & StatusBit.VOLTAGE_ENABLED
    assert not word & StatusBit.TARGET_REACHED
    drive.obey(RUN)
    drive.advance(0.2)
    assert not drive.status_word & StatusBit.TARGET_REACHED
    drive.advance(2.0)
    assert drive.status_word & StatusBit.TARGET_REACHED
    drive.inputs.remote = False
    drive.advance(STEP)
    assert not drive.status_word & (StatusBit.REMOTE | StatusBit.TARGET_REACHED)


def test_the_external_fault_trips_and_lets_the_motor_coast() -> None:
    drive = running()
    drive.inputs.external_fault = True
    assert states_on_the_way(drive, 0.05) == [
        DriveState.OPERATION_ENABLED,
        DriveState.FAULT_REACTION_ACTIVE,
        DriveState.FAULT,
    ]
    assert fault(drive) is FaultCode.EXTERNAL
    assert drive.current == drive.frequency == drive.torque == 0
    assert drive.speed_rpm > 1400  # it turns on, and slowly loses speed
    before = drive.speed
    drive.advance(1.0)
    assert 0 < drive.speed < before


def test_it_trips_at_standstill_too() -> None:
    drive = ready()
    drive.inputs.external_fault = True
    drive.advance(0.1)
    assert state(drive) is DriveState.FAULT


def test_a_reset_counts_on_its_rising_edge_and_only_when_the_cause_is_gone() -> None:
    drive = running()
    drive.inputs.external_fault = True
    drive.advance(0.1)
    drive.obey(RESET)  # too early
    drive.advance(0.1)
    assert state(drive) is DriveState.FAULT
    drive.inputs.external_fault = False
    drive.advance(0.1)
    assert state(drive) is DriveState.FAULT, "the early edge was kept"
    drive.obey(RESET)  # no edge: it was never taken away
    drive.advance(0.1)
    assert state(drive) is DriveState.FAULT
    drive.obey(0)
    drive.obey(RESET)
    drive.advance(0.1)
    assert fault(drive) is FaultCode.NONE
    assert state(drive) is DriveState.READY_TO_SWITCH_ON


def test_nothing_starts_by_itself_after_a_reset() -> None:
    drive = running()
    drive.inputs.external_fault = True
    drive.advance(0.1)
    drive.inputs.external_fault = False
    drive.obey(RUN | RESET)
    drive.advance(1.0)
    assert state(drive) is DriveState.SWITCH_ON_DISABLED
    drive.obey(0)
    drive.advance(0.1)
    drive.obey(RUN)
    drive.advance(0.1)
    assert state(drive) is DriveState.OPERATION_ENABLED


def test_a_motor_that_turns_is_caught_at_its_speed() -> None:
    drive = running()
    drive.inputs.external_fault = True
    drive.advance(1.0)
    drive.inputs.external_fault = False
    drive.obey(RESET)
    drive.advance(0.1)
    speed = drive.speed
    assert speed > 50 * RPM
    drive.obey(RUN)
    for _ in range(5):
        drive.advance(STEP)
        assert drive.speed > 0.95 * speed


def test_a_quick_stop_is_quick_and_ends_disabled() -> None:
    drive = running(50.0, down=30.0)
    drive.obey(RUN | QUICK)
    drive.advance(STEP)
    assert state(drive) is DriveState.QUICK_STOP_ACTIVE
    drive.advance(1.5)
    assert drive.frequency == 0
    assert state(drive) is DriveState.SWITCH_ON_DISABLED
    drive.obey(RUN)
    drive.advance(1.0)
    assert state(drive) is DriveState.SWITCH_ON_DISABLED, "the old run command started it again"
    drive.obey(0)
    drive.advance(0.1)
    assert state(drive) is DriveState.READY_TO_SWITCH_ON


def test_in_local_the_line_commands_nothing() -> None:
    drive = ready()
    drive.inputs.remote = False
    drive.obey(RUN)
    drive.advance(1.0)
    assert not drive.running
    drive.inputs.remote = True
    drive.advance(1.0)
    assert not drive.running, "a run command that stood in local started the motor"
    drive.obey(0)
    drive.advance(STEP)
    drive.obey(RUN)
    drive.advance(1.0)
    assert drive.running


def test_local_brings_a_running_motor_to_standstill() -> None:
    drive = running()
    drive.inputs.remote = False
    drive.advance(2.0)
    assert state(drive) is DriveState.READY_TO_SWITCH_ON
    assert drive.frequency == 0


def test_local_takes_no_reset_from_the_line() -> None:
    drive = running()
    drive.inputs.external_fault = True
    drive.advance(0.1)
    drive.inputs.external_fault = False
    drive.inputs.remote = False
    drive.obey(RESET)
    drive.advance(0.1)
    assert state(drive) is DriveState.FAULT


def test_silence_while_running_trips_after_the_time_out() -> None:
    drive = running(50.0, down=2.0)
    drive.on_request()
    drive.communication_timeout_s = 1.0
    drive.advance(1.0)
    assert fault(drive) is FaultCode.NONE
    drive.advance(2 * STEP)
    assert fault(drive) is FaultCode.COMMUNICATION
    assert state(drive) is DriveState.FAULT_REACTION_ACTIVE
    drive.advance(1.0)
    assert 0 < drive.frequency < 50, "it stops along its ramp"
    drive.advance(1.5)
    assert state(drive) is DriveState.FAULT


def test_requests_keep_it_running() -> None:
    drive = running()
    drive.communication_timeout_s = 1.0
    for _ in range(20):
        drive.on_request()
        drive.advance(0.9)
    assert state(drive) is DriveState.OPERATION_ENABLED


def test_silence_matters_neither_at_standstill_nor_without_a_time_out() -> None:
    drive = ready()
    drive.communication_timeout_s = 1.0
    drive.advance(100.0)
    assert state(drive) is DriveState.READY_TO_SWITCH_ON
    drive.communication_timeout_s = 0.0
    drive.obey(RUN)
    drive.advance(100.0)
    assert state(drive) is DriveState.OPERATION_ENABLED


def test_a_long_silence_before_the_start_does_not_trip_at_the_start() -> None:
    drive = ready()
    drive.communication_timeout_s = 1.0
    drive.advance(100.0)
    drive.obey(RUN)
    drive.advance(0.9)
    assert state(drive) is DriveState.OPERATION_ENABLED


def test_the_dc_link_dips_under_load_and_rises_while_braking() -> None:
    drive = ready(load=LoadData(share=1.0))
    assert drive.dc_voltage == pytest.approx(rectifier_peak(400))
    drive.obey(RUN)
    drive.advance(5.0)
    assert drive.dc_voltage == pytest.approx(rectifier_mean(400), abs=0.5)
    drive.ramp_down_s = 0.5
    drive.obey(0)
    highest = 0.0
    for _ in range(200):
        drive.advance(STEP)
        highest = max(highest, drive.dc_voltage)
    assert highest > rectifier_peak(400) + 20
    drive.advance(1.0)
    assert drive.dc_voltage == pytest.approx(rectifier_peak(400))


def test_a_ramp_too_short_for_the_inertia_waits_for_the_shaft_at_the_torque_limit() -> None:
    drive = ready(50.0, up=0.1, load=LoadData(inertia=5.0))
    drive.obey(RUN)
    drive.advance(1.0)
    assert 0 < drive.frequency < 50
    assert drive.status_word & StatusBit.INTERNAL_LIMIT
    assert drive.torque == pytest.approx(1.5 * drive.motor.torque, rel=0.02)
    drive.advance(30.0)
    assert drive.frequency == 50
    assert not drive.status_word & StatusBit.INTERNAL_LIMIT


def test_a_load_that_holds_the_shaft_fast_stalls_it() -> None:
    drive = ready(50.0, load=LoadData(share=3.0, friction=2.0))
    drive.obey(RUN)
    drive.advance(10.0)
    assert drive.speed == 0
    assert drive.frequency == pytest.approx(1.5 * drive.motor.slip_frequency)
    assert drive.torque == pytest.approx(1.5 * drive.motor.torque)
