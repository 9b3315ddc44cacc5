"""The ways to the window that finds out an unknown device, and what becomes of what it found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from app.client.endpoint import Endpoint
from app.client.hosts import look_up
from app.discovery.known_line import known_line
from app.errors import FanlightError
from app.project.model import Project
from widgets.document.document import Document, Edit
from widgets.document.settings import Settings
from widgets.frame.connecting import REAL, Connecting
from widgets.kit.commands import command
from widgets.kit.dialogs.questions import Question
from widgets.shell.project_files import ProjectFiles

if TYPE_CHECKING:
    from widgets.find_out.window import FindOutWindow


class FindingOut(QObject):
    """At most one such window is open. It never gets a line that the session of this window has."""

    said = Signal(str)
    made = Signal()
    """A project was made of what was found, and is open."""

    def __init__(
        self, window: QWidget, document: Document, connecting: Connecting, files: ProjectFiles, settings: Settings
    ) -> None:
        super().__init__(window)
        self._window = window
        self._document = document
        self._connecting = connecting
        self._live = connecting.live
        self._files = files
        self._settings = settings
        self._open: FindOutWindow | None = None
        connecting.hindrances.append(self._hinders)
        self.action: QAction = command(window, self.tr("&Find out a device\u2026"), self.show, "Ctrl+Alt+I")

    @property
    def window(self) -> FindOutWindow | None:
        """The one that is open."""
        return self._open

    def show(self) -> None:
        """Open the window, or bring it to the front; it begins with the line of the project, if there is one."""
        project = self._document.project
        line = next(iter(project.lines), None)
        self._bring(None if line is None or self._files.nothing_open else line.name)

    def find(self, follower: str) -> None:
        """A device does not answer: look for it on its line."""
        project = self._document.project
        device = project.follower_named.get(follower)
        if device is not None and device.line in project.line_named:
            self._bring(device.line, device.unit)

    def _bring(self, line: str | None, unit: int | None = None) -> None:
        for each in self._document.project.lines:
            look_up(Endpoint.of_line(each).host)
        if self._open is None:
            from widgets.find_out.window import FindOutWindow

            made = FindOutWindow(
                self._settings, self._held, self._let_go, lambda: not self._files.nothing_open, parent=self._window
            )
            made.project_made.connect(self._take)
            made.edit_wanted.connect(self._add)
            made.finished.connect(self._forget)
            self._open = made
            if line is not None:
                made.begin_at(self._leads_to(line), unit, known_line(self._document.project, line))
        elif unit is not None and line is not None:
            # It is called for a device: what it showed until now may be of another line.
            self._open.turn_to(self._leads_to(line), unit, known_line(self._document.project, line))
        self._open.show()
        self._open.raise_()
        self._open.activateWindow()

    def _leads_to(self, line: str) -> Endpoint:
        return Endpoint.of_line(self._document.project.line_named[line])

    def may_close(self) -> bool:
        """Whether it may go with the main window: asked where something would be lost."""
        if self._open is None:
            return True
        self._open.raise_()
        return self._open.may_close()

    def close(self) -> None:
        """Let it go, without any question."""
        if self._open is not None:
            self._open.leave()

    def _forget(self) -> None:
        if self._open is not None:
            self._open.deleteLater()
            self._open = None

    def _held(self, endpoint: Endpoint) -> str:
        """Why the line is not free for a search."""
        session, lent = self._live.session, self._live.lent
        if lent is not None and any(endpoint.same_place(one) for one in lent.endpoints.values()):
            return self.tr("A trial runs on this line. Stop it first, then search.")
        if session is None or session.simulation is not None:
            return ""
        if not any(endpoint.same_place(one) for one in session.endpoints.values()):
            return ""
        if self._live.writing.armed:
            return self.tr("This line is armed: the panel operates a machine on it. Disarm and disconnect it first.")
        return self.tr("This line is connected. Disconnect it first (Line > Disconnect), then search.")

    def _let_go(self, _endpoint: Endpoint) -> bool:
        """Offer to disconnect; not while armed, as that is to be done with an eye on the machine."""
        if self._live.writing.armed:
            return False
        if Question(
            self._open,
            "asks",
            self.tr("This line is connected"),
            self.tr("Disconnect it and search?"),
            self.tr("The panel and this search cannot ask on one line at the same time."),
        ).ask(((self.tr("&Disconnect and search"), True),), False, enter=True):
            self._connecting.disconnect_line()
        return not self._live.connected

    def _hinders(self, where: int) -> str:
        """Why the line of the project cannot be connected: it is being searched."""
        about = self._open.about if self._open is not None else None
        if where != REAL or about is None or not about.at_work or about.endpoint is None:
            return ""
        lines = self._document.project.lines
        if not any(about.endpoint.same_place(Endpoint.of_line(line)) for line in lines):
            return ""
        return self.tr("An unknown device is being looked for on this line. Stop that first, then connect.")

    def _take(self, project: Project) -> None:
        if not self._files.may_leave():
            return
        self.close()
        self._files.take(project, None, saved=False)
        self._connecting.choose(REAL)
        self.made.emit()
        self.said.emit(self.tr("A project was made of what was found. Connect reads the device; writing stays off."))

    def _add(self, edit: Edit) -> None:
        def safely(project: Project) -> Project:
            from app.edits.refused import EditRefused

            try:
                return edit(project)
            except EditRefused:
                raise
            except (FanlightError, ValueError) as why:
                raise EditRefused(str(why)) from why

        refused = self._document.do(self.tr("Add what was found"), safely, aloud=False)
        if refused and self._open is not None:
            self._open.refuse(refused)
            return
        self.close()
        self.said.emit(self.tr("What was found was added to the project; Undo takes it away again."))
