"""Copies of unsaved work: kept whole, held by their window, found when it has died."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from app.project.model import Project
from app.project_file.canonical import canonical
from app.project_file.files import ProjectFileError, dump, load, parse
from app.project_file.pending_edits import LARGEST_LINE, KeptDraft
from app.project_file.recovery import Origin, Slot, UnsavedWork, left_behind, new_slot
from tests.former_formats import FORMAT_1, FORMAT_2, FORMER


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "state" / "recovery"


@pytest.fixture
def slot(folder: Path) -> Iterator[Slot]:
    made = new_slot(folder)
    yield made
    made.release()


def test_what_is_kept_is_read_back(slot: Slot, pump: Project, tmp_path: Path) -> None:
    origin = Origin(tmp_path / 'pump "3".toml', "a" * 64, 1_700_000_000.5)
    assert not slot.filled
    slot.write(canonical(pump), origin)
    assert slot.filled
    assert slot.read() == UnsavedWork(pump, origin)
    assert slot.origin == origin
    assert parse(slot.file.read_bytes()) == pump, "a copy is a project file that can be opened by hand"
    slot.clear()
    assert not slot.filled


def test_work_in_the_middle_of_an_edit_is_read_back_though_names_dangle(slot: Slot, pump: Project) -> None:
    half = pump.replace(signals=pump.signals[2:])
    slot.write(canonical(half), Origin(None, None, 5.0))
    with pytest.raises(ProjectFileError):
        parse(slot.file.read_bytes())
    assert slot.read() == UnsavedWork(half, Origin(None, None, 5.0))


STEP = KeptDraft(("signal", "ramp up"), "Step", 7, ("fast\n", "\x7f \u00fc"), "this is no number")
ROWS = KeptDraft(("panel",), "Rows", 1, ("x",), "not a number")


def test_what_is_not_taken_over_yet_is_read_back(slot: Slot, pump: Project, tmp_path: Path) -> None:
    origin = Origin(tmp_path / "pump.toml", "a" * 64, 5.0)
    slot.write(canonical(pump), origin, (STEP, ROWS))
    assert slot.read() == UnsavedWork(pump, origin, (STEP, ROWS))
    assert slot.origin == origin
    assert parse(slot.file.read_bytes()) == pump, "still a project file that can be opened by hand"
    slot.write(canonical(pump), origin)
    assert slot.read().drafts == ()


def test_what_belongs_to_a_part_that_is_not_there_is_left_out_and_told(slot: Slot, pump: Project) -> None:
    gone = replace(STEP, subject=("signal", "no such"))
    slot.write(canonical(pump), Origin(None), (gone, STEP))
    assert slot.read() == UnsavedWork(pump, Origin(None), (STEP,), all_drafts=False)


@pytest.mark.parametrize(
    "nonsense", [b"", b"{", b"{}", b"[" * 100_000, b"[1]", b"[null]", b'[{"subject": []}]', b"\xff\0\x01", b"1e999"]
)
def test_nonsense_among_them_costs_neither_the_project_nor_its_origin(
    slot: Slot, pump: Project, nonsense: bytes
) -> None:
    slot.write(canonical(pump), Origin(None, "a", 5.0), (STEP,))
    first, second, rest = slot.file.read_bytes().split(b"\n", 2)
    mark = second[: second.index(b"[")]
    slot.file.write_bytes(b"\n".join([first, mark + nonsense, rest]))
    assert slot.read() == UnsavedWork(pump, Origin(None, "a", 5.0), (), all_drafts=False)


def test_a_text_that_is_far_too_large_is_left_out_and_told(slot: Slot, pump: Project) -> None:
    huge = replace(ROWS, texts=("x" * LARGEST_LINE,))
    slot.write(canonical(pump), Origin(None), (huge, STEP))
    assert slot.read() == UnsavedWork(pump, Origin(None), (STEP,), all_drafts=False)
    assert slot.file.stat().st_size < 100_000


def test_copies_that_a_window_holds_are_left_alone(folder: Path, slot: Slot, pump: Project) -> None:
    slot.write(canonical(pump), Origin(None))
    assert left_behind(folder) == ()
    slot.release()
    found = left_behind(folder)
    assert [each.file for each in found] == [slot.file]
    assert left_behind(folder) == (), "whoever looks first holds them"
    found[0].release()
    again = left_behind(folder)
    assert len(again) == 1, "declined, it waits for the next"
    again[0].clear()
    again[0].release()
    assert list(folder.iterdir()) == []


def test_the_newest_comes_first(folder: Path, pump: Project) -> None:
    for at in (20.0, 30.0, 10.0):
        made = new_slot(folder)
        made.write(canonical(pump), Origin(None, None, at))
        made.release()
    found = left_behind(folder)
    assert [slot.origin.at for slot in found] == [30.0, 20.0, 10.0]
    for slot in found:
        slot.release()


@pytest.mark.parametrize(
    "content",
    [b"", b"\0\1\2", b"# fanlight unsaved work: {", b"# fanlight unsaved work: [1]\nformat = 2\n", b"format = 99\n"],
)
def test_a_damaged_copy_says_so_and_hides_no_other(folder: Path, slot: Slot, pump: Project, content: bytes) -> None:
    slot.write(canonical(pump), Origin(None))
    slot.release()
    (folder / "20200101-000000-aa.toml").write_bytes(content)
    found = left_behind(folder)
    assert len(found) == 2
    damaged = next(each for each in found if each.file != slot.file)
    assert damaged.origin.path is None
    with pytest.raises(ProjectFileError):
        damaged.read()
    for each in found:
        each.release()


def test_what_a_window_left_that_died_with_nothing_unsaved_is_tidied_up(folder: Path) -> None:
    folder.mkdir(parents=True)
    (folder / "20200101-000000-aa.lock").touch()
    assert left_behind(folder) == ()
    assert list(folder.iterdir()) == []


def test_without_a_folder_there_is_nothing_behind(tmp_path: Path) -> None:
    assert left_behind(tmp_path / "none") == ()


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="has no named pipes")
def test_a_pipe_in_the_folder_is_passed_over(folder: Path, slot: Slot, pump: Project) -> None:
    slot.write(dump(pump), Origin(None))
    slot.release()
    os.mkfifo(folder / "20260101-000000-00000000.toml")
    (found,) = left_behind(folder)
    assert found.read().project == pump
    found.release()


def test_a_folder_that_cannot_be_is_an_error(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(OSError):
        new_slot(tmp_path / "file" / "recovery")


@pytest.mark.parametrize("name", FORMER)
def test_a_copy_of_an_earlier_version_is_read_with_what_was_typed(slot: Slot, name: str) -> None:
    text = (FORMAT_1 / f"{name}.toml").read_text("utf-8")
    typed = replace(STEP, subject=("turn", 1))
    slot.write(text, Origin(None, None, 5.0), [typed])
    copy = slot.file.read_bytes()
    assert copy.count(b"# fanlight not accepted: ") == 1
    slot.file.write_bytes(copy.replace(b"not accepted: ", b"not taken over: "))
    project = load(FORMAT_2 / f"{name}.toml")
    assert slot.read() == UnsavedWork(project, Origin(None, None, 5.0), (replace(typed, subject=("screen_change", 1)),))


HOLDER = """
import sys, time
from pathlib import Path
from app.project_file.recovery import Origin, new_slot
slot = new_slot(Path(sys.argv[1]))
slot.write('format = 2\\n[panel]\\nstart = "a"\\n[[screen]]\\nname = "a"\\n', Origin(Path("/x/pump.toml"), None, 7.0))
print("held", flush=True)
time.sleep(600)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="kills as Unix does")
def test_a_program_that_is_killed_leaves_its_copy_to_the_next(folder: Path) -> None:
    holder = subprocess.Popen(
        [sys.executable, "-c", HOLDER, str(folder)],
        stdout=subprocess.PIPE,
        cwd=Path(__file__).parents[3],
        text=True,
    )
    assert holder.stdout is not None
    assert holder.stdout.readline() == "held\n"
    assert left_behind(folder) == ()
    os.kill(holder.pid, signal.SIGKILL)
    holder.wait()
    holder.stdout.close()
    (found,) = left_behind(folder)
    assert found.origin == Origin(Path("/x/pump.toml"), None, 7.0)
    found.release()
