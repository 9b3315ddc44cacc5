"""The serial ports that this program itself has open: a system tells of them only that somebody has."""

from __future__ import annotations

import os
import threading
from typing import TYPE_CHECKING, Final
from weakref import WeakSet

if TYPE_CHECKING:
    from serial import SerialBase

_opened: Final[WeakSet[SerialBase]] = WeakSet()
_lock: Final = threading.Lock()


def note_own(port: SerialBase) -> None:
    """This program has opened it. When it is closed it tells by itself."""
    with _lock:
        _opened.add(port)


def own_ports() -> frozenset[str]:
    """Those that are open now, by `port_path`."""
    with _lock:
        return frozenset(port_path(str(port.port)) for port in _opened if port.is_open)


def port_path(device: str) -> str:
    """One way to write the name of a port: the file that links lead to; on Windows, COM3 without what may stand before
    it, in small letters."""
    if "/" in device:
        return os.path.realpath(device)
    return device.removeprefix("\\\\.\\").casefold()
