"""What a project says of a line that is searched, and what of it goes back into a project."""

from __future__ import annotations

from app.client.endpoint import Endpoint
from app.discovery.first_screens import first_panel
from app.discovery.into_project import added_to, all_found
from app.discovery.known_line import KnownLine, known_line
from app.probing.found import Found, FoundFollower, FoundRange
from app.probing.untouched import parse_untouched, untouched_text
from app.project.model import Follower, NeverRead, Project, TcpLine

PROJECT = Project(
    panel=first_panel()[0],
    lines=(TcpLine(name="line", host="192.0.2.1"), TcpLine(name="other", host="192.0.2.2")),
    followers=(
        Follower(
            name="pump",
            line="line",
            unit=3,
            numbering="prefixed",
            never_read=(
                NeverRead(table="holding", first=40_101, last=40_120),
                NeverRead(table="input", first=30_008, last=30_008),
            ),
        ),
        Follower(
            name="fan",
            line="line",
            unit=4,
            numbering="from-1",
            never_read=(NeverRead(table="coil", first=1, last=10),),
        ),
        Follower(name="elsewhere", line="other", never_read=(NeverRead(table="holding", first=0, last=9),)),
    ),
)


def test_all_devices_of_the_line_are_protected_in_wire_addresses() -> None:
    known = known_line(PROJECT, "line")
    assert untouched_text(known.never_read[3]) == "holding:100-119, input:7"
    assert untouched_text(known.never) == "holding:100-119, input:7, coil:0-9"
    assert known.numbering == {3: "prefixed", 4: "from-1"}


def test_what_is_said_of_one_device_is_not_made_another_ones() -> None:
    """A signal of the fan may well stand where the pump must not be read."""
    known = known_line(PROJECT, "line")
    never = parse_untouched("holding:100-119, input:7, coil:0-9, holding:50")
    found = Found(followers=tuple(FoundFollower(unit, ranges=(FoundRange("holding", 0, 1),)) for unit in (3, 4, 9)))
    devices = all_found(found, never, known)
    assert [device.numbering for device in devices] == ["prefixed", "from-1", "from-0"]
    fifty = FoundRange("holding", 50, 50)
    assert [device.never_read for device in devices] == [
        (FoundRange("holding", 100, 119), fifty, FoundRange("input", 7, 7)),
        (fifty, FoundRange("coil", 0, 9)),
        (fifty,),
    ]
    after = added_to(PROJECT, Endpoint.tcp("192.0.2.1"), found, devices)
    new = [NeverRead(table="holding", first=number, last=number) for number in (40_051, 51, 50)]
    assert [after.follower_named[name].never_read for name in ("pump", "fan")] == [
        (*PROJECT.followers[0].never_read, new[0]),
        (*PROJECT.followers[1].never_read, new[1]),
    ]
    assert after.followers[-1].never_read == (new[2],)


def test_nothing_known_leaves_all_as_it_was() -> None:
    assert KnownLine().never == {}
    assert KnownLine().never_read_of(5, {"holding": [range(3, 5)]}) == (FoundRange("holding", 3, 4),)
