"""All rules, run over one project."""

from __future__ import annotations

from app.checks import actions, entry, keys, languages, lines, names, paging, registers, screens, whole
from app.checks.finding import GRAVITY, Finding
from app.checks.rule import RULES
from app.checks.survey import Survey
from app.project.model import Project
from app.project.places import in_words
from app.project.problems import Place

RULE_MODULES = (names, whole, lines, registers, screens, paging, keys, entry, actions, languages)
"""The modules of rules: named here, so that their rules are in the list once this module is imported."""


def check(project: Project) -> tuple[Finding, ...]:
    """All findings in `project`, the gravest first, and within those in the order of the rules.

    Any project value can be checked, also one with dangling names; nothing is changed and nothing raised.
    """
    survey = Survey(project)
    findings = [
        Finding(name, fault.severity, _where(project, fault.place), fault.message, fault.hint, fault.place)
        for name, rule in RULES.items()
        for fault in rule(survey)
    ]
    findings.sort(key=lambda finding: GRAVITY[finding.severity])
    return tuple(findings)


def _where(project: Project, place: Place) -> str:
    """The part in words; the one key of it that is wrong is told by the message."""
    part = place[:-1] if len(place) > 1 and isinstance(place[-1], str) else place
    return in_words(project, part)
