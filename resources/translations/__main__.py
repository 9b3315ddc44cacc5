"""Brings the translations in step with the texts of the program.

`python -m resources.translations` collects the texts of app/ and widgets/ into every fanlight_XX.ts, drops those that
are gone, makes fanlight_XX.qm of them, and tells how many wait for a translation. The same sources give the same files.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Final

import PySide6

HERE: Final = Path(__file__).resolve().parent
ROOT: Final = HERE.parents[1]
TEXTS_IN: Final = ("app", "widgets")
"""Folders of the sources that hold texts."""


def collect(file: Path) -> str:
    """Bring `file`, a .ts, in step with the sources. Returns the remarks of Qt's collector on them, if it has any.

    Raises subprocess.CalledProcessError.
    """
    sources = sorted(str(path.relative_to(ROOT)) for folder in TEXTS_IN for path in (ROOT / folder).rglob("*.py"))
    options = ["-silent", "-no-obsolete", "-locations", "none", "-sort-messages", "-source-language", "en"]
    marks = ["-tr-function-alias", "QT_TRANSLATE_NOOP+=mark"]
    return _run("lupdate", *options, *marks, *sources, "-ts", str(file))


def compile_(file: Path, made: Path) -> str:
    """Make `made`, a .qm, of the .ts `file`. Returns what Qt's compiler says: how many are done and how many are not.

    Raises subprocess.CalledProcessError.
    """
    return _run("lrelease", str(file), "-qm", str(made))


def _run(tool: str, *arguments: str) -> str:
    """Run one of the tools that come with PySide6."""
    folder = Path(PySide6.__file__).parent
    program = folder / (f"{tool}.exe" if sys.platform == "win32" else tool)
    done = subprocess.run(
        [str(program), *arguments], cwd=ROOT, check=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    return done.stdout


def main() -> None:
    """Do it for every language."""
    for file in sorted(HERE.glob("*.ts")):
        sys.stdout.write(collect(file))
        sys.stdout.write(compile_(file, file.with_suffix(".qm")))


if __name__ == "__main__":
    main()
