"""Watching which serial ports this computer has: adapters are plugged in while somebody looks for theirs."""

from __future__ import annotations

import contextlib
import threading
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from app.modbus.ports_here import PortHere, ports_here

LOOK_EVERY_MS: Final = 2000


class PortWatch(QObject):
    """Looks at once and every two seconds, from `start` to `stop`.

    Each look has a thread of its own, since some systems take a second, and ends with it; there is never a second one.
    """

    found = Signal(object)
    """The ports that there are now, after each look: a tuple of PortHere."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._under_way: _Look | None = None
        self._again = False
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_EVERY_MS)
        self._timer.timeout.connect(self._look_if_idle)

    def start(self) -> None:
        """Watch from now on."""
        self._timer.start()
        self.look()

    def stop(self) -> None:
        """Watch no longer."""
        self._timer.stop()

    def look(self) -> None:
        """Look now; once more after a look that is under way, which may have missed what is new."""
        if self._under_way is not None:
            self._again = True
            return
        self._under_way = _Look()
        self._under_way.done.connect(self._take)
        threading.Thread(target=self._under_way.run, name="serial ports", daemon=True).start()

    def _look_if_idle(self) -> None:
        if self._under_way is None:
            self.look()

    def _take(self, ports: tuple[PortHere, ...] | None) -> None:
        self._under_way = None
        if self._again:
            self._again = False
            self.look()
        if ports is not None:
            self.found.emit(ports)


class _Look(QObject):
    """One look, held by its thread: whoever wanted it may be gone before it ends."""

    done = Signal(object)

    def run(self) -> None:
        ports: tuple[PortHere, ...] | None = None
        with contextlib.suppress(OSError, TypeError):  # the system does not tell: as if nothing had changed
            ports = ports_here()
        self.done.emit(ports)
