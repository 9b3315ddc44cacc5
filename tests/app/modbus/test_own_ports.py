"""The serial ports that this program has open: of the session, of a search, of a simulated device."""

from __future__ import annotations

import os

import pytest

from app.client.endpoint import Endpoint
from app.modbus.own_ports import own_ports, port_path
from app.probing.line import ReadingLine
from tests.staged_follower import StagedFollower


def test_one_name_of_a_port_on_windows() -> None:
    assert port_path("COM3") == port_path("\\\\.\\com3") != port_path("COM30")


@pytest.mark.skipif(os.name != "posix", reason="no ptys")
def test_a_port_counts_from_when_a_search_opens_it_until_it_is_closed() -> None:
    with StagedFollower("serial", lambda _: []) as device:
        path = port_path(device.endpoint.device)
        assert path not in own_ports()
        with ReadingLine(Endpoint.serial(device.endpoint.device)):
            assert path in own_ports()
        assert path not in own_ports()
