"""What a person can do at a simulated follower: its switches, for menus and cards alike."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from widgets.kit.commands import mark_entry
from widgets.kit.plain import plain_tip

if TYPE_CHECKING:  # followers are simulated only when a project is connected
    from app.follower.register_bank import RegisterBank

translate = QCoreApplication.translate

LOW: Final = 0.6
"""Of the rated supply: below the share at which the drive trips on undervoltage (app.follower.drive)."""


def switch_names(*, drive: bool) -> list[str]:
    """What stands on the switches of a simulated follower, whether it is simulated just now or not."""
    silent = translate("SimulatedSwitches", "&Silent")
    if not drive:
        return [silent]
    return [translate("SimulatedSwitches", "Shaft &blocked"), translate("SimulatedSwitches", "Supply &low"), silent]


class SimulatedSwitches:
    """The switches as actions for a menu and for buttons; each acts at once."""

    def __init__(self, bank: RegisterBank, parent: QWidget) -> None:
        self.bank = bank
        inputs = getattr(bank, "inputs", None)
        deeds: list[tuple[Callable[[bool], None], str]] = []
        if inputs is not None:
            deeds += [
                (
                    lambda on: setattr(inputs, "jammed", on),
                    translate(
                        "SimulatedSwitches",
                        "Something holds the shaft fast: a running motor trips, one that starts stays at the torque "
                        "limit.",
                    ),
                ),
                (
                    lambda on: setattr(inputs, "supply", LOW if on else 1.0),
                    translate(
                        "SimulatedSwitches", "The supply sags to {share} %: the drive trips on undervoltage."
                    ).format(share=f"{100 * LOW:.0f}"),
                ),
            ]
        deeds.append(
            (
                lambda on: setattr(bank, "silent", on),
                translate("SimulatedSwitches", "As if unplugged from the line: receives nothing and answers nothing."),
            )
        )
        names = switch_names(drive=inputs is not None)
        self.actions = [_switch(parent, name, tip, act) for name, (act, tip) in zip(names, deeds, strict=True)]
        self.silent = self.actions[-1]
        self.more = mark_entry(QAction(translate("SimulatedSwitches", "&Inputs and line\u2026"), parent))
        self.more.triggered.connect(lambda: self._show_more(parent))

    def _show_more(self, parent: QWidget) -> None:
        from widgets.live.follower_trouble import TroubleDialog

        dialog = TroubleDialog(self.bank, parent.window())
        parent.destroyed.connect(dialog.close)  # with its card the follower is gone
        dialog.show()


def _switch(parent: QWidget, text: str, tip: str, act: Callable[[bool], None]) -> QAction:
    action = QAction(text, parent)
    action.setCheckable(True)
    action.setToolTip(plain_tip(tip))
    action.toggled.connect(act)
    return mark_entry(action)
