from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.project.model import UNCHOSEN_HOST, Follower, SerialLine, SerialOverTcpLine, TcpLine

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


def test_two_lines_on_one_serial_port(good: Draft) -> None:
    broken = good.change(("follower", 1), line="second").add(SerialLine(name="second", device="/dev/ttyUSB0"))
    broken = broken.without(("line", 1))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("device-shared", "error", ("line", 1))
    assert broken.change(("line", 1), device="/dev/ttyUSB1").clean()


@pytest.mark.parametrize(
    ("one", "other", "same"), [("COM3", "com3", True), ("COM3", "\\\\.\\COM3", True), ("/dev/a", "/dev/A", False)]
)
def test_the_names_of_serial_ports(good: Draft, one: str, other: str, same: bool) -> None:
    draft = good.change(("line", 0), device=one).change(("follower", 1), line="second")
    draft = draft.add(SerialLine(name="second", device=other)).without(("line", 1))
    assert any(finding.rule == "device-shared" for finding in draft.all()) == same


def test_two_lines_to_one_address(good: Draft) -> None:
    broken = good.change(("follower", 0), line="second").add(TcpLine(name="second", host="192.0.2.7"))
    broken = broken.without(("line", 0))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("device-shared", "warning", ("line", 1))
    assert broken.change(("line", 1), port=503).clean()


@pytest.mark.parametrize("kind", [TcpLine, SerialOverTcpLine])
@pytest.mark.parametrize("host", [UNCHOSEN_HOST, "Drive.Invalid."])
def test_a_line_whose_address_nobody_has_chosen(
    good: Draft, kind: type[TcpLine] | type[SerialOverTcpLine], host: str
) -> None:
    broken = good.without(("line", 1)).add(kind(name="yard", host=host))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("no-address", "error", ("line", 1, "host"))
    assert broken.change(("line", 1), host="192.0.2.9").clean()
    assert broken.change(("line", 1), host="invalid.example").clean()


def test_two_followers_at_one_unit(good: Draft) -> None:
    broken = good.change(("follower", 1), line="hall", unit=3).without(("line", 1))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("unit-clash", "error", ("follower", 1))
    assert broken.change(("follower", 1), unit=4).clean()


def test_the_same_unit_on_another_line_is_fine(good: Draft) -> None:
    assert good.change(("follower", 1), unit=3).clean()


@pytest.mark.parametrize(
    ("unit", "said"),
    [(0, "unit address 0 is the broadcast address"), (255, "unit address 255 is for Modbus TCP only")],
)
def test_a_unit_that_only_modbus_tcp_has(good: Draft, unit: int, said: str) -> None:
    broken = good.change(("follower", 0), unit=unit)
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("unit-of-tcp", "error", ("follower", 0, "unit"))
    assert said in finding.message
    assert broken.without(("line", 0)).add(TcpLine(name="hall", host="192.0.2.9")).clean()
    assert good.change(("follower", 1), unit=unit).clean(), "its line is Modbus TCP"


def test_the_same_through_a_converter(good: Draft) -> None:
    through = SerialOverTcpLine(name="yard", host="192.0.2.7")
    broken = good.change(("follower", 1), unit=255).without(("line", 1)).add(through)
    assert broken.only().rule == "unit-of-tcp"


def test_a_follower_polled_less_often_than_it_waits(good: Draft) -> None:
    broken = good
    for name in ("command", "speed set", "status", "frequency", "power"):
        broken = broken.signal(name, every_ms=3000)
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("polled-too-slowly", "warning", ("follower", 0))
    assert broken.signal("status", every_ms=1000).clean()
    assert broken.change(("follower", 0), communication_timeout_ms=5000).clean()


def test_a_set_point_refreshed_less_often_than_the_follower_waits(good: Draft) -> None:
    broken = good.signal("speed set", refresh_ms=3000)
    finding, by_itself = broken.all()
    assert (finding.rule, finding.severity) == ("refreshed-too-slowly", "warning")
    assert finding.place == good.place("signal", "speed set")
    assert by_itself.rule == "written-by-itself"
    assert broken.signal("speed set", refresh_ms=1000).only().rule == by_itself.rule


def test_a_follower_is_named_only_once_for_its_time_out(good: Draft) -> None:
    spare = Follower(name="spare", line="yard", unit=9, communication_timeout_ms=100)
    assert good.add(spare).only().rule == "unused"


def test_a_simulated_drive_that_no_signal_reaches(good: Draft) -> None:
    drive = good.change(("follower", 1), simulate="drive").signal("lamp", number=5)
    assert drive.clean(), "coil 5, address 4, is the run bit of the built-in control word"
    broken = drive.signal("lamp", number=100)
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("drive-without-role", "note", ("follower", 1))
    assert broken.signal("lamp", drive_role="run").clean()
    assert broken.change(("follower", 1), simulate="bank").clean()


def test_a_command_bit_of_a_simulated_drive_that_goes_by_a_control_word(good: Draft) -> None:
    assert good.signal("run", drive_role="run").clean()
    broken = good.signal("command", drive_role="control-word").signal("run", drive_role="run")
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("role-without-effect", "warning")
    assert finding.place == good.place("signal", "run")
    assert "command: run" in finding.message
    assert "'command'" in finding.message
    assert broken.signal("command", drive_role=None).clean()
    assert broken.change(("follower", 0), simulate="bank").clean()


@pytest.mark.parametrize(
    ("name", "number", "word", "severity"),
    [
        ("run", 0, "control word", "warning"),
        ("running", 3, "status word", "note"),
        ("fault", 0, "status word", "note"),
    ],
)
def test_a_bit_that_means_nothing_to_a_simulated_drive(
    good: Draft, name: str, number: int, word: str, severity: str
) -> None:
    of = good.project.signal_named[name].bit.of  # type: ignore[union-attr]
    broken = good.signal(name, bit={"of": of, "number": number})
    finding = broken.only()
    assert (finding.rule, finding.severity) == ("bit-without-meaning", severity)
    assert finding.place == good.place("signal", name)
    assert f"bit {number} " in finding.message
    assert word in finding.message
    standard = {"model": "drive", "register_map": "iec-61800-7-201"}
    there = broken.change(("follower", 0), simulate=standard).all()
    assert finding.place not in [each.place for each in there], "to the standard's words it means something"
    assert broken.change(("follower", 0), simulate="bank").clean()
    assert broken.signal("frequency", drive_role="output-frequency").clean(), "now the registers are the project's"


def test_a_coil_that_means_nothing_to_a_simulated_drive(good: Draft) -> None:
    drive = good.change(("follower", 1), simulate="drive")
    assert drive.signal("lamp", number=1).only().rule == "bit-without-meaning"
    assert drive.signal("lamp", number=8).clean(), "address 7 is its fault reset"
