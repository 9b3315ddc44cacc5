"""`fanlight ports`, on lists of ports as pyserial gives them."""

from __future__ import annotations

import json

import pytest
from serial.tools.list_ports_common import ListPortInfo

from app.cli.parser import main


def info(device: str, **told: str) -> ListPortInfo:
    made = ListPortInfo(device)
    for name, text in told.items():
        setattr(made, name, text)
    return made


def have(monkeypatch: pytest.MonkeyPatch, *ports: ListPortInfo) -> None:
    monkeypatch.setattr("serial.tools.list_ports.comports", lambda: list(ports))


def test_all_that_the_system_tells(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    adapter = info("/dev/ttyQ7", description="Two-wire adapter", manufacturer="Works", serial_number="A12")
    have(monkeypatch, info("/dev/ttyQ9"), adapter)
    assert main(["ports", "--json"]) == 0
    first, second = json.loads(capsys.readouterr().out)["ports"]
    assert first == {
        "device": "/dev/ttyQ7",
        "description": "Two-wire adapter",
        "maker": "Works",
        "serial_number": "A12",
        "trouble": "",
        "to_do": "",
    }
    assert (second["device"], second["description"], second["maker"]) == ("/dev/ttyQ9", "", "")
    assert main(["ports"]) == 0
    assert capsys.readouterr().out.splitlines() == [
        "/dev/ttyQ7: Two-wire adapter, Works, serial number A12",
        "/dev/ttyQ9",
    ]


def test_why_a_port_cannot_be_opened(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    have(monkeypatch, info("/dev/ttyQ7"))
    monkeypatch.setattr("app.modbus.ports_here.port_trouble", lambda *_asked: "no permission")
    monkeypatch.setattr("sys.platform", "linux")
    assert main(["ports", "--json"]) == 0
    (one,) = json.loads(capsys.readouterr().out)["ports"]
    assert one["trouble"] == "no permission"
    assert "dialout" in one["to_do"]
    assert main(["ports"]) == 0
    assert capsys.readouterr().out.splitlines() == ["/dev/ttyQ7", f"  no permission: {one['to_do']}"]


def test_none_is_1(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    have(monkeypatch)
    assert main(["ports"]) == 1
    assert "no serial port" in capsys.readouterr().err


def test_a_system_that_does_not_tell_is_2(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    def comports() -> list[ListPortInfo]:
        raise OSError("no such service")

    monkeypatch.setattr("serial.tools.list_ports.comports", comports)
    assert main(["ports"]) == 2
    assert "no such service" in capsys.readouterr().err
