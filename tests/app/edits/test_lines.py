"""Lines and followers."""

from __future__ import annotations

import pytest

from app import edits
from app.edits import EditRefused
from app.project.model import Follower, Project, SerialLine, TcpLine
from app.project.references import dangling


def test_a_line_is_added(project: Project) -> None:
    line = TcpLine(name="roof", host="192.0.2.1")
    assert edits.add_line(project, line).lines == (*project.lines, line)
    with pytest.raises(EditRefused, match="there is already a line 'hall'"):
        edits.add_line(project, TcpLine(name="hall", host="192.0.2.1"))


def test_a_line_is_changed(project: Project) -> None:
    assert edits.change_line(project, "hall", baud=9600).lines[0] == SerialLine(name="hall", device="COM3", baud=9600)
    assert edits.change_line(project, "hall", baud=19_200) is project
    with pytest.raises(EditRefused, match="parity: must be 'none', 'even' or 'odd', not 'mark'"):
        edits.change_line(project, "hall", parity="mark")
    with pytest.raises(EditRefused, match="line 'hal' does not exist; did you mean 'hall'"):
        edits.change_line(project, "hal", baud=9600)


def test_a_line_of_another_kind_keeps_its_name(project: Project) -> None:
    after = edits.replace_line(project, "hall", TcpLine(name="x", host="192.0.2.1"))
    assert after.lines == (TcpLine(name="hall", host="192.0.2.1"),)
    assert dangling(after) == ()


def test_followers_go_along_with_a_renamed_line(project: Project) -> None:
    after = edits.change_line(project, "hall", name="north hall", baud=9600)
    assert after.lines[0] == SerialLine(name="north hall", device="COM3", baud=9600)
    assert after.followers[0].line == "north hall"


def test_a_line_with_followers_stays(project: Project) -> None:
    with pytest.raises(EditRefused, match="line 'hall' cannot be deleted: it is used by device 'fan'"):
        edits.delete_parts(project, "line", [0])
    free = edits.add_line(project, TcpLine(name="roof", host="h"))
    assert edits.delete_parts(free, "line", [1]) == project


def test_a_follower_is_added(project: Project) -> None:
    follower = Follower(name="pump", line="hall", unit=2)
    assert edits.add_follower(project, follower).followers == (*project.followers, follower)
    with pytest.raises(EditRefused, match="there is already a device 'fan'"):
        edits.add_follower(project, Follower(name="fan", line="hall"))
    with pytest.raises(EditRefused, match="line 'roof' does not exist"):
        edits.add_follower(project, Follower(name="pump", line="roof"))


def test_a_follower_is_changed(project: Project) -> None:
    after = edits.change_follower(project, "fan", unit=7, name="roof fan")
    assert after.followers[0] == Follower(name="roof fan", line="hall", unit=7)
    assert [getattr(signal, "follower", "roof fan") for signal in after.signals] == ["roof fan"] * 5
    assert edits.change_follower(project, "fan", unit=1) is project
    for unit in (0, 255, 247):
        assert edits.change_follower(project, "fan", unit=unit).followers[0].unit == unit
    for unit in (-1, 248, 254, 256):
        with pytest.raises(EditRefused, match=f"unit: {unit} is not a unit address; use 1 to 247, on"):
            edits.change_follower(project, "fan", unit=unit)
    with pytest.raises(EditRefused, match="line 'roof' does not exist"):
        edits.change_follower(project, "fan", line="roof")
    with pytest.raises(EditRefused, match="device 'van' does not exist; did you mean 'fan'"):
        edits.change_follower(project, "van", unit=2)


def test_a_follower_that_is_read_stays(project: Project) -> None:
    with pytest.raises(EditRefused, match="device 'fan' cannot be deleted: it is used by signal 'speed', signal 'comm"):
        edits.delete_parts(project, "follower", [0])
    free = edits.add_follower(project, Follower(name="pump", line="hall", unit=2))
    assert edits.delete_parts(free, "follower", [1]) == project


def test_a_long_list_of_uses_is_cut_short(project: Project) -> None:
    many = project
    for _ in range(20):
        many = edits.duplicate_signal(many, "speed")
    with pytest.raises(EditRefused, match="and 10 more") as caught:
        edits.delete_parts(many, "follower", [0])
    assert len(caught.value.uses) == 22


def test_followers_change_places(project: Project) -> None:
    two = edits.add_follower(project, Follower(name="pump", line="hall", unit=2))
    assert [follower.name for follower in edits.order_parts(two, "follower", [1, 0]).followers] == ["pump", "fan"]
