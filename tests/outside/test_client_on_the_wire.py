"""Our client's bytes against the standard's examples, and our client against an independent server."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator
from fractions import Fraction

import pytest
from pymodbus.pdu.register_message import ReadHoldingRegistersResponse
from pyModbusTCP.server import ModbusServer

from app.client.client import Answer, Client
from app.client.endpoint import Endpoint
from app.line.engine import Engine
from app.modbus.crc import crc_fits
from app.modbus.requests import (
    Request,
    bits_of,
    read_request,
    registers_of,
    write_coil,
    write_coils,
    write_register,
    write_registers,
)
from app.project.model import Bit, BitSignal, RegisterSignal, TcpLine
from tests.builders import pump_project
from tests.staged_follower import StagedFollower, crc
from tests.waiting import wait_for

# MODBUS Application Protocol Specification V1.1b3, the examples of sections 6.1 to 6.12 (from memory). PDUs only; the
# specification leaves the frame around them to the line.
EXAMPLES = [
    pytest.param(read_request(1, "coil", 19, 19), "01 00 13 00 13", "01 03 CD 6B 05", id="6.1 coils 20 to 38"),
    pytest.param(read_request(1, "discrete", 196, 22), "02 00 C4 00 16", "02 03 AC DB 35", id="6.2 inputs 197 to 218"),
    pytest.param(
        read_request(1, "holding", 107, 3), "03 00 6B 00 03", "03 06 02 2B 00 00 00 64", id="6.3 registers 108 to 110"
    ),
    pytest.param(read_request(1, "input", 8, 1), "04 00 08 00 01", "04 02 00 0A", id="6.4 input register 9"),
    pytest.param(write_coil(1, 172, True), "05 00 AC FF 00", "05 00 AC FF 00", id="6.5 coil 173 on"),
    pytest.param(write_register(1, 1, 3), "06 00 01 00 03", "06 00 01 00 03", id="6.6 register 2 := 3"),
    pytest.param(
        # CD 01: bits 11001101 01, coil 20 first.
        write_coils(1, 19, [True, False, True, True, False, False, True, True, True, False]),
        "0F 00 13 00 0A 02 CD 01",
        "0F 00 13 00 0A",
        id="6.11 coils 20 to 29",
    ),
    pytest.param(
        write_registers(1, 1, [0x000A, 0x0102]),
        "10 00 01 00 02 04 00 0A 01 02",
        "10 00 01 00 02",
        id="6.12 registers 2 and 3",
    ),
]


def exchange(endpoint: Endpoint, request: Request) -> Answer:
    async def once() -> Answer:
        client = Client("line", endpoint, lambda _: None)
        await client.open()
        try:
            return await client.exchange(request)
        finally:
            client.close()

    return asyncio.run(once())


@pytest.mark.parametrize("kind", ["tcp", "serial-over-tcp"])
@pytest.mark.parametrize(("request_", "asked", "answer"), EXAMPLES)
def test_the_standards_examples_on_the_wire(kind: str, request_: Request, asked: str, answer: str) -> None:
    pdu = bytes.fromhex(answer)
    with StagedFollower(kind, lambda asked: [asked.framed(pdu)], timeout_ms=2000) as follower:
        assert exchange(follower.endpoint, request_).pdu == pdu
        sent = bytes.fromhex(asked)
        if kind == "tcp":
            # MBAP header: transaction, protocol 0, length of what follows, unit.
            assert follower.stream[2:] == b"\0\0" + (len(sent) + 1).to_bytes(2, "big") + b"\1" + sent
            assert follower.stream[:2] != b"\0\0"
        else:
            # Ahead of what looks like its own echo, a read may find out whether the line gives one.
            frame = b"\1" + sent + crc(b"\1" + sent)
            assert follower.stream.endswith(frame)
            assert len(follower.stream) == len(frame) * (2 if request_.echo_could_answer else 1)


def test_what_the_standards_examples_mean() -> None:
    # V1.1b3 (from memory), 6.3: register 108 holds 022Bh = 555, 109 is 0, 110 is 64h = 100.
    assert registers_of(bytes.fromhex("03 06 02 2B 00 00 00 64")) == (555, 0, 100)
    # 6.1: coils 27 to 20 are CDh = 1100 1101; 38 to 36 are 101.
    bits = bits_of(bytes.fromhex("01 03 CD 6B 05"), 19)
    assert bits[:8] == (True, False, True, True, False, False, True, True)
    assert bits[16:] == (True, False, True)


@pytest.mark.parametrize("count", [1, 2, 125])
def test_registers_are_those_that_pymodbus_decodes(count: int) -> None:
    pdu = bytes((3, 2 * count)) + bytes(index * 37 % 256 for index in range(2 * count))
    theirs = ReadHoldingRegistersResponse()
    theirs.decode(pdu[1:])
    assert registers_of(pdu) == tuple(theirs.registers)


def test_the_check_value_of_the_crc() -> None:
    # Catalogue of parametrised CRC algorithms: CRC-16/MODBUS of "123456789" is 4B37h; low byte first on the wire.
    assert crc_fits(b"123456789" + b"\x37\x4b")
    assert not crc_fits(b"123456789" + b"\x4b\x37")
    assert crc(b"123456789") == b"\x37\x4b"


@pytest.mark.parametrize("table", ["coil", "discrete", "holding", "input"])
def test_the_standards_limits(table: str) -> None:
    # V1.1b3 (from memory): at most 2000 bits or 125 registers in one read.
    most = 125 if table in ("holding", "input") else 2000
    read_request(1, table, 0, most)  # type: ignore[arg-type]
    for count in (0, most + 1):
        with pytest.raises(ValueError, match="count"):
            read_request(1, table, 0, count)  # type: ignore[arg-type]


@pytest.fixture
def server() -> Iterator[ModbusServer]:
    server = ModbusServer("127.0.0.1", 0, no_block=True)
    server.start()
    yield server
    server.stop()


def test_reading_and_writing_an_independent_server(server: ModbusServer) -> None:
    port = server._service.server_address[1]
    bank = server.data_bank
    bank.set_holding_registers(100, [0x1234, 0xFFFF, 0x4148, 0x0000, 0b1010])
    bank.set_input_registers(7, [42])
    bank.set_coils(3, [True])
    bank.set_discrete_inputs(4, [True])

    def signal(name: str, number: int, **more: object) -> RegisterSignal:
        return RegisterSignal(
            **{"name": name, "follower": "pump", "register": number, "every_ms": 30, "write": True, **more}  # type: ignore[arg-type]
        )

    project = pump_project(
        signal("count", 100),
        signal("signed", 101, encoding="int16"),
        signal("real", 102, encoding="float32"),
        signal("word", 104),
        BitSignal(name="bit", bit=Bit(of="word", number=2), write=True),
        signal("input", 7, table="input", write=False),
        signal("coil", 3, table="coil"),
        signal("discrete", 4, table="discrete", write=False),
        line=TcpLine(name="net", host="127.0.0.1", port=port),
        unit=1,
    )
    engine = Engine(project, {"net": Endpoint.of_line(project.lines[0])}, armed=["net"])
    engine.start()
    try:
        wait_for(lambda: all(reading.good for reading in engine.snapshot().readings.values()))
        values = {name: reading.value for name, reading in engine.snapshot().readings.items()}
        assert values == {
            "count": 0x1234,
            "signed": -1,
            "real": Fraction("12.5"),  # IEEE 754: 41480000h
            "word": 10,
            "bit": 0,
            "input": 42,
            "coil": 1,
            "discrete": 1,
        }
        for name, value in (("count", 77), ("signed", -5), ("real", Fraction("-0.75")), ("bit", 1), ("coil", 0)):
            report = engine.write(name, value).result(5)
            assert report.ok, report
        assert bank.get_holding_registers(100, 5) == [77, 0xFFFB, 0xBF40, 0x0000, 0b1110]
        assert bank.get_coils(3) == [False]
    finally:
        engine.stop()
