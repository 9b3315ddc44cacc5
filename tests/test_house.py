"""The house: tests stand where their modules stand, rooms are small and say what they are for, imports go in no circle.

Which room may know which stands in pyproject.toml, for the import linter. The tables here only shrink: what is put
right has to leave them.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Final

import grimp
import pytest

HOME: Final = Path(__file__).parent.parent
HOUSES: Final = ("app", "widgets")

TESTED_BY: Final = {
    "app/checks/test_incremental.py": "context rule",
    "app/checks/test_languages.py": "room",
    "app/checks/test_run.py": "finding",
    "app/cli/test_parser.py": "options presses sessions app/cli/verbs/follower app/cli/verbs/panel app/cli/verbs/read "
    "app/cli/verbs/window",
    "app/cli/test_terminal_text.py": "outcome app/signals/visible",
    "app/cli/verbs/test_recordings.py": "app/recording/export",
    "app/client/test_client.py": "transactions transport app/modbus/overheard",
    "app/comparison/test_comparison.py": "words",
    "app/diagnosis/test_explain.py": "frame_parts frame_words frames received register_names app/modbus/requests",
    "app/discovery/test_into_project.py": "first_screens",
    "app/edits/test_replacing.py": "search",
    "app/edits/test_screens.py": "refused",
    "app/edits/test_transfer.py": "incoming languages rows",
    "app/events/test_event_detector.py": "alarms",
    "app/events/test_spells.py": "events refusals",
    "app/exchange/test_import_plan.py": "column_mapping importing reading row_parser scales",
    "app/exchange/test_listing.py": "quoting writing",
    "app/exchange/test_numbers.py": "app/signals/numbers",
    "app/exchange/test_words.py": "app/project/value_texts",
    "app/exchange/test_workbook.py": "sheet sheet_xml",
    "app/follower/test_drive.py": "ramp",
    "app/follower/test_faults.py": "operate",
    "app/follower/test_framing.py": "app/modbus/framing",
    "app/follower/test_greedy_clients.py": "seldom",
    "app/follower/test_register_bank.py": "errors identity",
    "app/follower/test_simulated_drive.py": "drive_face layout app/project/drive_roles",
    "app/line/test_engine.py": "followers poller read_requests",
    "app/line/test_status.py": "states",
    "app/line/test_writer.py": "app/project/capability",
    "app/matching/test_match.py": "agreement candidates guesses",
    "app/matching/test_neighbours.py": "reading_ways",
    "app/matching/test_scale.py": "usual_scales",
    "app/page_map/test_layout.py": "blocks",
    "app/page_map/test_routes.py": "boxes labels",
    "app/listening/test_listener.py": "frames heard",
    "app/listening/test_trouble.py": "evidence",
    "app/noting/test_case_notes.py": "log",
    "app/panel/test_machine.py": "acting behaviour entering events messages state work",
    "app/planning/test_grouping.py": "spans",
    "app/project/test_binding.py": "app/signals/reading",
    "app/project/test_references.py": "paths",
    "app/project_file/test_canonical.py": "layout",
    "app/project_file/test_files.py": "bounded_read",
    "app/project_file/test_known_files.py": "locks",
    "app/probing/test_line.py": "wire",
    "app/proposing/test_propose.py": (
        "deeds draft entries machine numbers outages routes running screens stops texts ways"
    ),
    "app/probing/test_settings_search.py": "priors",
    "app/recording/test_damaged.py": "integrity opening writer",
    "app/recording/test_history.py": "clock gathering saving",
    "app/recording/test_hostile.py": "tables",
    "app/recording/test_reader.py": "envelope",
    "app/recording/test_recorder.py": "limits",
    "app/starters/test_build.py": "answers control_words fitting",
    "app/signing/test_public_key.py": "wire",
    "app/snapshots/test_restoring.py": "differences app/project/raw_register",
    "app/snapshots/test_taking.py": "files listing snapshot app/cli/verbs/snapshots",
    "outside/test_drive_protection.py": "app/follower/thermal",
    "outside/test_libmodbus.py": "app/signals/functions",
    "outside/test_response.py": "app/curves/response",
    "outside/test_sunspec_import.py": "app/exchange/sunspec",
    "pictures/test_contrast.py": (
        "widgets/kit/drawn/bars widgets/kit/drawn/boxes widgets/kit/drawn/buttons "
        "widgets/kit/drawn/entries widgets/kit/drawn/rows"
    ),
    "pictures/test_plain_text.py": "widgets/kit/plain",
    "widgets/bench/test_workspace.py": "widgets/face/column widgets/live/panel_reason",
    "widgets/compare/test_window.py": "faces widgets/design/forms/part_texts",
    "widgets/repair/test_dialog.py": "reads_around ways_model",
    "widgets/design/behaviour/test_behaviour_view.py": (
        "key_lines key_list keys_pane rule_edits sentence_editor sentence_list sentence_model sentence_painting "
        "word_editors"
    ),
    "widgets/design/exchange/test_import_list.py": (
        "import_choices import_model import_notes import_table app/exchange/row_summary"
    ),
    "widgets/design/forms/test_message_forms.py": "message_preview part_form rows",
    "widgets/design/lines/test_lines_view.py": (
        "port_row reads_table widgets/design/tables/part_editing widgets/design/tables/part_model "
        "widgets/design/tables/part_views"
    ),
    "widgets/design/page_map/test_items.py": "arrows gestures ground keyboard keys node scene spoken view",
    "widgets/design/page_map/test_pane.py": "add_screen_change",
    "widgets/design/properties/test_ways.py": "screen_form",
    "widgets/design/screen/test_arranging.py": "commands",
    "widgets/design/screen/test_clipboard.py": "paste_dialog widgets/design/screens_pane widgets/kit/notice",
    "widgets/design/screen/test_cursor_line.py": "field_places",
    "widgets/design/screen/test_editor.py": "actions keys tools",
    "widgets/design/signals/test_signals_view.py": (
        "uses widgets/design/exchange/signal_lists widgets/design/tables/bad_cells "
        "widgets/design/tables/cell_editor widgets/design/tables/fill_series widgets/design/tables/information_line "
        "widgets/design/tables/overwriting "
        "widgets/design/tables/part_grid widgets/design/tables/part_table widgets/design/tables/table_work "
        "widgets/design/values/signal_texts"
    ),
    "widgets/design/test_findings.py": "finding_deeds findings_model",
    "widgets/design/test_workspace.py": (
        "inspector navigation part_commands screens_list table_commands tools views "
        "widgets/design/forms/panel_view "
        "widgets/design/forms/condition_row widgets/design/forms/form "
        "widgets/design/forms/link_rows widgets/design/forms/screen_forms widgets/design/signals/form "
        "widgets/document/running_checks widgets/face/thumbnails"
    ),
    "widgets/design/tray/test_tray.py": "dropping widgets/design/left_pane",
    "widgets/design/values/test_cell_reading.py": "column widgets/design/lines/cells widgets/design/signals/cells",
    "widgets/design/values/test_pasted_tables.py": "widgets/design/signals/columns",
    "widgets/face/test_cells.py": "colours marks",
    "widgets/find_out/test_which_register.py": "labelled match_tables",
    "widgets/find_out/test_window.py": (
        "found_tables investigation line_page project_page registers_page search_page step_list"
    ),
    "widgets/frame/test_connect_bar.py": "header",
    "widgets/frame/test_connecting.py": "window_news",
    "widgets/kit/test_tables.py": "quick_cells",
    "widgets/live/test_follower_card.py": "simulated_switches",
    "widgets/live/test_line_view.py": "line_figures transaction_parts transactions_table widgets/kit/dialogs/questions",
    "widgets/live/test_readings_table.py": "readings_model",
    "widgets/shell/test_dialogs.py": "widgets/document/problems",
    "widgets/shell/test_help.py": "widgets/kit/commands",
    "widgets/shell/test_project_files.py": (
        "recovery_dialog widgets/document/file_questions widgets/document/file_status widgets/document/file_watch "
        "widgets/document/recent_files"
    ),
    "widgets/shell/test_window.py": ("line_place window_state widgets/document/blank widgets/live/recording"),
    "widgets/snapshots/test_dialog.py": "registers_table restoring_dialog",
    "widgets/start_up/test_events_view.py": "events_table",
    "widgets/start_up/test_trend_view.py": "trend_curves trend_export trend_head trend_legend trend_plot",
    "widgets/start_up/test_workspace.py": "replay_bar",
    "widgets/welcome/test_start_page.py": "card drawings recent_list",
    "widgets/trial/test_records.py": "difference_dialog sign_dialog",
    "widgets/trial/test_workspace.py": "head side_pane step_page steps_table",
}
"""Modules that have no test of their own name, by the test that tests them, seen from tests/. A module is named from
the room that the test mirrors, one of another room by its whole path."""

OF_NO_ROOM: Final = {"widgets/test_focus_ring.py", "widgets/test_none_references.py"}
"""Tests of what all rooms stand on, seen from tests/."""

ROOM: Final = 15
"""How many modules a room should have at most."""

LARGER: Final = {
    "app/checks": 20,
    "app/edits": 18,
    "app/exchange": 18,
    "app/follower": 19,
    "app/project": 18,
    "widgets/kit": 23,
    "widgets/live": 19,
    "widgets/shell": 16,
}
"""Rooms that have more, and how many; see LARGEST."""

LARGEST: Final = 25


def modules() -> list[Path]:
    """Every module of the program, from its home."""
    found = (path.relative_to(HOME) for house in HOUSES for path in sorted((HOME / house).rglob("*.py")))
    return [path for path in found if path.name != "__init__.py"]


def rooms() -> list[Path]:
    return sorted({module.parent for module in modules()})


def mirrored(module: Path) -> Path:
    """The test of a module, seen from tests/."""
    return module.with_name(f"test_{module.stem.strip('_')}.py")


def elsewhere() -> Iterator[tuple[Path, str]]:
    """The modules of the table, with the test that tests each."""
    for test, names in TESTED_BY.items():
        for name in names.split():
            yield (Path(name) if "/" in name else Path(test).parent / name).with_suffix(".py"), test


@cache
def imports() -> grimp.ImportGraph:
    graph = grimp.build_graph(*HOUSES, exclude_type_checking_imports=False)
    for verb in graph.find_children("app.cli.verbs"):
        graph.add_import(importer="app.cli.parser", imported=verb)  # by a name in a variable
    return graph


def imported_by(test: Path) -> set[str]:
    """The modules of the program that a test imports: by itself, by what it shares with other tests, and by theirs."""
    found: set[str] = set()
    seen, queue = {test}, [test]
    while queue:
        for node in ast.walk(ast.parse(queue.pop().read_text(encoding="utf-8"))):
            if not isinstance(node, ast.ImportFrom) or node.module is None:
                continue
            for name in (node.module, *(f"{node.module}.{alias.name}" for alias in node.names)):
                helper = HOME / Path(*name.split(".")).with_suffix(".py")
                if name.startswith("tests.") and helper.exists() and helper not in seen:
                    seen.add(helper)
                    queue.append(helper)
                elif name in imports().modules:
                    found |= {name} | imports().find_upstream_modules(name)
    return found


def circles() -> list[set[str]]:
    """The modules that lead back to themselves, those of one circle together."""
    graph = imports()
    leads_to = {module: graph.find_upstream_modules(module) for module in graph.modules}
    found: list[set[str]] = []
    for module in sorted(leads_to):
        circle = {other for other in leads_to[module] if module in leads_to[other]}
        if circle and not any(module in known for known in found):
            found.append(circle | {module})
    return found


# The mirror


def test_every_module_has_a_test_where_it_stands_or_is_said_to_have_one_elsewhere() -> None:
    untested = {module for module in modules() if not (HOME / "tests" / mirrored(module)).exists()}
    excused = {module for module, _ in elsewhere()}
    assert sorted(map(str, untested - excused)) == [], (
        "give each a test of its name, or say in TESTED_BY which tests it"
    )
    assert sorted(map(str, excused - untested)) == [], "these are gone or have a test of their name: out of TESTED_BY"


@pytest.mark.parametrize("test", TESTED_BY)
def test_what_is_tested_elsewhere_is_at_least_reached_from_there(test: str) -> None:
    path = HOME / "tests" / test
    assert path.exists()
    reached = imported_by(path)
    named = [".".join(module.with_suffix("").parts) for module, by in elsewhere() if by == test]
    assert [name for name in named if name not in reached] == []


def test_every_test_stands_in_a_room() -> None:
    named = {mirrored(module) for module in modules()}
    places = {room for room in rooms() if room.name not in HOUSES}
    tests = {
        test.relative_to(HOME / "tests") for house in HOUSES for test in (HOME / "tests" / house).rglob("test_*.py")
    }
    assert {test.as_posix() for test in tests if test not in named and test.parent not in places} == OF_NO_ROOM


# Rooms


@pytest.mark.parametrize("room", rooms(), ids=str)
def test_a_room_says_what_it_is_for(room: Path) -> None:
    said = ast.get_docstring(ast.parse((HOME / room / "__init__.py").read_text(encoding="utf-8")))
    assert said is not None
    assert len(said.split()) > 3
    assert said.endswith(".")


def test_a_room_can_be_looked_over() -> None:
    counts = {room.as_posix(): sum(module.parent == room for module in modules()) for room in rooms()}
    assert {room: count for room, count in counts.items() if count > ROOM} == LARGER
    assert max(LARGER.values(), default=0) <= LARGEST


# Imports


def test_no_imports_go_in_a_circle() -> None:
    assert circles() == []


# Names


def public_types() -> Iterator[tuple[str, str]]:
    """The classes and the named types of every module that are defined there, with their module."""
    for module in modules():
        for node in ast.parse((HOME / module).read_text(encoding="utf-8")).body:
            match node:
                case ast.ClassDef(name=name):
                    yield name, str(module)
                case ast.Assign(targets=[ast.Name(id=name)]) | ast.AnnAssign(target=ast.Name(id=name)):
                    if name[:1].isupper() and not name.isupper():
                        yield name, str(module)


def test_the_name_of_a_public_type_means_one_thing_in_the_whole_program() -> None:
    defined: dict[str, list[str]] = {}
    for name, module in public_types():
        if not name.startswith("_"):
            defined.setdefault(name, []).append(module)
    assert len(defined) > 300
    assert {name: homes for name, homes in defined.items() if len(homes) > 1} == {}
