"""New projects from answers: clean whatever is answered, with room for every value, and alive against a simulation."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import Decimal
from fractions import Fraction
from functools import partial
from importlib import resources
from itertools import product
from math import nan
from typing import get_args

import pytest

from app import language
from app.checks import check
from app.follower.drive_bank import DriveBank
from app.panel.paging import PagingGraph
from app.panel.rendering import render
from app.panel.state import State
from app.project.binding import value_span
from app.project.model import BitSignal, Project, RegisterSignal, SerialLine, TcpLine
from app.project_file.files import dump
from app.session.session import Session
from app.signals.reading import Quality, Reading
from app.starters.answers import (
    DRIVES,
    KEY_NAMES,
    LEAST_COLUMNS,
    LEAST_ROWS,
    REGISTERS,
    SIZES,
    STARTERS,
    Answers,
    KeyNames,
    LineChoice,
    Registers,
    StarterName,
    UnusableAnswer,
)
from app.starters.build import build, starter_file
from tests.pressing import press, shows
from tests.waiting import wait_for

FINISHED = tuple(name for name in STARTERS if name != "empty")
ALL_SIZES = (*SIZES, (LEAST_ROWS, LEAST_COLUMNS), (3, 17), (6, 18), (5, 26), (64, 132))
MAPS: tuple[Registers, ...] = ("plain", "iec-61800-7-201")
LANGUAGES = ("en", "de")


@pytest.fixture(params=LANGUAGES)
def spoken(request: pytest.FixtureRequest) -> Iterator[str]:
    """The language that the program speaks, as far as it chooses what a starter begins with."""
    language.speak(lambda context, text: request.param if (context, text) == ("starters", "en") else text)
    yield request.param
    language.speak(None)


def every_answer(starter: StarterName, rows: int, columns: int) -> Iterator[Answers]:
    registers = MAPS if starter in DRIVES else MAPS[:1]
    for keys, where, chosen in product(KEY_NAMES, get_args(LineChoice), registers):
        yield Answers(
            starter, "", rows, columns, keys, where, port="COM7", host="192.0.2.20", unit=17, registers=chosen
        )


@pytest.mark.parametrize("size", ALL_SIZES)
@pytest.mark.parametrize("starter", FINISHED)
def test_nothing_is_found_whatever_is_answered(starter: StarterName, size: tuple[int, int], spoken: str) -> None:
    for answers in every_answer(starter, *size):
        project = build(answers)
        assert check(project) == (), answers
        assert (project.panel.rows, project.panel.columns) == size


@pytest.mark.parametrize("starter", FINISHED)
def test_the_file_is_canonical_and_clean_itself(starter: StarterName, spoken: str) -> None:
    name = starter if spoken == "en" else f"{starter}.{spoken}"
    project = starter_file(starter)
    text = (resources.files("resources") / "starters" / f"{name}.toml").read_bytes().decode()
    assert text == dump(project)
    assert check(project) == ()


@pytest.mark.parametrize("starter", FINISHED)
def test_both_languages_are_the_same_project_in_other_words(starter: StarterName) -> None:
    one, other = (starter_file(starter, spoken) for spoken in LANGUAGES)
    assert one.title != other.title

    def wordless(project: Project) -> list[object]:
        return [
            *(
                (s.number, s.table, s.encoding, s.limits, s.write)
                for s in project.signals
                if isinstance(s, RegisterSignal)
            ),
            *((s.bit.number, s.write, s.drive_role) for s in project.signals if isinstance(s, BitSignal)),
            *([(f.at[0], f.kind, f.entry) for f in screen.fields] for screen in project.screens),
            *((change.key, change.idle_s, change.when is None) for change in project.screen_changes),
            *((action.key, action.do) for action in project.actions),
        ]

    assert wordless(one) == wordless(other)


@pytest.mark.parametrize("size", ALL_SIZES)
@pytest.mark.parametrize("starter", FINISHED)
def test_every_screen_has_room_for_every_value(starter: StarterName, size: tuple[int, int], spoken: str) -> None:
    for chosen, end in product(MAPS, (0, 1)):
        project = build(Answers(starter, rows=size[0], columns=size[1], registers=chosen))
        spans = {signal.name: value_span(project, signal.name) for signal in project.signals}
        readings = {name: good(span[end]) for name, span in spans.items() if span}
        for screen in project.screens:
            rows = render(project, State(screen=screen.name, last_key=0.0, since=0.0), readings, 0.0)
            text = "\n".join(row.text for row in rows)
            assert "#" not in text
            assert "?" not in text
            assert all(row.text.strip() for row in rows[:2]) or size[0] > 4


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("starter", FINISHED)
def test_three_screens_in_a_ring_lead_back_after_idle_time(starter: StarterName, size: tuple[int, int]) -> None:
    project = build(Answers(starter, rows=size[0], columns=size[1]))
    graph = PagingGraph(project)
    ring = [name for name in graph.screens if name in graph.presses_from_start]
    assert len(ring) == 3
    assert graph.unreachable == graph.no_way_back == ()
    assert [change.to for change in project.screen_changes if change.idle_s] == [project.panel.start]


def test_one_drive_has_what_a_conveyor_needs() -> None:
    for registers, size in product(MAPS, SIZES):
        project = build(Answers(rows=size[0], columns=size[1], registers=registers))
        shown = {field.signal for screen in project.screens for field in screen.fields}
        assert {"setpoint", "direction", "speed", "current", "fault code"} <= shown
        assert {"start", "stop", "reset"} <= {action.key for action in project.actions}
        assert any(field.signal == "setpoint" and field.entry for field in project.screens[0].fields)
        assert 10 <= len(project.signals) <= 16


def test_the_title_stands_on_the_first_screen() -> None:
    project = build(Answers(title="  Säge   3 \u2192 West "))
    assert project.title == "Säge 3 \u2192 West"
    assert project.screens[0].text[0] == "SÄGE 3 -> WEST"
    assert check(project) == ()


def test_a_title_of_other_letters_and_any_length_is_cut_to_the_panel() -> None:
    project = build(Answers(title="Пила 7 " + "long " * 20))
    assert project.screens[0].text[0] == "7 LONG LONG LONG LON"
    assert check(project) == ()


def test_answers_become_line_device_and_keys() -> None:
    project = build(Answers(where="serial", port="COM9", unit=42, keys="numbers"))
    assert [type(line) for line in project.lines] == [SerialLine]
    assert project.lines[0].device == "COM9"  # type: ignore[union-attr]
    assert [follower.unit for follower in project.followers] == [42]
    assert project.panel.keys[-3:] == ("f1", "f2", "f3")
    fault = next(screen for screen in project.screens if screen.name == "fault")
    assert any("F3" in row for row in fault.text)
    assert not any("RESET" in row for row in fault.text)


@pytest.mark.parametrize(
    ("host", "found"),
    [
        ("192.0.2.20", ("192.0.2.20", 502)),
        (" drive-3:1502 ", ("drive-3", 1502)),
        ("[2001:db8::7]:503", ("2001:db8::7", 503)),
    ],
)
def test_a_host_may_have_a_port(host: str, found: tuple[str, int]) -> None:
    line = Answers(where="tcp", host=host).line("line")
    assert isinstance(line, TcpLine)
    assert (line.host, line.port) == found


@pytest.mark.parametrize(
    ("answers", "about"),
    [
        (Answers(where="tcp"), "host"),
        (Answers(where="tcp", host="a b"), "host"),
        (Answers(where="tcp", host="drive:70000"), "host"),
        (Answers(where="serial", port=" "), "port"),
        (Answers(unit=0), "unit"),
        (Answers(unit=255), "unit"),
        (Answers("pump-pair", unit=247), "unit"),
        (Answers("pump-pair", where="tcp", host="pumps", unit=255), "unit"),
        (Answers(rows=1), "size"),
        (Answers(columns=15), "size"),
    ],
)
def test_an_answer_that_does_not_fit_is_told(answers: Answers, about: str) -> None:
    with pytest.raises(UnusableAnswer) as why:
        build(answers)
    assert why.value.about == about
    assert str(why.value)


def test_a_device_without_a_converter_has_the_unit_of_tcp() -> None:
    assert build(Answers(where="tcp", host="drive", unit=255)).followers[0].unit == 255


def test_the_empty_panel_may_be_of_any_size() -> None:
    project = build(Answers("empty", "Anything", rows=1, columns=8))
    assert {finding.rule for finding in check(project)} == {"nothing-yet", "unused"}
    assert [len(part) for part in (project.lines, project.followers, project.signals)] == [1, 1, 0]


def test_before_a_list_is_imported_there_is_a_ring_to_put_it_on() -> None:
    project = build(Answers(registers="list"))
    assert project.signals == ()
    assert len(project.screens) == 3
    assert {finding.rule for finding in check(project)} == {"nothing-yet", "unused", "key-unused"}
    assert project.followers[0].simulated.model == "drive"


def test_everything_that_is_offered_has_words() -> None:
    assert set(STARTERS) == set(get_args(StarterName))
    assert set(KEY_NAMES) == set(get_args(KeyNames))
    assert set(REGISTERS) == {*MAPS, "list"}


# Live, against the simulated devices ----------------------------------------------------------------------------------


@pytest.mark.parametrize("registers", MAPS)
@pytest.mark.parametrize("size", [(2, 16), (4, 20), (8, 40)])
def test_a_drive_starts_takes_a_set_point_stops_trips_and_is_reset(registers: Registers, size: tuple[int, int]) -> None:
    project = build(Answers(rows=size[0], columns=size[1], registers=registers))
    with Session(project, "simulated") as session:
        drive, shows, press, value = at_the_panel(session, "drive")
        wait_for(lambda: value("setpoint") == 41.65 and value("fault") == 0)
        press("start")
        wait_for(lambda: value("speed") > 5)
        session.write("setpoint", Fraction(10))
        wait_for(lambda: abs(drive.drive.target) == 10)
        press("stop")
        wait_for(lambda: not drive.drive.running and value("speed") == 0)
        drive.inputs.external_fault = True
        wait_for(shows("external fault"))
        drive.inputs.external_fault = False
        press("reset")
        wait_for(shows("Setpoint", "10.0"))
        press("stop")  # a standard drive wants a shutdown before it takes the next start
        press("start")
        wait_for(lambda: drive.drive.running)
        press("stop")
        wait_for(lambda: not drive.drive.running)


@pytest.mark.parametrize("registers", MAPS)
def test_the_direction_is_shown_and_can_be_changed(registers: Registers) -> None:
    with Session(build(Answers(registers=registers)), "simulated") as session:
        _, shows, press, value = at_the_panel(session, "drive")
        wait_for(lambda: value("remote") == 1)
        if registers == "plain":
            session.write("direction", Fraction(1))
        else:
            session.write("setpoint", Fraction(-20))
        press("start")
        wait_for(lambda: value("speed") < -1)
        press("right")
        wait_for(shows("reverse"))
        press("stop")
        wait_for(lambda: value("running") == 0)


@pytest.mark.parametrize("registers", MAPS)
def test_each_of_two_pumps_starts_on_its_screen_and_one_key_stops_both(registers: Registers) -> None:
    with Session(build(Answers("pump-pair", registers=registers)), "simulated") as session:
        _, shows, press, value = at_the_panel(session, "pump 1")
        wait_for(lambda: value("pump 1 remote") == value("pump 2 remote") == 1)
        press("start")
        wait_for(lambda: value("pump 1 running") == 1)
        assert value("pump 2 running") == 0
        press("right")
        wait_for(shows("PUMP 2", "stopped"))
        press("start")
        wait_for(lambda: value("pump 2 running") == 1)
        press("stop")
        wait_for(lambda: value("pump 1 running") == value("pump 2 running") == 0)
        assert session.simulation is not None
        bank = session.simulation.models["pump 2"]
        assert isinstance(bank, DriveBank)
        bank.inputs.external_fault = True
        wait_for(shows("PUMP 2 FAULT", "external fault"))
        bank.inputs.external_fault = False
        press("reset")
        wait_for(shows("PUMP 2", "Setpoint"))


def test_the_oven_heats_and_its_alarm_switches_it_off() -> None:
    with Session(build(Answers("temperature")), "simulated") as session:
        _, shows, press, value = at_the_panel(session, None)
        wait_for(shows("Setpoint", "75.0", "21.5", "off"))
        press("start")
        wait_for(shows("on"))
        session.write("setpoint", Fraction(80))
        wait_for(shows("80.0"))
        assert session.simulation is not None
        bank = session.simulation.models["controller"]
        bank.set("too hot", Fraction(1))
        wait_for(shows("TOO HOT"))
        wait_for(lambda: value("heating") == 0)
        bank.set("too hot", Fraction(0))
        wait_for(shows("OVEN", "off"))


Shows = Callable[..., Callable[[], bool]]


def at_the_panel(
    session: Session, follower: str | None
) -> tuple[DriveBank, Shows, Callable[[str], object], Callable[[str], float]]:
    """A drive of a session, whether its panel shows some texts, its keys, and the values of signals."""
    assert session.simulation is not None
    drive = session.simulation.models[follower] if follower else None

    def value(signal: str) -> float:
        session.panel.tick()
        reading = session.snapshot().readings[signal]
        return float(reading.value) if reading.good else nan  # type: ignore[arg-type]

    return drive, partial(shows, session), partial(press, session.panel), value  # type: ignore[return-value]


def good(value: Fraction) -> Reading:
    return Reading(raw=int(value), value=Fraction(value), quality=Quality.GOOD, reason="", time=0.0)


@pytest.mark.parametrize("name", ["one-drive", "pump-pair", "temperature"])
@pytest.mark.parametrize("language", ["en", "de"])
def test_a_set_point_is_changed_in_seconds(name: str, language: str) -> None:
    """A key press that moves a set point by a tenth takes 170 presses from 25 to 42."""
    project = starter_file(name, language)
    assert any(field.entry for screen in project.screens for field in screen.fields)
    entered = {field.signal for screen in project.screens for field in screen.fields if field.entry}
    steps = {signal: project.signal_named[signal].step for signal in entered}
    assert all(step is None or step >= Decimal("0.5") for step in steps.values()), steps
