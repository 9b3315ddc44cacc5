"""Whether a program packed for somebody still is what was packed: both are run, and what they do is compared."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from PySide6.QtGui import QImage

from projects import demo_path, demos

LIMIT_S: Final = 300
"""For one run: a window under an emulated system takes half a minute, and more where others work too."""
PICTURES: Final = {
    "bench": ("--palette", "light", "--language", "en"),
    "design": ("--palette", "dark", "--language", "de"),
    "start-up": ("--palette", "light", "--language", "de"),
}


@dataclass(frozen=True, slots=True)
class Program:
    """How a program is started: its command, its variables besides ours, and what its paths begin with."""

    command: Sequence[str | Path]
    variables: Mapping[str, str]
    drive: str = ""

    def run(self, folder: Path, *arguments: str | Path) -> subprocess.CompletedProcess[str]:
        """Run it in `folder`. Its packages are its own, whatever ours are. Raises TimeoutExpired."""
        kept = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "VIRTUAL_ENV"))}
        return subprocess.run(
            [*self.command, *map(self._as_written, arguments)],
            cwd=folder,
            env=kept | dict(self.variables),
            input="",
            capture_output=True,
            text=True,
            timeout=LIMIT_S,
            check=False,
        )

    def _as_written(self, argument: str | Path) -> str:
        path = isinstance(argument, Path) and bool(self.drive)
        return f"{self.drive}{argument}".replace("/", "\\") if path else str(argument)


def differences(packed: Program, known: Program, folder: Path, most_differing: float) -> Iterator[str]:
    """What `packed` does otherwise than `known`, in a few lines each. Their pictures stay in `folder`, to be looked at.

    Of the pixels of two pictures this share may differ (ages, ports and times do, and texts where fonts do), 0 to 1.
    """
    projects = [folder / f"{name}.toml" for name in demos()]
    for path in projects:
        path.write_bytes(demo_path(path.stem).read_bytes())
    pump, broken = projects[0], folder / "broken.toml"
    broken.write_text("nonsense = 1\n" + pump.read_text("utf-8"), "utf-8")
    for status, *arguments in (
        (0, "--version"),
        *((0, "check", path) for path in projects),
        (1, "check", broken),
        (2, "check", "missing.toml"),
        (0, "panel", pump, "--via", "simulated", "--keys", "right 1s"),
    ):
        words = [each if isinstance(each, Path) else str(each) for each in arguments]
        was, wanted = packed.run(folder, *words), known.run(folder, *words)
        if not was.returncode == wanted.returncode == status:
            yield f"{words} ended with {was.returncode} instead of {status}:\n{was.stderr}"
        elif was.stdout != wanted.stdout or not set(wanted.stderr.splitlines()) <= set(was.stderr.splitlines()):
            yield f"{words} said\n{was.stdout}{was.stderr}instead of\n{wanted.stdout}{wanted.stderr}"
    for workspace, look in PICTURES.items():
        shown = []
        for who, program in (("packed", packed), ("known", known)):
            picture = folder / f"{workspace}-{who}.png"
            picture.unlink(missing_ok=True)
            done = program.run(folder, "demo", "--grab", picture, "--for", "5", "--workspace", workspace, *look)
            shown.append(QImage(str(picture)))
            if done.returncode or shown[-1].isNull():
                yield f"{workspace}: no picture of what is {who}; ended with {done.returncode}:\n{done.stderr}"
        share = differing(*shown)
        print(f"{workspace}: {share:.1%} of the pixels differ")
        if share > most_differing:
            yield f"{workspace}: the pictures are not alike"


def differing(one: QImage, other: QImage) -> float:
    """The share of pixels that are different in two pictures, 0 to 1; 1 if their sizes are."""
    if one.size() != other.size() or one.isNull():
        return 1.0
    pixels = [(x, y) for y in range(one.height()) for x in range(one.width())]
    return sum(one.pixel(x, y) != other.pixel(x, y) for x, y in pixels) / len(pixels)


def verdict(found: Sequence[str], what: str) -> int:
    """Say what was found, and the exit status that goes with it."""
    print("\n".join(found) or f"{what} does the same")
    return 1 if found else 0
