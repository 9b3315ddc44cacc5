"""Project files as former versions of the program wrote them, and the same projects as later ones write them."""

from __future__ import annotations

from pathlib import Path
from typing import Final

FORMAT_1: Final = Path(__file__).parent / "projects" / "format_1"
FORMAT_2: Final = FORMAT_1.with_name("format_2")

FORMER: Final = tuple(sorted(path.stem for path in FORMAT_1.glob("*.toml")))
"""Their names, the same in each folder: the two demos of that time, and one with every word that changed since."""
