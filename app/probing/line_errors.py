"""Characters with a wrong parity bit or without a stop bit, overruns and breaks, as far as a serial port tells them.

Two ways, both from memory of Linux and of termios(3), and neither proved on hardware here: a pseudo terminal carries no
bits, so the tests stage what a driver answers.

- Linux counts for each port, and tells it by the call TIOCGICOUNT, which leaves the data alone. A driver that does not
  count answers with an error, or with zeros for ever, also of characters received: then it tells nothing.
- Elsewhere a terminal may mark characters in the data (PARMRK with INPCK): FF 00 xx is a damaged xx, FF 00 00 a break
  or a damaged 00, FF FF a sound FF. pyserial clears both flags whenever it sets up a port. That does not tell parity
  from framing errors: they count as parity errors where parity is on, else as framing errors.

Pseudo terminals and Windows tell nothing. There pyserial fetches the error flags itself and drops them.
"""

from __future__ import annotations

import os
import struct
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from app.modbus.serial_port import is_pseudo_terminal

_TIOCGICOUNT: Final = 0x545D
"""Of Linux on all processors but a few old ones (asm-generic/ioctls.h)."""
_COUNTERS: Final = struct.Struct("20i")
"""struct serial_icounter_struct: cts, dsr, rng, dcd, rx, tx, frame, overrun, parity, brk, buf_overrun, 9 reserved."""
_RECEIVED, _FRAME, _OVERRUN, _PARITY, _BREAK, _BUFFER_OVERRUN = 4, 6, 7, 8, 9, 10

Ioctl = Callable[[int, int, bytes], Any]


@dataclass(frozen=True, slots=True)
class CharacterErrors:
    """Counts since some beginning; None where the port does not tell."""

    parity: int | None = None
    framing: int | None = None
    overruns: int | None = None
    breaks: int | None = None

    def since(self, before: CharacterErrors) -> CharacterErrors:
        """What was added. Counters of the system are 32 bits wide and start again at the end."""

        def added(now: int | None, then: int | None) -> int | None:
            return None if now is None or then is None else (now - then) & 0xFFFF_FFFF

        return CharacterErrors(
            added(self.parity, before.parity),
            added(self.framing, before.framing),
            added(self.overruns, before.overruns),
            added(self.breaks, before.breaks),
        )


NOTHING_TOLD: Final = CharacterErrors()


def counted_by_system(descriptor: int, ioctl: Ioctl | None = None, *, received: bool = False) -> CharacterErrors:
    """What Linux has counted for an open port; `NOTHING_TOLD` if the port or the system does not.

    `received`: characters came, so a driver that has counted nothing at all does not count.
    """
    try:
        counters = _COUNTERS.unpack((ioctl or _ioctl())(descriptor, _TIOCGICOUNT, bytes(_COUNTERS.size)))
    except (ImportError, OSError, struct.error):
        return NOTHING_TOLD
    if received and not (counters[_RECEIVED] or any(counters[_FRAME:])):
        return NOTHING_TOLD
    return CharacterErrors(
        counters[_PARITY], counters[_FRAME], counters[_OVERRUN] + counters[_BUFFER_OVERRUN], counters[_BREAK]
    )


def _ioctl() -> Ioctl:
    from fcntl import ioctl  # not on Windows

    return ioctl


def mark_in_data(descriptor: int) -> None:
    """Have a terminal mark damaged characters in what is read from it. Raises OSError if it cannot."""
    import termios

    try:
        attributes = termios.tcgetattr(descriptor)
        attributes[0] |= termios.INPCK | termios.PARMRK
        attributes[0] &= ~(termios.IGNPAR | termios.IGNBRK | termios.BRKINT | termios.ISTRIP)
        termios.tcsetattr(descriptor, termios.TCSANOW, attributes)
    except termios.error as error:
        raise OSError(*error.args) from error


class MarkedData:
    """Takes the marks out of data again, and counts them. Damaged characters stay in it as they were read."""

    def __init__(self) -> None:
        self.damaged = 0
        self.breaks = 0
        self._begun = b""

    def sound(self, data: bytes) -> bytes:
        """The characters, as the port read them; a mark that is not complete is kept until more comes."""
        data = self._begun + data
        out = bytearray()
        at = 0
        while at < len(data):
            if data[at] != 0xFF:
                out.append(data[at])
                at += 1
                continue
            mark = data[at : at + 3]
            if mark == b"\xff" or mark == b"\xff\x00":
                break
            if mark[1]:
                out.append(0xFF)
                # Anything but FF behind it would be a terminal that does not mark: then it is a character of its own.
                at += 2 if mark[1] == 0xFF else 1
                continue
            out.append(mark[2])
            if mark[2]:
                self.damaged += 1
            else:
                self.breaks += 1
            at += 3
        self._begun = data[at:]
        return bytes(out)


class PortErrors:
    """The errors of one open serial port, in whichever way it tells them."""

    def __init__(self, device: str, descriptor: int, ioctl: Ioctl | None = None) -> None:
        """`descriptor`: of the open port."""
        self._descriptor = descriptor
        self._ioctl = ioctl
        self._marked: MarkedData | None = None
        self._parity = False
        self._received = False
        pseudo = is_pseudo_terminal(device)
        self._system = not pseudo and counted_by_system(descriptor, ioctl) != NOTHING_TOLD
        self._can_mark = not self._system and not pseudo and os.name == "posix"

    def port_set_up(self, *, parity: bool) -> None:
        """After each time that settings were given to the port: pyserial has cleared the marks then."""
        self._parity = parity
        if not self._can_mark:
            return
        try:
            mark_in_data(self._descriptor)
        except OSError:
            self._can_mark = False
            self._marked = None
            return
        self._marked = MarkedData()

    def sound(self, data: bytes) -> bytes:
        """What was read from the port, without marks."""
        self._received = self._received or bool(data)
        return data if self._marked is None else self._marked.sound(data)

    @property
    def counts(self) -> CharacterErrors:
        """Until now. Only differences mean anything, and only between two times at which the port was set up."""
        if self._system:
            return counted_by_system(self._descriptor, self._ioctl, received=self._received)
        if self._marked is None:
            return NOTHING_TOLD
        damaged, breaks = self._marked.damaged, self._marked.breaks
        return (
            CharacterErrors(damaged, None, None, breaks)
            if self._parity
            else CharacterErrors(None, damaged, None, breaks)
        )
