"""How much a kill loses: `fanlight record` is killed at every stage, and what it left compared with the device's log.

A plain script, since it takes minutes: `python -m tests.bench.killed_recordings --kills 50`. A device on bare sockets
counts its answers and writes down when each went out. After each kill two files are read: the recording where it lies,
with the log beside it, and a copy of the one file alone.
"""

from __future__ import annotations

import argparse
import random
import shutil
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from app.recording.reader import Recording
from tests.counting_device import PROJECT_TEXT, CountingDevice

LACKS_S = 10.0
ROOT = Path(__file__).parents[2]


def lacks(path: Path, device: CountingDevice, end: float) -> float:
    """Seconds before `end` from which on there is nothing in this file. Every value in it must be the device's."""
    with Recording.open(path) as recording:
        assert recording.damage == [], recording.damage
        found = recording.samples("answers", -1e9, 1e9)
        counted = [int(value) for value in recording.values("answers", found)]
    sent = {value: at for at, value in device.answered}
    assert counted == list(range(len(counted))), "an answer is missing, or twice"
    return end - (sent[counted[-1]] if counted else device.answered[0][0] if device.answered else end)


def kill_once(number: int, longest: float) -> tuple[str, float, float, float]:
    """When it was killed, and what the file lacks then: where it lies, alone; and a copy made a moment before."""
    chance = random.Random(number)
    with tempfile.TemporaryDirectory() as name, CountingDevice() as device:
        folder = Path(name)
        (folder / "p.toml").write_text(PROJECT_TEXT)
        path = folder / "run.fanrec"
        command = [sys.executable, "-m", "app", "record", str(folder / "p.toml"), "--to", str(path)]
        process = subprocess.Popen(
            [*command, "--via", f"tcp://127.0.0.1:{device.port}"],
            cwd=ROOT,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        if number % 2:  # the first moments of the file
            while not path.exists():
                time.sleep(0.001)
            time.sleep(chance.choice([0.0, 0.001, 0.005, 0.02, 0.1, 0.5]))
            stage = "at its beginning"
        else:
            time.sleep(chance.uniform(0.2, longest))
            stage = "later"
        copy = folder / "while.fanrec"
        copied_at = time.monotonic()
        if path.exists():
            shutil.copy(path, copy)
        process.kill()
        process.wait()
        killed_at = time.monotonic()
        left = sorted(each.name for each in folder.iterdir() if each.name not in ("p.toml", "while.fanrec"))
        named = {each for each in left if not each.startswith(".")}
        assert named <= {"run.fanrec", "run.fanrec-wal", "run.fanrec-shm"}, left
        if not path.exists():
            return "before it began", 0.0, 0.0, 0.0
        alone = folder / "alone.fanrec"
        shutil.copy(path, alone)
        return (
            stage,
            lacks(path, device, killed_at),
            lacks(alone, device, killed_at),
            lacks(copy, device, copied_at) if copy.exists() else 0.0,
        )


def main() -> int:
    """Kill, read, and print the worst."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--kills", type=int, default=50)
    parser.add_argument("--longest", type=float, default=25.0, help="seconds until the latest kill")
    args = parser.parse_args()
    with ThreadPoolExecutor(3) as several:
        outcomes = list(several.map(kill_once, range(args.kills), [args.longest] * args.kills))
    for stage in sorted({outcome[0] for outcome in outcomes}):
        mine = [outcome for outcome in outcomes if outcome[0] == stage]
        worst = [max(each[column] for each in mine) for column in (1, 2, 3)]
        print(
            f"killed {stage}: {len(mine)} times; lacking at most {worst[0]:.1f} s where it lies, {worst[1]:.1f} s in "
            f"the one file alone, {worst[2]:.1f} s in a copy made while it was recording (mark {LACKS_S:g})"
        )
    return int(any(max(outcome[1:]) > LACKS_S for outcome in outcomes))


if __name__ == "__main__":
    raise SystemExit(main())
