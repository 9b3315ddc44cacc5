"""Which screen change counts, who stands in the ring."""

from __future__ import annotations

import gc
import weakref
from typing import Any

from app.panel.layout import PanelLayout
from app.project.model import Project
from tests.app.panel.operating import project

SCREENS = [{"name": name} for name in ("run", "status", "fault", "times")]


def leads(layout: PanelLayout, screen: str, key: str) -> str | None:
    found = layout.behaviour.key_screen_change(screen, key)
    return None if found is None else found[2]


def made(*screen_changes: dict[str, Any], **more: Any) -> PanelLayout:
    return PanelLayout.of(project(screen=SCREENS, screen_change=list(screen_changes), **more))


def test_a_turn_of_the_screen_goes_before_one_of_every_screen() -> None:
    layout = made({"key": "right", "to": "times"}, {"from": "run", "key": "right", "to": "status"})
    assert leads(layout, "run", "right") == "status"
    assert leads(layout, "status", "right") == "times"


def test_of_two_turns_of_one_key_the_first_counts() -> None:
    layout = made({"from": "run", "key": "up", "to": "status"}, {"from": "run", "key": "up", "to": "times"})
    assert leads(layout, "run", "up") == "status"


def test_a_turn_to_the_screen_itself_turns_nothing() -> None:
    layout = made({"key": "up", "to": "run"}, {"from": "status", "key": "up", "to": "status"})
    assert leads(layout, "run", "up") is None
    assert leads(layout, "status", "up") is None, "the screen's own change stands before the one of every screen"


def test_the_ring_goes_round_in_the_order_of_the_file_without_overrides() -> None:
    layout = made(
        {"key": "right", "to": "next"},
        {"key": "left", "to": "previous"},
        {"when": {"signal": "x"}, "to": "fault"},
    )
    assert layout.behaviour.ring == ("run", "status", "times")
    assert [leads(layout, name, "right") for name in ("run", "status", "times")] == ["status", "times", "run"]
    assert [leads(layout, name, "left") for name in ("run", "status", "times")] == ["times", "run", "status"]


def test_from_outside_the_ring_the_nearest_screen_of_it_follows() -> None:
    layout = made(
        {"key": "right", "to": "next"},
        {"key": "left", "to": "previous"},
        {"when": {"signal": "x"}, "to": "fault"},
    )
    assert leads(layout, "fault", "right") == "times"
    assert leads(layout, "fault", "left") == "status"


def test_a_ring_of_one_turns_nothing() -> None:
    alone = PanelLayout.of(project(screen=[{"name": "run"}], screen_change=[{"key": "right", "to": "next"}]))
    assert leads(alone, "run", "right") is None


def test_the_first_screen_stays_in_the_ring_though_an_override_shows_it_too() -> None:
    layout = made({"key": "right", "to": "next"}, {"when": {"signal": "x"}, "to": "run"})
    assert layout.behaviour.ring == ("run", "status", "fault", "times")
    assert leads(layout, "times", "right") == "run"


def test_turns_that_cannot_come_about_are_left_out() -> None:
    layout = made(
        {"key": "f9", "to": "status"},
        {"key": "up", "to": "nowhere"},
        {"from": "nowhere", "key": "up", "to": "status"},
        {"when": {"signal": "x"}, "to": "nowhere"},
        {"idle_s": 5, "to": "nowhere"},
    )
    assert layout.behaviour.key_screen_changes == {}
    assert layout.behaviour.overrides == ()
    assert layout.behaviour.idle_screen_change("run") is None


def test_idle_turns_of_the_screen_go_first_and_the_shortest_counts() -> None:
    layout = made(
        {"idle_s": 60, "to": "run"},
        {"idle_s": 30, "to": "status"},
        {"idle_s": 90, "to": "fault"},
        {"from": "times", "idle_s": 300, "to": "run"},
    )
    found = {name: layout.behaviour.idle_screen_change(name) for name in ("run", "status", "fault", "times")}
    assert {
        name: screen_change and (screen_change[1].idle_s, screen_change[1].to) for name, screen_change in found.items()
    } == {
        "run": (30, "status"),
        "status": (60, "run"),
        "fault": (30, "status"),
        "times": (300, "run"),
    }


def test_entry_fields_stand_in_reading_order() -> None:
    fields = [
        {"at": at, "width": 2, "signal": signal, "entry": entry}
        for at, signal, entry in [
            ([1, 0], "a", True),
            ([0, 8], "a", True),
            ([0, 4], "a", False),
            ([0, 2], "a", True),
            ([0, 0], "gone", True),
        ]
    ]
    layout = PanelLayout.of(project(signal=[{"name": "a", "held": 1}], screen=[{"name": "run", "field": fields}]))
    assert layout.screen("run").entry_fields == (3, 1, 0)


def test_a_start_that_does_not_exist_becomes_the_first_screen() -> None:
    assert made(panel={"start": "gone"}).start == "run"
    assert PanelLayout.of(Project.model_validate({"panel": {"start": "gone"}})).start == ""


def test_a_layout_is_made_once_and_goes_with_its_project() -> None:
    value = project(screen=SCREENS)
    layout = PanelLayout.of(value)
    assert PanelLayout.of(value) is layout
    assert PanelLayout.of(value.replace(title="other")) is not layout
    gone = weakref.ref(layout)
    del value, layout
    gc.collect()
    assert gone() is None
