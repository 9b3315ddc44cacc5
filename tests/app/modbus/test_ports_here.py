"""The serial ports of this computer: from lists as pyserial gives them, with ptys, a process table and lock files."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from serial.tools.list_ports_common import ListPortInfo

from app.modbus import ports_here as module
from app.modbus.ports_here import PortHere, ports_here
from app.probing.line import ReadingLine
from tests.staged_follower import StagedFollower

posix = pytest.mark.skipif(os.name != "posix", reason="ports are files there")


def have(monkeypatch: pytest.MonkeyPatch, *devices: str, **told: str) -> None:
    """Let this computer have these ports, of which the system tells this."""
    found = [ListPortInfo(device) for device in devices]
    for port in found:
        for name, text in told.items():
            setattr(port, name, text)
    monkeypatch.setattr("serial.tools.list_ports.comports", lambda: found)


@pytest.fixture
def pty(monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """A port that is there, and that this process alone has open."""
    near, far = os.openpty()
    have(monkeypatch, os.ttyname(far))
    yield os.ttyname(far)
    os.close(near)
    os.close(far)


def hold(processes: Path, number: str, target: str) -> Path:
    """Let a process of that number have a file open; returns where that is shown."""
    handles = processes / number / "fd"
    handles.mkdir(parents=True)
    (handles / "3").symlink_to(target)
    (handles / "4").write_text("no link: closed meanwhile")
    return handles / "3"


def trouble(processes: Path) -> str:
    (port,) = ports_here(processes)
    return port.trouble


def test_all_that_the_system_tells_by_name_as_people_count(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    have(monkeypatch, "COM10", "COM9", description="RS-485 adapter (COM9)", manufacturer="Works", serial_number="A12")
    first, second = ports_here(tmp_path)
    assert first == PortHere("COM9", "RS-485 adapter", "Works", "A12")
    assert second.device == "COM10"


def test_what_the_system_does_not_tell_is_empty(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    have(monkeypatch, "COM3")
    assert ports_here(tmp_path) == (PortHere("COM3"),)


def test_an_adapter_that_is_pulled_out_while_it_is_looked_at(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    answers: list[list[ListPortInfo] | Exception] = [TypeError("int() of None"), [ListPortInfo("COM3")]]

    def comports() -> list[ListPortInfo]:
        answer = answers.pop(0)
        if isinstance(answer, Exception):
            raise answer
        return answer

    monkeypatch.setattr("serial.tools.list_ports.comports", comports)
    assert [port.device for port in ports_here(tmp_path)] == ["COM3"]


@posix
def test_a_port_that_another_process_has_open_is_in_use(pty: str, tmp_path: Path) -> None:
    hold(tmp_path, str(os.getpid()), pty)
    assert trouble(tmp_path) == "", "only this program has it open"
    shown = hold(tmp_path, "4711", pty)
    assert trouble(tmp_path) == "in use"
    shown.unlink()
    assert trouble(tmp_path) == ""


@posix
def test_a_port_by_another_name_is_the_same_port(pty: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    other = tmp_path / "by-id"
    other.symlink_to(pty)
    have(monkeypatch, str(other))
    hold(tmp_path, "4711", pty)
    assert trouble(tmp_path) == "in use"


@posix
def test_a_lock_file_counts_as_long_as_its_process_lives(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    port, locks, processes = tmp_path / "ttyQ7", tmp_path / "lock", tmp_path / "proc"
    port.touch()
    locks.mkdir()
    (processes / "4711").mkdir(parents=True)
    have(monkeypatch, str(port))
    monkeypatch.setattr(module, "LOCKS", (str(locks),))
    assert trouble(processes) == ""
    lock = locks / "LCK..ttyQ7"
    lock.write_text("      4711\n")  # ten bytes and a newline: Filesystem Hierarchy Standard 3.0, 5.9
    assert trouble(processes) == "in use"
    lock.write_text("      4712\n")
    assert trouble(processes) == "", "left behind by a process that has ended"
    lock.write_bytes(b"\x67\x12\0\0")
    assert trouble(processes) == "in use", "nobody knows whose"


@posix
@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="the superuser may open everything")
def test_a_port_without_permission(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    port = tmp_path / "ttyS9"
    port.touch(mode=0)
    have(monkeypatch, str(port))
    assert trouble(tmp_path) == "no permission"


def to_do(device: str, monkeypatch: pytest.MonkeyPatch, platform: str) -> str:
    monkeypatch.setattr("sys.platform", platform)
    return PortHere(device, trouble="no permission").to_do


@posix
@pytest.mark.parametrize(
    ("members", "mode", "said"),
    [
        ([], 0o660, "sudo usermod -aG lines ada"),
        (["ada"], 0o660, "in the group lines, which may open it, from the next login on"),
        ([], 0o600, "only the superuser may open it"),
    ],
)
def test_how_linux_permits_a_port(
    members: list[str], mode: int, said: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    import grp  # not on Windows
    import pwd

    port = tmp_path / "ttyQ7"
    port.touch()
    port.chmod(mode)
    group = grp.struct_group(("lines", "x", 4020, members))
    user = pwd.struct_passwd(("ada", "x", 1001, 1001, "", "/", "/bin/sh"))
    monkeypatch.setattr(grp, "getgrgid", {port.stat().st_gid: group}.__getitem__)
    monkeypatch.setattr(pwd, "getpwuid", lambda _number: user)
    assert said in to_do(str(port), monkeypatch, "linux")


@posix
def test_how_linux_permits_a_port_that_is_gone(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    assert "administrator" in to_do(str(tmp_path / "ttyQ7"), monkeypatch, "linux")


def test_how_other_systems_permit_a_port(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "/dev/cu.usbserial-1" in to_do("/dev/cu.usbserial-1", monkeypatch, "darwin")
    assert "another program" in to_do("COM3", monkeypatch, "win32"), "Windows denies access to a port that is in use"


def test_nothing_is_to_be_done_about_a_free_port_and_a_program_to_be_closed_about_one_in_use() -> None:
    assert PortHere("COM3").to_do == ""
    assert "close it" in PortHere("COM3", trouble="in use").to_do


@posix
def test_a_port_that_this_program_has_open_is_said_to_be_its_own(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """By whichever name it is listed."""
    other = tmp_path / "by-id"
    with StagedFollower("serial", lambda _: []) as device:
        other.symlink_to(device.endpoint.device)
        have(monkeypatch, str(other))
        assert trouble(tmp_path) == ""
        with ReadingLine(device.endpoint):
            (port,) = ports_here(tmp_path)
            assert port.trouble == "in use by this program"
            assert "disconnect" in port.to_do
        assert trouble(tmp_path) == ""
