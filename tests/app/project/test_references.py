"""Names that refer to other parts: found, followed, checked, renamed."""

from __future__ import annotations

from typing import Any, get_args

import pytest

from app.project.model import Project
from app.project.paths import in_words
from app.project.references import NamedKind, dangling, name_clashes, renamed, uses
from app.project_file.files import parse
from tests.builders import project_of

WHOLE = """
format = 2
[panel]
start = "run"
[panel.entry]
begin = "enter"
[[line]]
name = "hall"
kind = "tcp"
host = "192.0.2.1"
[[follower]]
name = "pump"
line = "hall"
[[signal]]
name = "status"
follower = "pump"
register = 400
[[signal]]
name = "fault"
bit = { of = "status", number = 3 }
[[signal]]
name = "preset"
held = 5
[[screen]]
name = "run"
[[screen.field]]
at = [0, 0]
width = 5
signal = "status"
blink = { signal = "fault" }
[[screen]]
name = "next one"
[[screen_change]]
from = "run"
key = "enter"
to = "next one"
[[screen_change]]
when = { signal = "fault" }
to = "run"
[[screen_change]]
key = "right"
to = "next"
[[action]]
from = "run"
key = "enter"
do = "write"
signal = "status"
value = { from = "preset" }
[[action]]
when = { signal = "fault" }
do = "set"
signal = "status"
"""


@pytest.fixture
def whole() -> Project:
    return parse(WHOLE)


@pytest.mark.parametrize(
    ("kind", "name", "places"),
    [
        ("line", "hall", ["device 'pump'"]),
        ("follower", "pump", ["signal 'status'"]),
        ("signal", "status", ["signal 'fault', bit", "screen 'run', field 1", "action 1", "action 2"]),
        ("signal", "fault", ["screen 'run', field 1, blink", "screen change 2, when", "action 2, when"]),
        ("signal", "preset", ["action 1, value"]),
        ("screen", "run", ["panel", "screen change 1", "screen change 2", "action 1"]),
        ("screen", "next one", ["screen change 1"]),
        ("key", "enter", ["screen change 1", "action 1"]),
        ("key", "right", ["screen change 3"]),
        ("screen", "next", []),
        ("signal", "run", []),
    ],
)
def test_uses_are_found(whole: Project, kind: NamedKind, name: str, places: list[str]) -> None:
    assert [use.where for use in uses(whole, kind, name)] == places


@pytest.mark.parametrize("kind", get_args(NamedKind))
def test_every_use_follows_a_new_name(whole: Project, kind: NamedKind) -> None:
    names = {"line": "hall", "follower": "pump", "signal": "status", "screen": "run", "key": "enter"}
    after = renamed(whole, kind, names[kind], "other")
    assert uses(after, kind, names[kind]) == ()
    assert [use.place for use in uses(after, kind, "other")] == [use.place for use in uses(whole, kind, names[kind])]
    assert renamed(after, kind, "other", names[kind]) == whole


def test_the_keys_of_the_entry_follow_a_new_name_too(whole: Project) -> None:
    after = renamed(whole, "key", "enter", "ok")
    assert (after.panel.entry.begin, after.panel.entry.confirm, after.panel.entry.up) == ("ok", "ok", "up")


def test_what_does_not_use_the_name_is_shared(whole: Project) -> None:
    after = renamed(whole, "signal", "preset", "rate")
    assert after.screens is whole.screens
    assert after.actions[1] is whole.actions[1]
    assert renamed(whole, "signal", "unused", "rate") is whole


def test_a_sound_project_has_no_dangling_names(whole: Project) -> None:
    assert dangling(whole) == ()
    assert name_clashes(whole) == ()


@pytest.mark.parametrize(
    ("parts", "words"),
    [
        ({"panel": {"start": "rnu"}}, "panel: start screen 'rnu' does not exist; did you mean 'run'?"),
        ({"follower": [{"name": "pump", "line": "hall"}]}, "device 'pump': line 'hall' does not exist"),
        (
            {"signal": [{"name": "x", "follower": "pump", "register": 1}]},
            "signal 'x': device 'pump' does not exist",
        ),
        (
            {"signal": [{"name": "x", "bit": {"of": "y", "number": 1}}]},
            "signal 'x', bit: signal 'y' does not exist",
        ),
        (
            {"signal": [{"name": "running", "bit": {"of": "Running", "number": 1}}]},
            "signal 'running', bit: signal 'Running' does not exist; did you mean 'running'?",
        ),
        (
            {"signal": [{"name": "x", "bit": {"of": "x", "number": 1}}]},
            "signal 'x', bit: signal 'x' is itself a bit; use the signal that contains the bits",
        ),
        ({"screen_change": [{"key": "up", "to": "status"}]}, "screen change 1: screen 'status' does not exist"),
        (
            {"screen_change": [{"key": "up", "from": "next", "to": "run"}]},
            "screen change 1: screen 'next' does not exist",
        ),
        ({"screen_change": [{"key": "F1", "to": "run"}]}, "screen change 1: key 'F1' does not exist"),
        (
            {"screen_change": [{"when": {"signal": "x"}, "to": "run"}]},
            "screen change 1, when: signal 'x' does not exist",
        ),
        (
            {
                "signal": [{"name": "x", "held": 1}, {"name": "y", "follower": "pump", "register": 1}],
                "follower": [{"name": "pump", "line": "hall"}],
                "line": [{"name": "hall", "kind": "tcp", "host": "h"}],
                "action": [{"key": "up", "do": "write", "signal": "x", "value": {"from": "y"}}],
            },
            "action 1, value: signal 'y' is not a held value; use a signal with 'held', or a number",
        ),
    ],
)
def test_dangling_names_are_told_with_their_place(parts: dict[str, Any], words: str) -> None:
    assert [str(problem) for problem in dangling(project_of(**parts))] == [words]


@pytest.mark.parametrize(
    ("parts", "words"),
    [
        (
            {"screen": [{"name": "run"}, {"name": "a"}, {"name": "run"}]},
            "screen 3: has the same name as screen 1, 'run'; each screen needs a unique name",
        ),
        (
            {"panel": {"start": "run", "keys": ["up", "down", "up"]}},
            "panel, key 3: has the same name as key 1, 'up'; each key needs a unique name",
        ),
        (
            {"signal": [{"name": "x", "held": 1}, {"name": "x", "held": 2}]},
            "signal 2: has the same name as signal 1, 'x'; each signal needs a unique name",
        ),
        (
            {"screen": [{"name": "run"}, {"name": "previous"}]},
            "screen 2: cannot be called 'previous'; screen changes use this word; choose another name",
        ),
    ],
)
def test_names_that_clash_are_told(parts: dict[str, Any], words: str) -> None:
    assert [str(problem) for problem in name_clashes(project_of(**parts))] == [words]


def test_a_key_of_the_entry_that_the_panel_does_not_have_is_no_mistake() -> None:
    assert dangling(project_of(panel={"start": "run", "keys": ["up"]})) == ()


def test_hints_stop_in_a_file_full_of_mistakes() -> None:
    screen_changes = [{"key": "up", "to": "rum"} for _ in range(500)]
    found = dangling(project_of(screen_change=screen_changes))
    assert len(found) == 500
    assert 0 < sum(bool(problem.hint) for problem in found) <= 200


def test_places_in_words(whole: Project) -> None:
    assert in_words(whole, ()) == "project"
    assert in_words(whole, ("signal", 0)) == "signal 'status'"
    assert in_words(whole, ("signal", 99)) == "signal 100"
    assert in_words(whole, ("panel", "keys", 1)) == "panel, keys, key 2"
    assert in_words({"signal": [{"name": "a\nb" + "c" * 100}]}, ("signal", 0)) == f"signal 'a?b{'c' * 54}...'"
