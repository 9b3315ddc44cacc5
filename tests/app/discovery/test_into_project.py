"""What was found, as a project: clean, with numbers as its manual counts; added to another one without a collision."""

from __future__ import annotations

import os
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from app.checks import check
from app.client.endpoint import Endpoint
from app.discovery.into_project import (
    ChosenDevice,
    NamedRegister,
    added_to,
    all_found,
    fitting_timeout_ms,
    new_project,
    save_found,
)
from app.edits.refused import EditRefused
from app.probing.found import Found, FoundFollower, FoundRange
from app.probing.probe import LineSettings
from app.project.binding import bind
from app.project.model import NeverRead, RegisterSignal, Scale, SerialLine, TcpLine
from app.project_file.files import ProjectSaveError, dump, load, parse
from tests.builders import fresh_project, pump_project, word

SCALE = Scale(raw=(Decimal(0), Decimal(10_000)), value=(Decimal(0), Decimal(50)))
FOLLOWER = FoundFollower(
    unit=17,
    response_ms=8.0,
    slow_response_ms=140.0,
    functions=(3, 4),
    identification={"VendorName": "Somebody", "ProductName": "Drive\n9"},
    longest_read=40,
    in_flight=2,
    ranges=(FoundRange("holding", 300, 320), FoundRange("holding", 400, 440)),
)
FOUND = Found(LineSettings(9600, "none", 2), None, (FOLLOWER,))
SERIAL = Endpoint.serial("/dev/ttyUSB3")
REGISTERS = (
    NamedRegister("speed", "holding", 310, scale=SCALE, unit="Hz", decimals=2),
    NamedRegister("energy", "holding", 400, "uint32", word_order="low-first", unit="kWh"),
    NamedRegister("hours", "holding", 402, "uint32", word_order="low-first", unit="h"),
    NamedRegister("torque", "holding", 404, "float32", unit="%", decimals=1),
    NamedRegister("state", "holding", 406, texts={"0": "stopped", "1": "running"}),
    NamedRegister("speed", "input", 5),
    NamedRegister("local", "coil", 7),
)
CHOSEN = ChosenDevice(FOLLOWER, REGISTERS, numbering="from-1", never_read=(FoundRange("holding", 410, 412),))


def test_a_new_project_says_all_that_was_found_and_is_clean() -> None:
    project = new_project(SERIAL, FOUND, [CHOSEN])
    assert not [finding for finding in check(project) if finding.severity == "error"]
    assert parse(dump(project)) == project
    (line,), (device,) = project.lines, project.followers
    assert line == SerialLine(
        name="ttyUSB3", device="/dev/ttyUSB3", baud=9600, parity="none", stop_bits=2, timeout_ms=450
    )
    assert (device.name, device.unit, device.max_registers) == ("Drive\u240a9", 17, 40)
    assert device.word_order == "low-first"
    assert not device.gaps, "between the two ranges the device refuses"
    assert device.never_read == (NeverRead(table="holding", first=411, last=413),)
    assert [signal.name for signal in project.signals] == [
        "speed", "energy", "hours", "torque", "state", "speed 2", "local",
    ]  # fmt: skip
    assert [bind(project, signal.name).address for signal in project.signals] == [310, 400, 402, 404, 406, 5, 7]
    torque = project.signal_named["torque"]
    assert isinstance(torque, RegisterSignal)
    assert (torque.number, torque.word_order) == (405, "high-first")
    assert "Somebody" in project.notes


def test_a_device_that_names_only_its_server_is_called_so() -> None:
    named = replace(FOLLOWER, identification={"ServerId": "HX 4 drive"})
    project = new_project(SERIAL, FOUND, [replace(CHOSEN, found=named)])
    assert (project.followers[0].name, project.title) == ("HX 4 drive", "HX 4 drive")


def test_its_screens_show_the_first_signals_and_keys_lead_to_the_rest() -> None:
    project = new_project(SERIAL, FOUND, [CHOSEN], title="Mixer")
    shown = [[field.signal for field in screen.fields] for screen in project.screens]
    assert shown == [["speed", "energy"], ["hours", "torque", "state"], ["speed 2", "local"]]
    assert project.screens[0].text[0] == "MIXER"
    assert {(change.key, change.to) for change in project.screen_changes} == {("right", "next"), ("left", "previous")}


def test_a_name_that_does_not_fit_beside_its_value_stands_whole_above_it() -> None:
    """16 columns and 2 rows are the smallest panel, 20 and 4 the usual one: what fits is never cut."""
    speed = NamedRegister("output speed", "holding", 310, unit="rpm")
    current = replace(REGISTERS[0], name="motor current", unit="A")
    project = new_project(SERIAL, FOUND, [replace(CHOSEN, registers=(speed, current, REGISTERS[0]))], title="Mixer")
    first = project.screens[0]
    columns = project.panel.columns
    assert [row.rstrip() for row in first.text] == ["MIXER", "output speed", " " * (columns - 3) + "rpm", ""]
    assert [(field.signal, field.at) for field in first.fields] == [("output speed", (2, columns - 4 - 5))]
    assert [signal.name for signal in project.signals] == ["output speed", "motor current", "speed"]
    shown = "\n".join(row for screen in project.screens for row in screen.text)
    assert all(signal.name in shown for signal in project.signals)
    assert not [finding for finding in check(project) if finding.severity == "error"]


@pytest.mark.parametrize(
    ("place", "name"),
    [
        (Endpoint.serial("/dev/serial/by-id/usb-adapter-if00"), "usb-adapter-if00"),
        (Endpoint.serial("COM12"), "COM12"),
        (Endpoint.serial("\\\\.\\COM12"), "COM12"),
        (Endpoint.tcp("192.0.2.2"), "192.0.2.2"),
        (Endpoint.tcp("pump.example", 1502), "pump.example:1502"),
    ],
)
def test_a_line_is_called_what_it_leads_to(place: Endpoint, name: str) -> None:
    (line,) = new_project(place, FOUND, [CHOSEN]).lines
    assert line.name == name


def test_what_no_row_has_room_for_stays_off_the_screens() -> None:
    wide = NamedRegister("wide", "holding", 300, "uint64", decimals=4, scale=SCALE)
    project = new_project(SERIAL, FOUND, [replace(CHOSEN, registers=(wide, REGISTERS[0]))])
    assert [field.signal for field in project.screens[0].fields] == ["speed"]
    assert not [finding for finding in check(project) if finding.severity == "error"]


@pytest.mark.parametrize("numbering", ["from-0", "from-1", "prefixed"])
def test_numbers_are_those_of_the_manual_and_lead_to_the_same_registers(numbering: str) -> None:
    project = new_project(SERIAL, FOUND, [replace(CHOSEN, numbering=numbering)])  # type: ignore[arg-type]
    assert [bind(project, signal.name).address for signal in project.signals] == [310, 400, 402, 404, 406, 5, 7]
    assert not [finding for finding in check(project) if finding.severity == "error"]


def test_a_project_of_many_registers_is_clean_as_well() -> None:
    many = tuple(NamedRegister(f"signal with a rather long name {at}", "holding", 400 + at) for at in range(40))
    project = new_project(SERIAL, FOUND, [replace(CHOSEN, registers=many, never_read=())])
    assert not [finding for finding in check(project) if finding.severity == "error"]
    assert len(project.screens) == 8
    assert len(project.signals) == 40


def test_registers_of_two_orders_of_bytes_are_refused_by_name() -> None:
    odd = (REGISTERS[0], NamedRegister("odd", "holding", 311, byte_order="low-first"))
    with pytest.raises(EditRefused, match="odd"):
        new_project(SERIAL, FOUND, [replace(CHOSEN, registers=odd)])
    one = new_project(SERIAL, FOUND, [replace(CHOSEN, registers=odd[1:])])
    assert one.followers[0].byte_order == "low-first"


def test_adding_uses_the_line_and_the_device_of_the_same_place() -> None:
    there = pump_project(
        word("speed", 311),
        line=SerialLine(name="bus", device="/dev/ttyUSB3", timeout_ms=1000),
        unit=17,
        numbering="from-1",
        word_order="high-first",
    )
    after = added_to(there, SERIAL, FOUND, [CHOSEN])
    (line,), (device,) = after.lines, after.followers
    assert isinstance(line, SerialLine)
    assert (line.name, line.baud, line.parity, line.stop_bits, line.timeout_ms) == ("bus", 9600, "none", 2, 1000)
    assert (device.name, device.numbering, device.max_registers) == ("pump", "from-1", 40)
    assert after.signals[0] == there.signals[0]
    assert [signal.name for signal in after.signals[1:3]] == ["speed 2", "energy"]
    energy = after.signals[2]
    assert isinstance(energy, RegisterSignal)
    assert (energy.follower, energy.word_order, energy.number) == ("pump", "low-first", 401)
    assert after.screens == there.screens


@pytest.mark.skipif(os.name != "posix", reason="ports are no files there")
def test_a_port_that_is_a_link_is_the_port_that_it_leads_to(tmp_path: Path) -> None:
    port, link = tmp_path / "port", tmp_path / "by-id"
    port.touch()
    link.symlink_to(port)
    there = pump_project(word("speed", 310), line=SerialLine(name="bus", device=str(link)), unit=17)
    after = added_to(there, Endpoint.serial(str(port)), FOUND, [CHOSEN])
    assert [(line.name, line.device) for line in after.lines if isinstance(line, SerialLine)] == [("bus", str(link))]


def test_adding_elsewhere_adds_a_line_and_a_device_under_free_names() -> None:
    there = pump_project(word("speed", 310), line=TcpLine(name="192.0.2.2:1502", host="192.0.2.1"))
    place = Endpoint.tcp("192.0.2.2", 1502)
    after = added_to(there, place, FOUND, [replace(CHOSEN, name="pump", numbering="from-0")])
    assert [line.name for line in after.lines] == ["192.0.2.2:1502", "192.0.2.2:1502 2"]
    assert after.lines[1] == TcpLine(name="192.0.2.2:1502 2", host="192.0.2.2", port=1502, timeout_ms=450, in_flight=2)
    assert [(device.name, device.line) for device in after.followers] == [
        ("pump", "192.0.2.2:1502"),
        ("pump 2", "192.0.2.2:1502 2"),
    ]
    again = added_to(after, place, FOUND, [replace(CHOSEN, name="pump", numbering="from-0")])
    assert again.lines == after.lines
    assert again.followers == after.followers
    names = [signal.name for signal in again.signals]
    assert len(set(names)) == len(names) == 1 + 2 * len(REGISTERS)
    assert not [found for found in check(again) if found.rule in ("names", "unit-clash", "device-shared")]


def test_adding_to_an_empty_project_changes_nothing_else() -> None:
    there = fresh_project()
    after = added_to(there, SERIAL, FOUND, [CHOSEN])
    assert after.replace(lines=(), followers=(), signals=()) == there


def test_waiting_is_three_times_the_slowest_answer() -> None:
    assert fitting_timeout_ms([]) == 300
    assert fitting_timeout_ms([FoundFollower(1, response_ms=20.0)]) == 300
    assert fitting_timeout_ms([FoundFollower(1, 20.0, 101.0), FoundFollower(2, 30.0)]) == 350
    assert fitting_timeout_ms([FoundFollower(1, 800.0, 900_000.0)]) == 60_000


def test_what_nobody_named_becomes_a_file_once(tmp_path: Path) -> None:
    path = tmp_path / "found.toml"
    found = replace(FOUND, followers=(FOLLOWER, FoundFollower(unit=3, gateway="no answer")))
    project = save_found(SERIAL, found, path)
    assert load(path) == project
    assert [follower.unit for follower in project.followers] == [17]
    assert project.signals[0].name == "holding register 300"
    assert len(project.signals) == 12
    assert not [finding for finding in check(project) if finding.severity == "error"]
    before = path.read_bytes()
    with pytest.raises(ProjectSaveError, match="not overwritten"):
        save_found(SERIAL, replace(found, settings=None), path)
    assert path.read_bytes() == before
    save_found(SERIAL, replace(found, settings=LineSettings(19_200, "even", 1)), path, overwrite=True)
    assert path.read_bytes() != before


def test_nothing_is_written_where_nothing_was_found(tmp_path: Path) -> None:
    nothing = Found(followers=(FoundFollower(unit=3, gateway="no path"),))
    assert all_found(nothing) == ()
    with pytest.raises(ProjectSaveError, match="no device was found"):
        save_found(SERIAL, nothing, tmp_path / "found.toml")
    assert not list(tmp_path.iterdir())
