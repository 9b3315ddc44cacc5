"""Questions with named answers, of which the safe one is the way out, and sentences to be read."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TypeVar

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QDialogButtonBox, QLineEdit, QWidget

from widgets.kit.dialogs.dialog import QUESTION, Dialog

_A = TypeVar("_A")


class Question(Dialog):
    """A question and what comes of its answers; texts are shown as they are, whatever a name in them holds."""

    def __init__(self, parent: QWidget | None, sign: str, name: str, headline: str, sentence: str = "") -> None:
        """`sign` is one of `icons.STATES`, `name` what the window is called in the list of windows."""
        super().__init__(parent, width=QUESTION)
        self.setWindowTitle(name)
        self.tell(headline, sentence, sign)
        self.sentence.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)

    def ask(
        self,
        ways: Sequence[tuple[str, _A]],
        else_: _A,
        *,
        apart: Sequence[tuple[str, _A]] = (),
        way_out: str | QDialogButtonBox.StandardButton = QDialogButtonBox.StandardButton.Cancel,
        enter: bool = False,
    ) -> _A:
        """Which way was taken, of these or of those `apart` at the left; `else_` for the way out.

        Enter takes the way out, or the first of the `ways` where `enter` says that this loses nothing.
        """
        taken = [else_]

        def take(way: _A) -> None:
            taken[0] = way
            self.accept()

        for words, way in apart:
            self.add_extra(words, partial(take, way))
        for number, (words, way) in enumerate(ways):
            if number == 0:
                self.add_deed(words, partial(take, way), writes=not enter)
            else:
                self.add_other(words, partial(take, way))
        self.add_way_out(way_out, safe=not enter)
        if enter:
            self.deed.setFocus()
        self.exec()
        self.deleteLater()
        return taken[0]

    def confirm(self, deed: str) -> bool:
        """Whether the deed is wanted; Enter says that it is not."""
        return self.ask(((deed, True),), False)


def say(parent: QWidget | None, sign: str, title: str, text: str) -> None:
    """Say `text` and wait until it was read."""
    Question(parent, sign, title, title, text).ask((), None, way_out=QDialogButtonBox.StandardButton.Close)


class TextQuestion(Dialog):
    """Asks for a line of text, which may be left empty unless it is `needed`."""

    def __init__(
        self, parent: QWidget | None, headline: str, sentence: str, label: str, *, needed: bool = False
    ) -> None:
        super().__init__(parent)
        self.tell(headline, sentence)
        self.line = QLineEdit()
        self.add_row(label, self.line)
        deed = self.add_deed(QCoreApplication.translate("TextQuestion", "&Accept"))
        self.add_cancel()
        if needed:
            self.line.textChanged.connect(lambda text: deed.setEnabled(bool(text.strip())))
            deed.setEnabled(False)
        self.line.setFocus()

    def ask(self) -> str | None:
        """What was typed; None if it was left."""
        typed = self.line.text() if self.exec() else None
        self.deleteLater()
        return typed
