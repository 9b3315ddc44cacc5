"""Why the panel said what it said: a slot below the face, for whoever builds the panel."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QWidget

from app.project.binding import bindings
from app.project.model import Project
from app.project.problems import quoted
from app.project.purpose import stops
from widgets.kit.elided import ShortLines
from widgets.kit.look import set_look
from widgets.kit.notice_slot import lines_here

if TYPE_CHECKING:
    from app.panel.state import Message

translate = QCoreApplication.translate

MOST_KEYS: Final = 4
"""Named in one sentence; the others are counted."""


class PanelReason(ShortLines):
    """The reason in full of the panel's last message, which has room for a few words only, as long as it is true."""

    def __init__(self, parent: QWidget | None = None) -> None:
        self.reason = ""
        """What is told now; empty while it rests."""
        self._rest = ("", "faint")
        super().__init__(lines_here(), parent=parent)
        self.setProperty("look", "faint")
        self.setContentsMargins(0, 2, 0, 2)
        self._message: Message | None = None
        self.clear()

    def rest_with(self, words: str, look: str = "faint") -> None:
        """Say this in one of the looks of a label while there is no reason to tell."""
        self._rest = (words, look)
        if not self.reason:
            self.setText("")

    def follow(self, message: Message | None) -> None:
        """This is what the panel said last (`State.said`), or nothing that still matters."""
        if message is self._message:
            return
        self._message = message
        if message is None or not message.reason:
            self.setText("")
            return
        words = self.tr("\u201c{text}\u201d: {reason}").format(text=message.text, reason=message.reason)
        self.setText(f"{quoted(message.signal)}: {words}" if message.signal else words)

    def setText(self, text: str) -> None:
        """Show this, or else what it rests with; read out, it is told what it is."""
        rest, look = self._rest
        self.reason = text
        super().setText(text or rest)
        set_look(self, "caution" if text else look)
        self.setAccessibleName(self.tr("Reason for this panel message: {words}").format(words=text) if text else rest)

    def clear(self) -> None:
        """Show nothing, also of the message that the panel shows now."""
        super().clear()


def keys_while_lost(project: Project, lost: Collection[str]) -> str:
    """Which keys of the panel write nothing while these devices do not answer, and which are sent all the same.

    What may start or raise something is refused then, what stops something is sent again until it is proved
    (`app.line.writer`). A key that switches to and fro does both.
    """
    refused: list[str] = []
    sent: list[str] = []
    found = bindings(project)
    for action in project.actions:
        binding = found.get(action.signal or "")
        if action.key is None or binding is None or binding.follower.name not in lost:
            continue
        key = action.key.upper()
        if not stops(action) or action.do == "momentary":
            refused.append(key)
        elif action.do == "toggle":
            refused.append(translate("PanelReason", "{key} (switching on)").format(key=key))
            sent.append(translate("PanelReason", "{key} (switching off)").format(key=key))
        else:
            sent.append(key)
    names = _listed(lost)
    words = [translate("PanelReason", "{devices}: no answer, so nothing is set there.").format(devices=names)]
    if refused:
        words = [translate("PanelReason", "{devices}: no answer. Refused: {keys}.")]
        words = [words[0].format(devices=names, keys=_listed(refused))]
    if sent:
        words.append(translate("PanelReason", "Sent anyway, until confirmed: {keys}.").format(keys=_listed(sent)))
    return " ".join(words)


def _listed(names: Iterable[str]) -> str:
    listed = list(dict.fromkeys(names))
    if len(listed) > MOST_KEYS:
        more = translate("PanelReason", "{count} more").format(count=len(listed) - MOST_KEYS)
        listed = [*listed[:MOST_KEYS], more]
    return ", ".join(listed)


def what_keys_write(project: Project, *, most: int = 3) -> str:
    """What the keys of the panel write, by their legends: those of the first `most` that write anything."""
    deeds = {
        "set": translate("PanelReason", "{key} sets \u201c{signal}\u201d"),
        "clear": translate("PanelReason", "{key} clears \u201c{signal}\u201d"),
        "toggle": translate("PanelReason", "{key} switches \u201c{signal}\u201d"),
        "momentary": translate("PanelReason", "{key} holds \u201c{signal}\u201d while pressed"),
        "write": translate("PanelReason", "{key} writes \u201c{signal}\u201d"),
    }
    told = [
        deeds[action.do].format(key=action.key.upper(), signal=action.signal)
        for action in project.actions
        if action.key is not None and action.do in deeds
    ]
    if len(told) > most:
        more = translate("PanelReason", "{count} more").format(count=len(told) - most)
        told = [*told[:most], more]
    return ", ".join(told)
