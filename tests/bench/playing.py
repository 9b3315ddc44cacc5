"""A process that plays the followers of a project, as devices would: in nobody's way but the line's."""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from app.project.model import Project
from app.project_file.files import save

_PLAY = """
import itertools, sys, threading
from app.follower.simulation import Simulation
from app.project_file.files import load
project, spread = load(sys.argv[1]), int(sys.argv[2])
simulation = Simulation(project)
simulation.start()
print("port", simulation.serve_tcp(None, "127.0.0.1", 0)[1], flush=True)
signals = [(simulation.models[signal.follower], signal.name) for signal in project.signals]
ended = threading.Event()
threading.Thread(target=lambda: (sys.stdin.read(), ended.set()), daemon=True).start()
for count in itertools.count():
    for number in range(count % spread, len(signals), spread):
        bank, name = signals[number]
        bank.set(name, (count * 7 + number * 131) % 60000)
    if ended.wait(0.1):
        break
simulation.stop()
"""


@contextmanager
def played(project: Project, spread: int = 1) -> Iterator[int]:
    """Plays the followers of a project, one `spread`th of their values changing ten times a second; gives the port."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "played.toml"
        save(project, path)
        process = subprocess.Popen(
            [sys.executable, "-c", _PLAY, str(path), str(spread)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        assert process.stdout is not None
        try:
            found = re.match(r"port (\d+)", process.stdout.readline())
            if found is None:
                raise SystemExit("the followers did not start")
            yield int(found[1])
        finally:
            process.communicate("")
