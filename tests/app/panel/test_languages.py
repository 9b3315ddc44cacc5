"""The panel in several languages: chosen by a signal or by a key, shown in text and choices."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.panel.machine import Effect, KeyDown, KeyUp, State, Tick, Write, WriteDone, begin, step
from app.panel.rendering import render
from app.project.model import Project
from app.project_file.files import parse
from app.signals.reading import Quality, Reading

PANEL = """\
format = 2

[panel]
rows = 2
columns = 12
keys = ["f1", "right"]
languages = ["english", "deutsch", "svenska"]
start = "run"

[[line]]
name = "l"
kind = "tcp"
host = "localhost"

[[follower]]
name = "f"
line = "l"

[[signal]]
name = "state"
held = 1
texts = { 0 = "halted", 1 = "running" }
texts_in = { deutsch = { 0 = "steht", 1 = "laeuft" } }

[[signal]]
name = "mine"
held = 0

[[signal]]
name = "theirs"
follower = "f"
register = 1
write = true

[[screen]]
name = "run"
text = ["Pump", ""]

[screen.text_in]
deutsch = ["Pumpe", ""]
svenska = ["Pumpen", ""]

[[screen.field]]
at = [1, 0]
width = 8
signal = "state"
kind = "choice"

[[action]]
key = "f1"
do = "next-language"
"""


def project_with(language: str = "") -> Project:
    return parse(
        PANEL.replace('start = "run"', f'start = "run"\nlanguage = "{language}"' if language else 'start = "run"')
    )


def good(value: int) -> Reading:
    return Reading(value, Fraction(value), Quality.GOOD, "", 0.0)


def pressed(
    project: Project, state: State, key: str, at: float, **readings: Reading
) -> tuple[State, tuple[Effect, ...]]:
    state, effects = step(project, state, KeyDown(key, at), readings)
    state, more = step(project, state, KeyUp(key, at), readings)
    return state, (*effects, *more)


def shown(project: Project, state: State, **readings: Reading) -> list[str]:
    return [row.text.rstrip() for row in render(project, state, readings, 1000.0)]


def test_a_key_goes_round_the_languages() -> None:
    project = project_with()
    state = begin(project, 0.0)
    seen = [shown(project, state)]
    for number in range(3):
        state, _ = pressed(project, state, "f1", 1.0 + number)
        seen.append(shown(project, state))
    assert seen == [["Pump", "running"], ["Pumpe", "laeuft"], ["Pumpen", "running"], ["Pump", "running"]]


def test_a_held_value_chooses_and_the_key_changes_it() -> None:
    project = project_with("mine")
    state, effects = pressed(project, begin(project, 0.0), "f1", 1.0)
    assert shown(project, state) == ["Pumpe", "laeuft"]
    assert state.held["mine"] == 1
    assert effects == ()


def test_a_follower_chooses_and_its_last_choice_stays_while_it_is_silent() -> None:
    project = project_with("theirs")
    state, _ = step(project, begin(project, 0.0), Tick(1.0), {"theirs": good(1)})
    assert shown(project, state)[0] == "Pumpe"
    gone = Reading(1, Fraction(1), Quality.STALE, "silent", 0.0)
    state, _ = step(project, state, Tick(2.0), {"theirs": gone})
    assert shown(project, state)[0] == "Pumpe"
    state, _ = step(project, state, Tick(3.0), {"theirs": good(0)})
    assert shown(project, state)[0] == "Pump"


@pytest.mark.parametrize("value", [3, 65535])
def test_a_value_without_a_language_is_the_first_one(value: int) -> None:
    project = project_with("theirs")
    state, _ = step(project, begin(project, 0.0), Tick(1.0), {"theirs": good(2)})
    state, _ = step(project, state, Tick(2.0), {"theirs": good(value)})
    assert shown(project, state)[0] == "Pump"


def test_with_a_follower_s_signal_the_key_writes_and_the_answer_turns_the_language() -> None:
    project = project_with("theirs")
    state, _ = step(project, begin(project, 0.0), Tick(1.0), {"theirs": good(2)})
    state, effects = pressed(project, state, "f1", 2.0, theirs=good(2))
    assert effects == (Write("theirs", Fraction(0)),)
    assert shown(project, state)[0] == "Pumpen"  # nothing is shown that the follower does not hold
    state, effects = pressed(project, state, "f1", 2.1, theirs=good(2))
    assert effects == (Write("theirs", Fraction(1)),)  # a second press counts on from what is on its way
    state, _ = step(project, state, WriteDone("theirs", 2.5, Fraction(1)), {"theirs": good(1)})
    assert shown(project, state)[0] == "Pumpe"


def test_a_signal_that_may_not_be_written_refuses_the_key() -> None:
    project = parse(PANEL.replace("write = true\n", "").replace('start = "run"', 'start = "run"\nlanguage = "theirs"'))
    state, _ = pressed(project, begin(project, 0.0), "f1", 1.0, theirs=good(0))
    assert state.message is not None
    assert "is read-only" in state.message.reason
    assert state.message.text == "read only"


def test_a_panel_with_one_language_says_so() -> None:
    project = parse(
        PANEL.replace('"english", "deutsch", "svenska"', '"english"')
        .replace('[screen.text_in]\ndeutsch = ["Pumpe", ""]\nsvenska = ["Pumpen", ""]\n', "")
        .replace('texts_in = { deutsch = { 0 = "steht", 1 = "laeuft" } }\n', "")
    )
    state, _ = pressed(project, begin(project, 0.0), "f1", 1.0)
    assert state.message is not None
    assert state.message.reason == "the panel has only one language"


def test_a_language_that_an_edit_took_away_gives_way_to_the_first() -> None:
    project = project_with()
    state, _ = pressed(project, begin(project, 0.0), "f1", 1.0)
    fewer = project.replace(panel=project.panel.replace(languages=("english",)))
    state, _ = step(fewer, state, Tick(2.0), {})
    assert state.language == 0
