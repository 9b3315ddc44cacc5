"""What stands in the fields while a screen is designed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from app.checks import check
from app.project.model import Field, Project, Screen
from app.project_file.files import load
from projects import demo_path, demos
from widgets.face.sample_values import (
    FieldContents,
    Specimens,
    field_text,
    likely_kind,
    sample_value,
    specimen_rows,
    widest_value,
    width_needed,
)


@pytest.fixture(params=demos())
def project(request: pytest.FixtureRequest) -> Project:
    return load(demo_path(request.param))


@pytest.mark.parametrize("shown", list(FieldContents))
def test_every_screen_is_full_and_no_field_is_empty(project: Project, shown: FieldContents) -> None:
    for screen in project.screens:
        rows = specimen_rows(project, screen, shown)
        assert [len(row.text) for row in rows] == [project.panel.columns] * project.panel.rows
        for field in screen.fields:
            assert len(field_text(project, field, shown)) == field.width


def test_a_sample_is_within_the_limits(project: Project) -> None:
    for name, signal in project.signal_named.items():
        value = sample_value(project, name)
        if signal.limits is not None and isinstance(value, Fraction):
            assert signal.limits[0] <= value <= signal.limits[1]


def test_a_width_that_is_enough_for_the_widest_passes_the_check(project: Project) -> None:
    for name in project.signal_named:
        kind = likely_kind(project, name)
        if widest_value(project, name) is None:
            continue
        width = width_needed(project, name, kind)
        if width > project.panel.columns:
            continue
        field = Field.model_validate({"at": (0, 0), "width": width, "signal": name, "kind": kind})
        alone = project.replace(screens=(Screen(name="x", fields=(field,)),), screen_changes=(), actions=())
        narrow = [finding for finding in check(alone) if "narrow" in finding.rule]
        assert [finding for finding in narrow if finding.severity == "error"] == []
        assert "#" not in field_text(project, field, FieldContents.WIDEST)


def test_a_missing_signal_is_shown_as_question_marks(project: Project) -> None:
    assert field_text(project, Field(at=(0, 0), width=4, signal="no such"), FieldContents.SAMPLE) == "????"


def test_a_field_past_the_edge_is_cut_there(project: Project) -> None:
    field = Field(at=(0, project.panel.columns - 2), width=9, signal="no such")
    screen = Screen(name="x", fields=(field, field.replace(at=(99, 0))))
    whole = project.replace(screens=(*project.screens, screen))
    rows = specimen_rows(whole, screen, FieldContents.SAMPLE)
    assert rows[0].text.endswith("??")
    assert len(rows[0].text) == project.panel.columns


def test_specimens_are_made_again_only_for_what_changed(project: Project) -> None:
    kept = Specimens()
    before = {screen.name: kept.rows(project, screen) for screen in project.screens}
    first = project.screens[0].replace(text=("X",))
    after = project.replace(screens=(first, *project.screens[1:]))
    assert kept.rows(after, first) != before[first.name]
    assert all(kept.rows(after, screen) is before[screen.name] for screen in after.screens[1:])
    other = after.replace(signals=tuple(signal.replace(decimals=0) for signal in after.signals))
    assert kept.rows(other, first) == specimen_rows(other, first, FieldContents.SAMPLE)
