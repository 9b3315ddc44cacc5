"""Which screens stand in the band below the map, and where."""

from __future__ import annotations

import pytest

from app import edits
from app.page_map.band import ACROSS, BESIDE, band_of, band_places
from app.page_map.layout import STEP, places
from app.panel.paging import PagingGraph
from app.project.model import Project
from app.project_file.files import load
from projects import demo_path


@pytest.fixture
def project() -> Project:
    return load(demo_path("drying-hall"))


def test_what_keys_do_not_lead_to_stands_there(project: Project) -> None:
    assert band_of(project, PagingGraph(project)) == ("fan fault", "too hot")
    led = edits.lead_key(project, "fan fault", "escape", "too hot")
    assert band_of(led, PagingGraph(led)) == ("fan fault", "too hot"), "only from one that no key leads to"
    led = edits.lead_key(project, "hall", "up", "too hot")
    assert band_of(led, PagingGraph(led)) == ("fan fault",)
    put = edits.place_screens(project, {"fan fault": (3, 40)})
    assert band_of(put, PagingGraph(put)) == ("too hot",)


def test_they_are_below_all_others_in_rows(project: Project) -> None:
    others = {"a": (-STEP, 0), "b": (4 * STEP, 3 * STEP)}
    in_row = round(6 * STEP / ACROSS)
    found = band_places([str(number) for number in range(in_row + 1)], others)
    assert found["0"] == (BESIDE - STEP, 4 * STEP)
    assert found["1"] == (BESIDE - STEP + ACROSS, 4 * STEP)
    assert found[str(in_row)] == (BESIDE - STEP, 5 * STEP)
    assert band_places(["only"], {}) == {"only": (BESIDE, 0)}
    all_of_it = places(project, PagingGraph(project), {})
    band = band_of(project, PagingGraph(project))
    lowest = max(y for name, (_, y) in all_of_it.items() if name not in band)
    assert [all_of_it[name][1] for name in band] == [lowest + STEP] * 2
