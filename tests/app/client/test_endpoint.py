"""Where a line leads, from a project and from the command line."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from app.client.endpoint import BadEndpoint, Endpoint
from app.project.model import SerialLine, SerialOverTcpLine, TcpLine

SERIAL = SerialLine(name="a", device="/dev/ttyUSB0", baud=9600, parity="none", stop_bits=2, timeout_ms=700)
TCP = TcpLine(name="a", host="10.0.0.5", port=1502, timeout_ms=250)


def test_a_line_of_each_kind() -> None:
    assert Endpoint.of_line(SERIAL) == Endpoint.serial(
        "/dev/ttyUSB0", baud=9600, parity="none", stop_bits=2, timeout_ms=700
    )
    assert Endpoint.of_line(TCP) == Endpoint.tcp("10.0.0.5", 1502, timeout_ms=250)
    assert Endpoint.of_line(SerialOverTcpLine(name="a", host="h", port=7)) == Endpoint.serial_over_tcp("h", 7)


@pytest.mark.parametrize(
    "text",
    ["tcp://localhost:5020", "tcp://[::1]:502", "serial:/dev/ttyS0", "serial:COM3", "serial+tcp://conv-1.local:4001"],
)
def test_what_is_parsed_reads_the_same(text: str) -> None:
    assert str(Endpoint.parse(text, TCP)) == text


def test_what_the_text_does_not_say_is_the_lines() -> None:
    assert Endpoint.parse("serial:/dev/ttyS1", SERIAL) == Endpoint.serial(
        "/dev/ttyS1", baud=9600, parity="none", stop_bits=2, timeout_ms=700
    )
    assert Endpoint.parse("serial:/dev/ttyS1", TCP) == Endpoint.serial("/dev/ttyS1", timeout_ms=250)
    assert Endpoint.parse("tcp://h:1", SERIAL).timeout_ms == 700


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("", "tcp://HOST:PORT"),
        ("localhost:502", "serial:DEVICE"),
        ("udp://h:1", "serial+tcp://HOST:PORT"),
        ("tcp://h", "tcp://h:502"),
        ("tcp://:502", "tcp://192.168.0.10:502"),
        ("tcp://h:0", "1..65535"),
        ("tcp://h:70000", "1..65535"),
        ("tcp://h:x", "tcp://HOST:PORT"),
        ("tcp://::1:502", "tcp://HOST:PORT"),
        ("serial:", "serial:COM3"),
    ],
)
def test_what_names_no_endpoint_is_told_what_would(text: str, hint: str) -> None:
    with pytest.raises(BadEndpoint) as refused:
        Endpoint.parse(text, TCP)
    assert hint in str(refused.value)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("tcp://localhost:502", "tcp://127.0.0.1:502", True),
        ("tcp://[::1]:502", "tcp://LOCALHOST:502", True),
        ("tcp://drive-1.local:502", "serial+tcp://Drive-1.local:502", True),
        ("tcp://10.0.0.5:502", "tcp://10.0.0.5:503", False),
        ("tcp://10.0.0.5:502", "tcp://10.0.0.6:502", False),
        ("serial:/dev/ttyS0", "tcp://10.0.0.5:502", False),
        ("serial:/dev/ttyS0", "serial:/dev/ttyS1", False),
    ],
)
def test_places_by_any_of_their_names(one: str, other: str, same: bool) -> None:
    assert Endpoint.parse(one, TCP).same_place(Endpoint.parse(other, SERIAL)) is same


@pytest.mark.skipif(sys.platform == "win32", reason="links need a right of their own there")
def test_a_port_by_a_link_to_it_is_the_same_port(tmp_path: Path) -> None:
    port, link = tmp_path / "ttyUSB0", tmp_path / "usb-adapter"
    port.touch()
    link.symlink_to(port)
    assert Endpoint.serial(str(link)).same_place(Endpoint.serial(str(port), baud=9600, parity="none"))
