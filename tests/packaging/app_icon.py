"""Writes the icon of the program in the forms that systems want: PNG from 16 to 1024 pixels, ICO, ICNS.

    python -m tests.packaging.app_icon FOLDER

What was written is read back by Qt. ICO holds PNGs, as Windows takes them since Vista; the four letters of each size in
an ICNS are from memory.
"""

from __future__ import annotations

import os
import struct
import sys
from pathlib import Path
from typing import Final

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QBuffer, QIODevice
from PySide6.QtGui import QImageReader

from widgets.kit.icons import program_picture
from widgets.shell.application import make_application

SIDES: Final = (16, 20, 24, 32, 40, 48, 64, 96, 128, 256, 512, 1024)
ICO_SIDES: Final = (16, 20, 24, 32, 40, 48, 64, 256)
ICNS_KINDS: Final = {"icp4": 16, "icp5": 32, "ic07": 128, "ic08": 256, "ic09": 512, "ic10": 1024}


def write_all(folder: Path) -> dict[str, Path]:
    """Write every form into a folder. Gives the files of the two systems, by their ending.

    Raises ValueError if what was written cannot be read back.
    """
    make_application()
    pictures = {side: _png(side) for side in SIDES}
    folder.mkdir(parents=True, exist_ok=True)
    for side, picture in pictures.items():
        (folder / f"fanlight-{side}.png").write_bytes(picture)
    ico, icns = folder / "fanlight.ico", folder / "fanlight.icns"
    ico.write_bytes(_ico([(side, pictures[side]) for side in ICO_SIDES]))
    icns.write_bytes(_icns([(kind, pictures[side]) for kind, side in ICNS_KINDS.items()]))
    for file, wanted in ((ico, set(ICO_SIDES)), (icns, set(ICNS_KINDS.values()))):
        if (found := _sides_in(file)) != wanted:
            raise ValueError(f"{file} has pictures of {sorted(found)} pixels, not of {sorted(wanted)}")
    return {"ico": ico, "icns": icns}


def _png(side: int) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    program_picture(side).save(buffer, "PNG")
    return bytes(buffer.data().data())


def _ico(pictures: list[tuple[int, bytes]]) -> bytes:
    """Format: a head, an entry of 16 bytes for each picture, the pictures; a side of 256 is written as 0."""
    head, body, at = struct.pack("<HHH", 0, 1, len(pictures)), b"", 6 + 16 * len(pictures)
    for side, picture in pictures:
        head += struct.pack("<BBBBHHII", side % 256, side % 256, 0, 0, 1, 32, len(picture), at + len(body))
        body += picture
    return head + body


def _icns(pictures: list[tuple[str, bytes]]) -> bytes:
    """Format: four letters and the length of all, then the same for each picture, in front of it."""
    body = b"".join(struct.pack(">4sI", kind.encode(), 8 + len(picture)) + picture for kind, picture in pictures)
    return struct.pack(">4sI", b"icns", 8 + len(body)) + body


def _sides_in(file: Path) -> set[int]:
    reader = QImageReader(str(file))
    found = set()
    for number in range(reader.imageCount()):
        reader.jumpToImage(number)
        found.add(reader.read().width())
    return found


if __name__ == "__main__":
    if len(sys.argv) != 2:
        raise SystemExit("usage: python -m tests.packaging.app_icon FOLDER")
    write_all(Path(sys.argv[1]))
