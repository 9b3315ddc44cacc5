"""The main window: one project, its workplaces, its menus and the line strip."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QEvent, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QDialog,
    QDockWidget,
    QFileDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QMainWindow,
    QMessageBox,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.project.files import ProjectFileError, ProjectSaveError, has_comments, load, save
from app.project.model import Project
from widgets.arming import ArmingBadge
from widgets.bench import BenchWorkplace
from widgets.document import Document
from widgets.help import AboutDialog, CautionsDialog, ShortcutsDialog
from widgets.line_view import LineView
from widgets.live import Live
from widgets.palette import Appearance, Theme, set_look
from widgets.problems import ProblemsDialog
from widgets.settings import Settings
from widgets.strip import LineStrip, Passage, passage_of
from widgets.templates import TemplateDialog, blank
from widgets.window_menus import WindowMenus

if TYPE_CHECKING:  # made, and so imported, when it is first wanted
    from widgets.design import DesignWorkplace

SUFFIX: Final = ".toml"
TOLD_MS: Final = 8_000
"""How long a message stays in the bar."""
COMFORTABLE: Final = QSize(1240, 700)
LINE_VIEW_HEIGHT: Final = 250
"""Of the line view when it is opened first: a list of some seven transactions."""


class MainWindow(QMainWindow):
    """Everything around the workplaces: which project, which workplace, what is connected, what may be written."""

    def __init__(self, settings: Settings | None = None, theme: Theme | None = None, workplace: int = 0) -> None:
        """Make the window with this workplace in front, counted from 0 in the order of the switcher."""
        super().__init__()
        self.settings = settings or Settings()
        self._theme = theme
        self._ask = True
        self.document = Document(blank(4, 20), None, self)
        self.live = Live(self)
        self.strip = LineStrip()
        self.line_view = LineView(self.live)
        self.line_dock = _LineDock(self.line_view, self)
        self.setAcceptDrops(True)
        self.menus = WindowMenus(self)
        self._design: DesignWorkplace | None = None
        self.bench = BenchWorkplace(self.document, self.live)
        self._make_frame()
        self.menus.fill()
        self._connect()
        self._retitle()
        self.show_workplace(workplace)
        self.resize(COMFORTABLE)
        if not self.settings.geometry.isEmpty():
            self.restoreGeometry(self.settings.geometry)

    # Projects and files

    def new(self) -> None:
        """Ask what the new project starts as, and edit it."""
        if not self.may_leave():
            return
        dialog = TemplateDialog(self)
        if dialog.exec():
            self.take(dialog.project, None)
        dialog.deleteLater()

    def open(self) -> None:
        """Ask for a file and open it."""
        name, _ = QFileDialog.getOpenFileName(self, self.tr("Open a project"), self._folder(), self._filter())
        if name:
            self.open_file(Path(name))

    def open_file(self, path: Path) -> bool:
        """Open this file, after the question about unsaved changes. False if it was not opened; that has been said."""
        try:
            project = load(path)
        except ProjectFileError as error:
            if not path.exists():
                self.settings.forget(path)
                self.menus.show_recent()
            self.show_problems(path, error)
            return False
        if not self.may_leave():
            return False
        self.take(project, path)
        return True

    def take(self, project: Project, path: Path | None) -> None:
        """Edit this project from now on. What ran is disconnected."""
        self.live.disconnect_from_line()
        self.document.open(project, path)
        if path is not None:
            self.settings.remember(path)
            self.menus.show_recent()

    def save(self) -> bool:
        """Save the project to its file. False if it was not saved; that has been said."""
        return self.save_as() if self.document.path is None else self._save_to(self.document.path)

    def save_as(self) -> bool:
        """Ask for a file and save there. False if it was not saved."""
        start = self.document.path or Path(self._folder()) / (self._name() + SUFFIX)
        name, _ = QFileDialog.getSaveFileName(self, self.tr("Save the project as"), str(start), self._filter())
        if not name:
            return False
        path = Path(name)
        if path.suffix.lower() != SUFFIX:
            # "press 1.5 kW" has no suffix, though it has a point; and over this file the dialog did not ask.
            path = path.with_name(path.name + SUFFIX)
            if path.exists() and not self._may_replace(path):
                return False
        return self._save_to(path)

    def _may_replace(self, path: Path) -> bool:
        button = QMessageBox.StandardButton
        words = self.tr("{file} exists already. Replace it?").format(file=path.name)
        return QMessageBox.question(self, self.tr("Save the project as"), words, button.Yes | button.No) == button.Yes

    def _may_drop_remarks(self, path: Path) -> bool:
        """Whether saving may go on: the file has no remarks that would be lost, or the user lets them go."""
        try:
            remarks = has_comments(path.read_text("utf-8"))
        except (OSError, UnicodeError):
            return True  # nothing there to lose, or saving will say what is wrong
        if not remarks:
            return True
        button = QMessageBox.StandardButton
        words = self.tr(
            "{file} holds remarks after '#', and saving does not keep them. "
            "The file as it is now stays beside it as {file}.bak until the next saving. "
            "What should last belongs into the notes. Save?"
        ).format(file=path.name)
        answer = QMessageBox.question(self, self.tr("Remarks in the file"), words, button.Save | button.Cancel)
        return answer == button.Save

    def may_leave(self) -> bool:
        """Whether the present project may be left.

        Nothing is armed, or the user leaves it; nothing is unsaved, or the user saved or discarded it.
        """
        writing = self.live.writing
        if writing.armed and not writing.simulated and not self._may_let_go(writing.armed):
            return False
        if not self.document.modified:
            return True
        answer = QMessageBox(self)
        answer.setIcon(QMessageBox.Icon.Question)
        answer.setWindowTitle(self.tr("Unsaved changes"))
        answer.setText(self.tr("Save the changes to {name}?").format(name=f"\u201c{self._name()}\u201d"))
        answer.setTextFormat(Qt.TextFormat.PlainText)
        answer.setInformativeText(self.tr("Otherwise they are lost."))
        button = QMessageBox.StandardButton
        answer.setStandardButtons(button.Save | button.Discard | button.Cancel)
        answer.setDefaultButton(button.Save)
        pressed = answer.exec()
        answer.deleteLater()
        match pressed:
            case button.Save:
                return self.save()
            case button.Discard:
                return True
            case _:
                return False

    def _may_let_go(self, lines: tuple[str, ...]) -> bool:
        box = QMessageBox(self)
        box.setIcon(QMessageBox.Icon.Warning)
        box.setWindowTitle(self.tr("Armed"))
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.setText(self.tr("Fanlight is armed on {lines}. Disconnect?").format(lines=", ".join(lines)))
        box.setInformativeText(
            self.tr("Disconnecting stops nothing: a machine that runs goes on running, and the panel is gone.")
        )
        box.addButton(self.tr("&Disconnect"), QMessageBox.ButtonRole.AcceptRole)
        stay = box.addButton(QMessageBox.StandardButton.Cancel)
        box.setDefaultButton(stay)
        box.exec()
        box.deleteLater()
        return box.buttonRole(box.clickedButton()) == QMessageBox.ButtonRole.AcceptRole

    def leave(self) -> None:
        """Close without the question about unsaved changes."""
        self._ask = False
        self.close()

    def show_problems(self, path: Path, error: ProjectFileError) -> None:
        """Say everything that is wrong with a file."""
        summary = self.tr("{file} cannot be opened. Problems found: {count}").format(
            file=path.name, count=len(error.problems)
        )
        _run(ProblemsDialog(self.tr("This file cannot be opened"), summary, error.problems, self))

    def _save_to(self, path: Path) -> bool:
        if not self._may_drop_remarks(path):
            return False
        try:
            save(self.document.project, path)
        except ProjectSaveError as error:
            return self._wants_another_place(str(error)) and self.save_as()
        self.document.mark_saved(path)
        self.settings.remember(path)
        self.menus.show_recent()
        self.tell(self.tr("Saved {file}").format(file=path.name))
        return True

    def _wants_another_place(self, why: str) -> bool:
        box = QMessageBox(QMessageBox.Icon.Critical, self.tr("Not saved"), why, parent=self)
        box.setTextFormat(Qt.TextFormat.PlainText)
        box.addButton(self.tr("Save &as\u2026"), QMessageBox.ButtonRole.AcceptRole)
        box.addButton(QMessageBox.StandardButton.Close)
        box.exec()
        box.deleteLater()
        return box.buttonRole(box.clickedButton()) == QMessageBox.ButtonRole.AcceptRole

    def _folder(self) -> str:
        path = self.document.path or next(iter(self.settings.recent), None)
        return str(path.parent) if path else ""

    def _filter(self) -> str:
        return self.tr("Fanlight projects (*{suffix});;All files (*)").format(suffix=SUFFIX)

    def _name(self) -> str:
        if self.document.path is not None:
            return self.document.path.name.removesuffix(SUFFIX)
        return "".join(c for c in self.document.project.title if c.isalnum() or c in " -_").strip() or self.tr(
            "untitled"
        )

    # Workplaces

    def show_workplace(self, number: int) -> None:
        """Go to a workplace, counted from 0 in the order of the switcher."""
        self._stack.setCurrentWidget(self.design if number == 0 else self.bench)
        self.menus.workplaces[number].setChecked(True)
        self.workplace.setFocus()

    @property
    def workplace(self) -> QWidget:
        """The workplace that is shown."""
        return self.bench if self._stack.currentWidget() is self.bench else self.design

    @property
    def design(self) -> DesignWorkplace:
        """The Design workplace. Made when it is first wanted: a demo begins on the Bench, and is live sooner so."""
        if self._design is None:
            from widgets.design import DesignWorkplace

            self._design = DesignWorkplace(self.document)
            self._stack.addWidget(self._design)
            self._design.fill_menu(self.menus.design)
        return self._design

    def tell(self, words: str, *, trouble: bool = False) -> None:
        """Say something in the bar for a while."""
        self._told.setText(("\u26a0 " if trouble else "") + words)
        self._told.setToolTip(words)
        set_look(self._told, "caution" if trouble else "faint")
        self._told_timer.start(TOLD_MS)

    # Making the window

    def _make_frame(self) -> None:
        self._stack = QStackedWidget()
        bar = QFrame()
        bar.setProperty("look", "bar")
        row = QHBoxLayout(bar)
        row.setContentsMargins(6, 0, 8, 0)
        row.setSpacing(0)
        self._stack.addWidget(self.bench)
        for action in self.menus.workplaces:
            button = QToolButton()
            button.setProperty("look", "workplace")
            button.setDefaultAction(action)
            button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            row.addWidget(button)
        self._told = QLabel()
        self._told.setTextFormat(Qt.TextFormat.PlainText)
        self._told.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._told_timer = QTimer(self)
        self._told_timer.setSingleShot(True)
        self._told_timer.timeout.connect(self._told.clear)
        self.badge = ArmingBadge(self.bench.arm_action, self.bench.disarm_action)
        row.addWidget(self._told, 1)
        row.addWidget(self.badge)
        whole = QWidget()
        layout = QVBoxLayout(whole)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(bar)
        layout.addWidget(self._stack, 1)
        layout.addWidget(self.strip)
        self.setCentralWidget(whole)
        self.addDockWidget(Qt.DockWidgetArea.BottomDockWidgetArea, self.line_dock)
        self.line_dock.hide()

    def _connect(self) -> None:
        self.document.changed.connect(self._retitle)
        self.document.standing_changed.connect(self._retitle)
        self.live.connection_changed.connect(self._connection_changed)
        self.live.frame.connect(self._show_trouble)
        self.live.left_on.connect(self._say_left_on)
        self.live.transactions.connect(lambda news: self.strip.add(map(passage_of, news)))
        self.strip.opened.connect(self._open_line_view)
        self.line_dock.closed.connect(lambda: self.menus.line_view.setChecked(False))
        self.line_dock.topLevelChanged.connect(self.menus.line_window.setChecked)
        self._connection_changed()

    def _say_left_on(self, signals: tuple[str, ...]) -> None:
        words = self.tr(
            "The line did not confirm that these signals were let go: {signals}. They may still be on. "
            "Look at the machine before anyone goes near it."
        ).format(signals=", ".join(signals))
        QMessageBox.warning(self, self.tr("Perhaps still on"), words)

    # Keeping it in step

    def _retitle(self) -> None:
        self.setWindowTitle(self.tr("{name}[*] \u2013 Fanlight").format(name=self._name()))
        self.setWindowModified(self.document.modified)
        self.menus.name_steps()

    def _connection_changed(self) -> None:
        writing = self.live.writing
        self.badge.show_writing(writing)
        session = self.live.session
        if session is None:
            self.strip.set_lines([])
        elif tuple(self.strip.lines) != tuple(line.name for line in session.project.lines):
            self.strip.set_lines([line.name for line in session.project.lines])

    def _show_trouble(self) -> None:
        session = self.live.session
        if session is not None:
            for name, line in session.snapshot().lines.items():
                self.strip.set_trouble(name, "" if line.connected else line.reason)

    # The line view

    def show_line_view(self, on: bool) -> None:
        """Show the list of transactions, or put it away."""
        if on == self.line_dock.isVisible():
            return
        self.line_dock.setVisible(on)
        if not on:
            self.workplace.setFocus()
            return
        if not self.line_dock.isFloating() and self.line_dock.height() < LINE_VIEW_HEIGHT:
            self.resizeDocks([self.line_dock], [LINE_VIEW_HEIGHT], Qt.Orientation.Vertical)
        self.line_view.setFocus()

    def float_line_view(self, on: bool) -> None:
        """Make the line view a window of its own, or put it back below the strip."""
        if on != self.line_dock.isFloating():
            self.line_dock.setFloating(on)
        self.menus.line_view.setChecked(True)

    def _open_line_view(self, passage: Passage | None) -> None:
        """Open the line view, on one transaction if the strip names it."""
        self.menus.line_view.setChecked(True)
        transaction = passage.transaction if passage is not None else None
        if transaction is not None and not self.line_view.show_transaction(transaction):
            self.tell(self.tr("This transaction is kept no longer"), trouble=True)

    def choose_look(self, appearance: Appearance) -> None:
        """Light, dark or as the system, from now on."""
        self.settings.appearance = appearance
        if self._theme is not None:
            self._theme.choose(appearance)

    def show_full_screen(self, on: bool) -> None:
        """Fill the screen, or be a window again."""
        self.setWindowState(
            self.windowState() | Qt.WindowState.WindowFullScreen
            if on
            else self.windowState() & ~Qt.WindowState.WindowFullScreen
        )

    def show_shortcuts(self) -> None:
        """Show all commands with their keys."""
        _run(ShortcutsDialog(self.menus.all(), self.document.project.panel, self))

    def show_cautions(self) -> None:
        """Show what everybody must know who lets a panel write to a machine."""
        _run(CautionsDialog(self))

    def show_about(self) -> None:
        """Show what this program is."""
        _run(AboutDialog(self))

    # Events

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about unsaved changes, then disarm, disconnect and go."""
        if self._ask and not self.may_leave():
            event.ignore()
            return
        self.live.disconnect_from_line()
        self.settings.geometry = self.saveGeometry()
        event.accept()

    def changeEvent(self, event: QEvent) -> None:
        """A window that is not in front holds no key."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and not self.isActiveWindow():
            self.live.release_all()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take one file of this computer."""
        if _dragged_file(event) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the file, once the drag is over."""
        path = _dragged_file(event)
        if path is not None:
            event.acceptProposedAction()
            # A dialog inside the drop would hold the program that the file was dragged from.
            QTimer.singleShot(0, self, lambda: self.open_file(path))


class _LineDock(QDockWidget):
    """The line view below the strip, or as a window of its own on another screen."""

    closed = Signal()
    """A button closed it."""

    def __init__(self, view: LineView, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("line view")
        self.setWindowTitle(self.tr("Line view"))
        self.setAllowedAreas(Qt.DockWidgetArea.BottomDockWidgetArea | Qt.DockWidgetArea.TopDockWidgetArea)
        self.setWidget(view)
        self.topLevelChanged.connect(self._title)
        view.away.clicked.connect(self.close)
        self._title(floating=False)

    def _title(self, floating: bool) -> None:
        """A title to take hold of as a window of its own; below the strip the view's own heading is enough."""
        former = self.titleBarWidget()
        self.setTitleBarWidget(None if floating else QWidget())  # type: ignore[arg-type]  # None: Qt's own title
        if former is not None:
            former.deleteLater()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Closed by a button."""
        super().closeEvent(event)
        self.closed.emit()


def _run(dialog: QDialog) -> None:
    """Show a dialog until it is closed, and keep nothing of it."""
    dialog.exec()
    dialog.deleteLater()


def _dragged_file(event: QDropEvent) -> Path | None:
    urls = event.mimeData().urls()
    return Path(urls[0].toLocalFile()) if len(urls) == 1 and urls[0].isLocalFile() else None
