"""What followers answer to one request, without any line."""

from __future__ import annotations

import asyncio
from decimal import Decimal

import pytest

from app.follower.drive_bank import DriveBank
from app.follower.errors import FollowerError
from app.follower.register_bank import RegisterBank
from app.follower.requests import Responder
from app.follower.simulated_drive import SimulatedDriveBank
from app.follower.simulation import Simulation
from app.project.model import Project
from tests.app.follower.playing import bank_project, drive_project, many, signal

ALL = [5, 6, 15, 16, 22]
"""Functions that write."""


def responder(project: Project) -> Responder:
    return Responder([RegisterBank(project, follower) for follower in project.followers], clock=lambda: 0.0)


def ask(it: Responder, unit: int, pdu: str) -> str | None:
    answer = asyncio.run(it.answer(unit, bytes.fromhex(pdu)))
    return None if answer is None else answer.hex(" ").upper()


@pytest.fixture
def it() -> Responder:
    """Unit 17: holding 10..12 = 1, 2, 3; input 5 = 9; coils 0..2 = 1 0 1 and 20; discrete 7 = 1; nothing between."""
    return responder(
        bank_project(
            *(signal(f"h{place}", 10 + place, start_value=Decimal(place + 1)) for place in range(3)),
            signal("i", 5, table="input", start_value=Decimal(9)),
            *(signal(f"c{place}", place, table="coil", start_value=Decimal(1 - place % 2)) for place in range(3)),
            signal("c20", 20, table="coil"),
            signal("d", 7, table="discrete", start_value=Decimal(1)),
            write_functions=ALL,
            gaps=False,
        )
    )


@pytest.mark.parametrize(
    ("request_pdu", "answer"),
    [
        ("03 000A 0003", "03 06 00 01 00 02 00 03"),
        ("04 0005 0001", "04 02 00 09"),
        ("01 0000 0003", "01 01 05"),
        ("02 0007 0001", "02 01 01"),
        ("08 0000 A5 37", "08 00 00 A5 37"),
        ("17 000A 0002 000B 0001 02 00 63", "17 04 00 01 00 63"),
        ("08 0000 01 02 03 04", "08 00 00 01 02 03 04"),
        ("11", "11 04 11 FF 69 74"),
        ("2B 0E 04 01", "2B 0E 04 82 00 00 01 01 02 69 74"),
    ],
)
def test_good_requests(it: Responder, request_pdu: str, answer: str) -> None:
    assert ask(it, 17, request_pdu) == answer


@pytest.mark.parametrize(
    ("request_pdu", "exception"),
    [
        # Unknown functions: the function's own exception, code 01.
        ("2B 0D 01 00", "AB 01"),
        ("2B", "AB 01"),
        ("07", "87 01"),
        ("14 07 06 0004 0001 0002", "94 01"),
        ("08 0001 0000", "88 01"),
        ("00", "80 01"),
        ("FF 00", "FF 01"),
        # Quantities and lengths: 03.
        ("03 000A 007E", "83 03"),
        ("03 000A 0000", "83 03"),
        ("04 0005 007E", "84 03"),
        ("01 0000 07D1", "81 03"),
        ("02 0000 0000", "82 03"),
        ("05 0000 1234", "85 03"),
        ("0F 0000 0003 02 05 00", "8F 03"),
        ("0F 0000 0003 01 05 00", "8F 03"),
        ("10 000A 0002 04 00 01", "90 03"),
        ("10 000A 0002 02 00 01", "90 03"),
        ("10 000A 0000 00", "90 03"),
        ("16 000A 00F2", "96 03"),
        ("17 000A 0001 000A 0001 04 00 01", "97 03"),
        ("03 000A 00", "83 03"),
        ("03", "83 03"),
        ("03 000A 0001 00", "83 03"),
        ("11 00", "91 03"),
        ("2B 0E 00 00", "AB 03"),
        ("2B 0E 05 00", "AB 03"),
        ("2B 0E 01", "AB 03"),
        ("2B 0E 01 00 00", "AB 03"),
        # Addresses: 02.
        ("03 0009 0001", "83 02"),
        ("03 000B 0003", "83 02"),
        ("03 FFFF 0002", "83 02"),
        ("04 0006 0001", "84 02"),
        ("01 0000 0004", "81 02"),
        ("01 0003 0001", "81 02"),
        ("02 0006 0001", "82 02"),
        ("05 0003 FF00", "85 02"),
        ("06 0005 0001", "86 02"),
        ("0F 0001 0003 01 05", "8F 02"),
        ("10 000C 0002 04 0001 0002", "90 02"),
        ("16 0063 00F2 0025", "96 02"),
        ("17 000A 0001 0063 0001 02 0001", "97 02"),
        ("17 0063 0001 000A 0001 02 0001", "97 02"),
        ("2B 0E 04 03", "AB 02"),
        ("2B 0E 04 80", "AB 02"),
    ],
)
def test_refusals(it: Responder, request_pdu: str, exception: str) -> None:
    before = ask(it, 17, "03 000A 0003"), ask(it, 17, "01 0000 0003")
    assert ask(it, 17, request_pdu) == exception
    assert (ask(it, 17, "03 000A 0003"), ask(it, 17, "01 0000 0003")) == before


@pytest.mark.parametrize(
    ("write", "answer", "read", "found"),
    [
        ("05 0001 FF00", "05 00 01 FF 00", "01 0000 0003", "01 01 07"),
        ("05 0000 0000", "05 00 00 00 00", "01 0000 0003", "01 01 04"),
        ("06 000B FFFF", "06 00 0B FF FF", "03 000B 0001", "03 02 FF FF"),
        ("06 000B 0000", "06 00 0B 00 00", "03 000B 0001", "03 02 00 00"),
        ("0F 0000 0003 01 02", "0F 00 00 00 03", "01 0000 0003", "01 01 02"),
        ("10 000A 0002 04 1234 5678", "10 00 0A 00 02", "03 000A 0003", "03 06 12 34 56 78 00 03"),
        ("16 000A FFFE 0000", "16 00 0A FF FE 00 00", "03 000A 0001", "03 02 00 00"),
    ],
)
def test_writes(it: Responder, write: str, answer: str, read: str, found: str) -> None:
    assert ask(it, 17, write) == answer
    assert ask(it, 17, read) == found


def test_a_mask_write_changes_only_the_masked_bits(it: Responder) -> None:
    ask(it, 17, "06 000A 0012")
    assert ask(it, 17, "16 000A 00F2 0025") == "16 00 0A 00 F2 00 25"
    assert ask(it, 17, "03 000A 0001") == "03 02 00 17"


def test_nobody_answers_for_a_unit_that_is_not_there(it: Responder) -> None:
    for unit in (0, 1, 16, 18, 247, 255):
        assert ask(it, unit, "03 000A 0001") is None


@pytest.mark.parametrize(("unit", "other"), [(0, 255), (255, 0)])
def test_a_device_that_is_reached_directly_takes_either_unit(unit: int, other: int) -> None:
    it = responder(many(("a", "hall", unit), ("b", "hall", 7)))
    assert ask(it, unit, "03 0000 0001") == ask(it, other, "03 0000 0001") == f"03 02 00 {unit:02X}"
    assert ask(it, 7, "03 0000 0001") == "03 02 00 07"
    both = responder(many(("a", "hall", unit), ("b", "hall", other)))
    assert ask(both, other, "03 0000 0001") == f"03 02 00 {other:02X}", "there is one of its own"


@pytest.mark.parametrize("unit", [0, 255])
def test_on_a_serial_line_such_a_unit_is_refused(unit: int) -> None:
    project = many(("a", "hall", 7), ("b", "hall", unit))
    with pytest.raises(
        FollowerError, match=f"device 'b' has unit address {unit}, which is for Modbus TCP only; on a serial"
    ):
        Responder([RegisterBank(project, follower) for follower in project.followers], rtu=True)


def test_a_silent_follower_neither_answers_nor_hears(it: Responder) -> None:
    it.models[17].silent = True
    assert ask(it, 17, "06 000A 0063") is None
    it.models[17].silent = False
    assert ask(it, 17, "03 000A 0001") == "03 02 00 01"


def test_it_answers_no_more_registers_than_the_project_says() -> None:
    it = responder(bank_project(signal("text", 0, encoding="string", length=20), max_registers=16))
    assert ask(it, 17, "03 0000 0010") is not None
    assert ask(it, 17, "03 0000 0011") == "83 03"


def test_a_broadcast_is_obeyed_by_all_and_a_read_of_all_by_none() -> None:
    it = responder(many(("a", "hall", 1), ("b", "hall", 2)))
    asyncio.run(it.broadcast(bytes.fromhex("06 0000 0063")))
    asyncio.run(it.broadcast(bytes.fromhex("03 0000 0001")))
    assert ask(it, 1, "03 0000 0001") == ask(it, 2, "03 0000 0001") == "03 02 00 63"


def test_each_unit_has_registers_of_its_own() -> None:
    it = responder(many(("a", "hall", 1), ("b", "hall", 2)))
    ask(it, 1, "06 0000 0063")
    assert ask(it, 1, "03 0000 0001") == "03 02 00 63"
    assert ask(it, 2, "03 0000 0001") == "03 02 00 02"


def test_two_followers_of_one_unit_are_told_by_their_names() -> None:
    project = many(("a", "hall", 5), ("b", "yard", 5))
    with pytest.raises(FollowerError, match="devices 'a' and 'b' have the same unit address 5"):
        responder(project)


def test_no_follower_at_all_is_told() -> None:
    with pytest.raises(FollowerError, match="no device to simulate"):
        Responder([])


def test_time_runs_before_the_request_is_carried_out_and_silence_ends_with_it() -> None:
    project = drive_project(communication_timeout_ms=1000)
    bank = DriveBank(project, project.followers[0])
    now = 0.0
    it = Responder([bank], clock=lambda: now)
    ask(it, 3, "10 0136 0003 06 2710 000A 000A")
    now = 0.5
    ask(it, 3, "06 012C 0010")
    for _ in range(5):
        now += 0.9
        assert ask(it, 3, "04 0194 0001") == "04 02 00 00"
    assert bank.drive.running
    now += 1.1  # the request that comes too late finds the trip
    assert ask(it, 3, "04 0194 0001") == "04 02 75 00"


def test_a_value_outside_a_drives_setting_is_exception_03() -> None:
    project = drive_project(write_functions=ALL)
    it = Responder([DriveBank(project, project.followers[0])], clock=lambda: 0.0)
    assert ask(it, 3, "06 0136 2711") == "86 03"
    assert ask(it, 3, "10 0136 0002 04 2710 0000") == "90 03"
    assert ask(it, 3, "06 0190 0000") == "86 02"
    assert ask(it, 3, "16 0136 0000 FFFF") == "96 03"
    assert ask(it, 3, "03 0136 0002") == "03 04 00 00 00 32"


@pytest.mark.parametrize(
    ("offered", "request_pdu", "answer"),
    [
        # The function comes before its quantities and addresses: 01, whatever else is wrong.
        ([16], "06 000A 0009", "86 01"),
        ([16], "10 000A 0001 02 0009", "10 00 0A 00 01"),
        ([16], "10 000A 0001 03 0009", "90 03"),
        ([16], "17 000A 0001 000B 0001 02 0063", "17 02 00 01"),
        ([6], "06 000A 0009", "06 00 0A 00 09"),
        ([6], "06 0063 0009", "86 02"),
        ([6], "10 000A 0001 02 0009", "90 01"),
        ([6], "10 000A 0001 03 0009", "90 01"),
        ([6], "17 000A 0001 000B 0001 02 0063", "97 01"),
        ([6], "16 000A 00F2 0025", "96 01"),
        ([6, 22], "16 000A 00F2 0025", "16 00 0A 00 F2 00 25"),
        ([5], "05 0000 FF00", "05 00 00 FF 00"),
        ([5], "0F 0000 0001 01 01", "8F 01"),
        ([15], "05 0000 FF00", "85 01"),
        ([15], "0F 0000 0001 01 01", "0F 00 00 00 01"),
        ([], "06 000A 0009", "86 01"),
        ([], "03 000A 0001", "03 02 00 01"),
    ],
)
def test_only_functions_that_are_offered_write(offered: list[int], request_pdu: str, answer: str) -> None:
    it = responder(
        bank_project(
            *(signal(f"h{place}", 10 + place, start_value=Decimal(place + 1)) for place in range(2)),
            signal("c", 0, table="coil"),
            write_functions=offered,
        )
    )
    before = it.models[17].read("holding", 10, 2), it.models[17].read("coil", 0, 1)
    assert ask(it, 17, request_pdu) == answer
    if answer[3:] == "01":
        assert (it.models[17].read("holding", 10, 2), it.models[17].read("coil", 0, 1)) == before


@pytest.mark.parametrize(
    ("request_pdu", "answer"),
    [
        ("03 000A 0001", "03 02 00 01"),
        ("03 000B 0001", "83 02"),
        ("03 000A 0002", "83 02"),
        ("03 000B 0003", "83 02"),
        ("03 000D 0001", "03 02 00 04"),
        ("04 000B 0001", "04 02 00 09"),  # another table
        ("01 0003 0001", "81 02"),
        ("01 0000 0003", "01 01 00"),
        # Written it may be.
        ("06 000B 0063", "06 00 0B 00 63"),
        ("10 000A 0003 06 0007 0008 0009", "10 00 0A 00 03"),
        ("16 000B 00F2 0025", "16 00 0B 00 F2 00 25"),
        ("05 0003 FF00", "05 00 03 FF 00"),
        # Read and written at once: the part that is read decides.
        ("17 000A 0001 000B 0001 02 0063", "17 02 00 01"),
        ("17 000B 0001 000A 0001 02 0063", "97 02"),
    ],
)
def test_what_is_never_read_is_refused_to_whoever_reads_it(request_pdu: str, answer: str) -> None:
    it = responder(
        bank_project(
            *(signal(f"h{place}", 11 + place, start_value=Decimal(place + 1)) for place in range(4)),
            signal("i", 12, table="input", start_value=Decimal(9)),
            *(signal(f"c{place}", 1 + place, table="coil") for place in range(4)),
            numbering="from-1",
            never_read=[{"first": 12, "last": 13}, {"table": "coil", "first": 4, "last": 4}],
            write_functions=ALL,
        )
    )
    assert ask(it, 17, request_pdu) == answer


@pytest.mark.parametrize(
    ("model", "simulated"), [(RegisterBank, "bank"), (DriveBank, "drive"), (SimulatedDriveBank, "drive")]
)
def test_every_model_keeps_to_what_the_project_says_of_the_follower(model: type[RegisterBank], simulated: str) -> None:
    """Also where the registers are a drive's own: 310 is its speed reference, 311 the ramp-up time."""
    plays = {"drive_role": "speed-reference"} if model is SimulatedDriveBank else {}
    project = bank_project(
        signal("reference", 310, **plays),
        signal("ramp", 311, start_value=Decimal(50)),
        never_read=[{"first": 311, "last": 311}],
        write_functions=[6, 22],
        simulate=simulated,
    )
    bank = Simulation(project).models["it"]
    assert type(bank) is model
    it = Responder([bank], clock=lambda: 0.0)
    assert ask(it, 17, "03 0136 0001") == "03 02 00 00"
    assert ask(it, 17, "03 0137 0001") == ask(it, 17, "03 0136 0002") == "83 02"
    assert ask(it, 17, "10 0136 0001 02 0007") == "90 01"
    assert ask(it, 17, "17 0136 0001 0136 0001 02 0007") == "97 01"
    assert ask(it, 17, "0F 0000 0001 01 01") == "8F 01"
    assert ask(it, 17, "06 0137 0009") == "06 01 37 00 09"
    assert ask(it, 17, "16 0136 0000 0007") == "16 01 36 00 00 00 07"
    assert (bank.read("holding", 310, 2), ask(it, 17, "03 0136 0001")) == ([7, 9], "03 02 00 07")
