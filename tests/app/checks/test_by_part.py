"""Findings looked up by their part."""

from __future__ import annotations

from app.checks.by_part import FindingsByPart
from app.checks.finding import Finding, Severity
from app.project.problems import Place


def finding(severity: Severity, *place: str | int) -> Finding:
    where: Place = place
    return Finding("rule", severity, "there", "is wrong", "mend it", where)


def test_parts_are_those_with_errors_unless_other_severities_are_asked_for() -> None:
    found = FindingsByPart(
        [finding("note", "signal", 1), finding("error", "signal", 3), finding("warning", "screen_change", 0)]
    )
    assert found.parts("signal") == {3}
    assert found.parts("signal", "error", "note") == {1, 3}
    assert found.parts("screen_change") == set()
    assert found.parts("screen_change", "warning") == {0}


def test_findings_inside_a_part_are_about_it_in_their_order() -> None:
    text, field = finding("error", "screen", 2, "text", 1), finding("note", "screen", 2, "field", 0)
    found = FindingsByPart([text, finding("error", "screen", 1), field])
    assert found.about("screen", 2) == (text, field)
    assert found.about("screen", 7) == ()


def test_findings_about_no_single_part_belong_to_none() -> None:
    found = FindingsByPart([finding("error"), finding("error", "panel"), finding("error", "panel", "keys")])
    assert found.parts("panel") == set()
    assert FindingsByPart().parts("screen") == set()
