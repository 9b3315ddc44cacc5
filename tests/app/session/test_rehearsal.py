"""A project rehearsed without a line: keys, entry, the drive's model, refusals."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app import edits
from app.panel.machine import Entered, Refused, Write
from app.project.model import Project
from app.project_file.files import load, parse
from app.session.rehearsal import FollowerError, Rehearsal
from projects import demo_path
from tests.pressing import press

BANK = """\
format = 2

[panel]
rows = 2
columns = 16
keys = ["enter", "up", "down", "escape", "f1"]
start = "run"

[[line]]
name = "l"
kind = "tcp"
host = "localhost"

[[follower]]
name = "f"
line = "l"
write_functions = [16]

[[signal]]
name = "level"
follower = "f"
register = 5
scale = { raw = [0, 1000], value = [0, 100] }
decimals = 1
limits = [0, 100]
step = 0.5
write = true
start_value = 42.5

[[signal]]
name = "word"
follower = "f"
register = 7
start_value = 4

[[signal]]
name = "on"
bit = { of = "word", number = 2 }
texts = { 0 = "off", 1 = "on" }
write = true

[[signal]]
name = "coil"
follower = "f"
table = "coil"
register = 1
write = true

[[screen]]
name = "run"
text = ["Level       %", ""]
[[screen.field]]
at = [0, 6]
width = 5
signal = "level"
entry = true
[[screen.field]]
at = [1, 0]
width = 3
signal = "on"
kind = "choice"

[[screen]]
name = "other"
text = ["Other", ""]

[[action]]
key = "f1"
do = "set"
signal = "coil"
"""


class Clock:
    """Time that passes when a test says so."""

    def __init__(self) -> None:
        self.now = 100.0

    def __call__(self) -> float:
        return self.now


def pass_time(rehearsal: Rehearsal, clock: Clock, seconds: float) -> None:
    end = clock.now + seconds
    while clock.now < end:
        clock.now += 0.05
        rehearsal.panel.tick()


def texts(rehearsal: Rehearsal) -> list[str]:
    return [row.text.rstrip() for row in rehearsal.panel.rows()]


def test_what_stands_in_the_registers_at_first_is_shown() -> None:
    assert texts(Rehearsal(parse(BANK), clock=Clock())) == ["Level  42.5 %", "on"]


def test_an_entered_value_stands_in_the_register_and_is_read_from_there() -> None:
    clock = Clock()
    rehearsal = Rehearsal(parse(BANK), clock=clock)
    effects = press(rehearsal.panel, "enter", "up", "up", "enter")
    assert effects == [
        Entered("level", Fraction("42.5"), Fraction("43.5")),
        Write("level", Fraction("43.5")),
    ]
    pass_time(rehearsal, clock, 0.1)
    assert texts(rehearsal)[0] == "Level  43.5 %"
    assert rehearsal.panel.readings()["level"].raw == 435
    assert rehearsal.panel.state.sent == {}


def test_it_begins_on_the_screen_that_is_asked_for() -> None:
    assert texts(Rehearsal(parse(BANK), "other", Clock()))[0] == "Other"
    assert texts(Rehearsal(parse(BANK), "nowhere", Clock()))[0].startswith("Level")


def test_a_write_that_the_follower_does_not_offer_is_told_on_the_panel() -> None:
    clock = Clock()
    rehearsal = Rehearsal(parse(BANK), clock=clock)
    effects = press(rehearsal.panel, "f1")
    assert [type(effect) for effect in effects] == [Refused], "it never leaves the panel"
    pass_time(rehearsal, clock, 0.1)
    assert rehearsal.panel.state.message is not None
    assert rehearsal.panel.state.message.text == "not possible"
    assert "05 or 15" in rehearsal.panel.state.message.reason
    assert rehearsal.panel.readings()["coil"].value == 0


def test_a_silent_follower_shows_no_value_and_takes_none() -> None:
    clock = Clock()
    rehearsal = Rehearsal(parse(BANK.replace('do = "set"\nsignal = "coil"', 'do = "set"\nsignal = "on"')), clock=clock)
    rehearsal.models["f"].silent = True
    pass_time(rehearsal, clock, 0.1)
    assert texts(rehearsal) == ["Level ----- %", "---"]
    press(rehearsal.panel, "f1")
    pass_time(rehearsal, clock, 0.1)
    assert rehearsal.panel.state.message is not None
    assert rehearsal.panel.state.message.text == "no answer"
    assert "does not answer" in rehearsal.panel.state.message.reason


def test_a_release_that_a_silent_follower_missed_is_written_when_it_answers() -> None:
    clock = Clock()
    rehearsal = Rehearsal(load(demo_path("booster-pump")), clock=clock)
    drive = rehearsal.models["pump"]
    pass_time(rehearsal, clock, 0.1)
    rehearsal.panel.key_down("reset")
    assert drive.get("fault reset") == 1
    drive.silent = True
    rehearsal.panel.key_up("reset")
    pass_time(rehearsal, clock, 0.2)
    assert drive.get("fault reset") == 1
    drive.silent = False
    pass_time(rehearsal, clock, 0.2)
    assert drive.get("fault reset") == 0


def test_a_start_value_that_does_not_fit_is_told() -> None:
    with pytest.raises(FollowerError, match="'level'"):
        Rehearsal(parse(BANK.replace("start_value = 42.5", "start_value = 9000")))


def test_conditions_that_write_in_turn_do_not_hang_it() -> None:
    text = BANK.replace("[16]", "[5, 16]") + (
        '\n[[action]]\nwhen = { signal = "coil", is = "set" }\ndo = "clear"\nsignal = "coil"\n'
        '\n[[action]]\nwhen = { signal = "coil", is = "clear" }\ndo = "set"\nsignal = "coil"\n'
    )
    clock = Clock()
    rehearsal = Rehearsal(parse(text), clock=clock)
    seen = set()
    for _ in range(20):
        pass_time(rehearsal, clock, 0.05)
        press(rehearsal.panel, "f1")
        seen.add(rehearsal.panel.readings()["coil"].value)
    assert seen <= {0, 1}


def test_the_drive_of_a_project_runs_up_and_stops_by_keys(pump: Project) -> None:
    clock = Clock()
    rehearsal = Rehearsal(pump, clock=clock)
    pass_time(rehearsal, clock, 0.2)
    press(rehearsal.panel, "start")
    pass_time(rehearsal, clock, 30.0)
    running = rehearsal.panel.readings()["frequency"].value
    assert running == rehearsal.panel.readings()["speed set point"].value
    press(rehearsal.panel, "stop")
    pass_time(rehearsal, clock, 60.0)
    assert rehearsal.panel.readings()["frequency"].value == 0


def test_it_begins_in_the_language_that_is_asked_for_and_goes_on_from_there() -> None:
    rehearsal = Rehearsal(load(demo_path("drying-hall")), "recipe", Clock(), language=1)
    assert texts(rehearsal)[0].strip() == "REZEPT"
    press(rehearsal.panel, "f3")
    assert texts(rehearsal)[0].strip() == "RECIPE"


def test_a_signal_that_chooses_the_language_does_so_in_a_rehearsal_too() -> None:
    project = edits.set_language_signal(load(demo_path("drying-hall")), "purge opening")
    rehearsal = Rehearsal(project, "recipe", Clock(), language=1)
    rehearsal.panel.tick()
    assert texts(rehearsal)[0].strip() == "RECIPE"


def test_the_models_stand_still_while_nobody_looks(pump: Project) -> None:
    clock = Clock()
    rehearsal = Rehearsal(pump, clock=clock)
    press(rehearsal.panel, "start")
    pass_time(rehearsal, clock, 5.0)
    before = rehearsal.panel.readings()["frequency"].value
    clock.now += 600.0
    rehearsal.panel.tick()
    assert rehearsal.panel.readings()["frequency"].value == before != 0


# Another machine behind the panel


def with_register(number: int) -> Project:
    return parse(BANK.replace("register = 5\n", f"register = {number}\n"))


def test_the_devices_may_be_those_of_another_project() -> None:
    rehearsal = Rehearsal(with_register(7), machine=parse(BANK), clock=lambda: 0.0)
    rehearsal.models["f"].set("word", 12)
    assert rehearsal.panel.readings()["level"].value == Fraction(12, 10)


def test_a_register_that_the_machine_has_not_is_refused_to_read_and_to_write() -> None:
    rehearsal = Rehearsal(with_register(50), machine=parse(BANK), clock=lambda: 0.0)
    reading = rehearsal.panel.readings()["level"]
    assert (reading.quality, reading.reason) == ("refused", "illegal data address (02)")
    rehearsal.carry_out((Write("level", Fraction(3)),), None)  # type: ignore[arg-type]
    report = rehearsal.take_reports()[0]
    assert not report.ok
    assert "illegal data address" in report.reason


def test_nobody_answers_at_a_unit_that_the_machine_has_not() -> None:
    moved = parse(BANK.replace('name = "f"\nline = "l"', 'name = "f"\nline = "l"\nunit = 9'))
    rehearsal = Rehearsal(moved, machine=parse(BANK), clock=lambda: 0.0)
    assert not rehearsal.panel.readings()["level"].good


def test_what_became_of_writes_is_told_once() -> None:
    rehearsal = Rehearsal(parse(BANK), clock=lambda: 0.0)
    rehearsal.carry_out((Write("level", Fraction("20.04")),), None)  # type: ignore[arg-type]
    report = rehearsal.take_reports()[0]
    assert (report.ok, report.wanted, report.kept) == (True, Fraction("20.04"), Fraction(20))
    assert rehearsal.take_reports() == []


def test_a_drive_that_is_off_the_line_misses_the_requests_and_trips() -> None:
    now = [0.0]
    rehearsal = Rehearsal(load(demo_path("booster-pump")), clock=lambda: now[0])

    def wait(seconds: float) -> None:
        for _ in range(round(seconds / 0.1)):
            now[0] += 0.1
            rehearsal.panel.tick()

    rehearsal.panel.key_down("start")
    wait(2)
    assert rehearsal.panel.readings()["running"].value == 1
    rehearsal.models["pump"].silent = True
    wait(5)
    rehearsal.models["pump"].silent = False
    wait(0.2)
    assert rehearsal.panel.readings()["fault code"].value == 0x7500
