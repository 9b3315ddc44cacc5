"""Every pane and dialog can be opened and has its picture taken; what is measured in them: `test_measures.py`."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QDialog, QPushButton, QWidget

import widgets
from tests.pictures.__main__ import main
from tests.pictures.panes import panes
from tests.pictures.stage import SMALLEST_SCREEN, Setting, staged
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.dialogs.long_work import WorkDialog
from widgets.kit.focus import RingDialog


@pytest.mark.parametrize("percent", [100, 200])
def test_the_window_can_be_made_narrower_than_the_smallest_screen(percent: int) -> None:
    with staged(Setting(percent=percent)) as window:
        least = window.minimumSizeHint()
    assert least.width() <= (1000 if percent == 100 else SMALLEST_SCREEN[0])
    assert least.height() <= SMALLEST_SCREEN[1]


def every_dialog() -> set[type[QDialog]]:
    for module in pkgutil.walk_packages(widgets.__path__, "widgets."):
        importlib.import_module(module.name)

    def below(kind: type[QDialog]) -> Iterator[type[QDialog]]:
        for each in kind.__subclasses__():
            yield each
            yield from below(each)

    return {each for each in below(QDialog) if each.__module__.startswith("widgets.") and each.__name__[0] != "_"}


def test_every_dialog_of_the_program_is_among_the_panes() -> None:
    seen: set[type[QWidget]] = {RingDialog, Dialog, WorkDialog}  # never by themselves: others derive from them
    with staged(Setting()) as window:
        for pane in panes():
            if pane.name.startswith("dialog"):
                with pane.open(window) as shown:
                    seen.add(type(shown))
    assert {kind.__name__ for kind in every_dialog() - seen} == set()


def test_enter_does_what_the_button_of_a_dialog_promises_that_stands_out() -> None:
    found: dict[str, str] = {}
    with staged(Setting()) as window:
        for pane in panes():
            with pane.open(window) as shown:
                for button in shown.findChildren(QPushButton) if isinstance(shown, QDialog) else ():
                    if button.property("look") == "primary" and button.isEnabled():
                        found[pane.name] = next(
                            (each.text() for each in shown.findChildren(QPushButton) if each.isDefault()), ""
                        )
                        assert button.isDefault(), found
    assert "dialog-export" in found


def test_names_of_panes_are_unique() -> None:
    names = [pane.name for pane in panes()]
    assert len(set(names)) == len(names) > 30


def test_one_command_makes_pictures(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    into = tmp_path / "new" / "folder"
    assert main(["--into", str(into), "--only", "dialog-about"]) == 0
    files = sorted(file.name for file in into.iterdir())
    assert files == [f"dialog-about-{look}-{tongue}.png" for look in ("dark", "light") for tongue in ("de", "en")]
    dark, light = (QImage(str(into / f"dialog-about-{look}-en.png")) for look in ("dark", "light"))
    assert dark.pixelColor(3, 3).lightness() < 80 < light.pixelColor(3, 3).lightness()
    assert main(["--only", "no such pane"]) == 2
    assert "design-map" in capsys.readouterr().err
