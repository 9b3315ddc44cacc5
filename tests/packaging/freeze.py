"""Freezes the program with PyInstaller, and holds the frozen one against what was frozen: status, words, pictures.

    python -m tests.packaging.freeze FOLDER

FOLDER is made, and everything is left in it: the program to pass on is `FOLDER/dist/fanlight`. Packages come from
where pip takes them. No part of the daily tests: it takes minutes and 1.1 GB.
"""

from __future__ import annotations

import os
import subprocess
import sys
import venv
from pathlib import Path
from typing import Final

from tests.packaging.app_icon import write_all
from tests.packaging.same_program import Program, differences, verdict

ROOT: Final = Path(__file__).parents[2]
OPTIONS: Final = (
    *("--onedir", "--noconfirm", "--log-level=WARN", "--name=fanlight"),
    "--collect-submodules=app",  # verbs are imported by their names
    *("--collect-data=projects", "--collect-data=resources"),
    "--recursive-copy-metadata=fanlight",  # the version, and the licences in Help > About
)


def main() -> int:
    """Freeze and compare; the exit status is 0 if the frozen program does the same."""
    if len(sys.argv) != 2:
        raise SystemExit("usage: python -m tests.packaging.freeze FOLDER")
    folder = Path(sys.argv[1]).resolve()
    place = folder / "venv" / ("Scripts" if os.name == "nt" else "bin")
    venv.create(folder / "venv", clear=True, with_pip=True)
    subprocess.run([place / "python", "-m", "pip", "install", "--quiet", "pyinstaller", ROOT], check=True)
    # A copy outside its package: PyInstaller looks for modules beside what it begins with.
    start = folder / "start.py"
    start.write_bytes((ROOT / "app" / "__main__.py").read_bytes())
    icons = write_all(folder / "icons")
    icon = f"--icon={icons['icns' if sys.platform == 'darwin' else 'ico']}"
    subprocess.run([place / "python", "-m", "PyInstaller", *OPTIONS, icon, start], cwd=folder, check=True)
    without_screen = {"QT_QPA_PLATFORM": "offscreen"}
    frozen = Program([folder / "dist" / "fanlight" / "fanlight"], without_screen)
    unfrozen = Program([place / "python", "-m", "app"], without_screen)
    # What is live differs in 1 %; without its translations the picture of Design differs in 4 %.
    return verdict(list(differences(frozen, unfrozen, folder, most_differing=0.02)), "the frozen program")


if __name__ == "__main__":
    raise SystemExit(main())
