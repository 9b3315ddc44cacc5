"""What a run has tried of the arrows and inlets of a page map."""

from __future__ import annotations

import pytest

from app.page_map.arrows import arrows_of, inlets_of
from app.page_map.tried import Tried
from app.panel.paging import PagingGraph
from app.project_file.files import load
from app.trial.coverage import Coverage
from app.trial.runner import Runner
from app.trial.script_file import load_trial
from app.trial.stand import RehearsedStand
from projects import demo_path, trial_path
from tests.trial_panel import case, small


def tried(steps: str) -> Tried:
    stand = RehearsedStand(small())
    coverage = Coverage(stand)
    Runner(case(steps), stand).run()
    return Tried.of(coverage.covered.as_data())


def test_an_arrow_is_tried_when_its_key_led_there() -> None:
    project = small()
    arrows = {(arrow.from_, arrow.to): arrow for arrow in arrows_of(project, PagingGraph(project))}
    found = tried('{ key = "right" }')
    assert found.screens == {"run", "set"}
    assert found.arrow(arrows["run", "set"]) == "all"
    assert found.arrow(arrows["set", "run"]) == "none"


def test_what_leads_there_from_everywhere_is_tried_when_it_did_so_once() -> None:
    project = small()
    inlets = {inlet.lead.kind: inlet for inlet in inlets_of(project, PagingGraph(project))}
    found = tried('{ order = "tank.high=1" }\n{ wait = 1 }')
    assert found.inlet(inlets["override"]) == "all"
    assert found.inlet(inlets["idle"]) == "none"


def test_the_shipped_trial_of_the_pump_goes_round_to_the_right() -> None:
    project = load(demo_path("booster-pump"))
    stand = RehearsedStand(project)
    coverage = Coverage(stand)
    Runner(load_trial(trial_path("booster-pump")), stand, only=["Every screen, once round"]).run()
    found = Tried.of(coverage.covered.as_data())
    arrows = arrows_of(project, PagingGraph(project))
    left = [(arrow.from_, arrow.to) for arrow in arrows if found.arrow(arrow) == "none"]
    assert left == [("measured", "run")]


@pytest.mark.parametrize("data", [{}, {"map": 3}, {"map": {"changes": [["a"], 4]}}])
def test_a_record_that_says_nothing_of_the_map_has_tried_nothing(data: dict[str, object]) -> None:
    assert Tried.of(data) == Tried(frozenset(), frozenset())
