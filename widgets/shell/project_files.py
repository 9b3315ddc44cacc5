"""The file of the project that a window edits: opened, saved, watched, and never overwritten unasked."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QLocale, QObject, QSignalBlocker, Qt, QTime, Signal
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QFileDialog, QMenu, QWidget

from app.project.model import FORMAT, Project
from app.project_file.files import (
    ChangedOnDisk,
    Loaded,
    ProjectFileError,
    ProjectSaveError,
    digest_of,
    has_comments,
    load,
    load_known,
    save,
    set_aside,
)
from projects import demo_path, demos
from widgets.document import file_questions as ask
from widgets.document.document import Document
from widgets.document.file_status import FileStatus
from widgets.document.recent_files import RecentFiles
from widgets.document.save_as import FileKind, where_to_save
from widgets.document.settings import Settings
from widgets.kit.background import GaveUp, run_with_wait_dialog, wait_pointer
from widgets.kit.commands import command
from widgets.kit.notice_slot import NoticeAction, NoticeSlot
from widgets.live.live_session import LiveSession
from widgets.live.recording import ENDING as RECORDING

if TYPE_CHECKING:  # dialogs are imported when they are opened, recovery where copies are kept
    from app.project_file.recovery import Origin, UnsavedWork
    from app.starters.answers import StarterName
    from widgets.compare.window import Side
    from widgets.design.workspace import DesignWorkspace
    from widgets.document.autosave import Autosave
    from widgets.shell.recovery_dialog import Copy

SUFFIX: Final = ".toml"


class ProjectFiles(QObject):
    """Everything that the File menu does to one window.

    `state` is the folder where recovery copies and notes of open files are kept; None keeps neither. `design` gives the
    Design workspace, made if need be; `not_taken_over` what was begun or typed there and is in no file.
    """

    said = Signal(str, bool)
    """What was done or could not be done; whether it is trouble."""
    screen_wanted = Signal(str)
    """A screen is to be edited: it was chosen where projects are compared."""
    opened = Signal()
    """Another project is edited now."""
    made = Signal(object, bool)
    """A new project was made: what is to be done with it (`widgets.welcome.new_panel.WhatNext`), whether simulated."""
    start_page_wanted = Signal()
    recording_wanted = Signal(object)
    """What was to be opened is a recording: its path."""
    demo_wanted = Signal()
    """The demo was opened, and is to run."""

    def __init__(
        self,
        window: QWidget,
        document: Document,
        live: LiveSession,
        settings: Settings,
        state: Path | None,
        notices: NoticeSlot,
        *,
        design: Callable[[], DesignWorkspace],
        not_taken_over: Callable[[], list[str]],
    ) -> None:
        super().__init__(window)
        self._window = window
        self._document = document
        self._live = live
        self._settings = settings
        self._design = design
        self._not_taken_over = not_taken_over
        self.before_leaving: Callable[[], bool] = lambda: True
        """Ends what else is at work on the project; whether it may be left then."""
        self._state = state
        self._written: str | None = None
        self._blank = document.project
        self._notices = notices
        self.status = FileStatus(self._document, state, self, notices, self)
        self.autosave: Autosave | None = None
        if state is not None:
            from widgets.document.autosave import Autosave

            self.autosave = Autosave(self._document, state / "recovery", self._origin, self)
            self.autosave.failed.connect(self.status.say_no_copy)
        self._make_commands()

    def _make_commands(self) -> None:
        window, key = self._window, QKeySequence.StandardKey
        self._commands = [
            command(window, self.tr("&New panel\u2026"), self.new, key.New),
            command(window, self.tr("&Open\u2026"), self.open, key.Open),
            command(window, self.tr("See a &demo run"), self.show_demo, "Ctrl+Alt+D"),
            command(window, self.tr("Start pa&ge"), self.start_page_wanted.emit, "Ctrl+Alt+Home"),
        ]
        self.recent = RecentFiles(self._settings, self.open_file, window)
        self._more_commands = [
            command(window, self.tr("&Save"), self.save, key.Save),
            command(window, self.tr("Save &as\u2026"), self.save_as, "Ctrl+Shift+S"),
            command(window, self.tr("Re&load from disk"), self.reload, "F5"),
            command(window, self.tr("Compare with the sa&ved version"), self.compare_with_saved, "F7"),
            command(window, self.tr("&Compare with another file\u2026"), self.compare_with_another, "Shift+F7"),
            command(window, self.tr("Recover &unsaved work\u2026"), self.recover, "Shift+F5"),
            command(window, self.tr("Clos&e the project"), self.close_project, "Ctrl+F4"),
        ]
        self.resume = command(
            window, self.tr("Reo&pen the last project at start"), self._choose_resume, "Ctrl+Shift+J", toggles=True
        )
        with QSignalBlocker(self.resume):
            self.resume.setChecked(self._settings.resumes)

    @property
    def state(self) -> Path | None:
        """The folder where recovery copies and notes of open files are kept."""
        return self._state

    @property
    def nothing_open(self) -> bool:
        """Whether the project is still the blank one that the window was made with."""
        return self._document.path is None and self._document.project is self._blank

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands about files into a menu."""
        menu.addActions(self._commands)
        menu.addMenu(self.recent)
        menu.addSeparator()
        menu.addActions(self._more_commands)
        menu.addSeparator()
        menu.addAction(self.resume)

    def _choose_resume(self, on: bool) -> None:
        self._settings.resumes = on

    # Opening

    def new(self, starter: StarterName = "one-drive") -> None:
        """Ask what the new project starts as, and edit it."""
        if not self.may_leave():
            return
        from widgets.welcome.new_panel import NewPanelDialog

        dialog = NewPanelDialog(self._window, starter)
        if dialog.exec() and dialog.project is not None:
            self.take(dialog.project, None, saved=False)
            self.made.emit(dialog.next, dialog.answers.where == "simulated")
        dialog.deleteLater()

    def show_demo(self) -> None:
        """Edit a copy of the demo, and let it run."""
        if self.may_leave():
            self.take(load(demo_path(demos()[0])), None)
            self.demo_wanted.emit()

    def open(self) -> None:
        """Ask for a file and open it."""
        title = self.tr("Open a project or recording")
        kinds = self.tr("Projects and recordings (*{suffix} *{recording});;All files (*)").format(
            suffix=SUFFIX, recording=RECORDING
        )
        name, _ = QFileDialog.getOpenFileName(self._window, title, self._folder(), kinds)
        if name:
            self.open_any(Path(name))

    def open_any(self, path: Path) -> None:
        """Open a project, or let a recording be played."""
        if path.suffix == RECORDING:
            self.recording_wanted.emit(path)
        else:
            self.open_file(path)

    def open_file(self, path: Path) -> bool:
        """Open this file, after the question about unsaved changes. False if it was not opened; that has been said."""
        found = self._read(path)
        if found is None or not self.may_leave():
            return False
        self.take(found.project, path, found.known, found.format)
        return True

    def open_last(self, path: Path) -> bool:
        """Open the project of the last window at the start. If that cannot be, the bar says why; nothing is asked."""
        name = path.name
        try:
            words = self.tr("Opening {file}\u2026").format(file=path)
            found = run_with_wait_dialog(self._window, words, lambda: load_known(path))
        except GaveUp:
            why = self.tr("{file}, the last project, was not opened: the disk is not responding.").format(file=name)
        except ProjectFileError as error:
            why = self.tr("{file}, the last project, cannot be opened: {reason}.").format(
                file=path, reason=error.problems[0]
            )
        else:
            if self.status.is_open_elsewhere(path):
                why = self.tr("{file}, the last project, is open in another window.").format(file=name)
            else:
                self.take(found.project, path, found.known, found.format)
                return True
        self.status.say_not_opened(why, (self.tr("&Open it"), lambda: self.open_file(path)))
        return False

    def take(
        self,
        project: Project,
        path: Path | None,
        known: str | None = None,
        number: int = FORMAT,
        *,
        saved: bool = True,
    ) -> None:
        """Edit this project from now on. What ran is disconnected.

        `known` is the digest of the file when the project was read from it, looked up if it is left out; `number` is
        that of its format. `saved` is False of work that would be lost without a word.
        """
        self._live.disconnect_from_line()
        with wait_pointer():
            self._document.open(project, path, saved=saved)
        if path is not None and known is None:
            known = digest_of(path)
        self._follow(path, known, number)
        self.opened.emit()

    def close_project(self) -> None:
        """Put the project away, after the question about unsaved changes, and go back to the start page."""
        if self.may_leave():
            self.take(self._blank, None)
            self.start_page_wanted.emit()

    def reload(self) -> bool:
        """Take what the file holds now, as one step that undo takes back. False if that was not possible."""
        path = self._document.path
        found = None if path is None else self._read(path)
        if path is None or found is None:
            if path is None:
                self._tell(self.tr("This project was never saved; there is nothing to reload"), trouble=True)
            return False
        project = found.project
        changed = self._document.project != project
        self._document.seal()
        self._document.do(self.tr("Reload"), lambda _: project)
        self._document.mark_saved(path)
        self._follow(path, found.known, found.format)
        words = (
            self.tr("Reloaded {file}; undo restores the previous state") if changed else self.tr("{file} is unchanged")
        )
        self._tell(words.format(file=path.name))
        return True

    def _read(self, path: Path) -> Loaded | None:
        """What a file holds; None if it cannot be opened, which has been said."""
        try:
            return run_with_wait_dialog(
                self._window, self.tr("Opening {file}\u2026").format(file=path), lambda: load_known(path)
            )
        except GaveUp:
            self._tell(
                self.tr("{file} was not opened: the disk is not responding").format(file=path.name), trouble=True
            )
        except ProjectFileError as error:
            self.recent.refresh()
            self.show_problems(path, error)
        return None

    def show_problems(self, path: Path, error: ProjectFileError) -> None:
        """Say everything that is wrong with a file."""
        from widgets.document.problems import ProblemsDialog

        summary = self.tr("{file} cannot be opened. Problems found: {count}").format(
            file=path.name, count=len(error.problems)
        )
        dialog = ProblemsDialog(self.tr("This file cannot be opened"), summary, error.problems, self._window)
        dialog.exec()
        dialog.deleteLater()

    # Saving

    def save(self) -> bool:
        """Save the project to its file. False if it was not saved; that has been said."""
        return self.save_as() if self._document.path is None else self.save_to(self._document.path)

    def save_as(self) -> bool:
        """Ask for a file and save there. False if it was not saved."""
        usual = self._document.path or self.name + SUFFIX
        kind = FileKind(self._filter(), SUFFIX)
        title = self.tr("Save the project as")
        place = where_to_save(self._window, self._settings, "project_folder", title, usual, (kind,))
        return place is not None and self.save_to(place[0])

    def save_to(self, path: Path) -> bool:
        """Save to this file. False if it was not saved; that has been said."""
        known = self.status.known if path == self._document.path else None
        if not self._may_drop_remarks(path):
            return False
        try:
            known = self._write(path, known)
        except ChangedOnDisk:
            return self._settle_conflict(path)
        except ProjectSaveError as error:
            return ask.wants_another_place(self._window, str(error)) and self.save_as()
        except GaveUp:
            words = self.tr("The disk of {file} is not responding; the file may not be saved: save elsewhere")
            self._tell(words.format(file=path.name), trouble=True)
            return False
        self._written = known
        self._document.mark_saved(path)
        now = QLocale().toString(QTime.currentTime(), QLocale.FormatType.ShortFormat)
        self._notices.set_idle(self.tr("Saved {time}").format(time=now))
        self._follow(path, known)
        if lacking := self._not_taken_over():
            words = self.tr("Saved {file}. Incomplete, so not included: {what}")
            self._tell(words.format(file=path.name, what=ask.some_of(lacking)), trouble=True)
        else:
            self._tell(self.tr("Saved {file}").format(file=path.name))
        return True

    def _write(self, path: Path, known: str | None) -> str:
        project = self._document.project
        words = self.tr("Saving {file}\u2026").format(file=path)
        return run_with_wait_dialog(self._window, words, lambda: save(project, path, known=known))

    def _may_drop_remarks(self, path: Path) -> bool:
        """Whether saving may go on: the file has no remarks that would be lost, or the user lets them go."""
        if path == self._document.path and self._written is not None and self._written == self.status.known:
            return True  # what stands there was written here
        try:
            words = self.tr("Checking {file}\u2026").format(file=path)
            remarks = run_with_wait_dialog(self._window, words, lambda: has_comments(path.read_text("utf-8")))
        except (OSError, UnicodeError, GaveUp):
            return True  # nothing there to lose, or saving will say what is wrong
        return not remarks or ask.may_drop_remarks(self._window, path)

    def _settle_conflict(self, path: Path) -> bool:
        """Another program has changed the file: nothing is overwritten unasked. True if it was saved in the end."""
        match ask.what_of_conflict(self._window, path):
            case ask.Conflict.SAVE_OVER:
                return self.save_over(path)
            case ask.Conflict.SAVE_AS:
                return self.save_as()
            case ask.Conflict.RELOAD:
                self.reload()
            case ask.Conflict.COMPARE:
                self.compare_conflict(path)
            case _:
                self.status.say_changed(path)
        return False

    def save_over(self, path: Path) -> bool:
        """Save though another program has changed the file; its version stays beside it under another name."""
        other = self.tr("other version {time}").format(time=time.strftime("%Y-%m-%d %H.%M"))
        name = f"{path.stem} ({other}){path.suffix}"
        try:
            aside = set_aside(path, name) if path.exists() else None
        except ProjectSaveError as error:
            return ask.wants_another_place(self._window, str(error)) and self.save_as()
        self.status.known = digest_of(path)
        if not self.save_to(path):
            return False
        if aside is not None:
            self._tell(self.tr("Saved; the other version is {file}").format(file=aside.name))
        return True

    # Comparing

    def compare_with_saved(self) -> None:
        """Show what differs between the project as it is here and its file."""
        path = self._document.path
        if path is None:
            self._tell(self.tr("This project was never saved; there is nothing to compare it with"), trouble=True)
        else:
            self._compare(path, self.tr("{file}, as saved"), ((self.tr("&Reload from disk"), self.reload),))

    def compare_with_another(self) -> None:
        """Ask for a file and show what differs from it."""
        title = self.tr("Compare with")
        name, _ = QFileDialog.getOpenFileName(self._window, title, self._folder(), self._filter())
        if name:
            self._compare(Path(name), "{file}")

    def compare_conflict(self, path: Path) -> None:
        """Show what another program has made of the file, beside what is here."""
        deeds = (
            (self.tr("&Reload"), self.reload),
            (self.tr("Save &over it"), lambda: self.save_over(path)),
            (self.tr("Save &as\u2026"), self.save_as),
        )
        self._compare(path, self.tr("{file}, as on disk"), deeds)

    def _compare(self, path: Path, words: str, deeds: Sequence[NoticeAction] = ()) -> None:
        from widgets.compare.window import Side

        found = self._read(path)
        if found is not None:
            self.show_comparison(Side(words.format(file=path.name), lambda: found[0]), deeds)

    def show_comparison(self, before: Side, deeds: Sequence[NoticeAction] = ()) -> None:
        """Compare something with the project as it is here, in a window of its own."""
        from widgets.compare.window import ComparisonWindow, Side

        after = Side(self.tr("{name}, as in this window").format(name=self.name), lambda: self._document.project)
        with wait_pointer():
            dialog = ComparisonWindow(before, after, deeds, self._window)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.screen_wanted.connect(self.screen_wanted)
        dialog.show()

    # Leaving

    def may_leave(self) -> bool:
        """Whether the present project may be left.

        The panel operates no machine, or the user leaves it; nothing is unsaved, or the user saved or discarded it; and
        what is not complete, which no file can hold, the user lets go.
        """
        if not self.before_leaving():
            return False
        writing = self._live.writing
        if writing.in_charge and not ask.may_let_go(self._window, writing.armed, writing.disarmed):
            return False
        lost = self._not_taken_over()
        if not self._document.modified:
            return not lost or ask.may_lose(self._window, self.name, lost)
        match ask.what_of_changes(self._window, self.name, lost):
            case ask.Leaving.SAVE:
                return self.save()
            case ask.Leaving.DISCARD:
                return True
            case _:
                return False

    def close(self, *, keep: bool) -> None:
        """The window closes. With `keep` unsaved work is kept for the next start, since nobody was asked about it."""
        self.status.close()
        if self.autosave is not None:
            self.autosave.close(keep=keep)

    def take_over(self, former: ProjectFiles) -> None:
        """Go on with the file of a window that this one takes the place of: watch it, keep copies, hold its lock."""
        former.close(keep=False)
        self._blank = former._blank
        self._follow(self._document.path, former.status.known, former.status.format)

    # The file meanwhile

    def _follow(self, path: Path | None, known: str | None, number: int = FORMAT) -> None:
        """The document belongs to this file now, which holds the content `known` in the format `number`."""
        self.status.follow(path, known, number)
        if self.autosave is not None:
            self.autosave.settle()
        if path is not None:
            self._settings.remember(path)
            self.recent.refresh()

    def _origin(self) -> Origin:
        from app.project_file.recovery import Origin

        return Origin(self._document.path, self.status.known)

    def keep_drafts_of(self, design: DesignWorkspace) -> None:
        """Keep in the recovery copy too what is typed there and not accepted yet."""
        if self.autosave is not None:
            from widgets.shell.draft_keeping import to_keep

            self.autosave.watch(design.drafts, lambda: to_keep(design.drafts, design.inspector))

    # Unsaved work of windows that are gone

    def recover(self, *, aloud: bool = True) -> None:
        """Offer the unsaved work of windows that are gone. `aloud` says so if there is none."""
        from app.project_file.recovery import left_behind

        copies = () if self._state is None else left_behind(self._state / "recovery")
        if not copies:
            if aloud:
                self._tell(self.tr("There is no unsaved work to recover"))
            return
        from widgets.shell.recovery_dialog import RecoveryDialog

        dialog = RecoveryDialog(copies, self._window)
        chosen = dialog.exec_chosen()
        for slot in copies:
            if chosen is None or slot is not chosen.slot:
                slot.release()
        dialog.deleteLater()
        if chosen is not None:
            self._take_up(chosen)

    def _take_up(self, copy: Copy) -> None:
        """Edit the work that another window left. Its copy stays until the work is saved."""
        if not self.may_leave():
            copy.slot.release()
            return
        self._live.disconnect_from_line()
        origin, project, saved = copy.work.origin, copy.work.project, copy.saved
        if saved is not None:
            # The file's version first, so that undo leads back to it.
            self._document.open(saved, origin.path)
            self._document.do(self.tr("Recover unsaved work"), lambda _: project)
        else:
            self._document.open(project, origin.path, saved=False)
        words, trouble = self._bring_drafts_back(copy.work)
        if self.autosave is not None:
            self.autosave.adopt(copy.slot)
        known = origin.known
        if known is None and origin.path is not None:
            known = digest_of(origin.path)
        self._follow(origin.path, known)
        self._tell(words, trouble=trouble)

    def _bring_drafts_back(self, work: UnsavedWork) -> tuple[str, bool]:
        """Show again what was not accepted yet. Returns what is to be said of the recovery, and if it is trouble."""
        whole, count = work.all_drafts, len(work.drafts)
        if work.drafts:
            from widgets.shell.draft_keeping import bring_back

            design = self._design()
            left_out = bring_back(work.drafts, design.drafts, design.inspector)
            whole, count = whole and not left_out, count - left_out
        said = [self.tr("Recovered. Not saved yet") if self._document.modified else self.tr("Recovered")]
        if not whole:
            said.append(self.tr("Some texts could not be restored"))
        if count:
            said.append(self.tr("Not accepted yet, see the findings: {count}").format(count=count))
        return ". ".join(said), not whole

    def offer_left_behind(self) -> None:
        """Offer unsaved work at the start, if there is any."""
        if self._state is not None and any((self._state / "recovery").glob("*.toml")):
            self.recover(aloud=False)

    def look(self) -> None:
        """Look now whether the file is still the same: the user comes back from another program."""
        self.status.look()

    def _tell(self, words: str, *, trouble: bool = False) -> None:
        self.said.emit(words, trouble)

    # Names

    @property
    def name(self) -> str:
        """What the project is called in the window's title: its file, or its title as far as a file can have it."""
        if self._document.path is not None:
            return self._document.path.name.removesuffix(SUFFIX)
        title = "".join(c for c in self._document.project.title if c.isalnum() or c in " -_").strip()
        return title or self.tr("untitled")

    def _folder(self) -> str:
        path = self._document.path
        return str(path.parent if path is not None else self._settings.project_folder)

    def _filter(self) -> str:
        return self.tr("Fanlight projects (*{suffix});;All files (*)").format(suffix=SUFFIX)
