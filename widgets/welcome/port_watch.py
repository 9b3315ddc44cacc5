"""Watching which serial ports this computer has: adapters are plugged in while somebody looks for theirs."""

from __future__ import annotations

import contextlib
import threading
from typing import Final

from PySide6.QtCore import QObject, QTimer, Signal

from app.modbus.ports_here import PortHere, ports_here

LOOK_EVERY_MS: Final = 2000
LOOKED_AFTER_MS: Final = 50
"""How often is looked whether a look has ended."""


class PortWatch(QObject):
    """Looks at once and every two seconds, from `start` to `stop`.

    Each look has a thread of its own, since some systems take a second, and ends with it; there is never a second one.
    That thread touches nothing of Qt: what it leaves is taken from here.
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
        self._taking = QTimer(self)
        self._taking.setInterval(LOOKED_AFTER_MS)
        self._taking.timeout.connect(self._take)

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
        self._under_way.start()
        self._taking.start()

    def _look_if_idle(self) -> None:
        if self._under_way is None:
            self.look()

    def _take(self) -> None:
        look = self._under_way
        if look is None or look.is_alive():
            return
        self._under_way = None
        self._taking.stop()
        if self._again:
            self._again = False
            self.look()
        if look.ports is not None:
            self.found.emit(look.ports)


class _Look(threading.Thread):
    """One look: whoever wanted it may be gone before it ends."""

    def __init__(self) -> None:
        super().__init__(name="serial ports", daemon=True)
        self.ports: tuple[PortHere, ...] | None = None

    def run(self) -> None:
        with contextlib.suppress(OSError, TypeError):  # the system does not tell: as if nothing had changed
            self.ports = ports_here()
