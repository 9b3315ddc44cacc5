"""Makes pictures of every pane and dialog, in both looks and both languages: `python -m tests.pictures --into DIR`."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from tests.pictures.panes import panes
from tests.pictures.stage import Setting, staged
from widgets.kit.language import Language
from widgets.kit.palette import Appearance
from widgets.kit.scaling import SIZES


def main(arguments: list[str]) -> int:
    """Make the pictures that are asked for. Returns 0, or 2 if there is nothing of such a name."""
    parser = argparse.ArgumentParser(prog="python -m tests.pictures", description=__doc__)
    parser.add_argument("--into", type=Path, default=Path("pictures"), help="the folder; it is made if need be")
    parser.add_argument("--only", metavar="PART", help="only panes that have this in their name")
    parser.add_argument("--look", choices=["light", "dark"], action="append", help="left out: both")
    parser.add_argument("--language", choices=["en", "de"], action="append", help="left out: both")
    parser.add_argument("--size", type=int, choices=SIZES, default=100, help="per cent")
    wish = parser.parse_args(arguments)
    chosen = [pane for pane in panes() if wish.only is None or wish.only in pane.name]
    if not chosen:
        names = ", ".join(pane.name for pane in panes())
        sys.stderr.write(f"no pane is called like '{wish.only}'; there are: {names}\n")
        return 2
    wish.into.mkdir(parents=True, exist_ok=True)
    for look in wish.look or ["light", "dark"]:
        for language in wish.language or ["en", "de"]:
            setting = Setting(Appearance(look), Language(language), wish.size)
            with staged(setting) as window:
                for pane in chosen:
                    with pane.open(window) as shown:
                        file = wish.into / f"{pane.name}-{setting}.png"
                        if not shown.grab().save(str(file), "PNG"):
                            sys.stderr.write(f"{file} cannot be written\n")
                            return 2
                    sys.stdout.write(f"{file}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
