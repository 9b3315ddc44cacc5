"""`fanlight trial` and `fanlight verify`: for people, for pipelines, and for whoever has to trust a record."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from junitparser import JUnitXml

from app.cli.parser import main
from app.project_file.files import parse, save
from app.signing.keys import make_key
from app.signing.signers import signers_line
from app.trial.script_file import load_trial
from app.trial_record.journal import journal_of
from app.trial_record.record import NAMESPACE
from projects import demo_path
from tests.app.trial.trials import PUMP
from tests.counting_device import CountingDevice
from tests.outside.test_trial_at_a_device import CASE, PROJECT
from tests.register_device import RegisterDevice
from tests.trial_panel import SMALL
from tests.waiting import wait_for

ANSWERS = """
[[answer]]
question = "Does the shaft stand still?"
yes = true
by = "M. Tester"
[[answer]]
question = "mains voltage"
value = 401
instrument = { name = "multimeter", serial = "1234" }
[[answer]]
may_move = true
"""


@pytest.fixture
def words(tmp_path: Path) -> list[str]:
    """The command, as far as all of these tests go with it."""
    (tmp_path / "t.trial.toml").write_text(PUMP, encoding="utf-8")
    (tmp_path / "answers.toml").write_text(ANSWERS, encoding="utf-8")
    return ["trial", str(demo_path("booster-pump")), str(tmp_path / "t.trial.toml"), "--via", "simulated"]


def test_a_trial_that_passes_is_told_step_by_step(
    words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([*words, "--answers", str(tmp_path / "answers.toml")]) == 0
    told = capsys.readouterr().out
    assert "1. it runs and stops" in told
    assert "pass       press start" in told
    assert "pass       measure: mains voltage: 401 V" in told
    assert "PASSED against simulated devices: 3 pass" in told


def test_a_proposed_trial_passes_and_tells_what_it_has_tried(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = str(tmp_path / "pump.trial.toml")
    assert main(["propose", str(demo_path("booster-pump")), "--to", path]) == 0
    assert "cases" in capsys.readouterr().out
    assert main(["propose", str(demo_path("booster-pump")), "--to", path]) == 2, "nothing is written over"
    case = load_trial(path).cases[0].name
    assert main(["trial", str(demo_path("booster-pump")), path, "--via", "simulated", "--case", case]) == 0
    told = capsys.readouterr()
    assert "of 6 screens" in told.out
    assert "not tried: " in told.err


def test_without_anybody_questions_are_not_tested_and_it_does_not_pass(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(words) == 1
    assert "NOT PASSED against simulated devices: 2 pass, 1 not tested" in capsys.readouterr().out


def test_an_answer_that_nobody_asks_for_is_told_before_anything_moves(
    words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "a.toml").write_text('[[answer]]\nquestion = "mains voltag"\nvalue = 400\n', encoding="utf-8")
    main([*words, "--answers", str(tmp_path / "a.toml")])
    assert "a.toml: answer 1: no step asks 'mains voltag'; did you mean 'mains voltage'?" in capsys.readouterr().err


def test_one_case_alone_and_one_that_is_not_there(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*words, "--case", "it runs and stops"]) == 0
    assert "2. " not in capsys.readouterr().out
    assert main([*words, "--case", "it flies"]) == 2
    assert "there is no case 'it flies'" in capsys.readouterr().err


def test_a_signed_record_is_verified_by_the_command_too(
    words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    key = make_key(tmp_path / "key")
    record, xml = tmp_path / "r.trial.json", tmp_path / "r.xml"
    answers = ["--answers", str(tmp_path / "answers.toml"), "--by", "M. Tester", "--place", "bench 2"]
    assert main([*words, *answers, "--record", str(record), "--sign", str(key.file), "--junit", str(xml)]) == 0
    assert JUnitXml.fromfile(str(xml)).tests == 3
    told = json.loads(record.read_bytes())
    assert (told["by"], told["place"], told["result"]) == ("M. Tester", "bench 2", "passed")
    capsys.readouterr()
    assert main(["verify", str(record)]) == 0
    assert key.fingerprint in capsys.readouterr().out
    (tmp_path / "signers").write_text(signers_line("tech@example.invalid", key.public, NAMESPACE))
    assert main(["verify", str(record), "--signers", str(tmp_path / "signers"), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["signatures"][0]["who"] == "tech@example.invalid"
    record.write_bytes(record.read_bytes().replace(b"bench 2", b"bench 3"))
    assert main(["verify", str(record)]) == 1
    assert "NOT GOOD" in capsys.readouterr().out
    assert main(["verify", str(tmp_path / "none.json")]) == 2


def test_json_is_the_record(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*words, "--json", "--case", "it runs and stops"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["against"], told["result"]) == ("simulated devices", "passed")


@pytest.mark.parametrize(
    ("more", "why"),
    [
        (["--sign", "key"], "add '--record FILE'"),
        (["--record", "no/folder/r.json"], "there is no folder"),
        (["--answers", "none.toml"], "file not found"),
        (["--record", "r.trial.json", "--sign", "none"], "there is no key none"),
    ],
)
def test_what_cannot_work_is_said_before_anything_moves(
    words: list[str],
    more: list[str],
    why: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main([*words, *more]) == 2
    told = capsys.readouterr()
    assert why in told.err
    assert "press" not in told.out


def test_a_trial_without_a_case_for_the_device_leaves_nothing_behind(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    save(PROJECT, tmp_path / "p.toml")
    (tmp_path / "t.trial.toml").write_text(CASE.replace("[[case]]", '[[case]]\non = "simulated"'), encoding="utf-8")
    words = ["trial", str(tmp_path / "p.toml"), str(tmp_path / "t.trial.toml"), "--via", "tcp://127.0.0.1:9"]
    assert main([*words, "--record", str(tmp_path / "r.trial.json")]) == 2
    assert "has no case that can be run against a real device" in capsys.readouterr().err
    assert sorted(file.name for file in tmp_path.iterdir()) == ["p.toml", "t.trial.toml"]


def test_a_trial_of_another_project_names_what_is_gone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "t.trial.toml").write_text(PUMP.replace('"start"', '"strat"'), encoding="utf-8")
    assert main(["trial", str(demo_path("booster-pump")), str(tmp_path / "t.trial.toml"), "--via", "simulated"]) == 2
    told = capsys.readouterr().err
    assert "case 'it runs and stops', step 1" in told
    assert "there is no key 'strat' on the panel; did you mean 'start'?" in told


def test_an_older_state_of_the_project_is_told_and_run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = PUMP.replace("format = 1", f'format = 1\ndigest = "{"0" * 64}"')
    (tmp_path / "t.trial.toml").write_text(text, encoding="utf-8")
    words = ["trial", str(demo_path("booster-pump")), str(tmp_path / "t.trial.toml"), "--via", "simulated"]
    assert main([*words, "--case", "it runs and stops"]) == 0
    assert "was made for another state of this project" in capsys.readouterr().err


def test_at_a_real_device_the_cautions_come_first_and_each_case_needs_consent(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    save(PROJECT, tmp_path / "p.toml")
    (tmp_path / "t.trial.toml").write_text(CASE, encoding="utf-8")
    (tmp_path / "answers.toml").write_text("[[answer]]\nmay_move = true\n", encoding="utf-8")
    with CountingDevice() as device:
        words = ["trial", str(tmp_path / "p.toml"), str(tmp_path / "t.trial.toml"), "--armed"]
        words += ["--via", f"tcp://127.0.0.1:{device.port}"]
        assert main(words) == 1
        assert device.taken == []
        told = capsys.readouterr()
        assert "Caution: a trial presses the panel's keys by itself" in told.err
        assert "nobody agreed that the machine may move" in told.out
        assert main([*words, "--answers", str(tmp_path / "answers.toml")]) == 0
        assert [value for _, value in device.taken] == [7, 0]
        assert "put back   'set point' is 0 again" in capsys.readouterr().out


@pytest.mark.skipif(sys.platform == "win32", reason="signals as POSIX has them")
def test_ctrl_c_cleans_up_and_leaves_an_unfinished_record(tmp_path: Path) -> None:
    """A process of its own in the middle of a long wait; the device tells what became of it."""
    save(PROJECT, tmp_path / "p.toml")
    (tmp_path / "t.trial.toml").write_text(CASE + "[[case.step]]\nwait = 60\n", encoding="utf-8")
    (tmp_path / "answers.toml").write_text("[[answer]]\nmay_move = true\n", encoding="utf-8")
    record = tmp_path / "r.trial.json"
    with CountingDevice() as device:
        words = [sys.executable, "-m", "app", "trial", str(tmp_path / "p.toml"), str(tmp_path / "t.trial.toml")]
        words += ["--armed", "--via", f"tcp://127.0.0.1:{device.port}", "--record", str(record)]
        words += ["--answers", str(tmp_path / "answers.toml")]
        run = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=os.environ)
        wait_for(lambda: journal_of(record).exists() and '"number": 3' in journal_of(record).read_text(), 60)
        run.send_signal(signal.SIGINT)
        out, err = run.communicate(timeout=30)
        assert run.returncode == 1, err
        assert "stopping: keys are let go" in err
        assert "UNFINISHED" in out, err
        assert [value for _, value in device.taken] == [7, 0]
    assert json.loads(record.read_bytes())["finished"] is False
    assert not journal_of(record).exists()


# Keys at random

MAY_MOVE = "[[answer]]\nmay_move = true\n"


@pytest.fixture
def at_random(tmp_path: Path) -> Iterator[tuple[list[str], RegisterDevice]]:
    """The command against a device on bare sockets, as far as all of these tests go with it."""
    project = tmp_path / "tank.toml"
    save(parse(SMALL.replace("register = ", "every_ms = 20\nregister = ")), project)
    (tmp_path / "answers.toml").write_text(MAY_MOVE, encoding="utf-8")
    with RegisterDevice({5: 425}) as device:
        via = f"tcp://127.0.0.1:{device.port}"
        answers = str(tmp_path / "answers.toml")
        yield ["trial", str(project), "--random", "8", "--seed", "7", "--via", via, "--answers", answers], device


def test_keys_at_random_find_no_difference_where_there_is_none(
    at_random: tuple[list[str], RegisterDevice], capsys: pytest.CaptureFixture[str]
) -> None:
    words, device = at_random
    assert main([*words, "--armed", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["seed"] == 7
    assert told["limits"]["keys"] == ["left", "right", "up", "down", "enter", "escape", "halt", "f2"]
    assert told["limits"]["stop"] == "halt"
    assert (told["pressed"], told["differences"]) == (8, [])
    assert device.registers[5] == 425


def test_keys_at_random_find_what_differs_and_tell_the_shortest_way_there(
    at_random: tuple[list[str], RegisterDevice], capsys: pytest.CaptureFixture[str]
) -> None:
    words, device = at_random
    device.swapped[8] = (2, 9)
    assert main([*words, "--armed", "--keys", "right, go", "--screens", "run,set"]) == 1
    told = capsys.readouterr()
    assert "'pump': simulated pumps, device rests" in told.out
    assert "shortest way there (tried on the simulation only): go" in told.out
    assert "these keys may start something, and are among those drawn: go" in told.err


@pytest.mark.parametrize(
    ("more", "why"),
    [
        ((), "allow it by '--armed'"),
        (("--armed", "--keys", "gone"), "the panel has no key 'gone'"),
        (("--armed", "--screens", "gone"), "there is no screen 'gone'"),
        (("--armed", "--record", "x.trial.json"), "keeps no record"),
        (("--armed", "--random", "0"), "takes 1 to"),
        (("--armed", "--via", "simulated"), "name it by '--via ENDPOINT'"),
    ],
)
def test_keys_at_random_are_refused_before_anything_is_pressed(
    at_random: tuple[list[str], RegisterDevice],
    capsys: pytest.CaptureFixture[str],
    more: tuple[str, ...],
    why: str,
) -> None:
    words, device = at_random
    assert main([*words, *more]) == 2
    assert why in capsys.readouterr().err
    assert device.taken == []


def test_keys_at_random_need_somebody_who_agrees(
    at_random: tuple[list[str], RegisterDevice], capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    words, device = at_random
    (tmp_path / "answers.toml").write_text(MAY_MOVE.replace("true", "false"), encoding="utf-8")
    assert main([*words, "--armed"]) == 2
    assert "nobody agreed" in capsys.readouterr().err
    assert device.taken == []


def test_without_a_trial_and_without_random_it_says_what_is_missing(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["trial", str(demo_path("booster-pump"))]) == 2
    assert "name a trial file, or say '--random N'" in capsys.readouterr().err
