"""All rules together: nothing in a good project, an order in what is found, and no project that cannot be checked."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest

from app.checks import Finding, check
from app.checks.finding import SEVERITY_ORDER
from app.checks.rule import RULES, each, whole
from app.project.model import Field, Project

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


def test_nothing_is_found_in_a_good_project(good: Draft) -> None:
    assert good.clean()


def test_an_empty_project_is_only_noted(empty: Draft) -> None:
    findings = check(empty.project)
    assert {finding.severity for finding in findings if finding.rule == "nothing-yet"} == {"note"}


def test_the_gravest_comes_first(good: Draft) -> None:
    broken = (
        good.field("run", 0, width=3)
        .signal("weight", unit="µg")
        .add_field("run", Field(at=(0, 2), width=3, signal="lamp"))
    )
    findings = check(broken.project)
    assert {finding.severity for finding in findings} >= {"error", "warning"}
    assert all(SEVERITY_ORDER[one.severity] <= SEVERITY_ORDER[other.severity] for one, other in pairwise(findings))


def test_every_rule_says_what_it_is_for() -> None:
    assert len({rule.name for rule in RULES}) > 40
    for rule in RULES:
        assert re.fullmatch(r"[a-z]+(-[a-z]+)*", rule.name)
        assert rule.function.__doc__


def test_every_rule_has_its_own_name() -> None:
    with pytest.raises(ValueError, match="unused"):
        whole(name="unused")(RULES[0].function)
    with pytest.raises(ValueError, match="step-too-fine"):
        each("signal", name="step-too-fine")(RULES[0].function)


def test_a_finding_reads_as_a_sentence() -> None:
    finding = Finding("unused", "note", "signal 'a'", "it is not used", "remove it", ("signal", 0))
    assert str(finding) == "note: signal 'a': it is not used; remove it [unused]"


@pytest.mark.parametrize("section", ["lines", "followers", "signals", "screens", "screen_changes", "actions"])
def test_a_project_with_parts_missing_can_be_checked(good: Draft, section: str) -> None:
    parts = getattr(good.project, section)
    for index in range(len(parts)):
        project = good.project.replace(**{section: parts[:index] + parts[index + 1 :]})
        for finding in check(project):
            assert finding.where
            assert finding.hint
    assert check(good.project.replace(**{section: ()}))


def test_every_part_doubled_can_be_checked(good: Draft) -> None:
    project = good.project
    doubled = {section: getattr(project, section) * 2 for section in ("lines", "followers", "signals", "screens")}
    findings = check(project.replace(**doubled))
    clashes = [finding for finding in findings if finding.rule == "name-clash"]
    assert len(clashes) == sum(len(parts) for parts in doubled.values()) // 2


def test_checking_changes_nothing(good: Draft) -> None:
    before = good.project.model_dump_json()
    check(good.project)
    assert good.project.model_dump_json() == before


def test_findings_lead_to_their_place(good: Draft) -> None:
    broken: Project = good.field("scale", 2, signal="lampe").project
    (finding,) = [finding for finding in check(broken) if finding.severity == "error"]
    assert finding.place == ("screen", 1, "field", 2, "signal")
    assert finding.where == "screen 'scale', field 3"
    assert finding.hint == "did you mean 'lamp'?"
