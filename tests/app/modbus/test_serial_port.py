"""What both ends of a serial line have to know of their port."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from app.modbus.serial_port import Parity, parity_letter


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
