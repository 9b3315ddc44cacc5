"""Running a trial: what passes, what fails, what cannot be said, and that everything is put back."""

from __future__ import annotations

import time
from collections.abc import Mapping
from datetime import date
from fractions import Fraction

import pytest

from app.panel.driver import PanelDriver
from app.trial.outcome import CaseOutcome, Instrument, PersonAsked, Reply, Result, StepOutcome
from app.trial.runner import KilledRun, Runner, Watcher, restore
from app.trial.script import Case
from app.trial.stand import RehearsedStand
from tests.builders import demo
from tests.trial_panel import Answering, case, measured, outcome, run, small, trial

PASS, FAIL, BLOCKED, NOT_TESTED = Result.PASS, Result.FAIL, Result.BLOCKED, Result.NOT_TESTED


def results(steps: str) -> list[Result]:
    return [step.result for step in outcome(steps).steps]


class Device(RehearsedStand):
    """Models that pass for a machine: a person is asked, and what a case changes is put back."""

    simulated = False

    def __init__(self) -> None:
        super().__init__(small())
        self.put_back: list[tuple[str, Fraction]] = []

    def put(self, signal: str, value: Fraction) -> str:
        self.put_back.append((signal, value))
        return "the line is down" if signal == "mode" else ""


class Noting(Watcher):
    """What a watcher is told."""

    def __init__(self) -> None:
        self.told: list[str] = []

    def case_begins(self, index: int, case: Case, before: Mapping[str, Fraction]) -> None:
        self.told.append(f"begins {case.name} {before.get('level')}")

    def step_ends(self, index: int, outcome: StepOutcome) -> None:
        self.told.append(f"{outcome.part} {outcome.number} {outcome.result}")

    def case_ends(self, index: int, outcome: CaseOutcome) -> None:
        self.told.append(f"ends {outcome.result}")

    def asked(self, question: PersonAsked | None) -> None:
        self.told.append("asked" if question else "answered")


# Keys, entries and what is expected


def test_keys_change_the_screen_and_the_device() -> None:
    found = outcome("""{ key = "right" }
        { expect = { screen = "set", row = 1, text = "Level  42.5 %" } }
        { enter = "level", value = 50.5 }
        { expect = { signal = "level", value = 50.5 } }
        { keys = ["right", "go"] }
        { expect = { screen = "run", row = 3, text = "pumps" } }""")
    assert found.result is PASS
    assert found.steps[2].found.startswith("keys: enter x 2, up x 16, ")


def test_what_is_not_seen_fails_and_says_what_was_seen_instead() -> None:
    found = outcome('{ expect = { row = 3, text = "pumps" } }').steps[0]
    assert found.result is FAIL
    assert "row 3 is 'rests'" in found.reason
    assert found.attempts > 50  # looked at again and again, not once
    assert found.seen is not None
    assert found.seen.rows[0].rstrip() == "TANK"


def test_an_expectation_that_fails_does_not_end_the_case_but_a_wait_does() -> None:
    assert results('{ expect = { screen = "set" } }\n{ note = "on" }') == [FAIL, PASS]
    assert results('{ wait = { screen = "set" } }\n{ note = "on" }') == [FAIL, BLOCKED]


def test_within_is_kept() -> None:
    late = '{ order = "tank.delay=0" }\n{ expect = { screen = "set" }, within_s = 1 }'
    found = outcome(late).steps[1]
    assert found.took_s == pytest.approx(1.0, abs=0.1)


def test_hold_needs_it_to_stay_so() -> None:
    idle = """{ key = "right" }
        { wait = 25 }
        { expect = { screen = "set" }, within_s = 1, hold_s = 2 }
        { expect = { screen = "set" }, within_s = 1, hold_s = 10 }
        { expect = { screen = "run" }, hold_s = 5 }"""
    found = outcome(idle)
    assert [step.result for step in found.steps] == [PASS, PASS, PASS, FAIL, PASS]
    assert found.steps[2].took_s == pytest.approx(2.0, abs=0.1)


def test_a_device_that_does_not_answer_blocks_and_does_not_fail() -> None:
    found = outcome("""{ order = "tank.silent=on" }
        { expect = { signal = "level", value = 42.5 } }
        { expect = { signal = "level", quality = ["stale", "none"] } }
        { order = "tank.silent=off" }
        { expect = { signal = "level", quality = "good" } }""")
    assert [step.result for step in found.steps] == [PASS, BLOCKED, PASS, PASS, PASS]


def test_only_what_happened_since_the_last_deed_counts() -> None:
    found = results("""{ key = "go" }
        { expect = { event = "written", about = "pump" } }
        { key = "right" }
        { expect = { event = "screen changed", about = "set" } }
        { key = "right" }
        { expect = { event = "screen changed", about = "set" }, within_s = 0.5 }""")
    assert found == [PASS, PASS, PASS, PASS, PASS, FAIL]


def test_a_momentary_key_is_held_and_let_go() -> None:
    found = outcome("""{ key = "jog", hold_s = 2 }
        { expect = { signal = "jogging", value = 0 } }""")
    assert found.result is PASS
    assert found.took_s >= 2


def test_an_alarm_comes_and_goes() -> None:
    assert (
        results("""{ order = "tank.high=1" }
        { expect = { screen = "too high" } }
        { expect = { alarm = "too high", state = "UNACK" } }
        { order = "tank.high=0" }
        { expect = { screen = "run" } }""")
        == [PASS] * 5
    )


def test_a_key_that_the_panel_does_not_have_ends_the_case() -> None:
    assert results('{ key = "f9" }\n{ note = "on" }') == [FAIL, BLOCKED]


def test_an_order_that_cannot_be_obeyed_blocks() -> None:
    assert results('{ order = "tank.levle=1" }') == [BLOCKED]


def test_setup_comes_first_and_counts() -> None:
    found = run(case('{ expect = { signal = "level", value = 12 } }', head='setup = ["tank.level=12"]')).cases[0]
    assert [step.part for step in found.steps] == ["setup", "step"]
    assert found.result is PASS


# Cleaning up


def test_clean_up_is_done_whatever_became_of_the_steps() -> None:
    found = outcome(
        '{ key = "go" }\n{ wait = { screen = "set" } }', '{ key = "halt" }\n{ expect = { row = 3, text = "rests" } }'
    )
    assert [(step.part, step.result) for step in found.steps] == [
        ("step", PASS),
        ("step", FAIL),
        ("clean-up", PASS),
        ("clean-up", PASS),
    ]


def test_a_stop_that_a_clean_up_could_not_write_does_not_pass() -> None:
    """Nothing looks at it afterwards: whoever reads the record would take the machine for stopped."""
    found = outcome('{ key = "go" }\n{ order = "tank.silent=on" }', '{ key = "halt" }')
    last = found.steps[-1]
    assert (last.part, last.result, last.reason) == (
        "clean-up",
        BLOCKED,
        "'pump' was not written: device 'tank' does not answer",
    )
    assert found.result is BLOCKED


def test_a_run_that_is_stopped_lets_go_cleans_up_and_begins_nothing_more() -> None:
    two = trial("""[[case]]
        name = "first"
        step = [{ key = "go" }, { key = "jog", hold_s = 3600 }]
        clean_up = [{ key = "halt" }]
        [[case]]
        name = "second" """)
    stand = RehearsedStand(small())
    runner = Runner(two, stand)
    stand.ticked.append(lambda: runner.stop() if stand.now() > 5 else None)
    found = runner.run()
    assert [one.name for one in found.cases] == ["first"]
    assert found.verdict == "unfinished"
    assert found.cases[0].stopped
    assert (found.cases[0].result, found.cases[0].reason) == (BLOCKED, "the run was stopped")
    assert found.cases[0].steps[-1].part == "clean-up"
    assert not stand.panel.state.down
    assert stand.readings()["jogging"].value == 0
    assert stand.readings()["pump"].value == 0


def test_a_stop_is_taken_from_another_thread_at_once() -> None:
    stand = RehearsedStand(small())
    runner = Runner(case("{ wait = 86400 }"), stand)
    runner.stop()
    began = time.monotonic()
    assert runner.run().verdict == "unfinished"
    assert time.monotonic() - began < 30


@pytest.mark.parametrize("steps", ['{ key = "right" }\n{ key = "go" }', '{ note = "now" }\n{ keys = ["right", "go"] }'])
def test_no_key_is_pressed_once_a_trial_was_stopped(steps: str) -> None:
    """Whoever stops it when the first step ends does so before the next key, though nothing is waited for between."""
    stand = RehearsedStand(small())
    pressed: list[str | None] = []
    stand.observers.append(lambda told: pressed.append(told.key) if told.key else None)

    class Impatient(Watcher):
        def step_ends(self, index: int, outcome: StepOutcome) -> None:
            runner.stop()

    runner = Runner(case(steps), stand, watcher=Impatient())
    found = runner.run()
    assert found.cases[0].stopped
    assert pressed == (["right"] if steps.startswith("{ key") else [])


def test_at_a_machine_what_was_entered_is_put_back_and_what_cannot_be_is_told() -> None:
    stand = Device()
    steps = '{ key = "right" }\n{ enter = "level", value = 60 }\n{ enter = "mode", value = 3 }\n{ key = "go" }'
    found = Runner(case(steps), stand, Answering(Reply(True))).run().cases[0]
    assert stand.put_back == [("level", Fraction("42.5")), ("mode", 0), ("pump", 0)]
    assert found.restored == ("'level' is 42.5 again", "'pump' is rests again")
    assert found.not_restored == ("'mode' was off before and could not be put back: the line is down",)
    assert found.result is BLOCKED


def test_a_bit_that_was_set_is_never_set_by_itself() -> None:
    stand = RehearsedStand(small())
    stand.begin()
    restored: list[str] = []
    left: list[str] = []
    restore(stand, {"pump": Fraction(1)}, ["pump", "level"], restored, left)
    assert restored == []
    assert left == [
        "'pump' was pumps before; it is not set by itself",
        "'level' was written, but its value before was not known",
    ]


# A person


def test_nobody_at_a_machine_moves_nothing() -> None:
    stand = Device()
    found = Runner(case('{ key = "go" }'), stand).run().cases[0]
    assert found.result is NOT_TESTED
    assert "nobody agreed" in found.reason
    assert stand.readings()["pump"].value == 0
    still = Runner(case('{ key = "right" }', head="moves = false"), Device()).run().cases[0]
    assert still.result is PASS


def test_a_no_moves_nothing_either() -> None:
    person = Answering(Reply(False, "somebody is in the tank"))
    found = Runner(case('{ key = "go" }'), Device(), person).run().cases[0]
    assert (found.result, "somebody is in the tank" in found.reason) == (NOT_TESTED, True)
    assert [question.kind for question in person.asked] == ["may move"]
    assert found.agreed == Reply(False, "somebody is in the tank")


def test_who_agreed_that_the_machine_may_move_stays_with_the_case() -> None:
    yes = Reply(True, by="M. Tester")
    assert Runner(case('{ key = "go" }'), Device(), Answering(yes)).run().cases[0].agreed == yes
    assert outcome('{ key = "go" }').agreed is None


def test_what_a_killed_run_has_left_and_nobody_lets_be_put_back_is_told() -> None:
    left = KilledRun("it", {"level": Fraction(12)})
    found = Runner(case('{ key = "right" }', head="moves = false"), Device(), unfinished=left).run().cases[0]
    assert found.not_restored == ("what an earlier run has changed was not put back: look at the machine",)
    assert found.result is not PASS


def test_an_order_is_done_by_hand_at_a_machine_if_it_says_how() -> None:
    steps = '{ order = "tank.high=1", by_hand = "Lift the float." }'
    person = Answering(Reply(True), Reply(True))
    found = Runner(case(steps), Device(), person).run().cases[0]
    assert found.result is PASS
    assert person.asked[1].text == "Lift the float."
    assert found.steps[0].words == "by hand: Lift the float."  # no record claims that a machine was simulated
    assert outcome(steps).steps[0].words == "simulated: tank.high=1"
    without = Runner(case('{ order = "tank.high=1" }\n{ note = "on" }'), Device(), Answering(Reply(True))).run()
    assert [step.result for step in without.cases[0].steps] == [NOT_TESTED, NOT_TESTED] or [
        step.result for step in without.cases[0].steps
    ] == [NOT_TESTED, BLOCKED]


@pytest.mark.parametrize(
    ("answer", "result"),
    [(Reply(True), PASS), (Reply(False, "it squeals"), FAIL), (Reply(None, "too dark"), NOT_TESTED)],
)
def test_a_question_passes_fails_or_is_not_tested(answer: Reply, result: Result) -> None:
    found = outcome('{ ask = "Does it turn?" }', person=Answering(answer)).steps[0]
    assert (found.result, found.reason) == (result, answer.remark)
    assert found.answer == answer


METER = Instrument("multimeter", "4711", date(2027, 1, 31))


@pytest.mark.parametrize(
    ("answer", "result"),
    [
        (measured("400", instrument=METER), PASS),
        (measured("360", instrument=METER), PASS),
        (measured("359.9", instrument=METER), FAIL),
        (measured("400"), NOT_TESTED),
        (measured("400", instrument=Instrument("multimeter", "4711", date(2026, 1, 31))), NOT_TESTED),
        (Reply(None), NOT_TESTED),
    ],
)
def test_a_measurement_needs_an_instrument_that_is_good_and_a_value_in_its_range(answer: Reply, result: Result) -> None:
    step = '{ measure = "supply", unit = "V", at_least = 360, at_most = 440 }'
    runner = Runner(case(step), RehearsedStand(small()), Answering(answer), today=date(2026, 12, 1))
    assert runner.run().cases[0].steps[0].result is result


def test_the_panel_lives_on_while_a_person_thinks() -> None:
    class Slow(Answering):
        looks = 0

        def answer(self) -> Reply | None:
            self.looks += 1
            return Reply(True) if self.looks > 5 else None

    stand = RehearsedStand(small())
    found = Runner(case('{ ask = "Well?" }'), stand, Slow()).run().cases[0]
    assert found.steps[0].took_s == pytest.approx(0.1, abs=0.03)


def test_a_person_who_walked_away_has_not_tested() -> None:
    class Away(Answering):
        def answer(self) -> Reply | None:
            return None

    runner = Runner(case('{ ask = "Well?" }'), RehearsedStand(small()), Away(), answer_s=0.05)
    assert runner.run().cases[0].result is NOT_TESTED


# The run


def test_a_watcher_is_told_in_order() -> None:
    noting = Noting()
    run(case('{ ask = "Well?" }', '{ key = "halt" }'), watcher=noting, person=Answering(Reply(True)))
    assert noting.told == [
        "begins it 85/2",
        "asked",
        "answered",
        "step 1 pass",
        "clean-up 1 pass",
        "ends pass",
    ]


def test_cases_of_the_other_side_are_left_out_and_one_can_be_run_alone() -> None:
    three = trial('[[case]]\nname = "a"\non = "device"\n[[case]]\nname = "b"\n[[case]]\nname = "c"\non = "simulated"')
    assert [one.name for one in Runner(three, RehearsedStand(small())).cases] == ["b", "c"]
    assert [one.name for one in Runner(three, RehearsedStand(small()), only=["c"]).cases] == ["c"]


def test_the_same_trial_runs_the_same_way_every_time() -> None:
    steps = '{ key = "right" }\n{ enter = "level", value = 99 }\n{ expect = { row = 1, text = "Level  99.0 %" } }'
    first, second = outcome(steps), outcome(steps)
    assert [(step.took_s, step.found) for step in first.steps] == [(step.took_s, step.found) for step in second.steps]


def test_a_step_leaves_the_panel_to_whoever_comes_next() -> None:
    stand = RehearsedStand(small())
    Runner(case('{ key = "right" }'), stand).run()
    assert isinstance(stand.panel, PanelDriver)
    assert stand.panel.state.down == frozenset()


def test_a_word_by_which_a_key_commands_is_not_put_back_but_to_what_stops() -> None:
    """The fan was running, somebody stopped it in the case: writing 15 again would start it."""
    stand = RehearsedStand(demo("drying-hall"))
    stand.begin()
    restored: list[str] = []
    left: list[str] = []
    stand.order("fan.fan control=6")
    stand.tick()
    restore(stand, {"fan control": Fraction(15)}, ["fan control"], restored, left)
    assert restored == []
    assert left == ["'fan control' was 15 before; it is not set by itself"]
    stand.order("fan.fan control=15")
    stand.tick()
    restore(stand, {"fan control": Fraction(6)}, ["fan control"], restored, left)
    assert restored == ["'fan control' is 6 again"]
