"""The serial ports of this computer, and what keeps this program from them; found without opening any."""

from __future__ import annotations

import contextlib
import os
import stat
import sys
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal

from app.language import translate
from app.modbus.own_ports import own_ports, port_path

if TYPE_CHECKING:
    from serial.tools.list_ports_common import ListPortInfo

PortTrouble = Literal["", "in use", "in use by this program", "no permission"]
"""Why a port cannot be opened now; empty: nothing is known against it."""

LOCKS: Final = ("/run/lock", "/var/lock")
"""Where programs on Linux say that they have a port: a file LCK..name with the number of the process (Filesystem
Hierarchy Standard 3.0, 5.9)."""
PROCESSES: Final = Path("/proc")
_GROUP_MAY: Final = stat.S_IRGRP | stat.S_IWGRP


@dataclass(frozen=True, slots=True)
class PortHere:
    """A serial port of this computer; texts are empty where the system does not tell."""

    device: str
    """The name to open it with: /dev/ttyUSB0, COM3."""
    description: str = ""
    maker: str = ""
    """Of the adapter."""
    serial_number: str = ""
    """Of the adapter: what tells two of one kind apart."""
    trouble: PortTrouble = ""
    """"in use" by others is told on Linux only, of a port with a lock file or that is open in a process that may be
    looked into. Windows tells nothing before a port is opened, and opening it may reset what is on the line."""

    @property
    def to_do(self) -> str:
        """How to get it, in a sentence; empty if nothing is known against it."""
        if not self.trouble:
            return ""
        if self.trouble == "in use by this program":
            return translate("bus", "this program has this port open; disconnect the line, or stop the search on it")
        if self.trouble == "in use" or sys.platform == "win32":  # which denies access to a port that another one has
            return translate("bus", "another program has this port open; close it there")
        if sys.platform == "linux":
            return _how_linux_permits(self.device)
        return translate(
            "bus",
            "this user may not open it; unplug the adapter and plug it in again, or let an administrator give the "
            "right to read and write {device}",
        ).format(device=self.device)


def ports_here(processes: Path = PROCESSES) -> tuple[PortHere, ...]:
    """The serial ports that this computer has now, by name; takes some milliseconds, on some systems a second.

    Pseudo terminals and other paths that can be opened as well are not among them. `processes` is where Linux shows
    what each process has open. Raises OSError if the system does not tell.
    """
    from serial.tools.list_ports import comports  # only where somebody chooses a port

    try:
        told = sorted(comports())
    except (OSError, TypeError):  # it stumbles over an adapter that is pulled out while it looks at it
        told = sorted(comports())
    opened, own = _open_elsewhere(processes), own_ports()
    return tuple(_port(each, port_trouble(each.device, opened, processes, own)) for each in told)


def _port(told: ListPortInfo, trouble: PortTrouble) -> PortHere:
    description, maker, serial_number = (
        "" if text in (None, "n/a") else str(text).strip()
        for text in (told.description, told.manufacturer, told.serial_number)
    )
    # Windows names the port in its description, too.
    return PortHere(told.device, description.removesuffix(f"({told.device})").strip(), maker, serial_number, trouble)


def port_trouble(
    device: str, opened: Collection[str] = (), processes: Path = PROCESSES, own: Collection[str] = ()
) -> PortTrouble:
    """What keeps this program from a port. `opened`: the files that others have open, by their real paths; `own`:
    those of this program."""
    if port_path(device) in own:
        return "in use by this program"
    if os.name != "posix" or not Path(device).exists():
        return ""
    if not os.access(device, os.R_OK | os.W_OK):
        return "no permission"
    return "in use" if os.path.realpath(device) in opened or _is_locked(Path(device).name, processes) else ""


def _open_elsewhere(processes: Path) -> frozenset[str]:
    """The files that other processes have open, as far as this one may look into them."""
    found: set[str] = set()
    me = str(os.getpid())
    for process in _entries(processes):
        if process.name.isdecimal() and process.name != me:
            for handle in _entries(process / "fd"):
                with contextlib.suppress(OSError):  # closed meanwhile
                    found.add(str(handle.readlink()))
    return frozenset(found)


def _entries(folder: Path) -> list[Path]:
    """What is in it; nothing if it is another's, gone, or of another system."""
    try:
        return list(folder.iterdir())
    except OSError:
        return []


def _is_locked(name: str, processes: Path) -> bool:
    for folder in LOCKS:
        with contextlib.suppress(OSError):
            owner = Path(folder, f"LCK..{name}").read_text("ascii", "replace").strip()
            left_behind = owner.isdecimal() and processes.is_dir() and not (processes / owner).exists()
            if owner != str(os.getpid()) and not left_behind:
                return True
    return False


def _how_linux_permits(device: str) -> str:
    import grp  # neither is there on Windows
    import pwd

    try:
        port = Path(device).stat()
        group, user = grp.getgrgid(port.st_gid), pwd.getpwuid(os.getuid())
    except (OSError, KeyError):  # unplugged meanwhile, or of a group that has no name
        group = None
    if group is None or group.gr_gid == 0 or port.st_mode & _GROUP_MAY != _GROUP_MAY:
        return translate(
            "bus", "only the superuser may open it; an administrator has to give it to a group, such as dialout"
        )
    if user.pw_name in group.gr_mem or user.pw_gid == group.gr_gid:
        return translate(
            "bus", "this user is in the group {group}, which may open it, from the next login on: log out and in again"
        ).format(group=group.gr_name)
    return translate(
        "bus",
        "this user may not open it; an administrator adds the user to the group {group} "
        "(sudo usermod -aG {group} {user}), then log out and in again",
    ).format(group=group.gr_name, user=user.pw_name)
