"""The requests that an unknown line is asked: against the standard's examples, and pymodbus as another reader."""

from __future__ import annotations

import random

import pytest
from pymodbus.pdu import DecodePDU
from pymodbus.pdu.device import DeviceInformationFactory
from pymodbus.pdu.mei_message import ReadDeviceInformationResponse

from app.probing import requests
from app.probing.probe import Probe, ProbeResult
from tests.staged_follower import crc


def answer(probe: Probe, pdu: bytes) -> ProbeResult:
    assert requests.is_answer(probe, pdu)
    return ProbeResult(probe, "exception" if pdu[0] & 0x80 else "answer", pdu)


@pytest.mark.parametrize(
    ("probe", "asked", "answered", "words"),
    [
        # MODBUS Application Protocol V1.1b3, examples of 6.1 to 6.4 (from memory).
        (requests.read(1, "coil", 0x13, 19), "01 0013 0013", "01 03 CD6B05", None),
        (requests.read(1, "discrete", 0xC4, 22), "02 00C4 0016", "02 03 ACDB35", None),
        (requests.read(1, "holding", 0x6B, 3), "03 006B 0003", "03 06 022B 0000 0064", (0x22B, 0, 0x64)),
        (requests.read(1, "input", 8, 1), "04 0008 0001", "04 02 000A", (10,)),
    ],
)
def test_the_standards_examples(probe: Probe, asked: str, answered: str, words: tuple[int, ...] | None) -> None:
    assert probe.pdu == bytes.fromhex(asked)
    result = answer(probe, bytes.fromhex(answered))
    if words is not None:
        assert requests.words_of(result) == words
    else:
        bits = requests.words_of(result)
        # 6.1: coils 27 to 20 are shown as CD hex, binary 1100 1101, coil 20 the lowest.
        lowest = int(answered.split()[2][:2], 16)
        assert bits[:8] == tuple(lowest >> place & 1 for place in range(8))
        assert len(bits) == int.from_bytes(probe.pdu[3:5], "big")


def test_identification_as_another_implementation_writes_it() -> None:
    named = {0: b"Maker of pumps", 1: b"P-7", 2: b"2.11"}
    probe = requests.identification(5)
    # V1.1b3, 6.21: request 2B 0E 01 00 (from memory).
    assert probe.pdu == bytes.fromhex("2B0E0100")
    theirs = ReadDeviceInformationResponse(read_code=1, information=named)
    pdu = bytes((43,)) + theirs.encode()
    assert requests.objects_of(answer(probe, pdu)) == (named, None)
    assert DeviceInformationFactory is not None


def test_identification_goes_on_where_the_device_says() -> None:
    pdu = bytes.fromhex("2B0E01 01 FF 02 01 00 03") + b"abc"
    assert requests.objects_of(answer(requests.identification(5), pdu)) == ({0: b"abc"}, 2)


@pytest.mark.parametrize(
    "probe",
    [
        requests.read(9, "holding", 4, 2),
        requests.read(9, "coil", 4, 2),
        requests.echo_query(9),
        requests.server_id(9),
        requests.identification(9),
    ],
)
def test_frames_are_read_by_another_implementation(probe: Probe) -> None:
    understood = DecodePDU(True).decode(probe.pdu)
    assert understood is not None
    assert understood.function_code == probe.function
    assert bytes((understood.function_code,)) + understood.encode() == probe.pdu
    frame = requests.rtu(probe)
    assert frame[:-2] == bytes((9,)) + probe.pdu
    assert frame[-2:] == crc(frame[:-2])
    assert requests.mbap(probe, 0x1234)[:7] == bytes.fromhex("12340000") + bytes((0, len(probe.pdu) + 1, 9))


def test_nothing_but_these_may_be_sent() -> None:
    for function in range(1, 128):
        for rest in (b"", b"\0\1\0\1", b"\0\1\0\1\2\0\1", b"\x0e\1\0", b"\0\0\0\0"):
            probe = Probe(1, bytes((function,)) + rest)
            if requests.may_be_sent(probe):
                assert function in {1, 2, 3, 4, 8, 17, 43}
    assert not requests.may_be_sent(Probe(1, bytes.fromhex("08 0001 0000")))  # restarts the device's communication
    assert not requests.may_be_sent(Probe(1, bytes.fromhex("2B0D0000")))
    assert not requests.may_be_sent(Probe(1, bytes.fromhex("03 0000 007E")))
    assert not requests.may_be_sent(Probe(1, b""))


@pytest.mark.parametrize(("address", "count"), [(-1, 1), (65536, 1), (65500, 100), (0, 0), (0, 126)])
def test_a_read_outside_of_the_standard_is_not_made(address: int, count: int) -> None:
    with pytest.raises(ValueError, match="cannot be read"):
        requests.read(1, "holding", address, count)


def test_answers_are_found_behind_noise_and_nothing_else_is() -> None:
    probe = requests.read(7, "holding", 0, 2)
    good = b"\x07\x03\x04\x00\x01\x00\x02"
    good += crc(good)
    refused = b"\x07\x83\x02"
    refused += crc(refused)
    assert requests.answers_in(probe, b"\xff\x00" + good)[0] == [good[1:-2]]
    assert requests.answers_in(probe, good + refused)[0] == [good[1:-2], refused[1:-2]]
    assert requests.answers_in(probe, good[:-1])[1]
    for place in range(8 * len(good)):
        turned = bytearray(good)
        turned[place // 8] ^= 1 << place % 8
        assert requests.answers_in(probe, bytes(turned))[0] == []
    other = b"\x07\x03\x02\x00\x01"  # one register, where two were asked for
    assert requests.answers_in(probe, other + crc(other))[0] == []


def test_chance_makes_hardly_an_answer() -> None:
    # CRC-16 lets one of 65 536 through; unit, function and length must fit as well.
    chance = random.Random(5)
    probe = requests.read(7, "holding", 0, 1)
    assert requests.answers_in(probe, chance.randbytes(300_000))[0] == []
