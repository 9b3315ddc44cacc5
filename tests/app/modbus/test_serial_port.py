"""What both ends of a serial line have to know of their port."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from app.modbus.serial_port import Parity, parity_letter, port_trouble


@pytest.mark.parametrize(("parity", "letter"), [("none", "N"), ("even", "E"), ("odd", "O")])
@pytest.mark.parametrize("device", ["COM3", "/dev/ttyS0", "/dev/ttyUSB1", "/dev/cu.usbserial-1"])
def test_a_port_has_the_parity_that_it_is_given(device: str, parity: Parity, letter: str) -> None:
    assert parity_letter(device, parity) == letter


@pytest.mark.skipif(os.name != "posix", reason="needs a pty")
def test_a_pseudo_terminal_has_none(tmp_path: Path) -> None:
    near, far = os.openpty()
    try:
        name, named = os.ttyname(far), tmp_path / "port"
        named.symlink_to(name)
        assert parity_letter(name, "even") == "N"
        assert parity_letter(str(named), "odd") == "N"
    finally:
        os.close(near)
        os.close(far)


@pytest.mark.skipif(os.name != "posix", reason="ports are files there")
def test_what_keeps_a_port_from_being_opened_is_told_without_opening_it(tmp_path: Path) -> None:
    master, slave = os.openpty()
    name = os.ttyname(slave)
    try:
        assert port_trouble(name, tmp_path) == "", "only this program has it open"
        handles = tmp_path / "4711" / "fd"
        handles.mkdir(parents=True)
        (handles / "3").symlink_to(name)
        assert port_trouble(name, tmp_path) == "in use"
        (handles / "3").unlink()
        (handles / "4").write_text("no link")
        assert port_trouble(name, tmp_path) == ""
    finally:
        os.close(master)
        os.close(slave)
    assert port_trouble(str(tmp_path / "gone")) == ""


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="the superuser may open everything")
def test_a_port_without_permission(tmp_path: Path) -> None:
    port = tmp_path / "ttyS9"
    port.touch(mode=0)
    assert port_trouble(str(port)) == "no permission"
