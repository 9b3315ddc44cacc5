"""The examples of the MODBUS Application Protocol Specification V1.1b3 as bytes on the wire of a simulated follower.

All values from memory of that specification, sections 6.1 to 6.16; the frame around each PDU is the MBAP header of the
Messaging on TCP/IP Implementation Guide V1.0b, or unit and CRC of MODBUS over Serial Line V1.02 (both from memory).
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

import pytest

from app.follower.simulation import Simulation
from app.project.model import Project
from tests.app.follower.playing import RawClient, bank_project, client, mbap, rtu, signal

UNIT = 17


def bits(table: str, first: int, states: str) -> list[dict[str, Any]]:
    """Coils or discrete inputs from wire address `first` on, 1 and 0."""
    return [
        signal(f"{table} {first + place}", first + place, table=table, start_value=Decimal(state))
        for place, state in enumerate(states.replace(" ", ""))
    ]


def registers(table: str, first: int, *contents: int) -> list[dict[str, Any]]:
    return [
        signal(f"{table} {first + place}", first + place, table=table, start_value=Decimal(content))
        for place, content in enumerate(contents)
    ]


@pytest.fixture(scope="module")
def example() -> Project:
    """The device of the specification's examples; addresses on the wire are one less than its numbers."""
    return bank_project(
        *registers("holding", 0x6B, 0x022B, 0x0000, 0x0064),  # 108 to 110
        *registers("holding", 1, 0, 0, 0, 0x0012),  # 2 and 3 are written; 5 is masked
        *registers("input", 8, 0x000A),  # 9
        *bits("coil", 19, "10110011 11010110 101"),  # 20 to 38: CD 6B 05, lowest first
        *bits("coil", 172, "0"),  # 173
        *bits("discrete", 196, "00110101 11011011 101011"),  # 197 to 218: AC DB 35
        write_functions=[5, 6, 15, 16, 22],
    )


@pytest.fixture(scope="module")
def address(example: Project) -> Iterator[tuple[str, int]]:
    with Simulation(example) as simulation:
        yield simulation.serve_tcp(None, "127.0.0.1", 0)


@pytest.fixture
def wire(address: tuple[str, int]) -> Iterator[RawClient]:
    with client(address) as raw:
        yield raw


EXAMPLES = [
    ("6.1 read coils 20 to 38", "01 0013 0013", "01 03 CD 6B 05"),
    ("6.2 read discrete inputs 197 to 218", "02 00C4 0016", "02 03 AC DB 35"),
    ("6.3 read holding registers 108 to 110", "03 006B 0003", "03 06 02 2B 00 00 00 64"),
    ("6.4 read input register 9", "04 0008 0001", "04 02 00 0A"),
    ("6.5 write coil 173", "05 00AC FF00", "05 00 AC FF 00"),
    ("6.5 and it is on", "01 00AC 0001", "01 01 01"),
    ("6.6 write register 2", "06 0001 0003", "06 00 01 00 03"),
    ("6.6 and it holds 3", "03 0001 0001", "03 02 00 03"),
    ("6.11 write multiple coils 20 to 29", "0F 0013 000A 02 CD01", "0F 00 13 00 0A"),
    ("6.11 and they are so, those after them as before", "01 0013 0013", "01 03 CD 69 05"),
    ("6.12 write multiple registers 2 and 3", "10 0001 0002 04 000A 0102", "10 00 01 00 02"),
    ("6.12 and they hold it", "03 0001 0002", "03 04 00 0A 01 02"),
    ("6.16 mask write register 5", "16 0004 00F2 0025", "16 00 04 00 F2 00 25"),
    ("6.16 where 12h became 17h", "03 0004 0001", "03 02 00 17"),
    ("6.8 return query data", "08 0000 A537", "08 00 00 A5 37"),
]


def test_the_examples_in_mbap_frames(wire: RawClient) -> None:
    for number, (name, request, answer) in enumerate(EXAMPLES, 0x1501):
        expected = mbap(UNIT, answer, number)
        wire.send(mbap(UNIT, request, number))
        assert wire.receive(len(expected)).hex(" ") == expected.hex(" "), name


@pytest.mark.skipif(sys.platform == "win32", reason="there are no ptys here")
def test_the_examples_in_rtu_frames(example: Project) -> None:
    import os
    import select
    import tty

    near, far = os.openpty()
    tty.setraw(far)
    with Simulation(example) as simulation:
        simulation.serve_serial(os.ttyname(far))
        for name, request, answer in EXAMPLES:
            expected, arrived = rtu(UNIT, answer), b""
            os.write(near, rtu(UNIT, request))
            while len(arrived) < len(expected) and select.select([near], [], [], 5)[0]:
                arrived += os.read(near, 256)
            assert arrived.hex(" ") == expected.hex(" "), name
    os.close(near)
    os.close(far)


@pytest.mark.parametrize(
    ("limit", "request_pdu", "answer"),
    [
        ("2000 coils at most", "01 0000 07D1", "81 03"),
        ("2000 discrete inputs at most", "02 0000 07D1", "82 03"),
        ("125 registers at most", "03 006B 007E", "83 03"),
        ("125 input registers at most", "04 0008 007E", "84 03"),
        ("a coil is FF00h or 0000h", "05 00AC 0001", "85 03"),
        ("1968 coils written at most", "0F 0013 07B1 F7" + 247 * "00", "8F 03"),
        ("123 registers written at most", "10 0001 007C F8" + 248 * "00", "90 03"),
        ("a function that is not there", "42 0000", "C2 01"),
        ("nothing but identification is encapsulated", "2B 0D 01 00", "AB 01"),
        ("an object of the identification that is not there", "2B 0E 04 80", "AB 02"),
        ("a kind of identification that is not there", "2B 0E 05 00", "AB 03"),
        ("no coil written", "0F 0013 0000 00", "8F 03"),
        ("no register written", "10 0001 0000 00", "90 03"),
        ("a byte count that disagrees", "10 0001 0003 04 022B 0001 0064", "90 03"),
        ("a byte count that disagrees with the registers", "10 0001 007B 06 022B 0001 0064", "90 03"),
        ("an address that is not there", "03 006B 0004", "83 02"),
    ],
)
def test_limits_and_exceptions(wire: RawClient, limit: str, request_pdu: str, answer: str) -> None:
    assert wire.ask(UNIT, request_pdu) == answer, limit


def test_the_largest_reads_and_writes_pass() -> None:
    words = registers("holding", 0, *range(125))
    coils = bits("coil", 0, "01" * 1000)
    with Simulation(bank_project(*words, *coils)) as simulation:
        address = simulation.serve_tcp(None, "127.0.0.1", 0)
        with client(address) as wire:
            contents = "".join(f"{word:04x}" for word in range(125))
            assert wire.ask(UNIT, "03 0000 007D") == bytes.fromhex(f"03 FA {contents}").hex(" ").upper()
            assert wire.ask(UNIT, "01 0000 07D0") == bytes.fromhex("01 FA" + 250 * "AA").hex(" ").upper()
            assert wire.ask(UNIT, "10 0000 007B F6" + 123 * "ABCD") == "10 00 00 00 7B"
            assert wire.ask(UNIT, "03 0079 0003") == "03 06 AB CD AB CD 00 7B"
            assert wire.ask(UNIT, "0F 0000 07B0 F6" + 246 * "55") == "0F 00 00 07 B0"
            assert wire.ask(UNIT, "01 07A8 0010") == "01 02 55 AA"
