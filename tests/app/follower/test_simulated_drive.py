"""A simulated drive with the registers of somebody else's list."""

from __future__ import annotations

import enum
from fractions import Fraction

import pytest
from pymodbus.constants import ExcCodes

from app.follower.drive import CommandBit, FaultCode
from app.follower.drive_bank import DriveBank
from app.follower.drive_face import BITS, NUMBERS, SHOWN
from app.follower.errors import FollowerError
from app.follower.layout import COILS, INDICATORS, LAYOUTS, PlainStatusBit
from app.follower.simulated_drive import SimulatedDriveBank
from app.follower.simulation import Simulation
from app.follower.states import ControlBit, DriveState, StatusBit
from app.project.binding import bindings
from app.project.drive_roles import (
    DRIVE_BITS,
    DRIVE_VALUES,
    OWN_CONTROL,
    OWN_CONTROL_BITS,
    OWN_REGISTERS,
    OWN_STATUS,
    OWN_STATUS_BITS,
)
from app.signals.encoding import register_count
from tests.app.follower.playing import drive_project, signal

HUNDREDTHS = {"raw": [0, 100], "value": [0, 1]}


def bit(name: str, of: str, number: int, drive_role: str) -> dict[str, object]:
    return {"name": name, "bit": {"of": of, "number": number}, "write": True, "drive_role": drive_role}


LIST = (
    signal("command", 5200, write=True),
    bit("start", "command", 4, "run"),
    bit("back", "command", 5, "reverse"),
    bit("acknowledge", "command", 7, "fault-reset"),
    signal("wanted", 5201, drive_role="speed-reference", unit="Hz", scale=HUNDREDTHS, write=True, decimals=2),
    signal("up", 5202, drive_role="ramp-up-time", unit="s", scale={"raw": [0, 10], "value": [0, 1]}, decimals=1),
    signal("status", 5300),
    bit("runs", "status", 2, "running"),
    bit("tripped", "status", 3, "fault"),
    signal("is", 5301, drive_role="output-frequency", unit="Hz", encoding="int16", scale=HUNDREDTHS),
    signal("amperes", 5302, drive_role="current", unit="A", scale=HUNDREDTHS),
    signal("code", 5304, drive_role="fault-code"),
    signal("power", 5306, drive_role="mechanical-power", unit="W", encoding="float32"),
    signal("room", 5310, start_value=21),
)


def played(*signals: dict[str, object], **follower: object) -> SimulatedDriveBank:
    model = Simulation(drive_project(*(signals or LIST), **follower)).models["it"]
    assert isinstance(model, SimulatedDriveBank)
    model.advance(0.1)
    return model


def test_a_drive_has_its_own_registers_as_long_as_no_signal_is_something_of_it() -> None:
    plain = Simulation(drive_project(signal("room", 5310))).models["it"]
    assert type(plain) is DriveBank
    assert plain.has("holding", 310, 1)
    assert not played().has("holding", 310, 1)


def test_it_runs_by_the_bits_and_registers_of_the_list() -> None:
    it = played()
    assert it.write("holding", 5201, [4000]) is None
    assert it.write("holding", 5202, [10]) is None
    assert it.drive.reference == 40
    assert it.drive.ramp_up_s == 1
    it.write("holding", 5200, [1 << 4])
    it.advance(5)
    assert it.drive.frequency == 40
    assert it.get("is") == 40
    assert it.get("runs") == 1
    assert float(it.get("amperes")) == pytest.approx(it.drive.current, abs=0.005)
    assert float(it.get("power")) == pytest.approx(1000 * it.drive.power_kw, rel=1e-5)
    it.write("holding", 5200, [1 << 4 | 1 << 5])
    it.advance(30)
    assert it.get("is") == -40
    it.write("holding", 5200, [0])
    it.advance(30)
    assert it.get("is") == 0
    assert it.get("runs") == 0


def test_a_trip_is_shown_and_reset_by_the_rising_bit_alone() -> None:
    it = played()
    it.inputs.external_fault = True
    it.advance(1)
    assert it.get("tripped") == 1
    assert it.get("code") == FaultCode.EXTERNAL
    it.write("holding", 5200, [1 << 7])
    it.advance(1)
    it.inputs.external_fault = False
    it.advance(1)
    assert it.get("tripped") == 1
    it.write("holding", 5200, [0])
    it.write("holding", 5200, [1 << 7])
    it.advance(1)
    assert it.get("tripped") == 0
    assert it.get("code") == 0


def test_what_it_tells_cannot_be_written_and_the_rest_is_a_bank() -> None:
    it = played()
    assert it.write("holding", 5301, [1]) is ExcCodes.ILLEGAL_ADDRESS
    assert it.write("holding", 5300, [0]) is ExcCodes.ILLEGAL_ADDRESS
    assert it.get("room") == 21
    assert it.write("holding", 5310, [22]) is None
    it.advance(1)
    assert it.get("room") == 22


def test_settings_stand_at_what_the_drive_goes_by() -> None:
    it = played()
    assert it.get("up") == 5
    assert it.get("wanted") == 0


def test_a_start_value_is_obeyed() -> None:
    it = played(signal("wanted", 1, drive_role="speed-reference", unit="Hz", start_value=30))
    assert it.drive.reference == 30


def test_with_a_control_word_it_goes_by_that_alone() -> None:
    """The words are those of IEC 61800-7-201; what each leads to is checked in tests/outside/test_drive_profile.py."""
    it = played(*LIST, signal("standard", 5203, drive_role="control-word", write=True))
    assert it.drive.state is DriveState.SWITCH_ON_DISABLED, "no control word yet, so it waits for one"
    it.write("holding", 5201, [4000])
    it.write("holding", 5200, [1 << 4])
    it.advance(1)
    assert it.drive.state is DriveState.SWITCH_ON_DISABLED, "the run bit has no effect"
    it.write("holding", 5203, [0x06])
    it.advance(1)
    it.write("holding", 5203, [0x0F])
    it.advance(30)
    assert it.get("is") == 40
    it.write("holding", 5200, [1 << 2 | 1 << 5])
    it.advance(1)
    assert it.get("is") == 40, "nor have reverse and quick stop"
    it.reboot(0)
    it.advance(1)
    assert it.drive.state is DriveState.SWITCH_ON_DISABLED


def test_its_control_word_may_have_a_start_value() -> None:
    it = played(signal("standard", 5203, drive_role="control-word", start_value=6))
    assert it.drive.state is DriveState.READY_TO_SWITCH_ON


def test_bits_of_the_control_word_reach_it_by_the_word() -> None:
    it = played(
        signal("standard", 5203, drive_role="control-word", start_value=6, write=True),
        {"name": "reset", "bit": {"of": "standard", "number": 7}, "write": True},
    )
    it.inputs.external_fault = True
    it.advance(1)
    assert it.drive.faulted
    it.inputs.external_fault = False
    it.set("reset", Fraction(1))
    it.advance(1)
    assert it.drive.state is DriveState.READY_TO_SWITCH_ON


def test_a_negative_reference_is_taken_only_beside_a_control_word() -> None:
    wanted = signal("wanted", 5201, drive_role="speed-reference", unit="Hz", encoding="int16", decimals=0)
    assert played(wanted).write("holding", 5201, [0x10000 - 30]) is ExcCodes.ILLEGAL_VALUE
    it = played(wanted, signal("standard", 5203, drive_role="control-word"))
    assert it.write("holding", 5201, [0x10000 - 30]) is None
    assert it.drive.reference == -30
    with pytest.raises(FollowerError, match=r"must be -50 to 50 Hz"):
        it.set("wanted", Fraction(-51))


def test_a_reference_beyond_the_base_frequency_is_refused_in_the_words_of_the_signal() -> None:
    it = played()
    assert it.write("holding", 5201, [5001]) is ExcCodes.ILLEGAL_VALUE
    assert it.drive.reference == 0
    with pytest.raises(FollowerError, match=r"must be 0\.00 to 50\.00 Hz"):
        it.set("wanted", Fraction(51))


@pytest.mark.parametrize(
    ("unit", "value", "hertz"),
    [("Hz", 25, 25.0), ("%", 50, 25.0), ("rpm", 750, 25.0), ("1/min", 1500, 50.0), ("wheels", 12, 12.0)],
)
def test_a_reference_may_be_told_in_hertz_per_cent_or_as_the_speed_of_the_field(
    unit: str, value: int, hertz: float
) -> None:
    it = played(
        signal("wanted", 1, drive_role="speed-reference", unit=unit, write=True),
        signal("back", 2, drive_role="speed-reference", unit="Hz"),
    )
    it.write("holding", 1, [value])
    assert it.drive.reference == hertz


@pytest.mark.parametrize(
    ("drive_role", "unit", "least", "most"),
    [
        ("dc-link-voltage", "V", 535, 566),
        ("dc-link-voltage", "%", 94, 100),
        ("run-time", "min", 1, 1),
        ("run-time", "s", 59, 60),
        ("shaft-speed", "min-1", 1450, 1500),
        ("motor-heat", "%", 1, 99),
        ("torque", "%", 80, 100),
        ("status-word", "", 0x637, 0x637),
    ],
)
def test_what_is_told_is_told_in_the_unit_of_the_signal(drive_role: str, unit: str, least: int, most: int) -> None:
    it = played(
        signal("run", 0, drive_role="run", write=True),
        signal("wanted", 1, drive_role="speed-reference", unit="Hz", start_value=50),
        signal("told", 2, drive_role=drive_role, unit=unit),
    )
    it.write("holding", 0, [1])
    it.advance(60)
    told = it.get("told")
    assert not isinstance(told, str)
    assert least <= told <= most


def test_coils_and_discrete_inputs_are_bits_of_it_too() -> None:
    it = played(
        signal("go", 7, table="coil", drive_role="run", write=True),
        signal("wanted", 1, drive_role="speed-reference", unit="Hz", start_value=20),
        signal("runs", 9, table="discrete", drive_role="running"),
    )
    it.write("coil", 7, [1])
    it.advance(1)
    assert it.read("discrete", 9, 1) == [1]
    it.write("coil", 7, [0])
    it.advance(20)
    assert it.read("discrete", 9, 1) == [0]


def test_a_value_beyond_its_register_shows_the_end_of_the_register() -> None:
    tenths_of_a_millivolt = {"raw": [0, 10_000], "value": [0, 1]}
    it = played(signal("told", 1, drive_role="dc-link-voltage", unit="V", scale=tenths_of_a_millivolt))
    assert it.read("holding", 1, 1) == [65_535]


def test_the_order_of_words_and_bytes_is_that_of_the_follower() -> None:
    keys = {"drive_role": "dc-link-voltage", "unit": "V", "encoding": "float32"}
    straight = played(signal("told", 1, **keys))
    turned = played(signal("told", 1, **keys), word_order="low-first")
    assert straight.read("holding", 1, 2) == turned.read("holding", 1, 2)[::-1]
    assert straight.get("told") == turned.get("told")


def test_the_silence_of_the_line_is_watched_as_the_project_says() -> None:
    it = played(communication_timeout_ms=2000)
    it.write("holding", 5201, [2000])
    it.write("holding", 5200, [1 << 4])
    it.on_request()
    it.advance(3)
    assert it.get("code") == FaultCode.COMMUNICATION


def test_a_text_register_is_nothing_of_a_drive() -> None:
    it = played(
        signal("name", 1, encoding="string", length=2, drive_role="current", start_value="ab"),
        signal("go", 9, drive_role="run"),
    )
    assert it.get("name") == "ab"


def test_who_sets_values_by_hand_is_told_which_the_drive_works_out() -> None:
    project = drive_project(*LIST)
    it = Simulation(project).models["it"]
    worked_out = {name for name, binding in bindings(project).items() if it.works_out(binding)}
    assert worked_out == {"runs", "tripped", "is", "amperes", "code", "power"}


def test_every_value_of_a_drive_can_be_played() -> None:
    it = played(*(signal(value, number, drive_role=value) for number, value in enumerate(DRIVE_VALUES)))
    it.advance(1)
    for value in DRIVE_VALUES:
        assert isinstance(it.get(value), Fraction)


def test_the_project_knows_where_the_registers_of_a_drive_of_its_own_are() -> None:
    for layout in LAYOUTS.values():
        told = {
            address
            for each in layout.measured
            for address in (each.address, each.address + register_count(each.encoding) - 1)
        }
        assert {
            "holding": (min(each.address for each in layout.settings), max(told)),
            "input": (min(told), max(told)),
            "coil": (min(COILS), max(COILS)),
            "discrete": (min(each.address for each in INDICATORS), max(each.address for each in INDICATORS)),
        } == OWN_REGISTERS


def test_the_project_knows_which_bits_of_their_words_mean_anything() -> None:
    def numbers(bits: type[enum.IntFlag]) -> set[int]:
        return {bit.value.bit_length() - 1 for bit in bits}

    assert {name: layout.control.address for name, layout in LAYOUTS.items()} == dict.fromkeys(LAYOUTS, OWN_CONTROL)
    assert all(layout.measured[0].address == OWN_STATUS for layout in LAYOUTS.values())
    assert numbers(CommandBit) == OWN_CONTROL_BITS["plain"]
    assert numbers(ControlBit) == OWN_CONTROL_BITS["iec-61800-7-201"]
    assert numbers(PlainStatusBit) == OWN_STATUS_BITS["plain"]
    assert numbers(StatusBit) == OWN_STATUS_BITS["iec-61800-7-201"]


def test_bits_are_told_from_numbers() -> None:
    bits = {value for value in SHOWN if not SHOWN[value].unit} - {"status-word", "fault-code"}
    assert set(BITS) | bits == DRIVE_BITS
    assert set(BITS) | set(NUMBERS) | set(SHOWN) == set(DRIVE_VALUES)
