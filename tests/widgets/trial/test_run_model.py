"""A run in a thread of its own: what it tells, in which thread, and how it is answered and ended."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from app.follower.errors import FollowerError
from app.project.model import Project
from app.project_file.files import load
from app.trial.outcome import PersonAsked, Reply, Result, Verdict
from app.trial.script import Trial
from app.trial.stand import RehearsedStand, Stand
from projects import demo_path
from tests.app.trial.trials import trial_in
from tests.widgets.trial.trials import PUMP
from widgets.trial.run_model import CaseBegins, CaseEnds, RunningTrial, RunPlan, StepBegins, StepEnds

pytestmark = pytest.mark.usefixtures("no_thread_is_left")

LONG = """
format = 1
[[case]]
name = "it waits for a day"
[[case.step]]
key = "start"
[[case.step]]
wait = 86400
[[case.clean_up]]
key = "stop"
"""


@pytest.fixture(scope="module")
def pump() -> Project:
    return load(demo_path("booster-pump"))


@pytest.fixture
def run(qapp: object) -> Iterator[RunningTrial]:
    made = RunningTrial()
    yield made
    made.stop()
    assert made.wait(10), "the run did not end"


class Told:
    """All that a run tells, each with whether it came in the window's thread."""

    def __init__(self, run: RunningTrial) -> None:
        self.news: list[Any] = []
        self.questions: list[PersonAsked | None] = []
        self.rows: list[Any] = []
        self.threads: set[threading.Thread] = set()
        run.happened.connect(lambda news: self._note(self.news.extend, news))
        run.asked.connect(lambda question: self._note(self.questions.append, question))
        run.rows_changed.connect(lambda rows: self._note(self.rows.append, rows))

    def _note(self, keep: Any, what: Any) -> None:
        self.threads.add(threading.current_thread())
        keep(what)


def start(run: RunningTrial, trial: Trial, project: Project, *only: str) -> Told:
    told = Told(run)
    run.start(RunPlan(trial, project, lambda: RehearsedStand(project), only))
    return told


def test_it_tells_in_order_and_in_the_thread_of_the_window_alone(
    run: RunningTrial, pump: Project, qtbot: QtBot
) -> None:
    told = start(run, trial_in(PUMP), pump, "it runs and stops")
    assert run.running
    with qtbot.waitSignal(run.ended):
        pass
    kinds = [type(one) for one in told.news]
    assert kinds == [CaseBegins, *3 * [StepBegins, StepEnds], CaseEnds]
    assert told.threads == {threading.main_thread()}
    assert told.rows[-1][3].text.startswith("running")
    assert run.record is not None
    assert run.record.result is Verdict.PASSED
    assert not run.running


def test_a_question_waits_for_its_answer(run: RunningTrial, pump: Project, qtbot: QtBot) -> None:
    told = start(run, trial_in(PUMP), pump, "what only a person sees")
    qtbot.waitUntil(lambda: run.question is not None)
    question = run.question
    assert question is not None
    assert (question.kind, question.text) == ("ask", "Does the shaft stand still?")
    run.reply(Reply(True, "it does", "A. Tester"))
    qtbot.waitUntil(lambda: run.question is not None and run.question.kind == "measure")
    run.reply(Reply(None))
    qtbot.waitUntil(lambda: not run.running)
    assert run.record is not None
    asked, measured = run.record.cases[0].steps
    assert (asked.result, asked.answer) == (Result.PASS, Reply(True, "it does", "A. Tester"))
    assert measured.result is Result.NOT_TESTED
    assert told.questions[-1] is None
    assert run.question is None


def test_an_answer_to_one_question_is_none_to_the_next(run: RunningTrial, pump: Project, qtbot: QtBot) -> None:
    start(run, trial_in(PUMP), pump, "what only a person sees")
    qtbot.waitUntil(lambda: run.question is not None)
    run.reply(Reply(True))
    run.reply(Reply(False))  # nothing is asked just then
    qtbot.waitUntil(lambda: run.question is not None and run.question.kind == "measure")
    run.stop()
    qtbot.waitUntil(lambda: not run.running)
    assert run.record is not None
    assert [step.result for step in run.record.cases[0].steps] == [Result.PASS]


def test_stop_ends_it_and_the_clean_up_is_done(run: RunningTrial, pump: Project, qtbot: QtBot) -> None:
    told = start(run, trial_in(LONG), pump)
    qtbot.waitUntil(lambda: StepBegins("it waits for a day", "step", 2) in told.news)
    run.stop()
    assert run.stopping
    qtbot.waitUntil(lambda: not run.running)
    assert run.record is not None
    assert run.record.result is Verdict.UNFINISHED
    assert [step.part for step in run.record.cases[0].steps] == ["step", "clean-up"]


def test_what_cannot_be_run_says_why(run: RunningTrial, pump: Project, qtbot: QtBot) -> None:
    def fail() -> Stand:
        raise FollowerError("the port is taken")

    with qtbot.waitSignal(run.ended):
        run.start(RunPlan(trial_in(PUMP), pump, fail))
    assert run.record is None
    assert run.why == "the port is taken"


def test_another_window_goes_on_with_it(run: RunningTrial, pump: Project, qtbot: QtBot) -> None:
    start(run, trial_in(PUMP), pump, "what only a person sees")
    qtbot.waitUntil(lambda: run.question is not None)
    other = RunningTrial()
    told = Told(other)
    other.take_over(run)
    assert (run.running, other.running) == (False, True)
    qtbot.waitUntil(lambda: other.question is not None)
    other.reply(Reply(True))
    qtbot.waitUntil(lambda: other.question is not None and other.question.kind == "measure")
    other.stop()
    qtbot.waitUntil(lambda: not other.running)
    assert [type(one) for one in told.news][-1] is CaseEnds
