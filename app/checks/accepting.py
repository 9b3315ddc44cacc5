"""Findings that somebody accepted, with a reason: kept in the project, told apart from those that wait for somebody.

What is accepted is a rule in one place, not one wording of it: where 'can be 4' becomes 'can be 5', it stays accepted.
Errors cannot be accepted, so that what grows into one is heard of again. A part under another name is another place.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from app.checks.finding import Finding
from app.edits.refused import EditRefused, changed
from app.language import translate
from app.project.model import Accepted, Part, Project
from app.project.paths import at_key
from app.project.problems import Place


def about(project: Project, place: Place) -> str:
    """The place of a finding in words that hold in every language and as long as the parts keep their names.

    Fields are told by their signal and their cell, screen changes and actions by all that they say.
    """
    words: list[str] = []
    node: object = project
    for key in place:
        node = at_key(node, key)
        if isinstance(key, str):
            words.append(key)
        elif isinstance(node, Part):
            words.append(getattr(node, "name", None) or _content(node))
        elif not isinstance(node, tuple):
            words.append(str(key + 1))
    return " / ".join(words) or "project"


def _content(part: Part) -> str:
    content = part.model_dump(exclude_none=True, exclude_defaults=True, by_alias=True, mode="json")
    if "signal" in content and "at" in content:
        row, column = content["at"]
        return f"{content['signal']} at {row + 1}, {column + 1}"
    return " ".join(f"{key} {value}" for key, value in _leaves(content))


def _leaves(content: dict[str, object], before: str = "") -> Iterable[tuple[str, object]]:
    for key, value in content.items():
        if isinstance(value, dict):
            yield from _leaves(value, f"{before}{key} ")
        else:
            yield f"{before}{key}", value


def split_accepted(project: Project, findings: Iterable[Finding]) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """The findings that wait for somebody, and those that are accepted, with their reasons."""
    reasons = {(each.rule, each.about): each.reason for each in project.accepted}
    if not reasons:
        return tuple(findings), ()
    waiting, accepted = [], []
    for finding in findings:
        reason = None if finding.severity == "error" else reasons.get((finding.rule, about(project, finding.place)))
        if reason is None:
            waiting.append(finding)
        else:
            accepted.append(replace(finding, accepted=reason))
    return tuple(waiting), tuple(accepted)


def accept(project: Project, finding: Finding, reason: str, still: Iterable[Finding] = ()) -> Project:
    """With a finding accepted. `still` are those that are accepted and found today: what else was accepted is gone
    with its cause, and leaves the file.

    Raises EditRefused for an error, and without a reason.
    """
    if finding.severity == "error":
        raise EditRefused(translate("checks", "an error cannot be accepted: the panel cannot work as designed"))
    if not reason.strip():
        raise EditRefused(translate("checks", "a reason is required, for whoever reads this later"))
    kept = {(each.rule, about(project, each.place)) for each in still}
    new = Accepted(rule=finding.rule, about=about(project, finding.place), reason=reason.strip())
    others = tuple(
        each
        for each in project.accepted
        if (each.rule, each.about) in kept and (each.rule, each.about) != (new.rule, new.about)
    )
    return changed(project, accepted=(*others, new))


def withdraw(project: Project, finding: Finding) -> Project:
    """With a finding not accepted any more."""
    gone = finding.rule, about(project, finding.place)
    return changed(project, accepted=tuple(each for each in project.accepted if (each.rule, each.about) != gone))
