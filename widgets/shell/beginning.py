"""What one begins with: the start page while no project is open, new panels, the demo, and what comes after it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from widgets.document.settings import Settings
from widgets.frame.connecting import REAL, SIMULATED, Connecting
from widgets.frame.header import Header
from widgets.kit.commands import allow
from widgets.shell.project_files import ProjectFiles

if TYPE_CHECKING:  # made, and so imported, when they are wanted
    from widgets.design.workspace import DesignWorkspace
    from widgets.welcome.new_panel import WhatNext
    from widgets.welcome.start_page import StartPage

DESIGN, BENCH = 0, 1
"""Of the workspaces, in the order of the switcher."""


class Beginning(QObject):
    """Shows the start page among the workspaces, and does what is chosen there."""

    import_wanted = Signal()
    """A register list is to be imported into the new project."""
    find_out_wanted = Signal()
    """An unknown device is to be found out."""
    said = Signal(str)
    """What comes next, for somebody who has seen the demo."""

    def __init__(
        self,
        window: QWidget,
        stack: QStackedWidget,
        header: Header,
        files: ProjectFiles,
        connecting: Connecting,
        settings: Settings,
        *,
        show_workspace: Callable[[int], object],
    ) -> None:
        """`stack` holds the workspaces of `window`, and `show_workspace` brings one of them to the front."""
        super().__init__(window)
        self._stack = stack
        self._files = files
        self._connecting = connecting
        self._header = header
        self._live = live = connecting.live
        self._settings = settings
        self._show_workspace = show_workspace
        self._page: StartPage | None = None
        self._demo_runs = False
        files.start_page_wanted.connect(self.show)
        files.opened.connect(self._leave)
        files.made.connect(self._go_on)
        files.demo_wanted.connect(self._run_demo)
        live.connection_changed.connect(self._see_demo_end)
        live.connection_changed.connect(self._follow)
        stack.currentChanged.connect(lambda _at: self._follow())

    @property
    def shown(self) -> bool:
        """Whether the start page is in front."""
        return self._page is not None and self._stack.currentWidget() is self._page

    @property
    def page(self) -> StartPage:
        """The start page. Made when it is first wanted."""
        if self._page is None:
            from widgets.welcome.start_page import StartPage

            files = self._files
            self._page = page = StartPage()
            page.demo_wanted.connect(files.show_demo)
            page.new_wanted.connect(files.new)
            page.find_out_wanted.connect(self.find_out_wanted)
            page.open_wanted.connect(files.open)
            page.file_wanted.connect(files.open_any)
            self._stack.addWidget(page)
        return self._page

    def show(self) -> None:
        """Show the start page; a project that is open stays open."""
        self.page.show_files(self._settings.recent)
        self._stack.setCurrentWidget(self.page)
        self.page.setFocus()

    def lead(self, design: DesignWorkspace) -> None:
        """Lead from the first steps at the side of Design to their places, and tick those that are taken elsewhere."""
        places = {"line": "lines", "device": "lines", "signals": "signals", "screen": "screen", "changes": "map"}
        steps = design.first_steps

        def go(step: str) -> None:
            if step == "connect":
                self._connect(self._connecting.where)
            elif step == "try":
                design.try_it()
            else:
                design.show_view(places[step])

        def note_connected() -> None:
            if self._live.connected:
                steps.note("connect")

        steps.wanted.connect(go)
        design.editor.trying_changed.connect(lambda _on: steps.note("try"))
        self._live.connection_changed.connect(note_connected)
        note_connected()

    def bring_back(self, design: DesignWorkspace) -> None:
        """Show the first steps again."""
        self._show_workspace(DESIGN)
        design.first_steps.put_away(False)

    def _follow(self) -> None:
        """While nothing is open, there is nothing to go to, to connect or to arm."""
        idle = self.shown and self._files.nothing_open and not self._live.connected
        self._header.show_project(not idle)
        self._header.show_start_page(self.shown)
        for action in self._header.workspaces:
            allow(action, not idle, self.tr("make or open a project first"))

    def _leave(self) -> None:
        """Something was opened."""
        if self.shown:
            self._show_workspace(DESIGN)

    def _go_on(self, what_next: WhatNext, simulated: bool) -> None:
        from widgets.welcome.new_panel import WhatNext

        if what_next is WhatNext.CONNECT:
            self._connect(SIMULATED if simulated else REAL)
        else:
            self._show_workspace(DESIGN)
            if what_next is WhatNext.IMPORT:
                self.import_wanted.emit()

    def _connect(self, where: int) -> None:
        self._show_workspace(BENCH)
        self._connecting.choose(where)
        self._connecting.connect_line()

    def _run_demo(self) -> None:
        self._connect(SIMULATED)
        self._demo_runs = self._live.connected

    def _see_demo_end(self) -> None:
        """Say once what comes next."""
        if not self._demo_runs or self._live.connected:
            return
        self._demo_runs = False
        if not self._settings.demo_seen:
            self._settings.demo_seen = True
            words = self.tr("Next: Design (Ctrl+1) shows how this is made; Ctrl+N makes a panel for a drive of yours.")
            self.said.emit(words)
