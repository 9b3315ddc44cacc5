"""Import of long register lists: reading, matching, converting, and the edit of the project; and writing them."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
from PySide6.QtCore import QElapsedTimer, QTimer
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from app.exchange.import_plan import ImportTarget
from app.exchange.importing import begin
from app.exchange.writing import as_text, as_workbook
from app.project.model import Follower, Project, TcpLine
from tests.big_project import big_project
from widgets.design.exchange.import_list import ImportDialog
from widgets.document.document import Document
from widgets.document.settings import Settings

LINE = TcpLine(name="hall", host="192.0.2.1")
KILN = Follower(name="kiln", line="hall")
EMPTY = Project.model_validate(
    {
        "panel": {"start": "run"},
        "screen": [{"name": "run"}],
        "line": [{"name": "hall", "kind": "tcp", "host": "192.0.2.1"}],
        "follower": [{"name": "kiln", "line": "hall"}],
    }
)
TITLES = ("Register", "Name", "Data type", "Scale", "Unit", "Access", "Min", "Max", "Description")


@pytest.fixture(scope="module")
def count(measured: bool) -> int:
    """How many rows."""
    return 20_000 if measured else 1_000


def rows(count: int) -> list[tuple[object, ...]]:
    """A list as a device's manual has it."""
    kinds = ("UINT", "INT", "UDINT", "REAL")
    return [
        (
            number * 2,
            f"Zone {number} temperature",
            kinds[number % 4],
            0.1 if number % 2 else 0.01,
            "°C",
            "R/W" if number % 3 else "R",
            0,
            number % 1000 + 0.5,
            f"Measured behind door {number} of the kiln",
        )
        for number in range(count)
    ]


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory, count: int) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("lists")
    text = folder / "list.csv"
    text.write_text("\n".join(",".join(map(str, row)) for row in (TITLES, *rows(count))), "utf-8")
    book = openpyxl.Workbook(write_only=True)
    sheet = book.create_sheet("Registers")
    for row in (TITLES, *rows(count)):
        sheet.append(row)
    book.save(folder / "list.xlsx")
    own = folder / "own.csv"
    own.write_bytes(as_text(big_project(1, count).signals))
    return {"csv": text, "xlsx": folder / "list.xlsx", "own": own}


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_from_the_file_to_the_edited_project(
    benchmark: BenchmarkFixture, files: dict[str, Path], count: int, kind: str
) -> None:
    def bring_in() -> Project:
        return begin(files[kind], EMPTY, ImportTarget(KILN, LINE)).edit(EMPTY)

    after = benchmark.pedantic(bring_in, rounds=3, warmup_rounds=1)
    assert len(after.signals) == count


def test_an_export_with_all_its_columns_comes_back(
    benchmark: BenchmarkFixture, files: dict[str, Path], count: int
) -> None:
    big = big_project(1, count)
    bare = big.replace(signals=(), screens=(big.screens[0].replace(fields=()),))

    def bring_in() -> Project:
        return begin(files["own"], bare, ImportTarget(None, None)).edit(bare)

    assert benchmark.pedantic(bring_in, rounds=3, warmup_rounds=1).signals == big.signals


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_writing(benchmark: BenchmarkFixture, kind: str, count: int) -> None:
    signals = big_project(1, count).signals
    data = benchmark.pedantic(as_text if kind == "csv" else as_workbook, (signals,), rounds=2)
    assert len(data) > 20 * count


def test_the_whole_way_through_the_dialog(
    benchmark: BenchmarkFixture, files: dict[str, Path], count: int, qtbot: QtBot
) -> None:
    """From the file to the document, with the longest time in which the window did not answer."""
    longest = 0

    def bring_in() -> None:
        nonlocal longest
        document = Document(EMPTY)
        clock, timer = QElapsedTimer(), QTimer()

        def beat() -> None:
            nonlocal longest
            longest = max(longest, clock.restart())

        timer.timeout.connect(beat)
        clock.start()
        timer.start(1)
        dialog = ImportDialog(document, Settings(keep=False), files["xlsx"])
        qtbot.addWidget(dialog)
        dialog.show()
        qtbot.waitUntil(dialog.bring_in.isEnabled, timeout=60_000)
        dialog.bring_in.click()
        beat()
        timer.stop()
        assert len(document.project.signals) == count

    benchmark.pedantic(bring_in, rounds=3, warmup_rounds=1)
    benchmark.extra_info["longest_without_an_answer_ms"] = longest
    print(f"longest time without an answer of the window: {longest} ms")
