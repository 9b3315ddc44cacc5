"""A trial from a project alone."""

from __future__ import annotations

from pathlib import PurePath

from app.checks.run import check
from app.language import translate
from app.project.model import Project
from app.proposing.deeds import action_cases, condition_cases, language_cases
from app.proposing.draft import TrialDraft
from app.proposing.entries import entry_cases, held_cases
from app.proposing.folding import folded
from app.proposing.numbers import hidden_cases, number_cases
from app.proposing.outages import outage_cases
from app.proposing.running import running_cases
from app.proposing.screens import blinking_gap, idle_cases, key_cases, override_cases, screen_cases
from app.proposing.stops import stop_cases
from app.proposing.texts import hidden_text_cases, text_cases
from app.trial.script import Trial
from app.trial.script_file import project_digest


def propose(project: Project, file: str = "") -> Trial:
    """The trial that tries everything a project has, as far as its devices can be brought to it.

    What they cannot be brought to stands in the notes of the trial, and so do the findings of the design checks.
    `file` is the name of the project's file. The same project gives the same trial. Raises FollowerError if a device of
    it cannot be simulated.
    """
    if not project.screens:
        return Trial(project=PurePath(file).name, digest=project_digest(project))
    draft = TrialDraft(project)
    for cases in (
        screen_cases,
        blinking_gap,
        key_cases,
        override_cases,
        held_cases,
        entry_cases,
        action_cases,
        language_cases,
        condition_cases,
        stop_cases,
        number_cases,
        hidden_cases,
        text_cases,
        hidden_text_cases,
        running_cases,
        outage_cases,
        idle_cases,  # last, since they take longest at a machine
    ):
        cases(draft)
    notes = [translate("trial", "Proposed from the project: whatever it says is tried, whether or not it is right.")]
    if draft.gaps:
        notes += ["", translate("trial", "Not tried:"), *(f"- {gap}" for gap in draft.gaps)]
    findings = check(project)
    if findings:
        notes += ["", translate("trial", "Findings of the design checks that are open:")]
        notes += [f"- {finding}" for finding in findings]
    return Trial(
        title=translate("trial", "Trial of '{title}'").format(title=project.title or PurePath(file).stem),
        project=PurePath(file).name,
        digest=project_digest(project),
        notes="\n".join(notes),
        cases=tuple(folded(draft.cases)),
    )
