"""The command line as a user or another program meets it."""

from __future__ import annotations

import contextlib
import json
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from app import edits
from app.cli.parser import main
from app.project_file.files import load, save
from projects import demo_path, demos
from tests.former_formats import FORMAT_1
from tests.outside.lossy_device import LossyDevice
from tests.outside.lossy_stops import PROJECT, set_going
from tests.waiting import wait_for

DEMOS = [pytest.param(name, id=name) for name in demos()]


def answers(capsys: pytest.CaptureFixture[str], *argv: str) -> tuple[int, str, str]:
    """Exit status, standard output and standard error of the command."""
    capsys.readouterr()
    status = main(argv)
    out, err = capsys.readouterr()
    return status, out, err


def refused(capsys: pytest.CaptureFixture[str], *argv: str) -> str:
    """The one sentence with which the command refuses to run."""
    capsys.readouterr()
    try:
        status = main(argv)
    except SystemExit as ended:
        status = ended.code  # type: ignore[assignment]
    out, err = capsys.readouterr()
    assert status == 2
    assert out == ""
    assert "Traceback" not in err
    assert len(err.strip().splitlines()) == 1, err
    return err


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@contextlib.contextmanager
def follower(project: Path, port: int) -> Iterator[subprocess.Popen[str]]:
    """`fanlight follower` as a process of its own, once it listens."""
    command = [sys.executable, "-m", "app"]
    with subprocess.Popen(
        [*command, "follower", str(project), "--tcp", f"127.0.0.1:{port}"], stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stderr is not None
        try:
            announced = process.stderr.readline()
            assert f"tcp://127.0.0.1:{port}" in announced, announced
            yield process
        finally:
            process.kill()


# check and plan


@pytest.mark.parametrize("name", DEMOS)
def test_check_finds_nothing_wrong_in_a_demo(capsys: pytest.CaptureFixture[str], name: str) -> None:
    status, out, _ = answers(capsys, "check", str(demo_path(name)), "--json")
    assert status == 0
    assert not [finding for finding in json.loads(out)["findings"] if finding["severity"] != "note"]


def test_check_lists_findings_with_place_and_mend(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "pump.toml"
    path.write_text(demo_path(demos()[0]).read_text("utf-8").replace("write = true", "write = false"), "utf-8")
    status, out, _ = answers(capsys, "check", str(path), "--json")
    assert status == 1
    findings = json.loads(out)["findings"]
    assert set(findings[0]) == {"rule", "severity", "where", "message", "hint"}
    errors = [finding for finding in findings if finding["severity"] == "error"]
    assert any("speed set point" in finding["where"] + finding["message"] for finding in errors)
    assert all(finding["hint"] for finding in errors)
    status, out, err = answers(capsys, "check", str(path))
    assert status == 1
    assert out.count("error: ") == len(errors)
    assert f"{len(errors)} errors" in err


def test_check_says_of_a_file_of_an_earlier_format_what_becomes_of_it(capsys: pytest.CaptureFixture[str]) -> None:
    path = FORMAT_1 / "booster-pump.toml"
    status, out, err = answers(capsys, "check", str(path), "--json")
    assert status == 0
    assert json.loads(out)["accepted"] == []
    assert err == f"{path} has format 1 of an earlier Fanlight; saving it in the window writes format 2\n"


def test_a_file_of_a_later_format_is_refused_plainly(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "later.toml"
    path.write_text("format = 3\n")
    assert answers(capsys, "check", str(path)) == (
        2,
        "",
        f"fanlight: {path}: the file has format 3, but this program reads formats up to 2; "
        "open it with a newer Fanlight\n",
    )


def test_check_reports_the_problems_of_a_file_as_findings(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "pump.toml"
    path.write_text(
        demo_path(demos()[0]).read_text("utf-8").replace('signal = "frequency"', 'signal = "frequncy"', 1), "utf-8"
    )
    status, out, _ = answers(capsys, "check", str(path), "--json")
    assert status == 1
    (finding,) = json.loads(out)["findings"]
    assert finding["rule"] == "project-file"
    assert "frequncy" in finding["message"]
    assert "frequency" in finding["message"] + finding["hint"]


def test_plan_tells_every_read(capsys: pytest.CaptureFixture[str]) -> None:
    path = demo_path("booster-pump")
    status, out, _ = answers(capsys, "plan", str(path), "--json")
    assert status == 0
    (line,) = json.loads(out)["lines"]
    assert set(line) == {"line", "cycle_ms", "reads"}
    assert all(
        set(read) >= {"follower", "unit", "table", "address", "count", "signals", "ms"} for read in line["reads"]
    )
    planned = {signal for read in line["reads"] for signal in read["signals"]}
    assert {signal.name for signal in load(path).signals if hasattr(signal, "follower")} <= planned
    assert line["cycle_ms"] == pytest.approx(sum(read["ms"] for read in line["reads"]), abs=0.1)
    status, out, _ = answers(capsys, "plan", str(path))
    assert status == 0
    assert "unit 3" in out


# trouble


@pytest.mark.parametrize("more", [[], ["--json"]])
def test_plan_names_what_is_not_read(capsys: pytest.CaptureFixture[str], tmp_path: Path, more: list[str]) -> None:
    path = tmp_path / "wrong.toml"
    path.write_text(demo_path("booster-pump").read_text("utf-8").replace("register = 311", "register = 70000"), "utf-8")
    status, out, err = answers(capsys, "plan", str(path), *more)
    assert status == 1
    assert "speed set point" in out
    assert "ramp up" not in out
    assert "not read: signal 'ramp up': register 70000 is not in 0..65535" in err


@pytest.mark.parametrize("verb", ["check", "plan", "read", "panel"])
def test_a_missing_file(capsys: pytest.CaptureFixture[str], tmp_path: Path, verb: str) -> None:
    path = tmp_path / "nowhere.toml"
    assert str(path) in refused(capsys, verb, str(path))


@pytest.mark.parametrize(
    "content",
    [b"", b"\x00\x01\xff\xfe\x80" * 50, b"format = ", b"a = " + b"[" * 50_000, b"format = 99\n"],
    ids=["empty", "binary", "cut", "hostile", "newer"],
)
@pytest.mark.parametrize("verb", ["check", "read"])
def test_a_file_that_is_no_project(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, content: bytes, verb: str
) -> None:
    path = tmp_path / "bad.toml"
    path.write_bytes(content)
    assert str(path) in refused(capsys, verb, str(path))
    assert path.read_bytes() == content


def test_a_file_of_100_megabytes(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "large.toml"
    with path.open("wb") as file:
        file.truncate(100_000_000)
    assert str(path) in refused(capsys, "check", str(path))


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
@pytest.mark.parametrize("verb", [["check", "--json"], ["plan"], ["plan", "--json"]])
def test_output_to_a_full_disk(verb: list[str]) -> None:
    command = [sys.executable, "-m", "app", *verb, str(demo_path("booster-pump"))]
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, timeout=60, check=False)
    assert done.returncode == 2
    assert done.stderr.splitlines()[-1].startswith("fanlight: the output cannot be written: the disk is full")
    assert "Traceback" not in done.stderr


def test_a_port_in_use(capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        words = refused(capsys, "follower", str(demo_path("booster-pump")), "--tcp", f"127.0.0.1:{port}")
    assert str(port) in words
    assert "the port is in use by another program" in words


@pytest.mark.parametrize("verb", ["read", "panel"])
def test_a_host_that_does_not_resolve(capsys: pytest.CaptureFixture[str], verb: str) -> None:
    words = refused(capsys, verb, str(demo_path("booster-pump")), "--via", "tcp://nowhere.invalid:502", "--for", "1")
    assert "nowhere.invalid" in words


def test_a_serial_device_that_is_missing(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    device = tmp_path / "ttyNone"
    for verb in ("read", "panel"):
        words = refused(capsys, verb, str(demo_path("booster-pump")), "--via", f"serial:{device}", "--for", "1")
        assert str(device) in words
    words = refused(capsys, "follower", str(demo_path("booster-pump")), "--serial", str(device))
    assert str(device) in words


@pytest.mark.parametrize(
    ("argv", "word"),
    [
        (["read", "PROJECT", "--via", "carrier-pigeon"], "carrier-pigeon"),
        (["read", "PROJECT", "--via", "simulated", "--signal", "sped"], "sped"),
        (["read", "PROJECT", "--via", "simulated", "--signal", "filling ramp"], "held value"),
        (["panel", "PROJECT", "--via", "simulated", "--keys", "rihgt"], "rihgt"),
        (["panel", "PROJECT", "--via", "simulated", "--keys", "right 99999999s"], "99999999"),
        (["chekc", "PROJECT"], "chekc"),
        (["read", "PROJECT", "--for", "soon"], "soon"),
        (["follower", "PROJECT", "--tcp", "5020"], "HOST:PORT"),
        (["follower", "PROJECT", "--tcp", "127.0.0.1:5020", "--follower", "fan"], "fan"),
        (["demo", "volcano"], "volcano"),
        (["demo", "--keys", "strat"], "strat"),
    ],
)
def test_wrong_words(capsys: pytest.CaptureFixture[str], argv: list[str], word: str) -> None:
    project = str(demo_path("booster-pump"))
    assert word in refused(capsys, *[project if part == "PROJECT" else part for part in argv])


# read


@pytest.mark.parametrize("name", DEMOS)
def test_read_brings_every_signal_of_a_demo(capsys: pytest.CaptureFixture[str], name: str) -> None:
    status, out, _ = answers(capsys, "read", str(demo_path(name)), "--via", "simulated", "--json")
    read = json.loads(out)
    bad = {name: reading for name, reading in read["readings"].items() if reading["quality"] != "good"}
    assert not bad
    assert status == 0
    assert set(next(iter(read["readings"].values()))) == {
        "raw",
        "value",
        "text",
        "quality",
        "reason",
        "doubt",
        "age_ms",
    }
    assert set(read["line"]) == {"requests", "good", "faults"}
    assert read["status"]["level"] == "good"
    assert read["line"]["requests"] == read["line"]["good"] > 0


def test_read_shows_one_signal_as_text(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = answers(
        capsys, "read", str(demo_path("booster-pump")), "--via", "simulated", "--signal", "speed set point"
    )
    assert status == 0
    # 83.3 % of 50 Hz is 41.65 Hz, shown at one decimal (common practice, no source)
    assert out.split() == ["speed", "set", "point", "41.7", "Hz", "good"]


def test_read_from_a_follower_that_is_not_there_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    endpoint = f"tcp://127.0.0.1:{free_port()}"
    status, out, _ = answers(capsys, "read", str(demo_path("booster-pump")), "--via", endpoint, "--json")
    assert status == 1
    read = json.loads(out)
    assert {reading["quality"] for reading in read["readings"].values()} == {"none"}
    assert all(reading["reason"] for reading in read["readings"].values())


# panel


def panel(capsys: pytest.CaptureFixture[str], project: Path, *more: str) -> dict[str, Any]:
    status, out, err = answers(capsys, "panel", str(project), "--json", *more)
    assert status == 0, err
    shown: dict[str, Any] = json.loads(out)
    return shown


def test_keys_turn_every_screen_of_the_pump_round_its_ring(capsys: pytest.CaptureFixture[str]) -> None:
    path = demo_path("booster-pump")
    ring = ["run", "measured", "motor", "times", "filling", "run"]
    for presses, screen in enumerate(ring):
        shown = panel(capsys, path, "--via", "simulated", "--keys", " ".join(["right"] * presses))
        assert shown["screen"] == screen
        assert [len(row) for row in shown["cells"]] == [20] * 4
        assert shown["entry"] is None
        assert shown["status"]["kind"] in ("good", "waiting", "connecting")
    assert panel(capsys, path, "--via", "simulated", "--keys", "left")["screen"] == "filling"


def test_a_set_point_is_edited_and_the_drive_follows_it(capsys: pytest.CaptureFixture[str]) -> None:
    path = demo_path("booster-pump")
    adjusting = panel(capsys, path, "--via", "simulated", "--keys", "enter up up")
    assert adjusting["entry"]["signal"] == "speed set point"
    assert adjusting["entry"]["value"] == pytest.approx(41.85)
    assert panel(capsys, path, "--via", "simulated", "--keys", "enter up up escape")["entry"] is None

    confirmed = panel(capsys, path, "--via", "simulated", "--keys", "enter up up enter start 1.5s")
    assert "41.9" in confirmed["cells"][1]
    assert "running" in confirmed["cells"][3]
    speed = float(confirmed["cells"][2][10:16])
    assert speed > 1.0


def test_the_screen_prints_as_a_person_sees_it(capsys: pytest.CaptureFixture[str]) -> None:
    status, out, _ = answers(
        capsys, "panel", str(demo_path("booster-pump")), "--via", "simulated", "--keys", "right left"
    )
    assert status == 0
    lines = out.splitlines()
    assert lines[0] == lines[-1] == "+" + "-" * 20 + "+"
    assert lines[1].startswith("|BOOSTER PUMP")


def test_a_screen_that_is_not_live_is_told_as_such(capsys: pytest.CaptureFixture[str]) -> None:
    via = ["--via", f"tcp://127.0.0.1:{free_port()}"]  # nobody listens there
    status, out, err = answers(capsys, "panel", str(demo_path("booster-pump")), *via, "--keys", "right")
    assert status == 1
    assert "Current ------ A" in out
    assert "signal 'current' is not live: connection to port" in err


def test_a_panel_by_hand_needs_a_terminal() -> None:
    command = [sys.executable, "-m", "app", "panel", str(demo_path("booster-pump")), "--via", "simulated"]
    done = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60, check=False)
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.startswith("fanlight: operating the panel by hand needs a terminal")
    assert done.stderr.count("\n") == 1


def test_a_real_line_is_not_written_until_it_is_armed(capsys: pytest.CaptureFixture[str]) -> None:
    path = demo_path("booster-pump")
    port = free_port()
    with follower(path, port):
        via = ["--via", f"tcp://127.0.0.1:{port}"]
        shown = panel(capsys, path, *via, "--keys", "enter up enter")
        assert "writing is off" in " ".join(shown["cells"])
        _, out, _ = answers(capsys, "read", str(path), *via, "--signal", "speed set point", "--json")
        assert json.loads(out)["readings"]["speed set point"]["value"] == pytest.approx(41.65)

        _, out, err = answers(capsys, "panel", str(path), *via, "--keys", "start", "--for", "4")
        assert "writing is off" not in out, "the panel says it for some seconds only"
        assert "writing signal 'run command': line 'pump room' is not armed; add '--armed' to write to it\n" in err

        status, _, err = answers(capsys, "panel", str(path), *via, "--keys", "enter up enter", "--armed")
        assert status == 0
        assert "writing signal" not in err
        assert "No key on a panel is an emergency stop" in err
        assert "Without a key: when 'fault' is set: 'run command' is set to 0\n" in err
        _, out, _ = answers(capsys, "read", str(path), *via, "--signal", "speed set point", "--json")
        assert json.loads(out)["readings"]["speed set point"]["value"] == pytest.approx(41.75)


def test_a_panel_that_ends_sees_its_stops_through(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    with LossyDevice("tcp", 0.5, seed=4) as device:
        path = tmp_path / "drive.toml"
        path.write_text(PROJECT.replace('host = "unused"', f'host = "127.0.0.1"\nport = {device.where}'))
        set_going(device)
        _, _, err = answers(capsys, "panel", str(path), "--armed", "--keys", "coil register pair bit")
        assert "STOP" not in err
        assert (device.coils[5], device.words[10], device.words[20], device.words[30]) == (0, 0, 0, 0b1001_0000)


@pytest.mark.skipif(sys.platform != "linux", reason="looks into /proc for the connection")
def test_a_panel_survives_its_follower_killed_and_started_again() -> None:
    path = demo_path("booster-pump")
    port = free_port()
    command = [sys.executable, "-m", "app"]
    with contextlib.ExitStack() as stack:
        with follower(path, port):
            polling = stack.enter_context(
                subprocess.Popen(
                    [*command, "panel", str(path), "--via", f"tcp://127.0.0.1:{port}", "--for", "8", "--json"],
                    stdout=subprocess.PIPE,
                    stderr=subprocess.PIPE,
                    text=True,
                )
            )
            wait_for(lambda: connected_to(port))
        wait_for(lambda: not connected_to(port))  # the follower was killed in mid-poll
        with follower(path, port):
            out, err = polling.communicate(timeout=60)
    assert polling.returncode == 0, err
    assert err == ""
    shown = json.loads(out)
    assert shown["screen"] == "run"
    assert "41.7" in shown["cells"][1]


@pytest.mark.skipif(sys.platform != "linux", reason="looks into /proc for the connection")
@pytest.mark.parametrize("number", [signal.SIGTERM, getattr(signal, "SIGHUP", None)])
def test_a_panel_that_is_told_to_end_ends_in_order(number: signal.Signals) -> None:
    path = demo_path("booster-pump")
    port = free_port()
    command = [sys.executable, "-m", "app", "panel", str(path), "--via", f"tcp://127.0.0.1:{port}", "--for", "600"]
    with (
        follower(path, port),
        subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as polling,
    ):
        wait_for(lambda: connected_to(port))
        polling.send_signal(number)
        out, err = polling.communicate(timeout=60)
        assert polling.returncode == 130
        assert (out, err) == ("", "")


def connected_to(port: int) -> bool:
    """Whether anybody holds a connection to the port of this computer."""
    listing = Path("/proc/net/tcp").read_text("ascii").splitlines()[1:]
    return any(line.split()[2].endswith(f":{port:04X}") and line.split()[3] == "01" for line in listing)


def test_a_simulated_drive_is_tripped_among_the_keys(capsys: pytest.CaptureFixture[str]) -> None:
    pump = str(demo_path("booster-pump"))
    arguments = ["panel", pump, "--via", "simulated", "--json", "--keys", "start 1s pump.supply=60 1s"]
    assert main(arguments) == 0
    assert json.loads(capsys.readouterr().out)["screen"] == "fault"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--via", "simulated", "--keys", "pump.jammed=perhaps"], "on or off"),
        (["--keys", "pump.jammed=on"], "--via simulated"),
        (["--via", "simulated", "--keys", "'pump.jammed=on"], "cannot read the keys"),
    ],
)
def test_what_cannot_be_done_at_a_follower_is_said(
    arguments: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["panel", str(demo_path("booster-pump")), *arguments]) == 2
    assert words in capsys.readouterr().err


def test_an_order_to_a_follower_with_blanks_in_its_name_stands_in_quotes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    project = edits.rename_follower(load(demo_path("booster-pump")), "pump", "pump 1")
    path = tmp_path / "pump.toml"
    save(project, path)
    arguments = ["panel", str(path), "--via", "simulated", "--json", "--keys"]
    assert main([*arguments, "start 1s pump 1.supply=60 1s"]) == 2
    assert "quotes, such as \"'pump 1'.jammed=on\"" in capsys.readouterr().err
    assert main([*arguments, "start 1s 'pump 1'.supply=60 1s"]) == 0
    assert json.loads(capsys.readouterr().out)["screen"] == "fault"


def test_a_played_follower_takes_orders_from_the_start_and_from_standard_input() -> None:
    code = "from app.cli.parser import main; raise SystemExit(main())"
    pump = str(demo_path("booster-pump"))
    command = [sys.executable, "-c", code, "follower", pump, "--tcp", "127.0.0.1:0", "--operate"]
    command += ["--order", "pump.local=on"]
    process = subprocess.Popen(
        command, stdin=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=Path(__file__).parents[3]
    )
    assert process.stdin is not None
    assert process.stderr is not None
    try:
        where = re.search(r"tcp://[^;]+", process.stderr.readline())
        assert where is not None
        process.stdin.write("pump.external-fault=on\nnonsense\n")
        process.stdin.flush()
        assert process.stderr.readline() == "done: pump.external-fault=on\n"
        assert "is not NAME.WHAT=VALUE" in process.stderr.readline()
        port = int(where[0].rpartition(":")[2])
        from pymodbus.client import ModbusTcpClient

        with ModbusTcpClient("127.0.0.1", port=port) as client:
            bits = client.read_discrete_inputs(0, count=2, device_id=load(pump).followers[0].unit).bits[:2]
        assert bits == [False, True], "not remote, and the input is set"
    finally:
        process.terminate()
        process.communicate(timeout=20)
