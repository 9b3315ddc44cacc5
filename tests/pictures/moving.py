"""Makes the README's moving picture anew: a panel is made, a signal is dragged onto its screen, and it runs.

`python -m tests.pictures.moving` overwrites resources/pictures/first-minutes.png, an animated PNG. The dialog is the
program's own, the drive is the simulated one; only the pointer is drawn here.
"""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PIL import Image
from PySide6.QtCore import QPoint, QPointF, QRect
from PySide6.QtGui import QImage, QPainter, QPolygonF
from PySide6.QtWidgets import QWidget

from app import edits
from tests.pictures.readme import DESIGN, START_UP, drive, press, rest
from tests.pictures.stage import Setting, settle, settle_until, staged
from widgets.kit import palette
from widgets.shell.window import MainWindow
from widgets.welcome.new_panel import NewPanelDialog

PICTURE: Final = Path(__file__).parents[2] / "resources" / "pictures" / "first-minutes.png"
WIDTH: Final = 1100
"""Pixels of the picture across: the window is drawn at 1366 and made smaller."""
COLOURS: Final = 160
MOST_BYTES: Final = 3_000_000
_POINTER: Final = [(0, 0), (0, 20), (5, 16), (9, 24), (12, 22), (8, 15), (15, 15)]


@dataclass
class Reel:
    """The pictures so far, each with the milliseconds for which it is seen."""

    window: MainWindow
    frames: list[tuple[Image.Image, int]] = field(default_factory=list)

    def take(self, ms: int, pointer: QPoint | None = None, dialog: QWidget | None = None) -> None:
        """The window as it is now, with a dialog in front of it and a pointer on it (in pixels of the window)."""
        settle()
        picture = self.window.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
        painter = QPainter(picture)
        if dialog is not None:
            at = QRect(QPoint(), dialog.size())
            at.moveCenter(self.window.rect().center())
            painter.fillRect(at.adjusted(-1, -1, 1, 1), palette.current().colour("edge"))
            painter.drawPixmap(at.topLeft(), dialog.grab())
        if pointer is not None:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setBrush(palette.current().colour("base"))
            painter.drawPolygon(QPolygonF([QPointF(pointer) + QPointF(*each) for each in _POINTER]))
        painter.end()
        whole = Image.frombuffer(
            "RGBX", (picture.width(), picture.height()), bytes(picture.constBits()), "raw", "BGRX", 0, 1
        )
        height = round(WIDTH * whole.height / whole.width)
        small = whole.convert("RGB").resize((WIDTH, height), Image.Resampling.LANCZOS)
        self.frames.append((small, ms))

    def watch(self, seconds: float, every: float = 0.25) -> None:
        """The window running on by itself."""
        for _ in range(round(seconds / every)):
            rest(every)
            self.take(round(1000 * every))

    def save(self, path: Path) -> None:
        """Write all of it, in colours that all pictures share."""
        strip = Image.new("RGB", (WIDTH, self.frames[0][0].height * len(self.frames)))
        for number, (picture, _) in enumerate(self.frames):
            strip.paste(picture, (0, number * picture.height))
        shared = strip.quantize(COLOURS, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
        first, *others = (picture.quantize(palette=shared, dither=Image.Dither.NONE) for picture, _ in self.frames)
        times = [ms for _, ms in self.frames]
        first.save(path, save_all=True, append_images=others, duration=times, loop=0, optimize=True)


def main() -> None:
    """Overwrite the picture."""
    with staged(Setting()) as window:
        reel = Reel(window)
        make_panel(window, reel)
        place_signal(window, reel)
        run_it(window, reel)
        reel.save(PICTURE)
        size = PICTURE.stat().st_size
        assert size < MOST_BYTES, f"{size} bytes: fewer colours, pictures or pixels"


def make_panel(window: MainWindow, reel: Reel) -> None:
    """A new panel with a drive: only its title is typed."""
    window.beginning.show()
    reel.take(1500)
    dialog = NewPanelDialog(window)
    dialog.show()
    for title in ("", "Con", "Conveyor"):
        dialog.title.setText(title)
        reel.take(500 if title != "Conveyor" else 1500, dialog=dialog)
    dialog.make_button.click()
    assert dialog.project is not None
    dialog.hide()
    window.take(dialog.project, None)
    dialog.deleteLater()
    window.show_workspace(DESIGN)
    window.design.show_view("screen")
    reel.take(1500)


def place_signal(window: MainWindow, reel: Reel) -> None:
    """A screen more, its title typed, and a signal dragged onto it, as the program shows it while it is dragged."""
    design, document = window.design, window.document
    document.do("Add a screen", lambda project: edits.add_screen(project, "motor"))
    document.select_screen("motor")
    design.editor.commands.go(0, 0)
    reel.take(800)
    for letters in ("MO", "TOR"):
        design.editor.commands.type(letters)
        reel.take(400)
    signal = next(signal.name for signal in document.project.signals if signal.unit == "A")
    tray, grid = design.left.tray.list, design.editor.face.grid
    start = tray.mapTo(window, tray.rect().center())
    plan = design.left.dropping.plan([signal], (1, 0))
    assert plan is not None
    assert not plan.refused, plan.refused
    end = grid.mapTo(window, grid.cell_rect(1, 4).center())
    for part in (0.0, 0.3, 0.6, 0.85, 1.0):
        if part == 1.0:
            grid.set_ghost(plan.ghost)
            design.editor.say_drag(plan.words)
        reel.take(200 if part < 1 else 1500, pointer=start + (end - start) * part)
    grid.set_ghost(None)
    design.editor.say_drag("")
    design.left.dropping.place([signal], (1, 0))
    reel.take(1500)


def run_it(window: MainWindow, reel: Reel) -> None:
    """Connect it to the simulated drive, start it, and watch its curves."""
    window.connecting.choose(0)
    window.show_workspace(1)
    window.connecting.connect_line()
    settle_until(lambda: window.live.session is not None and all(r.good for r in window.live.readings().values()))
    reel.take(1200)
    press(window, "start")
    reel.watch(4.0, 0.5)
    window.show_workspace(START_UP)
    settle_until(lambda: drive(window).drive.at_reference)
    reel.watch(2.0, 0.5)
    reel.take(2500)
    press(window, "stop")


if __name__ == "__main__":
    main()
