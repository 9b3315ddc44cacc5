"""How much a crash loses: windows are killed in the middle of typing, and their recovery copies read.

A plain script, not a test, since it measures this computer: `python -m tests.bench.killed_windows`. Each window is a
process of its own that types a six-digit counter by key events, forty times a second or as fast as it can.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from app.project.model import Project
from app.project_file.files import save
from tests.big_project import big_project
from tests.widgets.bench_project import bench_project


def lost_s(project: Project, kill_after_s: float) -> float:
    """Seconds of typing that are not in the copy of a window killed so long after its first key."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        file = folder / "project.toml"
        save(project, file)
        window = subprocess.Popen(
            [sys.executable, "-m", "tests.widgets.typing_window", *map(str, (folder, folder / "state", "type", file))],
            env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
            stdout=subprocess.PIPE,
            text=True,
        )
        assert window.stdout is not None
        typed = [json.loads(window.stdout.readline())]
        end = typed[0]["at"] + kill_after_s
        while typed[-1]["at"] < end:
            typed.append(json.loads(window.stdout.readline()))
        killed = time.monotonic()
        window.kill()
        window.communicate()
        copies = list((folder / "state" / "recovery").glob("*.toml"))
        if not copies:
            return killed - float(typed[0]["at"])
        screens = copies[0].read_text("utf-8").split("[[screen]]", 1)[1]
        found = re.search(r'text = \[\n  "(\d{6})', screens)
        number = int(found[1]) if found else 0
        return killed - float(next((each["at"] for each in typed if each["number"] == number), typed[0]["at"]))


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=6, help="windows of each size")
    runs = parser.parse_args().runs
    chance = random.Random(7)
    for words, project in (("a small project", bench_project()), ("200 screens, 2 000 signals", big_project())):
        found = sorted(lost_s(project, chance.uniform(3, 12)) for _ in range(runs))
        print(f"{words}: lost {found[len(found) // 2]:.1f} s (median of {runs}), at most {found[-1]:.1f} s")


if __name__ == "__main__":
    main()
