"""Comparing two projects: every difference is told once, in its place; nothing is told of what is the same."""

from __future__ import annotations

import random
from collections.abc import Callable
from decimal import Decimal

import pytest

from app import edits
from app.comparison.comparison import Change, Comparison, compare
from app.comparison.words import as_json, in_lines, summary
from app.project.model import Project, RegisterSignal
from app.project_file.canonical import canonical
from app.project_file.files import load, parse
from projects import demo_path, demos
from tests.widgets.bench_project import bench_project


@pytest.fixture
def project() -> Project:
    return bench_project()


def told(comparison: Comparison) -> list[str]:
    return list(in_lines(comparison))


@pytest.mark.parametrize("name", demos())
def test_a_project_is_the_same_as_itself_read_again(name: str) -> None:
    project = load(demo_path(name))
    comparison = compare(project, parse(canonical(project)))
    assert comparison == Comparison()
    assert comparison.same
    assert told(comparison) == []
    assert summary(comparison) == "no differences"


def test_a_renamed_signal_is_one_difference_wherever_it_is_used(project: Project) -> None:
    after = edits.rename_signal(project, "frequency", "output frequency")
    comparison = compare(project, after)
    assert told(comparison) == ["> signal 'frequency' renamed to 'output frequency'"]
    assert [part.sort for part in comparison.parts] == ["signal"]


def test_a_renamed_signal_that_also_changed_is_guessed_by_its_register(project: Project) -> None:
    after = edits.rename_signal(project, "level", "fill")
    place = next(n for n, signal in enumerate(after.signals) if signal.name == "fill")
    signals = list(after.signals)
    signals[place] = signals[place].replace(unit="l", decimals=1)
    comparison = compare(project, after.replace(signals=tuple(signals)))
    (difference,) = comparison.signals
    assert (difference.kind, difference.before, difference.after) == ("renamed", "level", "fill")
    assert difference.changes == (Change("unit", '"%"', '"l"'), Change("decimals", "0", "1"))
    assert comparison.screens == ()


def test_renamed_screens_lines_and_followers_take_their_uses_along(project: Project) -> None:
    after = edits.rename_screen(project, "run", "operation")
    after = edits.rename_line(after, "hall", "hall 2")
    after = edits.rename_follower(after, "fan", "blower")
    assert told(compare(project, after)) == [
        "> line 'hall' renamed to 'hall 2'",
        "> device 'fan' renamed to 'blower'",
        "> screen 'run' renamed to 'operation'",
    ]


def test_a_screen_renamed_and_changed_a_little_is_still_the_same_screen(project: Project) -> None:
    after = edits.type_text(edits.rename_screen(project, "run", "operation"), "operation", 3, 0, "Stop: F3")
    (screen,) = compare(project, after).screens
    assert (screen.kind, screen.before, screen.after) == ("renamed", "run", "operation")
    assert {row for row, _ in screen.cells} == {3}


def test_cells_and_rows_that_differ(project: Project) -> None:
    after = edits.type_text(project, "tank", 0, 0, "Tonk")
    (screen,) = compare(project, after).screens
    assert screen.cells == frozenset({(0, 1)})
    assert [change.key for change in screen.changes] == ["text, row 1"]
    assert "Tonk" in screen.changes[0].after
    assert screen.fields == ()


def test_fields_added_removed_moved_and_changed(project: Project) -> None:
    screen = project.screen_named["run"]
    set_point, frequency, fault = screen.fields
    after = project.replace(
        screens=(
            screen.replace(
                fields=(
                    set_point.replace(entry=False),
                    fault.replace(at=(3, 2)),
                    frequency.replace(signal="level", at=(2, 0), width=3),
                )
            ),
            *project.screens[1:],
        )
    )
    (difference,) = compare(project, after).screens
    found = {(field.kind, field.indexes) for field in difference.fields}
    assert ("changed", (0, 0)) in found
    assert ("changed", (2, 1)) in found, "moved: the same signal elsewhere"
    assert {kind for kind, _ in found} == {"changed", "added", "removed"}
    moved = next(field for field in difference.fields if field.indexes == (2, 1))
    assert moved.changes == (Change("at", "[2, 0]", "[3, 2]"),)
    assert Change("entry", "true", "false") in difference.fields[0].changes


def test_another_order_is_told_but_not_what_was_added(project: Project) -> None:
    swapped = project.replace(screens=project.screens[::-1])
    assert told(compare(project, swapped)) == ["~ order of screens modified"]
    added = edits.add_screen(project, "new")
    comparison = compare(project, added)
    assert [(part.kind, part.after) for part in comparison.screens] == [("added", "new")]
    assert comparison.reordered == ()


def test_turns_and_actions_are_known_by_what_causes_them(project: Project) -> None:
    screen_changes = (project.screen_changes[0].replace(to="tank"), *project.screen_changes[1:])
    comparison = compare(project, project.replace(screen_changes=screen_changes, actions=project.actions[:-1]))
    (screen_change,) = comparison.screen_changes
    assert (screen_change.kind, screen_change.changes) == ("changed", (Change("to", '"next"', '"tank"'),))
    (action,) = comparison.actions
    assert action.kind == "removed"
    assert action.indexes == (len(project.actions) - 1, None)
    assert "stop" in action.before


def test_panel_and_project_keys_down_to_the_entry_keys(project: Project) -> None:
    panel = project.panel.replace(rows=2, entry=project.panel.entry.replace(timeout_s=5))
    comparison = compare(project, project.replace(title="Other", panel=panel))
    assert comparison.project == (Change("title", '"Bench"', '"Other"'),)
    assert comparison.panel == (Change("rows", "4", "2"), Change("entry.timeout_s", "30", "5"))


def test_texts_are_told_value_by_value(project: Project) -> None:
    place = next(n for n, signal in enumerate(project.signals) if signal.name == "remote")
    signals = list(project.signals)
    signals[place] = signals[place].replace(texts={"0": "local", "1": "far"})
    (signal,) = compare(project, project.replace(signals=tuple(signals))).signals
    assert signal.changes == (Change("texts.1", '"remote"', '"far"'),)


def test_a_line_of_another_kind_is_told_key_by_key(project: Project) -> None:
    other = parse(canonical(project).replace('kind = "tcp"', 'kind = "serial-over-tcp"'))
    (line,) = compare(project, other).lines
    assert line.kind == "changed"
    assert line.changes == (Change("kind", '"tcp"', '"serial-over-tcp"'), Change("in_flight", "1", ""))


def test_numbers_are_compared_by_value(project: Project) -> None:
    place = next(n for n, signal in enumerate(project.signals) if isinstance(signal, RegisterSignal) and signal.scale)
    signals = list(project.signals)
    signals[place] = signals[place].replace(limits=(Decimal("0.0"), Decimal("50.00")))
    assert compare(project, project.replace(signals=tuple(signals))).same


def test_json_says_the_same_as_the_words(project: Project) -> None:
    after = edits.type_text(edits.rename_signal(project, "level", "fill"), "tank", 0, 0, "Tonk")
    told = as_json(compare(project, after))
    assert told["same"] is False
    assert told["signals"] == [{"kind": "renamed", "before": "level", "after": "fill", "changes": []}]
    assert told["screens"][0]["cells"] == [[0, 1]]
    assert told["screen_changes"] == []


EDITS: list[Callable[[Project, random.Random], Project]] = [
    lambda p, r: edits.type_text(p, r.choice(p.screens).name, 0, 0, r.choice("xyz ")),
    lambda p, r: edits.add_screen(p, f"new {r.randrange(1000)}"),
    lambda p, r: edits.rename_screen(p, r.choice(p.screens).name, f"screen {r.randrange(10**6)}"),
    lambda p, r: edits.rename_signal(p, r.choice(p.signals).name, f"signal {r.randrange(10**6)}"),
    lambda p, r: p.replace(screen_changes=tuple(r.sample(p.screen_changes, r.randrange(len(p.screen_changes) + 1)))),
    lambda p, r: p.replace(actions=tuple(r.sample(p.actions, len(p.actions)))),
    lambda p, r: p.replace(screens=tuple(r.sample(p.screens, len(p.screens)))),
    lambda p, r: p.replace(signals=tuple(r.sample(p.signals, len(p.signals)))),
    lambda p, r: edits.set_notes(p, f"note {r.randrange(3)}"),
    lambda p, r: p.replace(
        screens=tuple(s.replace(fields=tuple(r.sample(s.fields, r.randrange(len(s.fields) + 1)))) for s in p.screens)
    ),
]


@pytest.mark.parametrize("seed", range(60))
@pytest.mark.parametrize("name", demos())
def test_it_is_the_same_exactly_if_the_files_are(name: str, seed: int) -> None:
    chance = random.Random(seed)
    before = after = load(demo_path(name))
    for _ in range(chance.randrange(5)):
        after = chance.choice(EDITS)(after, chance)
    comparison, back = compare(before, after), compare(after, before)
    assert comparison.same == back.same == (canonical(before) == canonical(after))
    assert bool(told(comparison)) != comparison.same
    kinds = {"added": "removed", "removed": "added", "changed": "changed", "renamed": "renamed"}
    assert sorted((part.sort, kinds[part.kind]) for part in comparison.parts) == sorted(
        (part.sort, part.kind) for part in back.parts
    ), "seen from the other side it is the other way round"
