"""Recordings from the command line: made against a real follower, and written out for others."""

from __future__ import annotations

import csv
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from app.cli.parser import main
from app.project_file.files import dump, load
from app.recording.clock import CivilClock
from app.recording.reader import Recording
from app.recording.writer import Writer
from app.signals.reading import Quality
from projects import demo_path
from tests.counting_device import PROJECT_TEXT, CountingDevice

PUMP = str(demo_path("booster-pump"))


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    path = tmp_path / "run.fanrec"
    assert main(["record", PUMP, "--via", "simulated", "--to", str(path), "--for", "1.5", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["file"] == str(path)
    assert told["samples"] > 20
    assert (told["lost"], told["trouble"]) == (0, "")
    return path


def rows(text: str) -> list[list[str]]:
    return list(csv.reader(text.splitlines()))


def test_a_recording_has_what_was_read(run: Path) -> None:
    with Recording.open(run) as recording:
        assert recording.count("frequency") >= 4
        assert recording.project == load(PUMP)


def test_it_is_written_out_as_a_table(run: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["export", str(run), "--signal", "speed set point", "--signal", "remote"]) == 0
    table = rows(capsys.readouterr().out)
    assert table[0] == ["time", "seconds", "speed set point [Hz]", "remote"]
    assert {row[2] for row in table[1:]} <= {"41.65", ""}
    assert {row[3] for row in table[1:]} <= {"1", ""}
    assert [float(row[1]) for row in table[1:]] == sorted(float(row[1]) for row in table[1:])


def test_it_is_written_out_sample_by_sample_with_its_registers(run: Path, tmp_path: Path) -> None:
    target = tmp_path / "samples.csv"
    assert main(["export", str(run), "--rows", "--to", str(target), "--semicolons"]) == 0
    table = list(csv.reader(target.read_text(encoding="utf-8-sig").splitlines(), delimiter=";"))
    set_points = [row for row in table if row[2] == "speed set point"]
    assert all(row[3:] == ["41.65", "Hz", "good", "208A"] for row in set_points)
    assert len(table) - 1 == sum(Recording.open(run).count(name) for name in Recording.open(run).signals)


def test_a_decimal_comma_comes_with_semicolons_and_changes_nothing_else(
    run: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for what in ([], ["--rows"], ["--events"], ["--every", "0.1"]):
        assert main(["export", str(run), *what]) == 0
        plain = rows(capsys.readouterr().out)
        assert main(["export", str(run), *what, "--decimal-comma"]) == 0
        found = list(csv.reader(capsys.readouterr().out.splitlines(), delimiter=";"))
        assert [row[0] for row in found] == [row[0] for row in plain], "civil times are as they were"
        numbers = [cell for row in found[1:] for cell in row[1:2]]
        assert all(re.fullmatch(r"\d+,\d{6}", cell) for cell in numbers)
        assert [[cell.replace(",", ".") for cell in row[1:]] for row in found] == [
            [cell.replace(",", ".") for cell in row[1:]] for row in plain
        ]
    assert main(["export", str(run), "--decimal-comma", "--signal", "speed set point"]) == 0
    assert "41,65" in capsys.readouterr().out


def test_rows_on_a_fixed_grid_hold_the_last_value(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    clock = [0.0]
    writer = Writer(tmp_path / "grid.fanrec", load(PUMP), clock=CivilClock(lambda: clock[0]))
    for at, name, quality, word in (
        (0.0, "speed set point", Quality.GOOD, 8330),
        (0.25, "frequency", Quality.GOOD, 10),
        (0.5, "frequency", Quality.GOOD, 20),
        (0.75, "frequency", Quality.STALE, 0),
        (1.25, "frequency", Quality.GOOD, 40),
    ):
        clock[0] = at
        writer.add(name, at, quality, (word,))
    writer.close()
    options = ["export", str(tmp_path / "grid.fanrec"), "--signal", "speed set point", "--signal", "frequency"]
    assert main([*options, "--every", "0.25"]) == 0
    table = rows(capsys.readouterr().out)
    assert [row[1] for row in table[1:]] == [f"{number / 4:.6f}" for number in range(6)]
    assert {row[2] for row in table[1:]} == {"41.65"}
    step = float(table[2][3]) / 10
    assert [row[3] for row in table[1:]] == [
        *("", f"{step * 10:.12g}", f"{step * 20:.12g}"),
        *("lost", "lost", f"{step * 40:.12g}"),
    ]
    assert main([*options, "--every", "0.5", "--from", "0.6"]) == 0
    table = rows(capsys.readouterr().out)
    assert [row[1:] for row in table[1:]] == [
        ["0.600000", "41.65", f"{step * 20:.12g}"],
        ["1.100000", "41.65", "lost"],
    ], "what was read before the first row holds there"
    with pytest.raises(SystemExit):
        main([*options, "--every", "0"])


def test_events_and_the_project_come_out_too(run: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["export", str(run), "--events"]) == 0
    assert [row[2] for row in rows(capsys.readouterr().out)][1] == "recording"
    assert main(["export", str(run), "--project"]) == 0
    assert capsys.readouterr().out == dump(load(PUMP))


def test_a_part_of_it(run: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["export", str(run), "--from", "0.5", "--until", "0.9"]) == 0
    times = [float(row[1]) for row in rows(capsys.readouterr().out)[1:]]
    assert times
    assert all(0.5 <= at <= 0.9 for at in times)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["export", "none.fanrec"], "there is no file"),
        (["export", PUMP], "is not a recording"),
        (["record", PUMP, "--via", "simulated", "--to", "{run}"], "already exists"),
        (["record", PUMP, "--via", "simulated", "--to", "/nowhere/at/all/x.fanrec"], "cannot be written"),
        (["export", "{run}", "--signal", "sped"], "no signal 'sped'"),
        (["export", "{run}", "--to", "{run}"], "already exists"),
        (["export", "{run}", "--from", "5", "--until", "3"], "--until 3 lies before --from 5"),
        (["record", PUMP, "--to", "x", "--max-mb", "-1"], "not a number above 0"),
    ],
)
def test_what_cannot_be_is_said(
    run: Path, arguments: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        status = main([argument.format(run=run) for argument in arguments])
    except SystemExit as end:
        status = int(str(end.code))
    assert status == 2
    assert words in capsys.readouterr().err


def test_a_line_that_does_not_answer_is_found_wrong(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    arguments = ["record", PUMP, "--via", "tcp://127.0.0.1:1", "--to", str(tmp_path / "a.fanrec"), "--for", "0.5"]
    assert main(arguments) == 1
    assert "0 samples" in capsys.readouterr().out


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl+C reaches a process otherwise there")
def test_ctrl_c_ends_it_in_order(tmp_path: Path) -> None:
    import signal

    path = tmp_path / "a.fanrec"
    code = "from app.cli.parser import main; raise SystemExit(main())"
    command = [sys.executable, "-c", code, "record", PUMP, "--via", "simulated", "--to", str(path), "--json"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=Path(__file__).parents[3])
    from tests.waiting import wait_for

    def some() -> bool:
        try:
            with Recording.open(path) as recording:
                return recording.count("frequency") > 2
        except Exception:  # noqa: BLE001  # not there yet, or still being made
            return False

    wait_for(some)
    process.send_signal(signal.SIGINT)
    out, _ = process.communicate(timeout=20)
    assert process.returncode == 0
    assert json.loads(out)["samples"] > 0
    with Recording.open(path) as recording:
        assert recording.ended is not None


@pytest.mark.skipif(sys.platform == "win32", reason="pipes of POSIX")
@pytest.mark.parametrize("gone", ["stderr", "stdout", "both"])
def test_recording_goes_on_when_nobody_listens_any_more(tmp_path: Path, gone: str) -> None:
    """The terminal was closed, or the program behind a pipe has ended: what is recorded is worth more than words."""
    target = tmp_path / "run.fanrec"
    code = (
        "import app.cli.verbs.recordings as verbs, sys\n"
        "verbs.TELL_EVERY_S = 0.1\n"
        "from app.cli.parser import main\n"
        f"sys.exit(main(['record', {str(demo_path('booster-pump'))!r}, '--via', 'simulated', '--for', '1.5', "
        f"'--to', {str(target)!r}]))"
    )
    reading, writing = os.pipe()
    os.close(reading)
    with open(writing, "wb") as nobody:  # noqa: PTH123  # a descriptor
        done = subprocess.run(
            [sys.executable, "-c", code],
            stderr=nobody if gone != "stdout" else subprocess.PIPE,
            stdout=nobody if gone != "stderr" else subprocess.PIPE,
            timeout=60,
            check=False,
        )
    assert done.returncode == (0 if gone == "stderr" else 2)
    with Recording.open(target) as recording:
        assert recording.ended is not None
        begin, end = recording.span()
        assert end - begin > 1.0
    for words in (done.stdout, done.stderr):
        assert b"Traceback" not in (words or b"")
        assert b"Exception ignored" not in (words or b"")


def test_the_very_first_answers_of_a_device_are_in_it(tmp_path: Path) -> None:
    with CountingDevice() as device:
        (tmp_path / "p.toml").write_text(PROJECT_TEXT)
        to = ["--via", f"tcp://127.0.0.1:{device.port}", "--to", str(tmp_path / "a.fanrec"), "--for", "1"]
        assert main(["record", str(tmp_path / "p.toml"), *to]) == 0
        with Recording.open(tmp_path / "a.fanrec") as recording:
            values = recording.values("answers", recording.samples("answers", *recording.span()))
        counted = values[~np.isnan(values)].tolist()
        assert counted == list(range(len(counted)))
        assert len(counted) > 10
