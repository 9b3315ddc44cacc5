"""`fanlight match`: snapshots and what the display showed, for people and for programs."""

from __future__ import annotations

import datetime
import json
from pathlib import Path

import pytest

from app.cli.parser import main
from app.snapshots.files import save
from app.snapshots.snapshot import RegisterSnapshot
from tests.app.matching.test_match import at, crowd


def snapshot(path: Path, words: dict[int, int], unit: int = 3) -> str:
    taken = datetime.datetime(2026, 11, 30, 12, tzinfo=datetime.UTC)
    registers = {("holding", address): word for address, word in words.items()}
    save(RegisterSnapshot("pump", unit, "tcp://192.0.2.1:502", "from-1", taken, registers), path)  # type: ignore[arg-type]
    return str(path)


@pytest.fixture
def files(tmp_path: Path) -> tuple[str, str]:
    crowded = crowd(1)
    return (
        snapshot(tmp_path / "a=b.registers.toml", at(crowded, 37, 6824)),
        snapshot(tmp_path / "low.registers.toml", at(crowded, 37, 1212)),
    )


def test_json_has_the_best_first(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["match", f"{files[0]}=41.65 %", f"{files[1]}=7.40", "--json"]) == 0
    first = json.loads(capsys.readouterr().out)["candidates"][0]
    assert 0 < first.pop("chance") < 0.01
    assert [each["encoding"] for each in first.pop("also")] == ["int16"]
    assert first.pop("twins") == []
    assert first == {
        "table": "holding",
        "address": 37,
        "encoding": "uint16",
        "word_order": "high-first",
        "byte_order": "high-first",
        "scale": {"raw": [0, 16_384], "value": [0, 100]},
    }


def test_for_people_registers_are_counted_as_the_snapshot_says(
    files: tuple[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["match", f"{files[0]}=41.65 %", f"{files[1]}=7.40"]) == 0
    out, said = capsys.readouterr()
    assert out.startswith("holding register 38: uint16, 0 to 16384 is 0 to 100, by chance 1 in ")
    assert "sign" in said


def test_none_is_1(files: tuple[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["match", f"{files[0]}=0.0", f"{files[1]}=0.0", "--json"]) == 1
    assert json.loads(capsys.readouterr().out) == {"candidates": []}
    assert main(["match", f"{files[0]}=0.0"]) == 1
    assert "0 is no evidence" in capsys.readouterr().err


def test_by_how_much_the_display_moves(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It shows halves: 1244 counts of 0.5 are 622.0."""
    one, other = snapshot(tmp_path / "1", {3: 1244, 4: 1}), snapshot(tmp_path / "2", {3: 600, 4: 2})
    assert main(["match", f"{one}=622.0", f"{other}=300.0", "--step", "0.5", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["candidates"][0]["scale"] == {"raw": [0, 2], "value": [0, 1]}
    assert main(["match", f"{one}=622.0", f"{other}=300.0", "--json"]) == 1


@pytest.mark.parametrize(
    ("reading", "words"),
    [
        ("none", "is not SNAPSHOT=VALUE"),
        ("=25.0", "is not SNAPSHOT=VALUE"),
        ("missing.toml=25.0", "missing.toml"),
        ("{}=Hz", "begin with a number"),
    ],
)
def test_what_cannot_run_is_2(
    files: tuple[str, str], reading: str, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["match", reading.replace("{}", files[0])]) == 2
    assert words in capsys.readouterr().err
    assert main(["match", f"{files[0]}=25.0", "--step", "x"]) == 2


def test_other_devices_are_told(files: tuple[str, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = snapshot(tmp_path / "other", crowd(1), unit=4)
    main(["match", f"{files[0]}=41.65", f"{other}=7.40"])
    assert "not all of one device" in capsys.readouterr().err
