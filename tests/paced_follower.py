"""A follower on a pty that keeps the time of a real line: 11 bits a character, silent intervals, a turnaround.

Run as a program it prints the device's name, answers reads of holding registers (register n holds n) until its standard
input ends, and then prints the shortest silence, in milliseconds, that it saw before a request.
"""

from __future__ import annotations

import os
import select
import struct
import sys
import time
from contextlib import suppress

from tests.staged_follower import crc

AWAKE_S = 0.000_3
"""The end of a wait that is spent awake."""


def wait_until(due: float) -> None:
    """Return when `time.perf_counter()` is `due`, as exactly as a line is."""
    wait = due - AWAKE_S - time.perf_counter()
    if wait > 0:
        time.sleep(wait)
    while time.perf_counter() < due:
        pass


def serve(baud: int, response_time_s: float) -> None:
    """Answer until standard input ends. A character takes 11 bits at `baud`; `response_time_s` comes on top of t3.5."""
    import tty

    with suppress(OSError):  # a wire does not wait for other programs either, where the system lets us say so
        os.setpriority(os.PRIO_PROCESS, 0, -15)
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {max(os.sched_getaffinity(0))})
    far, near = os.openpty()
    tty.setraw(near)
    sys.stdout.write(f"{os.ttyname(near)}\n")
    sys.stdout.flush()
    character = 11 / baud
    silence = 0.001_75 if baud > 19_200 else 3.5 * character
    answers: dict[bytes, bytes] = {}
    last = -1.0
    least = 1e9
    pending = b""
    os.set_blocking(far, False)
    while True:
        # A wire needs no time to wake up: when a request may soon be due, it is waited for awake.
        wait_until(last + silence)
        if time.perf_counter() - last > silence + 0.005:
            ready, _, _ = select.select((far, sys.stdin), (), (), None)
            if sys.stdin in ready:
                break
        try:
            pending += os.read(far, 256)
        except BlockingIOError:
            continue
        now = time.perf_counter()
        if len(pending) < 8:
            continue
        request, pending = pending[:8], pending[8:]
        if last >= 0:
            least = min(least, now - last)
        if request not in answers:
            assert crc(request[:-2]) == request[-2:]
            address, count = struct.unpack(">HH", request[2:6])
            body = struct.pack(f">BBB{count}H", request[0], 3, 2 * count, *range(address, address + count))
            answers[request] = body + crc(body)
        answer = answers[request]
        # The request's characters are on the wire only now, and its answer begins after the silence.
        due = now + 8 * character + silence + response_time_s
        for index in range(len(answer)):
            due += character
            wait_until(due)
            last = time.perf_counter()
            os.write(far, answer[index : index + 1])
    sys.stdout.write(f"{1000 * least:.4f}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    serve(int(sys.argv[1]), float(sys.argv[2]) if len(sys.argv) > 2 else 0.0)
