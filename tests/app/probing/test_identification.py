"""What a device calls itself, on modelled lines; the bytes are another implementation's."""

from __future__ import annotations

import pytest
from pymodbus.pdu.mei_message import ReadDeviceInformationResponse
from pymodbus.pdu.other_message import ReportDeviceIdResponse

from app.probing.identification import identify, reading_functions, text_of
from tests.modelled_line import HiddenDevice, ModelledLine

BASIC = {0: b"Works of our own", 1: b"HX-4", 2: b"1.07"}
REGULAR = {3: b"", 4: b"Hoist drive", 5: b"HX"}


def device(pdu: bytes) -> bytes:
    if pdu[0] == 17:
        theirs = ReportDeviceIdResponse(identifier=b"HX\x004 drive", status=True)
        return bytes((17,)) + theirs.encode()
    if pdu[0] == 43:
        objects = BASIC if pdu[2] == 1 else REGULAR
        return bytes((43,)) + ReadDeviceInformationResponse(read_code=pdu[2], information=dict(objects)).encode()
    if pdu[0] in (3, 4):
        return bytes((pdu[0], 2, 0, 1)) if pdu[0] == 3 else bytes((pdu[0] | 0x80, 2))
    return bytes((pdu[0] | 0x80, 1))


def test_all_names_that_it_gives() -> None:
    names, functions = identify(ModelledLine([HiddenDevice(own=device)]), 1, 0.1)
    assert names == {
        "VendorName": "Works of our own",
        "ProductCode": "HX-4",
        "MajorMinorRevision": "1.07",
        "ProductName": "Hoist drive",
        "ModelName": "HX",
        "ServerId": "HX 4 drive",
    }
    assert functions == {17, 43}


def test_one_that_gives_none() -> None:
    line = ModelledLine([HiddenDevice()])
    assert identify(line, 1, 0.1) == ({}, set())
    assert sum(line.sent.values()) == 2


def test_one_that_always_says_that_more_follows() -> None:
    def endless(pdu: bytes) -> bytes:
        return bytes((43, 14, 1, 1, 0xFF, 0, 1, 0, 1)) + b"x" if pdu[0] == 43 else bytes((pdu[0] | 0x80, 1))

    names, _ = identify(ModelledLine([HiddenDevice(own=endless)]), 1, 0.1)
    assert names == {"VendorName": "x"}


def test_functions_that_read() -> None:
    # Exception 02 says that the function is there, exception 01 that it is not (V1.1b3, section 7, from memory).
    assert reading_functions(ModelledLine([HiddenDevice(own=device)]), 1, 0.1) == {3, 4}
    assert reading_functions(ModelledLine([]), 1, 0.1) == set()


@pytest.mark.parametrize("code", [10, 11])
def test_what_a_gateway_says_of_a_silent_device_is_no_function_of_it(code: int) -> None:
    def behind(pdu: bytes) -> bytes:
        return device(pdu) if pdu[0] in (3, 17) else bytes((pdu[0] | 0x80, code))

    line = ModelledLine([HiddenDevice(own=behind)], "tcp")
    assert reading_functions(line, 1, 0.1) == {3}
    assert identify(line, 1, 0.1) == ({"ServerId": "HX 4 drive"}, {17})


@pytest.mark.parametrize(
    ("held", "said"),
    [(b"Drive\x00\x00", "Drive"), (b"\x1b[2J<b>", "[2J<b>"), (b"\xb5C 2\xb0", "\xb5C 2\xb0"), (b"\x00\xff", "")],
)
def test_names_are_letters_alone(held: bytes, said: str) -> None:
    assert text_of(held) == said
