"""`fanlight find` against devices that share no code with the program."""

from __future__ import annotations

import json
import os
import signal
import struct
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from app.checks.run import check
from app.cli.parser import main
from app.project_file.files import load
from app.snapshots.files import open_snapshot
from tests.staged_follower import Asked, StagedFollower
from tests.waiting import wait_for

UNIT = 34
HELD = {address: 7 * address for address in (*range(12), *range(100, 140))}
LONGEST = 16


def device(asked: Asked) -> Iterator[bytes]:
    if asked.unit != UNIT:
        return
    if asked.function == 17:
        yield asked.framed(b"\x11\x05HX-4\xff")
    elif asked.function != 3:
        yield asked.framed(bytes((asked.function | 0x80, 1)))
    elif asked.count > LONGEST:
        yield asked.framed(b"\x83\x03")
    elif all(asked.address + place in HELD for place in range(asked.count)):
        words = struct.pack(f">{asked.count}H", *(HELD[asked.address + place] for place in range(asked.count)))
        yield asked.framed(bytes((3, len(words))) + words)
    else:
        yield asked.framed(b"\x83\x02")


@pytest.fixture(params=["tcp", "serial-over-tcp", *(["serial"] if sys.platform != "win32" else [])])
def staged(request: pytest.FixtureRequest) -> Iterator[StagedFollower]:
    with StagedFollower(request.param, device) as made:
        yield made


def where(staged: StagedFollower) -> list[str]:
    endpoint = staged.endpoint
    if staged.kind == "serial":
        return ["--serial", endpoint.device, "--settings", "19200 8N1"]
    return [f"--{staged.kind}", f"127.0.0.1:{endpoint.port}"]


SHORT = ["--units", "30-36", "--tables", "holding", "--range", "0-199", "--listen", "0.2"]


def test_finds_a_hidden_device(staged: StagedFollower, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    project, snapshot = tmp_path / "found.toml", tmp_path / "found.registers.toml"
    rest = [*SHORT, "--to", str(project), "--snapshot", str(snapshot), "--json"]
    assert main(["find", *where(staged), *rest]) == 0
    said = capsys.readouterr()
    found = json.loads(said.out)
    assert set(found) == {"settings", "heard", "followers", "probes", "seconds", "stopped_by"}
    assert found["stopped_by"] == "done"
    assert found["settings"] == ({"baud": 19200, "parity": "none", "stop_bits": 1} if staged.kind == "serial" else None)
    (one,) = found["followers"]
    assert one["unit"] == UNIT
    assert one["functions"] == [3, 17]
    assert one["identification"] == {"ServerId": "HX-4"}
    assert one["longest_read"] == LONGEST
    spans = [(part["table"], part["first"], part["last"]) for part in one["ranges"]]
    assert spans == [("holding", 0, 11), ("holding", 100, 139)]
    assert found["probes"] == len(staged.asked)
    assert "caution" in said.err
    # What the device itself saw: nothing but functions that read, and nobody but the units that were asked for.
    assert {asked.function for asked in staged.asked} <= {1, 2, 3, 4, 17, 43}
    assert {asked.unit for asked in staged.asked} <= set(range(30, 37))
    assert {at: word for (_, at), word in open_snapshot(snapshot).registers.items()} == HELD
    made = load(str(project))
    assert [follower.unit for follower in made.followers] == [UNIT]
    assert not [finding for finding in check(made) if finding.severity == "error"]


def test_what_must_never_be_touched_is_not_and_stays_so(staged: StagedFollower, tmp_path: Path) -> None:
    """Also when the search is taken up again without saying it once more."""
    project, kept = tmp_path / "found.toml", tmp_path / "search.json"
    rest = [*SHORT, "--resume", str(kept), "--never", "holding:0-4,holding:105-109"]
    assert main(["find", *where(staged), *rest, "--budget", "0.1"]) in (0, 1)
    assert main(["find", *where(staged), *rest[:-2], "--to", str(project)]) == 0
    untouched = {*range(5), *range(105, 110)}
    reads = [range(asked.address, asked.address + asked.count) for asked in staged.asked if asked.function == 3]
    assert reads
    assert not untouched & {address for span in reads for address in span}
    (follower,) = load(str(project)).followers
    assert [(part.table, part.first, part.last) for part in follower.never_read] == [
        ("holding", 0, 4),
        ("holding", 105, 109),
    ]


def test_registers_that_are_none_are_no_option(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit, match="2"):
        main(["find", "--tcp", "127.0.0.1:1", "--never", "input:3,100-119"])
    assert "'100-119' names no registers" in capsys.readouterr().err


def test_nothing_there_is_1(capsys: pytest.CaptureFixture[str]) -> None:
    with StagedFollower("tcp", lambda _: []) as staged:
        assert main(["find", *where(staged), "--units", "1-2", "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["followers"] == []


@pytest.mark.parametrize(
    "words",
    [
        ["--tcp", "127.0.0.1:1"],
        ["--serial", "/dev/no-such-port"],
        ["--serial", "/dev/null", "--settings", "9600 7E1"],
        ["--tcp", "127.0.0.1", "--settings", "9600 8E1"],
        ["--tcp", "127.0.0.1", "--to", "/no/such/folder/p.toml"],
        ["--serial-over-tcp", "127.0.0.1:1", "--units", "0"],
    ],
)
def test_what_cannot_be_done_is_2(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["find", *words]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.strip()
    assert "Traceback" not in said.err


def test_a_file_that_is_there_is_not_overwritten(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    there = tmp_path / "mine.toml"
    there.write_text("mine")
    with StagedFollower("tcp", device) as staged:
        assert main(["find", *where(staged), *SHORT, "--to", str(there)]) == 2
        assert staged.asked == []
    assert there.read_text() == "mine"


@pytest.mark.skipif(os.name != "posix", reason="kills")
def test_a_search_that_was_killed_goes_on(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    kept = tmp_path / "search.json"
    with StagedFollower("tcp", device) as staged:
        command = [sys.executable, "-m", "app", "find", *where(staged), "--units", "1-60", "--resume", str(kept)]
        process = subprocess.Popen(command, stderr=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
        wait_for(kept.exists)
        process.send_signal(signal.SIGKILL)
        process.wait()
        before = {asked.unit for asked in staged.asked}
        staged.asked.clear()
        rest = ["--units", "1-60", "--tables", "holding", "--range", "0-199", "--json"]
        assert main(["find", *where(staged), *rest, "--resume", str(kept)]) == 0
        after = [asked.unit for asked in staged.asked if asked.unit != UNIT]
    (one,) = json.loads(capsys.readouterr().out)["followers"]
    assert one["unit"] == UNIT
    # What was asked before the last second of the killed search is not asked again.
    assert len(set(after) & before) < len(before)
