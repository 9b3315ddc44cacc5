"""`fanlight line` as a technician or another program meets it: over real sockets, against good and bad followers."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from app.cli.parser import main
from projects import demo_path
from tests.staged_follower import Answer, Asked, Registers, StagedFollower

PUMP = str(demo_path("booster-pump"))


def watched(capsys: pytest.CaptureFixture[str], *argv: str, for_s: float = 1.0) -> tuple[int, str, str]:
    capsys.readouterr()
    status = main(["line", *argv, "--for", str(for_s)])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return status, out, err


def objects(out: str) -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """The transactions, and the statistics with which the output ends."""
    lines = [json.loads(line) for line in out.splitlines()]
    assert list(lines[-1]) == ["statistics"]
    return [line["transaction"] for line in lines[:-1]], lines[-1]["statistics"]


@pytest.fixture
def device(tmp_path: Path) -> Path:
    """A project with one register, read often."""
    path = tmp_path / "device.toml"
    path.write_text(
        """
format = 2
panel = { start = "run" }
[[line]]
name = "bench"
kind = "tcp"
host = "127.0.0.1"
timeout_ms = 60
[[follower]]
name = "device"
line = "bench"
unit = 3
[[signal]]
name = "level"
follower = "device"
register = 310
unit = "mm"
every_ms = 20
[[screen]]
name = "run"
""",
        "utf-8",
    )
    return path


def test_each_transaction_is_told_with_its_bytes_in_parts(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, err = watched(capsys, PUMP, "--via", "simulated")
    assert status == 0
    # Protocol, length, unit 3, function 03, address 310; the answer begins with protocol, length, unit and function.
    told = [line for line in out.splitlines() if " 0000 0006 03 03 0136 " in line]
    assert told
    assert "read holding 310" in told[0]
    assert " 03 03 " in told[0].partition("  < ")[2]
    assert "208A" in told[0]  # 8330, the start value of 41.65 Hz
    assert "\u2713 good" in told[0]
    assert "line 'pump room' at tcp://127.0.0.1:" in out
    assert "bus load" in out
    assert "response time of pump" in out
    assert "Ctrl+C ends it" in err


def test_every_byte_can_be_put_into_words(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = watched(capsys, PUMP, "--via", "simulated", "--explain")
    assert "register 310: speed set point = 41.7 Hz (raw 8330)" in out
    assert "function: 03, read holding registers" in out


def test_json_gives_an_object_a_line_and_the_statistics_at_the_end(
    capsys: pytest.CaptureFixture[str], device: Path
) -> None:
    with StagedFollower("tcp", Registers()) as follower:
        status, out, _ = watched(capsys, str(device), "--via", str(follower.endpoint), "--json")
    assert status == 0
    told, (line,) = objects(out)
    assert told[0]["what"] == "read holding 310"
    assert told[0]["signals"] == ["level"]
    (answer,) = told[0]["received"]
    assert answer["parts"][-1] == {
        "hex": "01 36",
        "part": "register 310",
        "words": "level = 310 mm",
        "signals": ["level"],
        "wrong": False,
    }
    assert line["line"] == "bench"
    assert 0 < len(told) <= len(follower.asked)
    assert line["good"] == line["requests"] > 0
    assert line["measured"] == len(told)
    assert 0 < line["response_time_ms"]["device"]["median"] <= line["response_time_ms"]["device"]["worst"]
    assert 0 < line["bus_load"] < 1
    assert line["cycle_ms"] > 0
    assert line["faults"] == {}


def test_faults_only_and_each_in_words(capsys: pytest.CaptureFixture[str], device: Path) -> None:
    honest = Registers()

    def every_third(asked: Asked) -> Answer:
        return honest(asked) if asked.number % 3 else [asked.framed(bytes((0x83, 2)))]

    with StagedFollower("tcp", every_third) as follower:
        status, out, _ = watched(capsys, str(device), "--via", str(follower.endpoint), "--faults", "--json", for_s=2.5)
    assert status == 1
    told, (line,) = objects(out)
    assert told
    assert {one["fault"]["kind"] for one in told} == {"exception"}
    assert "illegal data address (02)" in told[0]["fault"]["words"]
    assert line["faults"]["exception"] == len(told)
    assert line["good"] > 0


def test_a_frame_with_a_bad_check_sum_is_taken_apart(capsys: pytest.CaptureFixture[str], device: Path) -> None:
    honest = Registers()

    def spoilt(asked: Asked) -> Answer:
        frame = asked.framed(honest.pdu(asked))
        return [frame[:-1] + bytes((frame[-1] ^ 1,))]

    with StagedFollower("serial-over-tcp", spoilt) as follower:
        status, out, _ = watched(capsys, str(device), "--via", str(follower.endpoint), "--explain", for_s=1.5)
    assert status == 1
    assert "received: damaged answer" in out
    assert "\u26a0 check sum: wrong" in out
    assert "bad check sum" in out


def test_only_one_follower(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = watched(capsys, str(demo_path("drying-hall")), "--via", "simulated", "--json")
    assert status == 0
    names = sorted({one["follower"] for one in objects(out)[0]})
    assert len(names) > 1
    status, out, _ = watched(
        capsys, str(demo_path("drying-hall")), "--via", "simulated", "--json", "--follower", names[0]
    )
    assert {one["follower"] for one in objects(out)[0]} == {names[0]}


def test_a_line_that_is_down_is_said_and_counts_as_wrong(capsys: pytest.CaptureFixture[str], device: Path) -> None:
    with StagedFollower("tcp", Registers()) as follower:
        gone = str(follower.endpoint)
    status, out, err = watched(capsys, str(device), "--via", gone)
    assert status == 1
    assert "line 'bench' is down: connection to port" in err
    assert "connection refused" in out


@pytest.mark.parametrize(
    ("argv", "said"),
    [
        ((PUMP, "--follower", "nobody", "--via", "simulated"), "there is no device 'nobody'; it has: 'pump'"),
        ((PUMP, "--via", "nonsense"), "'nonsense' is not an endpoint"),
        ((PUMP, "--via", "simulate"), "serial+tcp://HOST:PORT, or 'simulated'"),
        ((PUMP, "--via", "serial:/dev/no-such-port"), "there is no serial port /dev/no-such-port"),
        (("nowhere.toml",), "nowhere.toml"),
    ],
)
def test_what_cannot_be_watched_is_refused_in_a_sentence(
    capsys: pytest.CaptureFixture[str], argv: tuple[str, ...], said: str
) -> None:
    status, _, err = watched(capsys, *argv, for_s=0.3)
    assert status == 2
    assert said in err.splitlines()[-1]


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no SIGINT to send to one process")
def test_interrupted_it_tells_the_statistics(device: Path) -> None:
    command = [sys.executable, "-c", "from app.cli.parser import main; raise SystemExit(main())"]
    with (
        StagedFollower("tcp", Registers()) as follower,
        subprocess.Popen(
            [*command, "line", str(device), "--via", str(follower.endpoint)],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        ) as process,
    ):
        assert process.stdout is not None
        assert process.stderr is not None
        try:
            assert "read holding 310" in process.stdout.readline()
            process.send_signal(signal.SIGINT)
            out, err = process.communicate(timeout=30)
        finally:
            process.kill()
    assert process.returncode == 0, err
    assert "line 'bench' at tcp://" in out
    assert "Traceback" not in err
