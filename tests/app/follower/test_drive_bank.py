"""The drive behind its registers."""

from __future__ import annotations

import struct
from decimal import Decimal

import pytest
from pymodbus.constants import ExcCodes

from app.follower.drive import FaultCode
from app.follower.drive_bank import LONGEST_LEAP_S, DriveBank
from app.follower.errors import FollowerError
from app.follower.layout import INDICATORS, LAYOUTS, PlainStatusBit
from app.follower.states import DriveState, StatusBit, state_shown
from app.project.drive_roles import RegisterMap
from app.signals.encoding import register_count
from tests.app.follower.playing import drive_project, signal


def drive_bank(*signals: dict[str, object], **follower: object) -> DriveBank:
    project = drive_project(*signals, **follower)
    it = DriveBank(project, project.followers[0])
    it.advance(0.1)
    return it


RUN, REVERSE, QUICK, RESET = 1 << 4, 1 << 5, 1 << 2, 1 << 7


def signed(word: int) -> int:
    return word - 0x10000 if word & 0x8000 else word


MAPS = pytest.mark.parametrize("register_map", LAYOUTS)
STANDARD = {"model": "drive", "register_map": "iec-61800-7-201"}


@MAPS
def test_nothing_of_the_layout_overlaps(register_map: RegisterMap) -> None:
    holding = [setting.address for setting in LAYOUTS[register_map].settings]
    for measured in LAYOUTS[register_map].measured:
        holding += range(measured.address, measured.address + register_count(measured.encoding))
    assert len(holding) == len(set(holding))
    assert len({entry.address for entry in INDICATORS}) == len(INDICATORS)


@MAPS
def test_settings_start_as_the_table_says(register_map: RegisterMap) -> None:
    it = drive_bank(simulate={"model": "drive", "register_map": register_map})
    for setting in LAYOUTS[register_map].settings:
        assert it.read("holding", setting.address, 1) == [setting.start], setting.name


def test_what_is_measured_reads_alike_in_both_tables_and_is_only_read() -> None:
    it = drive_bank()
    it.write("holding", 310, [10_000])
    it.write("holding", 300, [RUN])
    it.advance(2.0)
    assert it.read("input", 400, 10) == it.read("holding", 400, 10)
    for address in range(400, 410):
        assert it.write("holding", address, [0]) is ExcCodes.ILLEGAL_ADDRESS
        assert it.write("input", address, [0]) is ExcCodes.ILLEGAL_ADDRESS
    assert it.write("holding", 409, [0]) is ExcCodes.ILLEGAL_ADDRESS


def test_the_registers_show_the_machine() -> None:
    it = drive_bank()
    it.write("holding", 310, [8330, 10, 10])
    assert (it.drive.ramp_up_s, it.drive.ramp_down_s) == (1.0, 1.0)
    it.write("holding", 300, [RUN | REVERSE])
    it.advance(10.0)
    drive = it.drive
    status, frequency, current, dc_link, fault, speed, *rest = it.read("input", 400, 10)
    shown = PlainStatusBit
    assert status == shown.RUNNING | shown.REVERSE | shown.READY | shown.REMOTE | shown.AT_REFERENCE
    assert signed(frequency) == -8330
    assert current == round(drive.current * 100)
    assert dc_link == round(drive.dc_voltage * 10)
    assert fault == 0
    assert signed(speed) == round(drive.speed_rpm) < -1000
    assert rest[0] << 16 | rest[1] == int(drive.run_time_s + 1e-6) == 9
    assert struct.unpack(">f", struct.pack(">HH", *rest[2:]))[0] == pytest.approx(drive.power_kw)
    assert it.read("discrete", 0, 4) == [1, 0, 1, 0]


def test_the_plain_status_word_answers_each_command_with_its_own_bit() -> None:
    it = drive_bank()
    it.write("holding", 310, [10_000, 10, 100])

    def answered(word: int, seconds: float) -> int:
        it.write("holding", 300, [word])
        it.advance(seconds)
        return it.read("input", 400, 1)[0] & (RUN | REVERSE | QUICK | RESET)

    assert answered(0, 0.1) == 0
    assert answered(RUN, 3.0) == RUN
    assert answered(RUN | QUICK, 0.1) == RUN | QUICK
    assert answered(0, 2.0) == 0
    assert answered(RUN | REVERSE, 3.0) == RUN | REVERSE
    it.inputs.jammed = True
    it.advance(0.1)
    it.inputs.jammed = False
    assert answered(0, 0.1) == 1 << 7, "fault, at the bit of its reset"
    assert answered(RESET, 0.1) == 0


def test_the_standard_map_has_the_words_of_the_standard_and_a_signed_reference() -> None:
    it = drive_bank(simulate=STANDARD)
    assert state_shown(it.read("input", 400, 1)[0]) is DriveState.SWITCH_ON_DISABLED
    assert it.write("holding", 310, [0x10000 - 8330, 10, 10]) is None
    assert it.write("holding", 310, [0x10000 - 10_001]) is ExcCodes.ILLEGAL_VALUE
    for word, state in ((6, "ready to switch on"), (7, "switched on"), (15, "operation enabled")):
        it.write("holding", 300, [word])
        it.advance(0.1)
        shown = state_shown(it.read("input", 400, 1)[0])
        assert shown is not None
        assert shown.value == state
    it.advance(10.0)
    status, frequency = it.read("input", 400, 2)
    assert signed(frequency) == -8330
    assert status & StatusBit.TARGET_REACHED


@pytest.mark.parametrize(
    ("address", "low", "high"),
    [(310, 0, 10_000), (311, 1, 36_000), (312, 1, 36_000), (320, 0, 10_000), (323, 0, 10_000), (301, 0, 65_535)],
)
def test_a_setting_takes_its_range_and_refuses_the_next_count(address: int, low: int, high: int) -> None:
    it = drive_bank()
    for count in (low, high):
        assert it.write("holding", address, [count]) is None
        assert it.read("holding", address, 1) == [count]
    for count in (low - 1, high + 1):
        if 0 <= count <= 0xFFFF:
            assert it.write("holding", address, [count]) is ExcCodes.ILLEGAL_VALUE
            assert it.read("holding", address, 1) == [high]


def test_a_write_is_taken_whole_or_not_at_all() -> None:
    it = drive_bank()
    assert it.write("holding", 310, [5000, 0, 70]) is ExcCodes.ILLEGAL_VALUE
    assert it.read("holding", 310, 3) == [0, 50, 50]


@MAPS
def test_coils_are_the_bits_of_the_control_word(register_map: RegisterMap) -> None:
    it = drive_bank(simulate={"model": "drive", "register_map": register_map})
    it.write("holding", 300, [0b1010])
    it.write("coil", 4, [1, 1])
    assert it.read("holding", 300, 1) == [0b11_1010]
    it.write("coil", 3, [0])
    assert it.read("holding", 300, 1) == [0b11_0010]
    it.write("holding", 300, [0x8001])
    assert it.read("coil", 0, 16) == [1, *(14 * [0]), 1]


def test_a_trip_and_its_reset_over_the_registers() -> None:
    it = drive_bank()
    it.write("holding", 310, [5000])
    it.write("coil", 4, [1])
    it.advance(1.0)
    assert it.drive.running
    it.inputs.external_fault = True
    it.advance(0.1)
    assert it.read("discrete", 0, 4) == [1, 1, 0, 1]
    assert it.read("input", 404, 1) == [FaultCode.EXTERNAL]
    it.inputs.external_fault = False
    it.write("coil", 4, [0])
    it.write("coil", 7, [1])
    it.advance(0.1)
    assert it.read("discrete", 0, 4) == [1, 0, 0, 0]
    assert it.read("input", 404, 1) == [0]


def test_other_signals_are_bank_cells_beside_the_layout() -> None:
    it = drive_bank(signal("hours", 1000, start_value=Decimal(12)), signal("door", 7, table="discrete"))
    assert it.read("holding", 1000, 1) == [12]
    assert it.write("holding", 1000, [70_00]) is None
    it.set("door", 1)
    assert it.read("discrete", 7, 1) == [1]
    assert not it.has("discrete", 40, 1)


def test_start_values_reach_the_drive() -> None:
    scale = {"raw": [Decimal(0), Decimal(10_000)], "value": [Decimal(0), Decimal(50)]}
    it = drive_bank(
        signal("set point", 310, scale=scale, start_value=Decimal("41.65")),
        signal("go", 4, table="coil", start_value=Decimal(1)),
    )
    assert it.drive.reference == pytest.approx(41.65)
    assert it.drive.running
    assert it.read("holding", 300, 1) == [RUN]


def test_a_start_value_that_the_drive_cannot_take_is_told() -> None:
    with pytest.raises(
        FollowerError, match=r"signal 'set point' .*speed reference of the drive \(register 310\) must be 0 to 10000"
    ):
        drive_bank(signal("set point", 310, start_value=Decimal(10_001)))


def test_a_person_cannot_set_it_beyond_its_range_either() -> None:
    it = drive_bank(signal("set point", 310))
    it.set("set point", 10_000)
    with pytest.raises(FollowerError, match="must be 0 to 10000"):
        it.set("set point", 10_001)


def test_the_communication_time_out_starts_as_the_project_says() -> None:
    assert drive_bank(communication_timeout_ms=3000).read("holding", 301, 1) == [3000]
    assert drive_bank(communication_timeout_ms=600_000).read("holding", 301, 1) == [65_535]
    it = drive_bank(signal("lost after", 301, start_value=Decimal(700)), communication_timeout_ms=3000)
    assert it.drive.communication_timeout_s == pytest.approx(0.7)


def test_the_clock_moves_it_and_a_rest_does_not() -> None:
    it = drive_bank()
    it.write("holding", 310, [10_000])
    it.write("holding", 300, [RUN])
    it.advance_to(1000.0)
    it.advance_to(1001.0)
    moved = it.drive.run_time_s
    assert moved == pytest.approx(1.0, abs=0.05)
    it.pause()
    it.advance_to(5000.0)
    assert it.drive.run_time_s == moved
    it.advance_to(5000.0 + 10 * LONGEST_LEAP_S)
    assert it.drive.run_time_s == pytest.approx(moved + LONGEST_LEAP_S, abs=0.05)


def test_the_overview_names_what_a_person_wants_to_see() -> None:
    it = drive_bank()
    values = {quantity.name: (quantity.value, quantity.unit) for quantity in it.overview()}
    assert values["state"] == ("ready to switch on", "")
    assert values["fault"] == ("no fault", "")
    assert values["output frequency"] == (0.0, "Hz")
    assert values["DC-link voltage"][0] == pytest.approx(565.7, abs=0.1)
