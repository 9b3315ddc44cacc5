"""The demo projects: clean, canonical, every screen to be reached and read, and what their keys are said to do."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from functools import partial

import pytest
from canopen.profiles.p402 import State402

from app.checks import check
from app.follower.drive import STALL_S
from app.follower.drive_bank import DriveBank
from app.panel.machine import KeyDown, KeyUp, State, Tick, Write, begin, step
from app.panel.paging import PagingGraph
from app.panel.rendering import render
from app.project.binding import bindings, refusal, value_span
from app.project.model import HeldSignal, Project, RegisterSignal, SerialLine
from app.project.purpose import Purpose
from app.project_file.files import dump, load
from app.session.session import Session
from app.signals.reading import Quality, Reading
from projects import demo_path, demos
from tests.pressing import press as press_key, shows
from tests.waiting import wait_for


@pytest.fixture(params=demos())
def demo(request: pytest.FixtureRequest) -> Project:
    return load(demo_path(request.param))


@pytest.fixture
def hall() -> Project:
    return load(demo_path("drying-hall"))


def test_there_are_two() -> None:
    assert demos() == ("booster-pump", "drying-hall")


def test_what_is_not_there_is_told() -> None:
    with pytest.raises(LookupError, match="booster-pump, drying-hall"):
        demo_path("no such demo")


@pytest.mark.parametrize("name", demos())
def test_the_file_is_canonical(name: str) -> None:
    path = demo_path(name)
    assert path.read_bytes().decode() == dump(load(path))


def test_nothing_grave_is_found(demo: Project) -> None:
    findings = check(demo)
    assert {finding.severity for finding in findings} <= {"note"}, "\n".join(map(str, findings))


def test_every_screen_can_be_reached_and_left(demo: Project) -> None:
    graph = PagingGraph(demo)
    assert graph.unreachable == ()
    assert graph.no_way_back == ()


def test_every_signal_stands_on_the_line(demo: Project) -> None:
    on_the_line = {signal.name for signal in demo.signals if not isinstance(signal, HeldSignal)}
    assert set(bindings(demo)) == on_the_line


def test_the_keys_left_and_right_lead_around(demo: Project) -> None:
    graph = PagingGraph(demo)
    ring = [name for name in graph.screens if name in graph.presses_from_start]
    state = begin(demo, 0.0)
    for key, way in (("right", 1), ("left", -1)):
        for count in range(1, len(ring) + 1):
            state = press(demo, state, key, {})
            assert state.screen == ring[way * count % len(ring)]
    assert state.screen == demo.panel.start


@pytest.mark.parametrize("end", [0, 1])
def test_every_screen_has_room_for_every_value(demo: Project, end: int) -> None:
    """With all signals at one end of their spans: whole rows, characters that the panel has, and no '#'."""
    readings = {signal.name: good(span[end]) for signal in demo.signals if (span := value_span(demo, signal.name))}
    for screen in demo.screens:
        rows = render(demo, State(screen=screen.name, last_key=0.0, since=0.0), readings, 0.0)
        assert len(rows) == demo.panel.rows
        assert all(len(row.text) == demo.panel.columns for row in rows)
        text = "\n".join(row.text for row in rows)
        assert "#" not in text
        assert "?" not in text
        assert any(row.text.strip() for row in rows)


def test_what_may_be_entered_may_be_written(demo: Project) -> None:
    entered = {field.signal for screen in demo.screens for field in screen.fields if field.entry}
    assert entered
    for name in entered:
        limits = demo.signal_named[name].limits
        assert limits is not None
        assert all(refusal(demo, name, Fraction(limit)) is None for limit in limits)


def test_the_start_values_are_allowed_set_points(demo: Project) -> None:
    started = [s for s in demo.signals if isinstance(s, RegisterSignal) and s.start_value is not None and s.write]
    assert started
    for signal in started:
        assert not isinstance(signal.start_value, str | None)
        assert refusal(demo, signal.name, Fraction(signal.start_value)) is None


# The booster pump -----------------------------------------------------------------------------------------------------


def test_the_pump_is_one_drive_on_a_serial_line(pump: Project) -> None:
    assert [type(line) for line in pump.lines] == [SerialLine]
    assert [follower.simulate for follower in pump.followers] == ["drive"]
    assert (pump.panel.rows, pump.panel.columns) == (4, 20)


def test_the_pump_starts_and_stops_from_every_screen(pump: Project) -> None:
    for screen in pump.screens:
        state = State(screen=screen.name, last_key=0.0, since=0.0)
        assert writes(pump, state, "start") == [Write("run command", Fraction(1))]
        assert writes(pump, state, "stop") == [Write("run command", Fraction(0), Purpose.STOP)]


def test_one_key_makes_the_gentle_ramp_that_of_the_pump(pump: Project) -> None:
    assert writes(pump, begin(pump, 0.0), "f1") == [Write("ramp up", Fraction(30))]


def test_a_tripped_pump_shows_its_fault_and_does_not_start_again_by_itself(pump: Project) -> None:
    calm = {"fault": good(0), "fault code": good(0)}
    tripped = {"fault": good(1), "fault code": good(0x3220)}
    state, _ = step(pump, begin(pump, 0.0), Tick(1.0), calm)
    state, effects = step(pump, state, Tick(2.0), tripped)
    assert Write("run command", Fraction(0), Purpose.STOP) in effects
    assert state.shown == "fault"
    assert render(pump, state, tripped, 2.0)[1].text == "DC link undervolt.  "
    state, _ = step(pump, state, Tick(3.0), calm)
    assert state.shown == "run"


def test_the_reset_key_is_a_pulse(pump: Project) -> None:
    state, effects = step(pump, begin(pump, 0.0), KeyDown("reset", 1.0), {})
    assert list(effects) == [Write("fault reset", Fraction(1))]
    _, effects = step(pump, state, KeyUp("reset", 1.2), {})
    assert list(effects) == [Write("fault reset", Fraction(0), Purpose.RELEASE)]


# The drying hall ------------------------------------------------------------------------------------------------------


def test_the_hall_is_one_line_with_two_followers(pump: Project, hall: Project) -> None:
    assert len(hall.lines) == 1
    assert [(follower.unit, follower.simulated.model) for follower in hall.followers] == [(1, "drive"), (2, "bank")]
    assert [demo.followers[0].simulated.register_map for demo in (pump, hall)] == ["plain", "iec-61800-7-201"]
    assert (hall.panel.rows, hall.panel.columns) == (8, 40)


def test_the_heating_goes_off_when_the_fan_stops(hall: Project) -> None:
    state, _ = step(hall, begin(hall, 0.0), Tick(1.0), {"fan running": good(1)})
    _, effects = step(hall, state, Tick(2.0), {"fan running": good(0)})
    assert list(effects) == [Write("heating", Fraction(0), Purpose.STOP)]


def test_a_fan_fault_goes_before_racks_that_are_too_hot(hall: Project) -> None:
    hot = {"upper racks": good(Fraction("60.1")), "fan fault": good(0)}
    state, _ = step(hall, begin(hall, 0.0), Tick(1.0), {"upper racks": good(60), "fan fault": good(0)})
    assert state.shown == "hall"
    state, effects = step(hall, state, Tick(2.0), hot)
    assert state.shown == "too hot"
    assert list(effects)[-1] == Write("heating", Fraction(0), Purpose.STOP)
    state, _ = step(hall, state, Tick(3.0), hot | {"fan fault": good(1)})
    assert state.shown == "fan fault"


def test_the_purge_key_opens_the_damper(hall: Project) -> None:
    assert writes(hall, begin(hall, 0.0), "f2") == [Write("damper", Fraction(90))]


def test_the_fan_is_commanded_by_the_words_of_the_standard(hall: Project) -> None:
    """Of IEC 61800-7-201 as PyPI canopen has them: enable operation and shutdown."""
    assert writes(hall, begin(hall, 0.0), "start") == [Write("fan control", Fraction(State402.CW_OPERATION_ENABLED))]
    assert writes(hall, begin(hall, 0.0), "stop") == [
        Write("fan control", Fraction(State402.CW_SHUTDOWN), Purpose.STOP)
    ]


def test_the_heating_key_toggles(hall: Project) -> None:
    for before, after, purpose in ((0, 1, Purpose.VALUE), (1, 0, Purpose.STOP)):
        _, effects = step(hall, begin(hall, 0.0), KeyDown("f1", 1.0), {"heating": good(before)})
        assert list(effects) == [Write("heating", Fraction(after), purpose)]


# Live, against the simulated followers --------------------------------------------------------------------------------


def test_the_pump_runs_trips_and_is_reset(pump: Project) -> None:
    with Session(pump, "simulated") as session:
        drive, shows, press = at_the_panel(session, "pump")
        wait_for(shows("Set point   41.7 Hz", "stopped", "remote"))
        press("start")
        wait_for(shows("running"))
        wait_for(lambda: not shows("Speed        0.0 Hz")())
        drive.inputs.supply = 0.6
        wait_for(shows("PUMP TRIPPED", "DC link undervolt", "3220h"))
        drive.inputs.supply = 1.0
        wait_for(lambda: drive.drive.dc_voltage > 500)
        press("reset")
        wait_for(shows("BOOSTER PUMP", "stopped"))
        readings = session.snapshot().readings
        assert all(reading.good for reading in readings.values())


def test_a_pump_that_cannot_turn_says_what_is_near_before_it_trips(pump: Project) -> None:
    with Session(pump, "simulated") as session:
        drive, shows, press = at_the_panel(session, "pump")
        drive.inputs.jammed = True
        wait_for(shows("stopped", "remote"))
        press("start")
        for _ in range(2):
            press("right")
        wait_for(shows("Thermal load", "at the torque limit"))
        for _ in range(round(STALL_S)):
            drive.on_request()
            drive.advance(1.0)
        wait_for(shows("PUMP TRIPPED", "motor blocked", "7121h"))


def test_the_fan_runs_trips_and_is_reset(hall: Project) -> None:
    with Session(hall, "simulated") as session:
        drive, shows, press = at_the_panel(session, "fan")
        wait_for(shows("stopped"))
        press("start")
        wait_for(shows("running"))
        wait_for(lambda: drive.drive.frequency > 1)
        drive.inputs.supply = 0.6
        wait_for(shows("FAN HAS TRIPPED", "DC link undervolt", "3220h"))
        drive.inputs.supply = 1.0
        wait_for(lambda: drive.drive.dc_voltage > 500)
        press("reset")
        wait_for(shows("HERB DRYING HALL", "stopped"))
        press("start")
        wait_for(shows("running"))
        press("stop")
        wait_for(shows("stopped"))


def test_both_followers_of_the_hall_answer_on_one_line(hall: Project) -> None:
    with Session(hall, "simulated") as session:
        assert session.simulation is not None
        assert set(session.simulation.models) == {"fan", "climate"}
        names = {signal.name for signal in hall.signals if isinstance(signal, RegisterSignal)}
        wait_for(lambda: all(session.snapshot().readings[name].good for name in names))
        for key in ("right", "right", "f1"):
            session.panel.key_down(key)
            session.panel.key_up(key)

        def heating_is_off() -> bool:
            session.panel.tick()
            return session.panel.rows()[7].text.startswith("F1 heating off")

        wait_for(heating_is_off)


def at_the_panel(
    session: Session, follower: str
) -> tuple[DriveBank, Callable[..., Callable[[], bool]], Callable[[str], object]]:
    """A drive of a session, whether its panel shows some texts, and its keys."""
    assert session.simulation is not None
    drive = session.simulation.models[follower]
    assert isinstance(drive, DriveBank)

    return drive, partial(shows, session), partial(press_key, session.panel)


def good(value: int | Fraction) -> Reading:
    return Reading(raw=int(value), value=Fraction(value), quality=Quality.GOOD, reason="", time=0.0)


def press(project: Project, state: State, key: str, readings: Mapping[str, Reading]) -> State:
    for event in (KeyDown(key, 1.0), KeyUp(key, 1.1)):
        state, _ = step(project, state, event, readings)
    return state


def writes(project: Project, state: State, key: str) -> list[Write]:
    def all_effects() -> Iterator[object]:
        now = state
        for event in (KeyDown(key, 1.0), KeyUp(key, 1.1)):
            now, effects = step(project, now, event, {})
            yield from effects

    return [effect for effect in all_effects() if isinstance(effect, Write)]
