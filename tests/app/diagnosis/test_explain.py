"""A transaction's bytes taken apart: the standard's own frames, and what arrives when something is wrong."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings, strategies as st

from app.client.faults import Fault, FaultKind, exception_fault
from app.client.transactions import Transaction
from app.diagnosis.explain import Explanation, explain
from app.diagnosis.frames import Frame, FrameRole
from app.diagnosis.register_names import RegisterNames
from app.diagnosis.transcript import many_lines
from app.modbus.requests import (
    Request,
    mask_write,
    query_data_request,
    read_request,
    write_coil,
    write_coils,
    write_register,
    write_registers,
)
from app.project.model import Project
from app.project_file.files import load, parse
from projects import demo_path
from tests.staged_follower import crc


@pytest.fixture(scope="module")
def names() -> RegisterNames:
    return RegisterNames.of(load(demo_path("booster-pump")))


def framed(request: Request, pdu: bytes, unit: int | None = None) -> bytes:
    body = bytes((request.unit if unit is None else unit,)) + pdu
    return body + crc(body)


def serial(
    request: Request, received: bytes, fault: Fault | None = None, follower: str = "pump", ms: float = 20.0
) -> Transaction:
    return Transaction(
        at=1.0,
        line="pump room",
        follower=follower,
        request=request,
        sent=request.rtu,
        received=received,
        ms=ms,
        fault=fault,
    )


def network(request: Request, received: bytes, fault: Fault | None = None, transaction: int = 7) -> Transaction:
    return Transaction(
        at=1.0,
        line="pump room",
        follower="pump",
        request=request,
        sent=request.mbap(transaction),
        received=received,
        ms=2.0,
        fault=fault,
    )


def roles(explanation: Explanation) -> list[FrameRole]:
    return [frame.role for frame in explanation.received]


def part(frame: Frame, name: str) -> str:
    """The words of the one part called `name`."""
    (found,) = (part for part in frame.parts if part.name == name)
    return found.words


def wrong(frame: Frame) -> list[str]:
    return [part.name for part in frame.parts if part.wrong]


DAMAGED = Fault(FaultKind.BAD_CRC, "the answer arrived damaged")
SILENT = Fault(FaultKind.SILENCE, "unit 3 did not answer")


def test_the_standards_read_of_holding_registers() -> None:
    """MODBUS Application Protocol V1.1b3, section 6.3 (from memory): registers 108 to 110 hold 022Bh, 0 and 64h."""
    request = read_request(17, "holding", 107, 3)
    told = explain(serial(request, framed(request, bytes.fromhex("03 06 02 2B 00 00 00 64"))))
    assert [(p.data.hex(), p.name) for p in told.sent.parts[:4]] == [
        ("11", "unit address"),
        ("03", "function"),
        ("006b", "address"),
        ("0003", "count"),
    ]
    (answer,) = told.received
    assert answer.role is FrameRole.ANSWER
    assert part(answer, "registers 107 to 109") == "no signal: 555 0 100"
    assert part(answer, "byte count") == "6 bytes of data follow"
    assert part(answer, "check sum") == "correct"
    assert not wrong(answer)


def test_unit_0_is_everybody_on_a_serial_line_only() -> None:
    write = write_register(0, 1, 3)
    assert part(explain(serial(write, b"")).sent, "unit address") == "0, broadcast to all devices"
    assert part(explain(network(write, b"")).sent, "unit address") == "0, device pump"


def test_the_standards_read_of_coils() -> None:
    """V1.1b3, section 6.1 (from memory): coils 20 to 38, the first byte CDh is 27 to 20 = 1100 1101."""
    request = read_request(1, "coil", 19, 19)
    (answer,) = explain(serial(request, framed(request, bytes.fromhex("01 03 CD 6B 05")))).received
    assert part(answer, "coils 19 to 26") == "lowest bit first: 1 0 1 1 0 0 1 1"
    assert part(answer, "coils 35 to 37") == "lowest bit first: 1 0 1"


def test_the_standards_writes() -> None:
    """V1.1b3, sections 6.5, 6.6, 6.11 and 6.12 (from memory)."""
    coil = write_coil(1, 172, True)
    (answer,) = explain(serial(coil, coil.rtu)).received
    assert (answer.role, part(answer, "value")) == (FrameRole.ANSWER, "on")
    coils = explain(serial(write_coils(1, 19, [True, False, True, True, False, False, True, True, True, False]), b""))
    assert [p.data.hex() for p in coils.sent.parts[1:-1]] == ["0f", "0013", "000a", "02", "cd", "01"]
    assert part(coils.sent, "coils 27 to 28") == "lowest bit first: 1 0"
    registers = explain(serial(write_registers(1, 1, [10, 258]), b""))
    assert part(registers.sent, "registers 1 to 2") == "no signal: 10 258"
    assert part(registers.sent, "byte count") == "4 bytes of data follow"


def test_a_register_is_told_with_its_signals_value_and_raw_count(names: RegisterNames) -> None:
    """Common practice, no source: 83.3 % of a 50 Hz base reads 41.7 Hz at one decimal."""
    request = read_request(3, "holding", 310, 1)
    told = explain(serial(request, framed(request, bytes.fromhex("03 02 20 8A"))), names)
    assert part(told.received[0], "register 310") == "speed set point = 41.7 Hz (raw 8330)"
    assert told.signals == ("speed set point",)
    assert "speed set point" in {name for p in told.sent.parts for name in p.signals}


def test_neighbours_are_parted_by_signal_and_bits_are_told(names: RegisterNames) -> None:
    request = read_request(3, "input", 400, 8)
    data = bytes.fromhex("0237 1388 007B 1619 0000 02D5 0001 0002")
    (answer,) = explain(serial(request, framed(request, b"\x04\x10" + data)), names).received
    status = part(answer, "register 400")
    assert status.startswith("status = 567, running = running")
    assert part(answer, "register 401") == "frequency = 25.0 Hz (raw 5000)"
    assert part(answer, "register 402") == "current = 1.23 A (raw 123)"
    assert answer.data == framed(request, b"\x04\x10" + data)


def test_a_written_value_is_told_on_the_way_out_and_back(names: RegisterNames) -> None:
    request = write_register(3, 310, 8330)
    told = explain(serial(request, request.rtu), names)
    assert part(told.sent, "value") == "speed set point = 41.7 Hz (raw 8330)"
    assert roles(told) == [FrameRole.ANSWER]
    assert part(told.received[0], "value") == "speed set point = 41.7 Hz (raw 8330)"


def test_the_standards_mask_write() -> None:
    """V1.1b3, section 6.16 (from memory): register 5, AND F2h, OR 25h: 12h becomes 17h, so bit 0 and 2 are set."""
    request = mask_write(1, 4, 0xF2, 0x25)
    assert request.pdu.hex() == "16000400f20025"
    told = explain(serial(request, request.rtu))
    assert roles(told) == [FrameRole.ANSWER]
    assert part(told.sent, "AND mask") == "keeps bits 1 4 5 6 7"
    assert part(told.sent, "OR mask") == "sets bits 0 2, clears the other bits that are not kept"


def test_a_mask_write_names_the_bits_that_it_changes(names: RegisterNames) -> None:
    request = mask_write(3, 300, 0xFFEF, 0x10)
    told = explain(serial(request, request.rtu), names)
    assert part(told.sent, "OR mask") == "run command = 1 (sets bits 4)"


def test_half_a_signal_is_said_to_be_half(names: RegisterNames) -> None:
    request = read_request(3, "input", 409, 1)
    (answer,) = explain(serial(request, framed(request, bytes.fromhex("04 02 00 00"))), names).received
    assert part(answer, "register 409") == "a part of power, which has 2 registers"


def test_the_manuals_number_stands_beside_the_wire_address() -> None:
    project = _one_signal("prefixed", 40311)
    told = explain(serial(read_request(1, "holding", 310, 1), b"", SILENT, "device"), RegisterNames.of(project))
    assert part(told.sent, "address") == "holding register 310; 40311 in the manual"


def test_overlapping_signals_share_a_part() -> None:
    project = _one_signal(
        "from-0",
        10,
        'encoding = "uint32"\n[[signal]]\nname = "low"\nfollower = "device"\nregister = 11',
    )
    request = read_request(1, "holding", 9, 4)
    received = framed(request, bytes.fromhex("03 08 0001 0001 0002 0003"))
    (answer,) = explain(serial(request, received, follower="device"), RegisterNames.of(project)).received
    assert part(answer, "registers 10 to 11") == "value = 65538; low = 2"
    assert part(answer, "register 9") == "no signal: 1"
    assert part(answer, "register 12") == "no signal: 3"


def test_an_implausible_value_is_told_in_words() -> None:
    project = _one_signal("from-0", 10, 'encoding = "bcd16"')
    request = read_request(1, "holding", 10, 1)
    received = framed(request, bytes.fromhex("03 02 00 0A"))
    (answer,) = explain(serial(request, received, follower="device"), RegisterNames.of(project)).received
    assert "a digit above 9" in part(answer, "register 10")


def _one_signal(numbering: str, register: int, more: str = "") -> Project:
    return parse(
        f"""
format = 2
panel = {{ start = "a" }}
[[line]]
name = "line"
kind = "tcp"
host = "h"
[[follower]]
name = "device"
line = "line"
numbering = "{numbering}"
[[signal]]
name = "value"
follower = "device"
register = {register}
{more}
[[screen]]
name = "a"
"""
    )


# what goes wrong on a serial line


READ = read_request(3, "holding", 310, 2)
GOOD = framed(READ, bytes.fromhex("03 04 20 8A 00 32"))


def test_noise_in_front_of_a_good_frame_is_told_apart() -> None:
    told = explain(serial(READ, b"\x00\xff\x80" + GOOD))
    assert roles(told) == [FrameRole.NOISE, FrameRole.ANSWER]
    assert told.received[0].data == b"\x00\xff\x80"
    assert told.received[0].parts[0].wrong


def test_an_echo_is_told_apart_from_the_answer() -> None:
    assert roles(explain(serial(READ, READ.rtu + GOOD))) == [FrameRole.ECHO, FrameRole.ANSWER]
    write = write_register(3, 310, 5)
    assert roles(explain(serial(write, write.rtu + write.rtu))) == [FrameRole.ECHO, FrameRole.ANSWER]
    assert roles(explain(serial(write, write.rtu, SILENT))) == [FrameRole.ECHO]


def test_a_bad_check_sum_is_said_with_the_right_one() -> None:
    bad = GOOD[:-1] + bytes((GOOD[-1] ^ 1,))
    (frame,) = explain(serial(READ, bad, DAMAGED)).received
    assert frame.role is FrameRole.DAMAGED
    assert wrong(frame) == ["check sum"]
    assert GOOD[-2:].hex(" ").upper() in part(frame, "check sum")


def test_a_value_in_a_damaged_answer_is_not_told_as_if_it_were_one(names: RegisterNames) -> None:
    bad = GOOD[:-1] + bytes((GOOD[-1] ^ 1,))
    (frame,) = explain(serial(READ, bad, DAMAGED), names).received
    assert part(frame, "register 310").startswith("unreliable: speed set point = ")


def test_a_frame_without_its_first_byte_is_recognised() -> None:
    (frame,) = explain(serial(READ, GOOD[1:], DAMAGED)).received
    assert frame.role is FrameRole.DAMAGED
    assert frame.parts[0].name == "function"
    assert part(frame, "check sum") == "correct"


@pytest.mark.parametrize("length", range(1, len(GOOD)))
def test_a_cut_frame_is_explained_as_far_as_it_goes(length: int) -> None:
    (frame,) = explain(serial(READ, GOOD[:length], Fault(FaultKind.CUT, "broke off"))).received
    assert frame.role is FrameRole.CUT
    assert frame.data == GOOD[:length]
    assert [p.name for p in frame.parts[:3]] == ["unit address", "function", "byte count"][: len(frame.parts)]
    assert length != len(GOOD) - 1 or frame.parts[-1].words == "incomplete: 1 of 2 bytes"


def test_another_units_frame_says_which_unit_answered() -> None:
    (frame,) = explain(serial(READ, framed(READ, GOOD[1:-2], unit=5), SILENT)).received
    assert frame.role is FrameRole.STRANGER
    assert part(frame, "unit address") == "5; requested: 3"
    assert wrong(frame) == ["unit address"]


@pytest.mark.parametrize("unit", [3, 7])
def test_what_another_client_asks_is_explained_as_its_request(unit: int, names: RegisterNames) -> None:
    """The guard steps over it as a whole frame; so nobody must be told that it is none."""
    asked = read_request(unit, "holding", 20, 4).rtu
    told = explain(serial(READ, asked + GOOD), names)
    assert roles(told) == [FrameRole.OTHER_CLIENT, FrameRole.ANSWER]
    other = told.received[0]
    assert (other.data, part(other, "count"), part(other, "check sum")) == (asked, "4 registers", "correct")
    assert wrong(other) == ([] if unit == 3 else ["unit address"])
    assert not any(each.signals for each in other.parts)


def test_a_sound_frame_that_the_standard_does_not_have_is_a_frame_all_the_same() -> None:
    (frame,) = explain(serial(READ, framed(READ, bytes.fromhex("2B 0E 01 01 00")), SILENT)).received
    assert (frame.role, wrong(frame)) == (FrameRole.STRANGER, ["function"])
    (frame,) = explain(serial(READ, framed(READ, bytes.fromhex("03 03 01 02 03")), SILENT)).received
    assert (frame.role, wrong(frame)) == (FrameRole.STRANGER, ["byte count"])


def test_another_function_is_marked() -> None:
    (frame,) = explain(serial(READ, framed(READ, b"\x04\x02\x00\x01"), SILENT)).received
    assert (frame.role, wrong(frame)) == (FrameRole.STRANGER, ["function"])
    assert part(frame, "function") == "04, read input registers; requested: 03"


def test_one_register_too_many_is_marked_at_the_byte_count() -> None:
    (frame,) = explain(serial(READ, framed(READ, bytes.fromhex("03 06 0001 0002 0003")), SILENT)).received
    assert (frame.role, wrong(frame)) == (FrameRole.STRANGER, ["byte count"])
    assert part(frame, "byte count") == "6 bytes of data follow; expected: 4"


def test_a_write_acknowledged_with_another_value_is_marked() -> None:
    request = write_register(3, 310, 5)
    (frame,) = explain(serial(request, framed(request, bytes.fromhex("06 0136 0006")), SILENT)).received
    assert (frame.role, wrong(frame)) == (FrameRole.STRANGER, ["value"])
    assert part(frame, "value") == "6; written: 00 05"


@pytest.mark.parametrize("code", [1, 2, 3, 4, 5, 6, 8, 10, 11, 0x55])
def test_an_exception_is_told_with_its_meaning(code: int, names: RegisterNames) -> None:
    (frame,) = explain(serial(READ, framed(READ, bytes((0x83, code))), exception_fault(code)), names).received
    assert frame.role is FrameRole.REFUSAL
    assert part(frame, "function") == "03, read holding registers: refused (80h added)"
    assert f"({code:02X})" in part(frame, "exception code") or part(frame, "exception code").startswith(
        "55h, device-specific"
    )


def test_a_read_that_only_settles_the_line_is_explained_by_its_bytes(names: RegisterNames) -> None:
    told = explain(serial(replace(READ, count=0), GOOD), names)
    assert part(told.sent, "count") == "2 registers"
    assert roles(told) == [FrameRole.ANSWER]
    assert not wrong(told.received[0])
    assert "speed set point" in told.signals


def test_a_sign_of_life_is_explained() -> None:
    """Function 08, sub-function 0 gives back what it was sent (V1.1b3, section 6.8, from memory)."""
    request = query_data_request(READ, 0xA537)
    told = explain(serial(request, request.rtu))
    assert [p.name for p in told.sent.parts] == ["unit address", "function", "sub-function", "data", "check sum"]
    assert roles(told) == [FrameRole.ANSWER]
    assert told.signals == ()
    other = explain(serial(request, query_data_request(READ, 0x1234).rtu, SILENT))
    assert wrong(other.received[0]) == ["data"]


def test_predicted_time_stands_against_the_measured_one() -> None:
    answered = serial(READ, GOOD, ms=20.0)._replace(predicted_ms=18.5)
    assert explain(answered).timing == "20.0 ms, predicted 18.5 ms"
    silent = answered._replace(received=b"", fault=SILENT)
    assert explain(silent).timing == "given up after 20.0 ms, predicted 18.5 ms"
    assert explain(answered._replace(predicted_ms=0.0)).timing == "20.0 ms"


def test_an_answer_that_nobody_asked_for_is_explained_by_the_request_that_it_answers_again() -> None:
    request = read_request(3, "holding", 10, 1)
    again = serial(request, framed(request, b"\x03\x02\x00\x07"), Fault(FaultKind.UNASKED, ""))
    unasked = again._replace(sent=b"")
    told = explain(unasked)
    assert told.sent.data == b""
    assert [frame.role for frame in told.received] == [FrameRole.ANSWER]
    assert told.timing == "20.0 ms"
    assert "sent: nothing" in many_lines(told, "12:00:00.000")


def test_nothing_received_is_nothing() -> None:
    told = explain(serial(READ, b"", SILENT))
    assert told.received == ()
    assert told.fault == SILENT.sentence


# what goes wrong over a network


def mbap(transaction: int, unit: int, pdu: bytes, protocol: int = 0) -> bytes:
    return (
        transaction.to_bytes(2, "big") + protocol.to_bytes(2, "big") + (len(pdu) + 1).to_bytes(2, "big")
    ) + bytes((unit,)) + pdu  # fmt: skip


def test_the_header_of_a_network_frame_is_explained() -> None:
    told = explain(network(READ, mbap(7, 3, GOOD[1:-2])))
    assert [p.name for p in told.sent.parts[:4]] == ["transaction", "protocol", "length", "unit address"]
    assert part(told.sent, "length") == "6 bytes follow"
    (answer,) = told.received
    assert answer.role is FrameRole.ANSWER
    assert part(answer, "transaction") == "7, as requested"
    assert part(answer, "protocol") == "Modbus"


def test_another_transactions_answer_is_a_stranger() -> None:
    told = explain(network(READ, mbap(6, 3, GOOD[1:-2]) + mbap(7, 3, GOOD[1:-2])))
    assert roles(told) == [FrameRole.STRANGER, FrameRole.ANSWER]
    assert wrong(told.received[0]) == ["transaction"]
    assert part(told.received[0], "transaction") == "6; requested: 7"


def test_a_network_frame_cut_or_refused() -> None:
    assert roles(explain(network(READ, mbap(7, 3, GOOD[1:-2])[:9], SILENT))) == [FrameRole.CUT]
    assert roles(explain(network(READ, mbap(7, 3, GOOD[1:-2])[:3], SILENT))) == [FrameRole.CUT]
    assert roles(explain(network(READ, mbap(7, 3, b"\x83\x02"), exception_fault(2)))) == [FrameRole.REFUSAL]
    assert roles(explain(network(READ, b"GET / HTTP/1.1\r\n", SILENT))) == [FrameRole.NOISE]


# nothing is ever lost


REQUESTS = (
    READ,
    read_request(3, "input", 400, 10),
    read_request(3, "coil", 0, 11),
    read_request(3, "discrete", 0, 4),
    write_register(3, 310, 8330),
    write_registers(3, 310, [1, 2, 3]),
    write_coil(3, 0, True),
    write_coils(3, 0, [True] * 9),
    query_data_request(READ, 0xA537),
    mask_write(3, 300, 0xFFFE, 1),
    replace(READ, count=0),
)


@settings(deadline=None, max_examples=500)
@given(
    request=st.sampled_from(REQUESTS),
    pieces=st.lists(
        st.one_of(
            st.binary(max_size=12),
            st.sampled_from(["request", "answer", "exception", "other", "cut", "bad"]),
        ),
        max_size=5,
    ),
    rtu=st.booleans(),
    faulty=st.booleans(),
)
def test_the_parts_put_together_are_the_bytes_that_arrived(
    request: Request, pieces: list[bytes | str], rtu: bool, faulty: bool, names: RegisterNames
) -> None:
    answer = request.answer_head + bytes(request.answer_length - len(request.answer_head))
    frame = framed(request, answer) if rtu else mbap(7, request.unit, answer)
    known = {
        "request": request.rtu if rtu else request.mbap(7),
        "answer": frame,
        "exception": framed(request, bytes((request.function | 0x80, 2))),
        "other": framed(request, answer, unit=9) if rtu else mbap(8, 9, answer),
        "cut": frame[:-2],
        "bad": frame[:-1] + bytes((frame[-1] ^ 0x10,)),
    }
    received = b"".join(piece if isinstance(piece, bytes) else known[piece] for piece in pieces)
    fault = SILENT if faulty else None
    transaction = serial(request, received, fault) if rtu else network(request, received, fault)
    told = explain(transaction, names)
    assert told.sent.data == transaction.sent
    assert b"".join(frame.data for frame in told.received) == received
    assert all(part.data and part.name and part.words for frame in told.received for part in frame.parts)
    assert not wrong(told.sent)
