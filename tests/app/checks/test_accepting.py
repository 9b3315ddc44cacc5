"""Findings that are accepted with a reason."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from app import edits
from app.checks import Checker, check
from app.checks.accepting import about, accept, withdraw
from app.checks.finding import Finding
from app.cli.parser import main
from app.edits.refused import EditRefused
from app.project.messages import MESSAGES
from app.project.model import Project
from app.project_file.files import dump, load, parse, save
from projects import demo_path

RULE = "choice-without-text"


@pytest.fixture
def project() -> Project:
    """The demo, its fault code without the text for all other values."""
    demo = load(demo_path("booster-pump"))
    texts = {value: text for value, text in demo.signal_named["fault code"].texts.items() if value != "otherwise"}
    return with_texts(demo, "fault code", **texts)


def found(project: Project, rule: str = RULE) -> Finding:
    return next(finding for finding in check(project) if finding.rule == rule)


def with_texts(project: Project, name: str, **texts: str) -> Project:
    signal = project.signal_named[name]
    return project.replace(
        signals=tuple(each.replace(texts=texts) if each is signal else each for each in project.signals)
    )


def test_what_is_accepted_is_listed_apart_with_its_reason_and_kept_in_the_file(project: Project) -> None:
    finding = found(project)
    accepted = accept(project, finding, " the manual names no others ")
    assert RULE not in {each.rule for each in check(accepted)}
    checker = Checker()
    checker.check(accepted)
    assert [(each.rule, each.accepted) for each in checker.accepted] == [(RULE, "the manual names no others")]
    text = dump(accepted)
    assert text.endswith(
        "[[accepted]]\n"
        'rule = "choice-without-text"\n'
        'about = "screen / fault / field / fault code at 2, 1"\n'
        'reason = "the manual names no others"\n'
    )
    assert parse(text) == accepted
    assert parse(dump(project)) == project, "without any the file is as before"
    assert withdraw(accepted, finding) == project


def test_it_is_accepted_for_every_wording_of_it_and_gone_with_its_cause(project: Project) -> None:
    accepted = accept(project, found(project), "meant so")
    checker = Checker()
    checker.check(accepted)
    said = checker.accepted[0].message
    more = dict(accepted.signal_named["fault code"].texts) | {"1": "one", "2": "two"}
    checker.check(with_texts(accepted, "fault code", **more))
    assert checker.accepted[0].message != said
    assert RULE not in {each.rule for each in checker.findings}
    ended = with_texts(accepted, "fault code", **more, otherwise="other")
    checker.check(ended)
    assert checker.accepted == ()
    again = next(each for each in check(with_texts(ended, "running")) if each.severity == "warning")
    assert [each.rule for each in accept(ended, again, "other").accepted] == [again.rule], "and leaves the file"


def test_another_place_or_another_rule_is_not_accepted_with_it(project: Project) -> None:
    accepted = accept(project, found(project), "meant so")
    renamed = edits.rename_screen(accepted, "fault", "tripped")
    assert RULE in {each.rule for each in check(renamed)}, "heard of again rather than hidden"
    moved = accepted.replace(screens=accepted.screens[::-1])
    assert RULE not in {each.rule for each in check(moved)}


def test_what_is_accepted_of_the_panel_stays_so_whatever_else_the_panel_says(project: Project) -> None:
    wordy = project.replace(panel=project.panel.replace(messages=dict.fromkeys(MESSAGES, "x" * 160)))
    finding = found(wordy, "message-too-long")
    accepted = accept(wordy, finding, "never shown")
    assert accepted.accepted[0].about == " / ".join(map(str, finding.place))
    changed = edits.set_keys(accepted, [*accepted.panel.keys, "f9"])
    checker = Checker()
    checker.check(changed)
    assert (finding.rule, finding.place) in {(each.rule, each.place) for each in checker.accepted}


def test_errors_are_not_accepted_neither_by_hand_in_the_file(project: Project) -> None:
    broken = with_texts(project, "fault code", **{"0": "far too long for the field that shows it"})
    error = found(broken, "field-too-narrow")
    with pytest.raises(EditRefused, match="cannot be accepted"):
        accept(broken, error, "no")
    with pytest.raises(EditRefused, match="reason"):
        accept(project, found(project), "  ")
    note = accept(project, found(project), "meant so").accepted[0]
    by_hand = broken.replace(accepted=(note.replace(rule="field-too-narrow", about=about(broken, error.place)),))
    assert "field-too-narrow" in {each.rule for each in check(by_hand)}


def test_every_finding_of_the_demos_has_a_place_of_its_own_words() -> None:
    for demo in ("booster-pump", "drying-hall"):
        whole = load(demo_path(demo))
        for kind, parts in (("screen_change", whole.screen_changes), ("action", whole.actions)):
            told = [about(whole, (kind, index)) for index in range(len(parts))]
            assert len(set(told)) == len(set(map(repr, parts)))


def test_the_command_tells_them_apart(project: Project, tmp_path: Path, capsys: Any) -> None:
    path = tmp_path / "pump.toml"
    save(accept(project, found(project), "meant so"), path)
    assert main(["check", str(path), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert [(each["rule"], each["reason"]) for each in told["accepted"]] == [(RULE, "meant so")]
    assert RULE not in {each["rule"] for each in told["findings"]}
    main(["check", str(path)])
    out, err = capsys.readouterr()
    assert "accepted note: screen 'fault', field 1" in out
    assert "    meant so\n" in out
    assert "1 accepted" in err
