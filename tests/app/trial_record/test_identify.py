"""What devices call themselves, from devices that share no code with the program."""

from __future__ import annotations

from app.client.endpoint import Endpoint
from app.trial_record.identify import identification
from tests.builders import pump_project, word
from tests.staged_follower import Asked, StagedFollower


def refusing(asked: Asked) -> list[bytes]:
    return [asked.framed(bytes([asked.pdu[0] | 0x80, 1]))]


def named(asked: Asked) -> list[bytes]:
    """Function 17 as in V1.1b3, 6.13: the rest is refused."""
    return [asked.framed(b"\x11\x06NW-5k\xff")] if asked.pdu[0] == 17 else refusing(asked)


def test_a_device_is_asked_by_the_functions_that_the_standard_has_for_it() -> None:
    with StagedFollower("tcp", named) as device:
        project = pump_project(word("speed", 0))
        assert identification(project, {"bus": device.endpoint}) == {"pump": {"ServerId": "NW-5k"}}
        assert {asked.pdu[0] for asked in device.asked} <= {17, 43}


def test_a_device_that_says_nothing_or_is_not_there_has_no_name() -> None:
    project = pump_project(word("speed", 0))
    with StagedFollower("tcp", refusing) as device:
        assert identification(project, {"bus": device.endpoint}) == {}
        gone = device.endpoint
    assert identification(project, {"bus": gone}) == {}
    assert identification(project, {"bus": Endpoint.serial("/dev/there-is-none")}) == {}
