"""Connecting and arming: the commands of the whole window, the same in every workspace."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QWidget

from app.client.endpoint import Endpoint
from app.project.by_itself import written_by_itself
from app.project.model import Project
from app.project_file.files import digest, dump
from widgets.document import file_questions
from widgets.document.document import Document
from widgets.document.settings import Settings
from widgets.kit.commands import Keys, allow, command
from widgets.live.arming import ArmingDialog
from widgets.live.live_session import LiveSession, NotConnectedError

SIMULATED, REAL = 0, 1
"""Where one can connect to."""


class Connecting(QObject):
    """Connects the project of the window where it is chosen to, and arms it. Nothing else in the window does."""

    where_changed = Signal()
    """Another target is chosen, or it may be chosen no longer, or again."""
    refused = Signal(str)
    """Why nothing was connected; empty as soon as it is tried again."""
    operate_wanted = Signal()
    """Connected or armed: whoever did it wants to operate the panel next, where one is in sight."""

    def __init__(self, window: QWidget, document: Document, live: LiveSession, settings: Settings) -> None:
        super().__init__(window)
        self._window = window
        self._document = document
        self._settings = settings
        self.live = live
        self.hindrances: list[Callable[[int], str]] = []
        """Why nothing can be connected there (SIMULATED or REAL) now, in words: something else is at work on it."""
        self._where = SIMULATED
        self._make_actions()
        live.connection_changed.connect(self._follow)
        document.changed.connect(self._follow)
        self._follow()

    def _make_actions(self) -> None:
        self.connect_action = self._action(self.tr("&Connect"), self.connect_line, "Ctrl+K")
        self.disconnect_action = self._action(self.tr("D&isconnect"), self.disconnect_line, "Ctrl+Shift+K")
        self.simulated_action = self._action(
            self.tr("To &simulated devices"), lambda: self.choose(SIMULATED), "Ctrl+Shift+I"
        )
        self.real_action = self._action(self.tr("To the &real line"), lambda: self.choose(REAL), "Ctrl+Shift+R")
        where = QActionGroup(self)
        for action in (self.simulated_action, self.real_action):
            action.setCheckable(True)
            where.addAction(action)
        self.simulated_action.setChecked(True)
        self.arm_action = self._action(self.tr("&Arm\u2026"), self.arm, "Ctrl+Shift+W")
        self.disarm_action = self._action(self.tr("&Disarm"), self.live.disarm, ["Pause", "Ctrl+."])
        # On the badge, which says what it is about.
        self.arm_action.setIconText(self.tr("Arm\u2026"))
        self.disarm_action.setIconText(self.tr("Disarm"))

    def _action(self, text: str, run: Callable[[], object], keys: Keys) -> QAction:
        return command(self._window, text, run, keys)

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands into a menu."""
        menu.addActions([self.connect_action, self.disconnect_action])
        menu.addSeparator()
        menu.addActions([self.simulated_action, self.real_action])
        menu.addSeparator()
        menu.addActions([self.arm_action, self.disarm_action])

    # Where to

    @property
    def where(self) -> int:
        """SIMULATED or REAL: where the next connection leads."""
        return self._where

    def choose(self, where: int) -> None:
        """Choose SIMULATED or REAL for the next connection."""
        if where != self._where:
            self._where = where
            (self.real_action if where == REAL else self.simulated_action).setChecked(True)
            self.where_changed.emit()

    @property
    def changed(self) -> bool:
        """Whether the design was changed since it was connected: what runs is the version before."""
        session = self.live.session
        return session is not None and session.project is not self._document.project

    # Connecting

    def hindrance(self, where: int) -> str:
        """Why nothing can be connected there now, in words; empty if it can."""
        return next(filter(None, (why(where) for why in self.hindrances)), "")

    def toggle(self) -> None:
        """Connect, or disconnect; where the design was changed meanwhile, connect the new one."""
        if self.live.connected and not self.changed:
            self.disconnect_line()
        else:
            self.connect_line()

    def connect_line(self) -> None:
        """Connect where it is chosen to; what runs is let go of, after a question where it operates a machine."""
        if why := self.hindrance(self._where):
            self.refused.emit(why)
            return
        if not self._may_let_go():
            return
        self.refused.emit("")
        try:
            self.live.connect_to(self._document.project, "simulated" if self._where == SIMULATED else None)
        except NotConnectedError as why:
            self.refused.emit(str(why))
            return
        self.operate_wanted.emit()

    def disconnect_line(self) -> None:
        """Disarm and disconnect; asks first where the panel operates a machine."""
        if self._may_let_go():
            self.live.disconnect_from_line()

    def _may_let_go(self) -> bool:
        writing = self.live.writing
        return not writing.in_charge or file_questions.may_let_go(self._window, writing.armed, writing.disarmed)

    # Arming

    def arm(self) -> None:
        """Ask for the cautions, then arm."""
        session = self.live.session
        writing = self.live.writing
        if session is None or writing.simulated or (writing.armed and not writing.disarmed):
            return
        if self.takes_cautions(session.project, session.endpoints) and self.live.session is session:
            self.live.arm()
            self.operate_wanted.emit()

    def takes_cautions(self, project: Project, endpoints: Mapping[str, Endpoint]) -> bool:
        """Ask for the cautions that must be taken before anything writes to these lines; whether they were taken."""
        own = digest(dump(project).encode())
        dialog = ArmingDialog(
            [f"{name}: {endpoint}" for name, endpoint in endpoints.items()],
            self._window,
            by_itself=written_by_itself(project),
            changed=self._settings.armed_before(self._document.path) not in ("", own),
        )
        # The line may be disconnected, or become another one, while the cautions are read.
        self.live.connection_changed.connect(dialog.reject)
        accepted = bool(dialog.exec())
        self.live.connection_changed.disconnect(dialog.reject)
        dialog.deleteLater()
        if accepted:
            self._settings.keep_armed(self._document.path, own)
        return accepted

    # Keeping it in step

    def _follow(self) -> None:
        writing = self.live.writing
        connected = self.live.connected
        self.connect_action.setText(self.tr("Re&connect") if self.changed else self.tr("&Connect"))
        allow(self.connect_action, not connected or self.changed, self.tr("disconnect first"))
        for action in (self.simulated_action, self.real_action):
            allow(action, not connected, self.tr("disconnect first"))
        allow(self.disconnect_action, connected, self.tr("nothing is connected"))
        real = writing.live and not writing.simulated
        why_not = self.tr("already armed") if real else self.tr("connect to the real line first")
        if self.live.lent is not None and not writing.armed:
            why_not = self.tr("something else runs on the line, without writing")
        allow(self.arm_action, connected and real and (not writing.armed or bool(writing.disarmed)), why_not)
        allow(self.disarm_action, real and bool(writing.armed or writing.disarmed), self.tr("not armed"))
        self.where_changed.emit()
