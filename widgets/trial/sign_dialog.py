"""Signing a record with a person's own key, which is made here or is the one that they have for SSH."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from PySide6.QtWidgets import QApplication, QFileDialog, QLineEdit, QWidget

from app.errors import FanlightError
from app.signing.keys import UNPROTECTED, CannotUseKey, keys_here, load_key, look_at_key, make_key, usual_key
from app.signing.signers import look_command
from app.trial_record.record import NAMESPACE
from app.trial_record.verifying import sign_record
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.elided import ShortChoice
from widgets.kit.look import set_look
from widgets.kit.plain import plain_label

NEW: Final = ""
"""Stands for the key that is yet to be made."""


class SignDialog(Dialog):
    """Once signed it says by which key, and how others verify that without this program."""

    def __init__(self, record: Path, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._record = record
        self._signature: Path | None = None
        self._others: tuple[Path, ...] = ()
        self._warned = False
        self.tell(
            self.tr("Sign the record?"),
            self.tr("The signature says that {file} is as you saw it, and proves every later change.").format(
                file=record.name
            ),
        )
        self.key = ShortChoice()
        self.phrase, self.again = QLineEdit(), QLineEdit()
        for line in (self.phrase, self.again):
            line.setEchoMode(QLineEdit.EchoMode.Password)
        self.add_row(self.tr("&Key"), self.key)
        self.add_row(self.tr("&Pass phrase"), self.phrase)
        self.add_row(self.tr("&Repeat it"), self.again)
        self.note = plain_label("", wrap=True)
        self.body.addWidget(self.note)
        self.command = QLineEdit()
        self.command.setReadOnly(True)
        self.command.setAccessibleName(self.tr("Command that tells which key has signed"))
        self.command.hide()
        self.body.addWidget(self.command)
        self.copy = self.add_extra(self.tr("&Copy the command"), self._copy)
        self.copy.hide()
        self.other = self.add_extra(self.tr("&Another key\u2026"), self._choose_other)
        self.sign_button = self.add_deed(self.tr("&Sign"), self._sign)
        self.way_out = self.add_cancel()
        self.key.activated.connect(lambda _at: self._follow_key())
        self._offer()

    @property
    def signature(self) -> Path | None:
        """The file of the signature; None if it was not signed."""
        return self._signature

    def use_key(self, file: Path) -> None:
        """Sign with the key in this file."""
        self._others = (*self._others, file)
        self._offer()
        self.key.setCurrentIndex(self.key.place_of(str(file)))
        self._follow_key()

    def _offer(self) -> None:
        files = dict.fromkeys((*keys_here(), *self._others))
        options = [(str(file), str(file)) for file in files]
        if not usual_key().exists():
            options.append((NEW, self.tr("Make a new key here")))
        self.key.offer(options)
        if self.key.currentIndex() < 0:
            self.key.setCurrentIndex(0)
        self._follow_key()

    @property
    def _makes(self) -> bool:
        return str(self.key.currentData()) == NEW

    def _follow_key(self) -> None:
        """Ask for what the chosen key needs."""
        self._warned = False
        self.phrase.clear()
        self.again.clear()
        locked, words = False, ""
        if self._makes:
            locked = True
            words = self.tr("The key is kept in {file}. Choose a pass phrase that nobody else knows.").format(
                file=usual_key()
            )
        else:
            try:
                looked = look_at_key(Path(self.key.currentData()))
                locked, words = looked.locked, looked.public.fingerprint
            except CannotUseKey as why:
                words = str(why)
        self.form.setRowVisible(self.phrase, locked)
        self.form.setRowVisible(self.again, self._makes)
        self.sign_button.setText(self.tr("Make it and &sign") if self._makes else self.tr("&Sign"))
        self._say(words)

    def _say(self, words: str, look: str = "") -> None:
        self.note.setText(words)
        set_look(self.note, look)

    def _choose_other(self) -> None:
        name, _ = QFileDialog.getOpenFileName(self, self.tr("Open a key"), str(Path.home() / ".ssh"))
        if name:
            self.use_key(Path(name))

    def _sign(self) -> None:
        phrase = self.phrase.text()
        if self._makes and phrase != self.again.text():
            self._say(self.tr("The two pass phrases differ."), "fault")
            return
        if self._makes and not phrase and not self._warned:
            self._warned = True
            self._say(UNPROTECTED.translated() + " " + self.tr("Press again to make it so."), "caution")
            return
        try:
            key = (
                make_key(usual_key(), phrase)
                if self._makes
                else load_key(Path(self.key.currentData()), lambda _: phrase)
            )
            self._signature = sign_record(self._record, key)
        except FanlightError as why:
            self._say(str(why), "fault")
            return
        self._show_signed(key.fingerprint)

    def _show_signed(self, fingerprint: str) -> None:
        assert self._signature is not None
        for row in (self.key, self.phrase, self.again):
            self.form.setRowVisible(row, False)
        self.tell(
            self.tr("Signed"),
            self.tr("{file} is signed. The signature stands beside it as {signature}.").format(
                file=self._record.name, signature=self._signature.name
            ),
            "good",
        )
        self._say(
            self.tr(
                "The key is {fingerprint}. A signature is worth what the other side knows of the key: hand "
                "this fingerprint over by another way, such as by phone or on paper. The command below "
                "tells it without Fanlight."
            ).format(fingerprint=fingerprint)
        )
        self.command.setText(look_command(self._record.name, self._signature.name, NAMESPACE))
        self.command.setCursorPosition(0)
        self.command.show()
        self.copy.show()
        self.other.hide()
        self.sign_button.setEnabled(False)
        self.sign_button.hide()
        self.way_out.setText(self.tr("Close"))
        self.way_out.setDefault(True)
        self.way_out.setFocus()

    def _copy(self) -> None:
        QApplication.clipboard().setText(self.command.text())
