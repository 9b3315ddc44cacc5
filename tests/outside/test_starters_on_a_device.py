"""A new project's panel at a device that has nothing of the program: a drive written here, on a bare socket.

Its registers are those that a starter's file names. Its plain control word is that of the starter's notes; the other
one follows IEC 61800-7-201 (from memory): 6 shutdown, 15 enable operation, bit 7 fault reset on its rising edge; status
bits 0 ready, 2 operation enabled, 3 fault, 9 remote.
"""

from __future__ import annotations

import struct

import pytest

from app.session.session import Session
from app.starters.answers import Answers, Registers
from app.starters.build import build
from tests.outside.lossy_device import LossyDevice
from tests.waiting import wait_for

CONTROL, SETPOINT, STATUS, SPEED, CURRENT, FAULT_CODE = 300, 310, 400, 401, 402, 404
OVERLOAD = 0x2350
FASTEST, COUNTS = 50, 10_000


class Drive(LossyDevice):
    """Runs at its set point at once, or not at all."""

    def __init__(self, standard: bool) -> None:
        super().__init__("tcp", 0.0)
        self.standard = standard
        self.words = {CONTROL: 0, SETPOINT: 8330, 311: 50, 312: 50}
        self.ready = self.runs = self.tripped = False

    def trip(self) -> None:
        self.tripped, self.runs, self.ready = True, False, False

    def _answer(self, pdu: bytes) -> bytes:
        before = self.words[CONTROL]
        if pdu[0] == 4:
            address, count = struct.unpack(">HH", pdu[1:5])
            return struct.pack(f">BB{count}H", 4, 2 * count, *map(self._input, range(address, address + count)))
        answer = super()._answer(pdu)
        self._obey(before, self.words[CONTROL])
        return answer

    def _obey(self, before: int, word: int) -> None:
        if self.tripped:
            self.tripped = not word & ~before & 0x80
        elif self.standard:
            low = word & 0x0F
            self.ready = low == 6 or (self.ready and low == 15)
            self.runs = self.ready and low == 15
        else:
            self.runs = bool(word & 0x10)

    def _input(self, address: int) -> int:
        setpoint = self.words[SETPOINT]
        back = not self.standard and self.words[CONTROL] & 0x20
        speed = (-setpoint if back else setpoint) & 0xFFFF if self.runs else 0
        if self.standard:
            status = 0x200 | self.ready | self.runs << 2 | self.tripped << 3
        else:
            status = 0x200 | self.runs << 4 | self.tripped << 7
        shown = {STATUS: status, SPEED: speed, CURRENT: 730 * self.runs, FAULT_CODE: OVERLOAD * self.tripped}
        return shown.get(address, 0)


@pytest.mark.parametrize("registers", ["plain", "iec-61800-7-201"])
def test_a_new_panel_runs_a_drive_that_knows_nothing_of_it(registers: Registers) -> None:
    with Drive(registers != "plain") as drive:
        project = build(Answers(where="tcp", host=f"127.0.0.1:{drive.where}", unit=17, registers=registers))
        with Session(project) as session:

            def shows(*texts: str) -> bool:
                session.panel.tick()
                face = "\n".join(row.text for row in session.panel.rows())
                return all(text in face for text in texts)

            def press(*keys: str) -> None:
                for key in keys:
                    session.panel.key_down(key)
                    session.panel.key_up(key)

            wait_for(lambda: shows("41.7 Hz", "stopped", "remote"))
            press("start")
            wait_for(lambda: shows("writing is off") or shows("not written"))
            assert not drive.runs
            assert not drive.log, "nothing may be written to a real line that is not armed"
            session.engine.arm("machine")
            press("stop")  # the shutdown that a standard drive wants before its first start
            wait_for(lambda: len(drive.log) == 1)
            press("start")
            wait_for(lambda: shows("running") and drive.runs)
            press("enter", "up", "enter")
            wait_for(lambda: drive.words[SETPOINT] == 8430)  # 41.65 Hz and one step of 0.5 Hz; 20 counts are 0.1 Hz
            wait_for(lambda: shows("Speed", "42.2 Hz"))
            press("right")
            wait_for(lambda: shows("7.30 A", "forward"))
            drive.trip()
            wait_for(lambda: shows("motor overload", "2350h"))
            assert not drive.runs
            press("reset")
            wait_for(lambda: not drive.tripped and shows("Current"))
            assert not drive.runs
            press("start")
            wait_for(lambda: drive.runs)
            press("stop")
            wait_for(lambda: not drive.runs)
