"""Fixes: each takes its finding away, changes nothing else for the worse, and is one edit with words of its own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings

from app.checks import Finding, check
from app.checks.finding import SEVERITY_ORDER
from app.edits import EditRefused
from app.project.model import (
    Action,
    Condition,
    Field,
    Follower,
    Project,
    RegisterSignal,
    Scale,
    Screen,
    ScreenChange,
    TcpLine,
)
from tests.fuzz.test_checks import PROJECTS

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


def same(finding: Finding) -> tuple[str, str]:
    return finding.rule, finding.message


def worse(findings: tuple[Finding, ...], than: Finding) -> Counter[str]:
    return Counter(each.rule for each in findings if SEVERITY_ORDER[each.severity] < SEVERITY_ORDER[than.severity])


def prove(project: Project, finding: Finding) -> Project | None:
    """The fixed project, in which the finding is gone and nothing graver has come; None if the fix was refused."""
    try:
        fixed = finding.apply_fix(project)
    except EditRefused:
        return None
    before, after = check(project), check(fixed)
    new = "\n".join(str(each) for each in after if same(each) not in map(same, before))
    told = f"{finding}\n{finding.fix}\n{new}"
    # Another part may take its number and have the same wrong with it; and without a bit its word may be unused too.
    fewer = Counter(map(same, after))[same(finding)] < Counter(map(same, before))[same(finding)]
    assert fewer or not any(same(each) == same(finding) and each.where == finding.where for each in after), told
    assert worse(after, finding) <= worse(before, finding), told
    return fixed


@settings(max_examples=40, deadline=None)
@given(PROJECTS)
def test_any_mend_takes_its_finding_away_and_brings_nothing_graver(tables: dict[str, Any]) -> None:
    project = Project.model_validate(tables)
    for finding in check(project):
        if finding.fix is not None:
            assert finding.fix.words[0].isupper()
            prove(project, finding)


Break = Callable[["Draft"], "Draft"]
FAULT = Condition(signal="fault")

FIXED: dict[str, list[tuple[Break, str]]] = {
    "stop-sent-once": [
        (
            lambda good: good.change(("action", 1), do="write", value=Decimal(0)).without(("action", 2)),
            "Repeat the stop of key 'stop' until it is confirmed",
        ),
        (
            lambda good: good.change(("action", 1), stops=False).without(("action", 2)),
            "Repeat the stop of key 'stop' until it is confirmed",
        ),
    ],
    "stop-that-starts": [
        (
            lambda good: good.add(Action(key="down", do="write", signal="speed set", value=Decimal(30), stops=True)),
            "Do not treat it as a stop",
        ),
    ],
    "action-refused": [(lambda good: good.signal("run", write=False), "Make 'run' writable")],
    "actions-conflict": [
        (lambda good: good.add(Action(key="stop", do="clear", signal="run")), "Remove this action"),
    ],
    "bar-without-range": [(lambda good: good.field("scale", 1, kind="bar"), "Change it to a number field")],
    "character-missing": [
        (lambda good: good.signal("weight", unit="kg\u00b2"), "Write 'kg2'"),
        (lambda good: good.signal("running", texts={"0": "h\u00e4lt", "1": "running"}), "Write 'halt'"),
        (lambda good: good.change(good.place("screen", "fault"), text=("D\u00e9faut",)), "Write 'Defaut'"),
    ],
    "choice-without-text": [
        (lambda good: good.signal("lamp", texts={}), "Give 'lamp' the text 0 = 'off', 1 = 'on'"),
        (lambda good: good.signal("lamp", texts={"0": "off"}), "Give 'lamp' the text 1 = 'on'"),
        (lambda good: good.field("run", 1, kind="choice"), "Change it to a number field"),
    ],
    "dangling-name": [
        (lambda good: good.field("run", 0, signal="sped set"), "Use 'speed set' there instead"),
        (lambda good: good.add(ScreenChange(key="right", from_="run", to="nowhere")), "Remove this screen change"),
        (lambda good: good.add(Action(key="start", do="set", signal="-")), "Remove this action"),
    ],
    "dead-end": [
        (
            lambda good: without_ring(good).add(ScreenChange(from_="run", key="right", to="slow")),
            "Make key 'escape' go from 'slow' to 'run'",
        ),
    ],
    "entry-not-writable": [
        (lambda good: good.signal("speed set", write=False), "Make 'speed set' writable"),
        (lambda good: good.field("run", 1, entry=True), "Remove value entry from this field"),
        (lambda good: good.field("scale", 1, entry=True), "Remove value entry from this field"),
    ],
    "entry-without-keys": [
        (
            lambda good: good.panel(keys=("left", "right", "up", "down", "escape", "start", "stop", "jog")),
            "Add key",
        ),
    ],
    "field-outside-panel": [
        (lambda good: good.field("slow", 0, at=(0, 18)), "Move the field to row 0, column 13"),
        (lambda good: good.field("slow", 0, at=(4, 3)), "Move the field to row 0, column 10"),
    ],
    "field-over-text": [(lambda good: good.field("run", 0, at=(0, 8)), "Clear the text under the field")],
    "field-too-narrow": [
        (lambda good: good.field("run", 1, width=4), "Make the field 6 cells wide"),
        (lambda good: good.field("scale", 0, at=(0, 10), width=7), "Make the field 10 cells wide"),
        (lambda good: good.field("scale", 1, width=5), "Make the field 8 cells wide"),
        (lambda good: good.field("run", 2, width=5), "Make the field 7 cells wide"),
        (
            lambda good: good.signal("speed set", scale=None, unit="", decimals=0, limits=None, start_value=None).field(
                "run", 0, kind="hexadecimal", entry=False, width=4
            ),
            "Make the field 5 cells wide",
        ),
    ],
    "fields-overlap": [
        (lambda good: good.field("run", 2, at=(3, 2)), "Move the field to row 2, column 0"),
    ],
    "first-value-refused": [
        (lambda good: good.signal("slow speed", held=Decimal(30)), "Set the start value to 20"),
        (lambda good: good.signal("speed set", start_value=Decimal(-900)), "Remove the start value"),
    ],
    "held-value-refused": [
        (
            lambda good: good.signal("slow speed", limits=(Decimal(5), Decimal(60))),
            "Narrow the limits of 'slow speed' to 5 and 50",
        ),
    ],
    "idle-screen-changes-conflict": [
        (lambda good: good.add(ScreenChange(idle_s=200, to="run")), "Remove this screen change")
    ],
    "limits-too-wide": [
        (lambda good: good.signal("speed set", limits=(Decimal(-5), Decimal(50))), "Narrow the limits to 0"),
    ],
    "message-character": [
        (lambda good: good.panel(messages={"no_answer": "er h\u00f6rt nicht"}), "Write 'er hoert nicht'"),
        (lambda good: good.panel(messages={"no_answer": "pas de r\u00e9ponse"}), "Write 'pas de reponse'"),
    ],
    "message-too-long": [
        (
            lambda good: good.panel(
                languages=("Deutsch",),
                messages={"no_answer": "Das ist nun einmal so, da l\u00e4sst sich nichts machen"},
            ),
            "Write 'nicht geschrieben: keine Antwort'",
        ),
    ],
    "name-clash": [
        (
            lambda good: good.add(Screen(name="run")),
            "Give it a unique name; references keep pointing to the first one",
        ),
        (
            lambda good: good.panel(keys=(*good.project.panel.keys, "jog")),
            "Remove the second of the two keys",
        ),
    ],
    "not-hexadecimal": [(lambda good: good.field("run", 1, kind="hexadecimal"), "Show it as a number")],
    "nothing-to-enter": [
        (lambda good: good.add(Action(from_="fault", key="up", do="begin-entry")), "Remove this action"),
    ],
    "nothing-yet": [(lambda good: type(good)(good.project.replace(screens=())), "Add a screen")],
    "override-never-shown": [(lambda good: good.add(ScreenChange(when=FAULT, to="slow")), "Remove this screen change")],
    "polled-too-slowly": [
        (
            lambda good: good.change(good.place("follower", "belt"), communication_timeout_ms=400),
            "Read 'command' every 100 ms",
        ),
    ],
    "refresh-without-write": [
        (lambda good: good.signal("frequency", refresh_ms=100), "Disable repeated writing"),
    ],
    "refreshed-too-slowly": [
        (lambda good: good.signal("speed set", refresh_ms=4000), "Write it every 750 ms"),
    ],
    "scale-without-meaning": [
        (
            lambda good: good.signal("lamp", scale=Scale(raw=(Decimal(0), Decimal(1)), value=(Decimal(0), Decimal(2)))),
            "Remove the scale",
        ),
    ],
    "step-not-shown": [(lambda good: good.signal("slow speed", step=Decimal("0.05")), "Set the step to 0.1")],
    "step-too-fine": [(lambda good: good.signal("speed set", step=Decimal("0.001")), "Set the step to 0.005")],
    "step-too-wide": [
        (lambda good: good.signal("slow speed", step=Decimal(90)), "Set the step of 'slow speed' to 0.1"),
        (
            lambda good: good.signal("slow speed", limits=(Decimal(10), Decimal(10))),
            "Remove value entry from this field",
        ),
    ],
    "stop-out-of-reach": [
        (
            lambda good: good.change(("action", 1), from_="run"),
            "Make key 'stop' switch it off on every screen",
        ),
    ],
    "string-length": [(lambda good: good.signal("weight", length=2), "Remove the length")],
    "text-for-no-value": [
        (lambda good: good.signal("lamp", texts={"0": "off", "1": "on", "2": "hm"}), "Remove the text 'hm'"),
    ],
    "role-without-effect": [
        (
            lambda good: good.signal("command", drive_role="control-word").signal("run", drive_role="run"),
            "Remove this role",
        ),
    ],
    "text-outside-panel": [
        (
            lambda good: good.change(good.place("screen", "fault"), text=("Fault of the belt, call 112",)),
            "Cut the text off at the last column",
        ),
        (
            lambda good: good.change(good.place("screen", "fault"), text=("Fault", "", "", "", "below")),
            "Remove this text",
        ),
    ],
    "translation-missing": [
        (lambda good: good.panel(languages=("Deutsch",)), "Fill in the German messages"),
        (
            lambda good: good.panel(languages=("Deutsch", "English"), messages={"no_answer": "keine Antwort"}),
            "Fill in the German messages",
        ),
    ],
    "screen-change-to-itself": [
        (lambda good: good.add(ScreenChange(from_="run", key="up", to="run")), "Remove this screen change")
    ],
    "screen-changes-conflict": [
        (lambda good: good.add(ScreenChange(key="right", to="run")), "Remove this screen change")
    ],
    "unit-clash": [
        (
            lambda good: good.change(good.place("follower", "scale"), line="hall", unit=3),
            "Set its unit address to 1",
        ),
    ],
    "unit-of-tcp": [
        (lambda good: good.change(good.place("follower", "belt"), unit=255), "Set its unit address to 1"),
    ],
    "unreachable-screen": [
        (lambda good: without_ring(good), "Make key 'left' go from 'run' to 'scale'"),
    ],
    "unused": [
        (
            lambda good: good.add(RegisterSignal(name="spare", follower="belt", number=900)),
            "Delete this signal",
        ),
        (lambda good: good.add(Follower(name="spare", line="yard", unit=9)), "Delete this device"),
        (lambda good: good.add(TcpLine(name="spare", host="192.0.2.9")), "Delete this line"),
    ],
    "write-to-read-only": [(lambda good: good.signal("frequency", write=True), "Make it read-only")],
    "write-not-offered": [
        (
            lambda good: good.change(good.place("follower", "scale"), write_functions=(6, 16)),
            "Make it read-only",
        ),
    ],
    "word-order-without-meaning": [
        (lambda good: good.signal("status", word_order="low-first"), "Remove the word order"),
    ],
    "hexadecimal-without-meaning": [(lambda good: good.signal("lamp", hex=True), "Show it in decimal")],
}


def without_ring(good: Draft) -> Draft:
    """Without the screen changes to the next and the former screen."""
    return type(good)(good.project.replace(screen_changes=good.project.screen_changes[2:3]))


@pytest.mark.parametrize(
    ("rule", "broken", "words"),
    [(rule, broken, words) for rule, cases in FIXED.items() for broken, words in cases],
    ids=[f"{rule}-{number}" for rule, cases in FIXED.items() for number in range(len(cases))],
)
def test_a_mend_of_a_good_project(good: Draft, rule: str, broken: Break, words: str) -> None:
    project = broken(good).project
    finding = next(each for each in check(project) if each.rule == rule and each.fix is not None)
    assert finding.fix is not None
    assert finding.fix.words.startswith(words)
    assert prove(project, finding) is not None, "it was refused"


def test_a_mend_that_would_leave_no_room_is_refused(good: Draft) -> None:
    narrow = good.signal("lamp", texts={"0": "x"}).add_field(
        "fault", Field(at=(2, 2), width=1, signal="lamp", kind="choice")
    )
    finding = next(
        each for each in check(narrow.project) if each.rule == "choice-without-text" and each.fix is not None
    )
    with pytest.raises(EditRefused, match="no room"):
        finding.apply_fix(narrow.project)


def test_a_field_is_not_widened_over_another_nor_over_text(good: Draft) -> None:
    hemmed = good.field("run", 0, at=(0, 15), width=2)
    finding = next(each for each in check(hemmed.project) if each.rule == "field-too-narrow")
    assert finding.fix is not None
    fixed = finding.apply_fix(hemmed.project).screens[0].fields[0]
    assert (fixed.at, fixed.width) == ((0, 12), 5)
    full = good.change(good.place("screen", "run"), text=("x" * 11 + "  " + "x" * 7,)).field("run", 0, width=2)
    finding = next(each for each in check(full.project) if each.rule == "field-too-narrow" and "speed" in each.message)
    assert finding.fix is None
