"""What a run has reached, counted as it happens, and what it has not."""

from __future__ import annotations

import json

from app.project_file.files import load
from app.trial.coverage import PARTS, Coverage, Covered
from app.trial.runner import Runner
from app.trial.stand import RehearsedStand
from projects import demo_path
from tests.trial_panel import case, small


def covered(steps: str) -> Covered:
    stand = RehearsedStand(small())
    coverage = Coverage(stand)
    outcome = Runner(case(steps), stand).run()
    assert outcome.cases[0].steps
    return coverage.covered


def reached(steps: str, part: str) -> set[str]:
    return {one.words for one in covered(steps).reached if one.part == part}


def test_nothing_is_reached_by_doing_nothing_but_the_first_screen() -> None:
    found = covered("{ wait = 1 }")
    assert {one.words for one in found.reached} == {"run", "'rests' of 'pump' on 'run'"}
    assert found.count("screens") == (1, 3)


def test_screens_and_changes_are_counted_arrow_by_arrow() -> None:
    found = covered('{ key = "right" }')
    assert found.screens == {"run", "set"}
    assert [(arrow.source, arrow.target, arrow.label) for arrow in found.arrows] == [("run", "set", "right")]
    assert found.count("screen changes") == (1, 4)


def test_an_idle_return_is_one_only_if_nobody_pressed_a_key() -> None:
    by_key = reached('{ keys = ["right", "right"] }', "screen changes")
    assert by_key == {"'run' to 'set' by right", "'set' to 'run' by right"}
    by_idle = reached('{ key = "right" }\n{ wait = 31 }', "screen changes")
    assert by_idle == {"'run' to 'set' by right", "'any screen' to 'run' by 30 s"}


def test_an_override_has_to_come_and_to_go() -> None:
    assert reached('{ order = "tank.high=1" }\n{ wait = 1 }', "overrides") == {"'too high': high is set"}
    both = reached('{ order = "tank.high=1" }\n{ wait = 1 }\n{ order = "tank.high=0" }\n{ wait = 1 }', "overrides")
    assert both == {"'too high': high is set", "'too high' ends: high is set no more"}


def test_entries_are_counted_by_their_ends() -> None:
    found = reached(
        """{ key = "right" }
        { enter = "level", value = 100 }
        { enter = "level", value = 100.5, refused = true }
        { enter = "level", value = 50 }
        { enter = "mode", value = 3 }""",
        "entries",
    )
    assert found == {
        "entry of 'level' on 'set': upper limit",
        "entry of 'level' on 'set': above the upper limit",
        "entry of 'level' on 'set': abandoned",
        "entry of 'level' on 'set': a value between",
        "entry of 'mode' on 'set': drain",
    }


def test_a_momentary_action_counts_when_it_was_let_go() -> None:
    assert reached('{ key = "jog", hold_s = 1 }', "actions") == {"action 3: jog, momentary jogging"}


def test_an_action_counts_when_it_has_written() -> None:
    assert reached('{ keys = ["go", "f1"] }', "actions") == {"action 1: go, set pump", "action 4: f1, write level"}
    silent = reached('{ order = "tank.silent=on" }\n{ key = "f2" }', "actions")
    assert silent == set()


def test_a_text_counts_when_it_is_seen_on_the_screen_that_shows_it() -> None:
    assert reached('{ order = "tank.mode=1" }', "texts") == {"'rests' of 'pump' on 'run'"}
    on_set = reached('{ order = "tank.mode=1" }\n{ key = "right" }\n{ wait = 0.1 }', "texts")
    assert "'fill' of 'mode' on 'set'" in on_set


def test_it_is_plain_data_for_a_record() -> None:
    data = json.loads(json.dumps(covered('{ key = "right" }').as_data()))
    assert set(data) == {*PARTS, "findings", "map"}
    assert data["map"] == {"screens": ["run", "set"], "changes": [["run", "set", 0]]}
    assert data["screens"] == {"reached": 2, "of": 3, "missing": ["too high"]}


def test_everything_of_a_demo_is_to_be_covered_before_anything_is_run() -> None:
    found = Coverage(RehearsedStand(load(demo_path("drying-hall")))).covered
    counts = {part: found.count(part)[1] for part in PARTS}
    # 6 screens; 12 arrows by key (6 keys right, 6 left, on the ring of 4 and on 2 overrides) and 1 idle; 2 overrides.
    assert counts["screens"] == 6
    assert counts["screen changes"] == 13
    assert counts["overrides"] == 4
    assert counts["actions"] == 10
    assert found.share == 0.0
