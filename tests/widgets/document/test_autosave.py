"""Unsaved work outlives the program: windows are killed in the middle of typing, and started again."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pytest

from app import edits
from app.project_file.files import load, save
from tests.big_project import big_project
from tests.waiting import wait_for
from tests.widgets.bench_project import bench_project
from tests.widgets.typing_window import STEP

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="kills as Unix does")

FEW_SECONDS: Final = 8.0
"""What a crash may lose at most, on a computer that is busy with other tests."""


class Window:
    """The typing window in a process of its own."""

    def __init__(self, folder: Path, deed: str, project: Path | None) -> None:
        self._process = subprocess.Popen(
            [
                sys.executable,
                "-m",
                "tests.widgets.typing_window",
                str(folder / "settings"),
                str(folder / "state"),
                deed,
                *([] if project is None else [str(project)]),
            ],
            cwd=Path(__file__).parents[3],
            env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )

    def say(self) -> dict[str, Any]:
        """What it says next."""
        assert self._process.stdout is not None
        line = self._process.stdout.readline()
        assert line, self._process.communicate(timeout=10)
        found: dict[str, Any] = json.loads(line)
        return found

    def send(self, number: int) -> None:
        """Send a signal."""
        self._process.send_signal(number)

    def kill(self, number: int = signal.SIGKILL) -> list[dict[str, Any]]:
        """End it; what it had said that was not read."""
        self.send(number)
        rest, _ = self._process.communicate(timeout=30)
        return [json.loads(line) for line in rest.splitlines() if line.endswith("}")]

    def end(self) -> None:
        """Make sure that it is gone."""
        if self._process.poll() is None:
            self._process.kill()
            self._process.communicate(timeout=30)


@pytest.fixture
def windows() -> Iterator[list[Window]]:
    made: list[Window] = []
    yield made
    for window in made:
        window.end()


def start(windows: list[Window], folder: Path, deed: str, project: Path | None = None) -> Window:
    windows.append(Window(folder, deed, project))
    return windows[-1]


def copies(folder: Path) -> list[Path]:
    return sorted((folder / "state" / "recovery").glob("*.toml"))


@pytest.mark.parametrize("numbers", [60, 110, 170])
def test_a_kill_in_the_middle_of_typing_loses_a_few_seconds_at_most(
    tmp_path: Path, windows: list[Window], numbers: int
) -> None:
    file = tmp_path / "pump.toml"
    save(bench_project(), file)
    content = file.read_bytes()
    window = start(windows, tmp_path, "both", file)
    drafts = window.say()["drafts"]
    assert len(drafts) == 1
    assert f"'{STEP}' was not accepted" in drafts[0]
    typed = [window.say() for _ in range(numbers)]
    wait_for(lambda: copies(tmp_path))
    killed = time.monotonic()
    typed += window.kill()
    assert file.read_bytes() == content, "never over the user's file"

    again = start(windows, tmp_path, "recover", file)
    offer, found = again.say(), again.say()
    assert offer["offered"] == 1
    assert str(file) in offer["where"]
    assert "screen 'run' modified" in offer["differences"]
    assert f"signal 'set point', Step: '{STEP}'" in offer["differences"]
    assert found["modified"]
    assert found["path"] == str(file)
    number = int(found["text"][0][:6])
    lost = killed - next(each["at"] for each in typed if each["number"] == number)
    assert lost < FEW_SECONDS
    assert file.read_bytes() == content, "recovered, but not saved"
    assert found["drafts"] == drafts
    assert "Not accepted yet, see the findings: 1" in found["told"]

    again.kill()
    third = start(windows, tmp_path, "recover", file)
    third.say()
    once_more = third.say()
    assert once_more["text"] == found["text"], "killed again, it is still there"
    assert once_more["drafts"] == drafts


def test_what_was_not_taken_over_yet_is_kept_though_nothing_else_is_unsaved(
    tmp_path: Path, windows: list[Window]
) -> None:
    file = tmp_path / "pump.toml"
    save(bench_project(), file)
    window = start(windows, tmp_path, "draft", file)
    drafts = window.say()["drafts"]
    wait_for(lambda: copies(tmp_path))
    window.kill()
    for _ in range(2):
        again = start(windows, tmp_path, "recover", file)
        offer, found = again.say(), again.say()
        assert "Everything that was accepted is in its file" in offer["differences"]
        assert not found["modified"]
        assert found["path"] == str(file)
        assert found["drafts"] == drafts
        again.kill()


def test_a_project_that_was_never_saved_and_one_of_200_screens(tmp_path: Path, windows: list[Window]) -> None:
    large = tmp_path / "large.toml"
    save(big_project(), large)
    two = [start(windows, tmp_path, "type"), start(windows, tmp_path, "type", large)]
    for window in two:
        window.say()
    wait_for(lambda: len(copies(tmp_path)) == 2, limit_s=60)
    for window in two:
        window.kill()
    again = start(windows, tmp_path, "keep")
    offer, found = again.say(), again.say()
    assert offer["offered"] == 2
    assert not found["modified"], "declined, nothing is taken over"
    assert len(copies(tmp_path)) == 2, "and nothing is lost"
    again.kill()
    assert len(copies(tmp_path)) == 2


def test_a_window_that_lives_keeps_its_copy_from_the_others(tmp_path: Path, windows: list[Window]) -> None:
    file = tmp_path / "pump.toml"
    save(bench_project(), file)
    first = start(windows, tmp_path, "type", file)
    first.say()
    wait_for(lambda: copies(tmp_path))
    second = start(windows, tmp_path, "look", file)
    found = second.say()
    assert not found["modified"]
    assert "open in another window" in found["bar"]
    assert len(copies(tmp_path)) == 1


def test_told_to_end_twice_it_asks_nothing_and_keeps_what_is_unsaved(tmp_path: Path, windows: list[Window]) -> None:
    file = tmp_path / "pump.toml"
    save(bench_project(), file)
    window = start(windows, tmp_path, "type", file)
    window.say()
    window.send(signal.SIGTERM)
    last = window.say()["number"]
    for _ in range(5):  # it asks whether to save meanwhile
        window.say()
    window.kill(signal.SIGTERM)
    again = start(windows, tmp_path, "recover", file)
    again.say()
    assert int(again.say()["text"][0][:6]) >= last


def test_recovered_work_knows_that_its_file_has_changed_since(tmp_path: Path, windows: list[Window]) -> None:
    file = tmp_path / "pump.toml"
    save(bench_project(), file)
    window = start(windows, tmp_path, "type", file)
    window.say()
    wait_for(lambda: copies(tmp_path))
    window.kill()
    save(edits.set_title(load(file), "Other"), file)
    again = start(windows, tmp_path, "recover", file)
    offer = again.say()
    assert 'title: "Other" -> "Bench"' in offer["differences"]
    assert again.say()["modified"]


def test_started_without_a_file_it_begins_where_it_was_left(tmp_path: Path, windows: list[Window]) -> None:
    file = tmp_path / "pump.toml"
    save(bench_project(), file)
    first = start(windows, tmp_path, "look", file)
    assert first.say()["path"] == str(file)
    first.kill(signal.SIGTERM)
    second = start(windows, tmp_path, "look")
    found = second.say()
    assert found["path"] == str(file)
    assert found["bar"] == ""
    second.kill(signal.SIGTERM)
    assert copies(tmp_path) == []
    file.unlink()
    found = start(windows, tmp_path, "look").say()
    assert found["path"] == "None"
    assert "cannot be opened" in found["bar"]
