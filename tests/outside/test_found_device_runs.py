"""A project made from a found device, at that device: a bare socket with registers laid out here, by struct alone.

Every value that the running panel and its readings show is worked out from the same numbers in another way.
"""

from __future__ import annotations

import struct
from decimal import Decimal
from fractions import Fraction
from functools import partial

from app.checks import check
from app.client.endpoint import Endpoint
from app.discovery.into_project import ChosenDevice, NamedRegister, all_found, new_project
from app.probing.found import Found, FoundFollower, FoundRange
from app.project.model import Scale
from app.session.session import Session
from app.signals.reading import Quality
from tests.outside.lossy_device import LossyDevice
from tests.waiting import wait_for

MOST = 6
RANGES = (range(300, 312), range(400, 416))


class Device(LossyDevice):
    """Returns at most six registers at once, and refuses what lies outside of its two ranges."""

    def __init__(self) -> None:
        super().__init__("tcp", 0.0)
        self.refused = 0
        self.words = {310: 8330, 311: 0xFF9C}
        self._put(400, struct.pack(">I", 1_234_567), low_first=True)
        self._put(402, struct.pack(">f", 12.5), low_first=True)
        self._put(404, struct.pack(">d", -273.25), low_first=True)
        self._put(408, b"PUMP 7\0\0", low_first=False)
        self.words[412] = 1

    def _put(self, address: int, data: bytes, *, low_first: bool) -> None:
        words = struct.unpack(f">{len(data) // 2}H", data)
        self.words |= {address + at: word for at, word in enumerate(reversed(words) if low_first else words)}

    def _answer(self, pdu: bytes) -> bytes:
        address, count = struct.unpack(">HH", pdu[1:5])
        inside = any(address in part and address + count - 1 in part for part in RANGES)
        if pdu[0] != 3 or not inside or count > MOST:
            self.refused += 1
            return bytes((pdu[0] | 0x80, 2))
        return super()._answer(pdu)


NAMED = (
    NamedRegister(
        "speed",
        "holding",
        310,
        scale=Scale(raw=(Decimal(0), Decimal(10_000)), value=(Decimal(0), Decimal(50))),
        unit="Hz",
        decimals=2,
    ),
    NamedRegister("torque", "holding", 311, "int16", unit="%"),
    NamedRegister("energy", "holding", 400, "uint32", word_order="low-first", unit="kWh"),
    NamedRegister("pressure", "holding", 402, "float32", word_order="low-first", unit="bar", decimals=1),
    NamedRegister("cold", "holding", 404, "float64", word_order="low-first", unit="°C", decimals=2),
    NamedRegister("name", "holding", 408, "string", length=4),
    NamedRegister("state", "holding", 412, texts={"0": "stopped", "1": "running", "otherwise": "?"}),
)
HELD = {
    "speed": Fraction(8330) * 50 / 10_000,
    "torque": -100,
    "energy": 1_234_567,
    "pressure": Fraction("12.5"),
    "cold": Fraction("-273.25"),
    "name": "PUMP 7",
    "state": 1,
}


def found_of(unit: int) -> Found:
    ranges = tuple(FoundRange("holding", part[0], part[-1]) for part in RANGES)
    return Found(followers=(FoundFollower(unit, 1.0, 2.0, (3,), longest_read=MOST, ranges=ranges),))


def test_the_project_runs_at_the_device_and_shows_what_it_holds() -> None:
    with Device() as device:
        found = found_of(17)
        place = Endpoint.tcp("127.0.0.1", int(device.where))
        project = new_project(place, found, [ChosenDevice(found.followers[0], NAMED, "mixer", "prefixed")])
        assert not [finding for finding in check(project) if finding.severity == "error"]
        with Session(project) as session:

            def face() -> str:
                session.panel.tick()
                return "\n".join(row.text for row in session.panel.rows())

            def all_on(page: list[str]) -> bool:
                return all(shown in face() for shown in page)

            wait_for(lambda: all(each.quality is Quality.GOOD for each in session.snapshot().readings.values()))
            assert {name: each.value for name, each in session.snapshot().readings.items()} == HELD
            for page in (["41.65 Hz", "-100 %"], ["1234567 kWh"], ["12.5 bar", "-273.25 °C"], ["PUMP 7", "running"]):
                wait_for(partial(all_on, page))
                session.panel.key_down("right")
                session.panel.key_up("right")
        assert not device.refused, "limits and ranges that were found are kept"
        assert not device.log, "nothing is written"


def test_without_any_names_its_first_registers_are_live_as_they_are() -> None:
    with Device() as device:
        found = found_of(1)
        project = new_project(Endpoint.tcp("127.0.0.1", int(device.where)), found, all_found(found))
        with Session(project) as session:
            wait_for(lambda: all(each.quality is Quality.GOOD for each in session.snapshot().readings.values()))
            values = {name: each.value for name, each in session.snapshot().readings.items()}
        expected = {f"holding register {at}": device.words.get(at, 0) for at in range(300, 312)}
        assert values == expected
        assert not device.refused
