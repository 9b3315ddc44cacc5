"""What the command line lets through to a terminal: a hostile device, hostile names, and streams that lack letters."""

from __future__ import annotations

import csv
import json
import os
import re
import socketserver
import subprocess
import sys
import threading
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

import pytest

from app.cli.parser import main
from app.project_file.files import load, save
from app.signals.visible import visible, visible_json

HOSTILE: Final = b"\x1b]0;x\x07\x1b[2J\x9b1m\x7f!"
"""Sets the title of a terminal and clears it: ECMA-48 OSC, CSI as ESC [, and CSI as the one byte 9B."""
TRAPS: Final = "\x9b31m \u202epmup\u2066"
"""What a name may hold: a C1 control and marks that turn the direction of writing (Unicode Standard Annex 9)."""

PROJECT: Final = """
format = 2
title = "Traps"
[panel]
rows = 2
columns = 20
keys = ["enter"]
start = "TRAP"
[[line]]
name = "line"
kind = "tcp"
host = "127.0.0.1"
port = 502
[[follower]]
name = "TRAP"
line = "line"
unit = 1
[[signal]]
name = "plate"
follower = "TRAP"
table = "holding"
register = 0
encoding = "string"
length = 8
unit = "TRAP"
[[signal]]
name = "=1+TRAP"
follower = "TRAP"
table = "holding"
register = 8
encoding = "uint16"
unit = "TRAP"
[[screen]]
name = "TRAP"
text = ["", ""]
"""


@pytest.fixture
def project(tmp_path: Path) -> Path:
    path = tmp_path / "traps.toml"
    path.write_text(PROJECT.replace("TRAP", TRAPS.encode("unicode_escape").decode().replace("\\x", "\\u00")), "utf-8")
    assert load(path).screens[0].name == TRAPS
    return path


class _Device(socketserver.BaseRequestHandler):
    """Answers every read of holding registers with the hostile text, then with zeros; all by hand."""

    def handle(self) -> None:
        while head := self.request.recv(12):
            count = int.from_bytes(head[10:12], "big")
            data = HOSTILE.ljust(2 * count, b"\0")[: 2 * count]
            self.request.sendall(head[:4] + bytes([0, 3 + len(data), head[6], 3, len(data)]) + data)


@contextmanager
def device() -> Iterator[str]:
    with socketserver.ThreadingTCPServer(("127.0.0.1", 0), _Device) as server:
        server.daemon_threads = True
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"tcp://127.0.0.1:{server.server_address[1]}"
        server.shutdown()


def harmful(text: str) -> set[str]:
    """The characters of an output that a terminal would obey, or that turn a line around."""
    return {char for char in text if char != "\n" and unicodedata.category(char) in ("Cc", "Cf", "Cs", "Zl", "Zp")}


def test_controls_become_pictures() -> None:
    # The pictures of U+2400 to U+2421 stand in the order of the controls: The Unicode Standard, Control Pictures.
    assert visible("a\x1b[2J\x00\x7f\n") == "a␛[2J␀␡␊"
    assert visible("\x9b1m \u202eabc") == "\\u009b1m \\u202eabc"
    assert visible("\udcff.toml") == "\\udcff.toml"
    assert visible("41.7 µm\u00a0Ω 泵") == "41.7 µm\u00a0Ω 泵"


def test_json_keeps_its_meaning() -> None:
    value = {"name": TRAPS, "text": HOSTILE.decode("latin-1"), "far": "\U000e0001 \U0001f600"}
    text = visible_json(json.dumps(value, ensure_ascii=False, indent=2))
    assert json.loads(text) == value
    assert not harmful(text)


@pytest.mark.parametrize(
    "arguments",
    [
        ["read"],
        ["read", "--json"],
        ["line", "--explain", "--for", "0.5"],
        ["line", "--json", "--for", "0.5"],
        ["panel", "--for", "0.2"],
    ],
    ids=" ".join,
)
def test_no_text_of_a_device_reaches_the_terminal(
    project: Path, arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    verb, *options = arguments
    with device() as endpoint:
        main([verb, str(project), "--via", endpoint, *options])
    out, err = capsys.readouterr()
    assert out
    assert not harmful(out + err)
    if verb == "read":
        assert "␛[2J" in out or "\\u001b[2J" in out


@pytest.mark.parametrize(
    "arguments", [["check"], ["check", "--json"], ["plan"], ["plan", "--json"], ["compare"]], ids=" ".join
)
def test_no_name_of_a_project_reaches_the_terminal(
    project: Path, arguments: list[str], capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    verb, *options = arguments
    other = tmp_path / "\x1b[2Jother.toml"
    save(load(project).model_copy(update={"title": f"Others{TRAPS}"}), other)
    main([verb, str(project), *([str(other)] if verb == "compare" else []), *options])
    main([verb, str(tmp_path / "\x1b[2Jnone.toml"), *([str(other)] if verb == "compare" else [])])
    with pytest.raises(SystemExit):
        main([f"x{TRAPS}", "y", "z"])
    out, err = capsys.readouterr()
    assert "␛[2Jnone.toml" in err
    assert not harmful(out + err)


def test_a_recording_is_exported_without_formulas_and_controls(
    project: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run = tmp_path / "run.fanrec"
    with device() as endpoint:
        assert main(["record", str(project), "--via", endpoint, "--for", "0.7", "--to", str(run)]) == 0
    for what in ([], ["--rows"], ["--events"], ["--project"]):
        capsys.readouterr()
        assert main(["export", str(run), *what]) == 0
        out, err = capsys.readouterr()
        assert out
        assert not harmful(out + err)
        if what != ["--project"]:
            cells = [cell for row in csv.reader(out.splitlines()) for cell in row]
            assert not [cell for cell in cells if cell.startswith(("=", "@", "+"))]


@pytest.mark.parametrize("encoding", ["cp1252", "ascii", "utf-8"])
@pytest.mark.parametrize(
    "arguments",
    [["read", "--json"], ["read"], ["line", "--explain", "--for", "0.5"], ["panel", "--for", "0.2"]],
    ids=" ".join,
)
def test_an_output_that_lacks_letters_gets_codes(
    project: Path, encoding: str, arguments: list[str], tmp_path: Path
) -> None:
    path = tmp_path / "letters.toml"
    changed = load(project)
    units = tuple(signal.model_copy(update={"unit": "Ωµ😀"}) for signal in changed.signals)
    save(changed.model_copy(update={"signals": units}), path)
    with device() as endpoint:
        done = subprocess.run(
            [sys.executable, "-m", "app", arguments[0], str(path), "--via", endpoint, *arguments[1:]],
            env={**os.environ, "PYTHONIOENCODING": encoding},
            capture_output=True,
            timeout=60,
        )
    out, err = done.stdout.decode(encoding), done.stderr.decode(encoding)
    assert done.returncode in (0, 1), err
    assert "Traceback" not in err
    if "--json" in arguments:
        assert json.loads(out)["readings"]["plate"]["quality"] == "good"


def test_a_port_with_a_control_character_in_its_name_is_refused_in_words(
    project: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = project.read_text("utf-8")
    serial = re.sub(r'kind = "tcp"\nhost = .*\nport = 502', 'kind = "serial"\ndevice = "tty\\\\u0000S0"', text)
    path = tmp_path / "nul.toml"
    path.write_text(serial, "utf-8")
    for verb in ("read", "line"):
        assert main([verb, str(path), "--for", "0.1"]) == 2
        assert "'tty␀S0' contains a control character" in capsys.readouterr().err


def test_nothing_but_the_one_writer_writes_to_a_terminal() -> None:
    """`print` is forbidden by ruff; this is about the streams themselves."""
    root = Path(__file__).resolve().parents[3]
    writes = {
        path.relative_to(root).as_posix()
        for folder in ("app", "widgets", "projects")
        for path in (root / folder).rglob("*.py")
        if re.search(r"std(out|err)\.(write|buffer)|file=sys\.", path.read_text(encoding="utf-8"))
    }
    # The schemas are written by those who develop the program, below the command line.
    assert writes == {"app/cli/outcome.py", "app/project_file/schema.py", "app/trial/schema.py"}
