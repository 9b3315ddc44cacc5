"""The window that finds out an unknown device, step by step: where, what answers, its registers, which is which."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QCloseEvent, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.client.endpoint import Endpoint
from app.discovery.into_project import NamedRegister, added_to, new_project
from app.discovery.known_line import KnownLine
from app.discovery.past import recorded
from app.discovery.search import Wanted
from app.edits.refused import EditRefused
from app.errors import FanlightError
from app.matching.advice import Namer
from app.recording.reader import Recording, RecordingUnreadable
from app.signals.numbering import NotARegister, Numbering, Table, documented_number, register_text
from app.snapshots.files import ENDING, paths_of_units, text_of_file
from app.snapshots.snapshot import RegisterPlace
from widgets.document.file_questions import may_replace
from widgets.document.save_as import FileKind, where_to_save, write_or_say
from widgets.document.settings import Settings
from widgets.find_out.found_tables import title_of
from widgets.find_out.investigation import Holds, Investigation
from widgets.find_out.labelled import labelled
from widgets.find_out.line_page import LinePage
from widgets.find_out.project_page import ProjectPage
from widgets.find_out.registers_page import RegistersPage
from widgets.find_out.search_page import SearchPage
from widgets.find_out.step_list import StepList
from widgets.find_out.which_register import WhichRegisterPage
from widgets.kit.controls import Choice, push_button
from widgets.kit.dialogs.dialog import Dialog
from widgets.kit.dialogs.questions import Question, TextQuestion
from widgets.kit.scaling import scaled

LINE, SEARCH, REGISTERS, WHICH, PROJECT = range(5)
_SUFFIX: Final = ".toml"


class FindOutWindow(Dialog):
    """Stands beside the main window. What becomes of what was found is done by whoever opened it."""

    project_made = Signal(object)
    """A new `Project` is to be opened."""
    edit_wanted = Signal(object)
    """An `Edit` adds what was found to the project that is open; it may raise EditRefused."""

    def __init__(
        self,
        settings: Settings,
        holds: Holds = lambda _endpoint: "",
        let_go: Callable[[Endpoint], bool] = lambda _endpoint: False,
        project_open: Callable[[], bool] = lambda: False,
        parent: QWidget | None = None,
    ) -> None:
        """`holds` says why a line cannot be searched now, `let_go` asks whether it may be let go for that, and says
        whether it is free; `project_open` whether there is a project to add to."""
        super().__init__(parent, width=1200, height=720)
        self.setWindowFlag(Qt.WindowType.WindowMaximizeButtonHint)
        self.setWindowTitle(self.tr("Find out an unknown device"))
        self._settings = settings
        self._holds = holds
        self._let_go = let_go
        self._project_open = project_open
        self._asked: Wanted | None = None
        """What was wanted on the first page when it was searched last."""
        self._to_read = ""
        self._looked_at: int | None = None
        self._leaving = False
        self._recordings: list[Recording] = []
        """In which registers are looked up."""
        self.about = Investigation(holds, self)
        self._make_pages()
        self._make_devices()
        self._make_buttons()
        row = QHBoxLayout()
        row.setSpacing(scaled(16))
        row.addWidget(self.steps)
        right = QVBoxLayout()
        right.setSpacing(scaled(8))
        right.addWidget(self.device_row)
        right.addWidget(self.pages, 1)
        row.addLayout(right, 1)
        self.body.addLayout(row, 1)
        self.about.working.connect(self._show_working)
        self.about.changed.connect(self._show)
        self.about.read.connect(self._take_read)
        self.about.named_changed.connect(self._show_registers)
        self.about.named_changed.connect(self._show)
        self.go_to(LINE)

    def _make_pages(self) -> None:
        self.line, self.search = LinePage(), SearchPage(self.about)
        self.registers, self.project = RegistersPage(), ProjectPage(self.about)
        self.which = WhichRegisterPage(self._namer())
        self.pages = QStackedWidget()
        for page in (self.line, self.search, self.registers, self.which, self.project):
            self.pages.addWidget(page)
        self.steps = StepList(
            [
                self.tr("Line"),
                self.tr("Search"),
                self.tr("Registers"),
                self.tr("Which register?"),
                self.tr("Project"),
            ]
        )
        self.steps.chosen.connect(self._turn_to_page)  # the list keeps the focus, for the next step
        self.line.changed.connect(self._show)
        self.line.go_on.connect(self._go_on)
        self.line.never.textChanged.connect(self.registers.never.setText)
        self.registers.never.textChanged.connect(self.line.never.setText)
        self.search.chosen.connect(self._change_device)
        self.registers.search_wanted.connect(self._search_more)
        self.registers.read_wanted.connect(partial(self._read, "registers"))
        self.registers.save_wanted.connect(self._save_snapshot)
        self.registers.name_wanted.connect(self._name_place)
        self.which.read_wanted.connect(partial(self._read, "which"))
        self.which.recording_wanted.connect(self._choose_recording)
        self.which.named.connect(self._take_named)
        self.project.numbering_chosen.connect(self._take_numbering)

    def _make_devices(self) -> None:
        """The device whose registers are looked at, on the pages that are about one."""
        self.devices = Choice()
        self.devices.setAccessibleName(self.tr("Device"))
        self.devices.currentIndexChanged.connect(self.search.choose)
        self.device_row = labelled(self.tr("De&vice"), self.devices)

    def _make_buttons(self) -> None:
        self.stop_button = push_button(self.tr("S&top"), self.about.stop)
        self.add_beside_buttons(self.stop_button, 0)
        self.quick_button = self.add_other(self.tr("Make &project now"), self._make)
        self.quick_button.setToolTip(self.tr("With what is known now: the first registers of each device are shown."))
        self.join_button = self.add_other(self.tr("&Add to this project"), self._add)
        self.again_button = self.add_other(self.tr("&Go on searching"), self._search)
        self.go_button = self.add_deed(self.tr("&Search"), self._go_on)
        self.back_button = self.add_extra(self.tr("&Back"), self._go_back)
        self.add_way_out(self.tr("Close"))

    # The way through

    @property
    def step(self) -> int:
        """The page in front."""
        return self.pages.currentIndex()

    def go_to(self, step: int) -> None:
        """Bring a page to the front. What one does there first gets the focus."""
        if self._turn_to_page(step):
            page = self.line.place, self.search.table, self.registers.table, self.which.value, self.project.table
            first = page[step]
            (first if first.isVisibleTo(self) else self.steps).setFocus(Qt.FocusReason.TabFocusReason)

    def _turn_to_page(self, step: int) -> bool:
        reachable = self._reachable(step)
        if reachable:
            self.pages.setCurrentIndex(step)
            self._show_registers()
            self._show()
        return reachable

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._takes_enter(self.focusWidget()):
            return
        super().keyPressEvent(event)

    def _takes_enter(self, part: QWidget | None) -> bool:
        """Whether Enter has a meaning of its own there, which a line tells nobody: not the default button's, too."""
        if isinstance(part, QAbstractItemView):
            return self.step in (REGISTERS, WHICH)
        return isinstance(part, QLineEdit | QAbstractSpinBox) or (isinstance(part, QComboBox) and part.isEditable())

    def begin_at(self, endpoint: Endpoint, unit: int | None = None, known: KnownLine | None = None) -> None:
        """Begin with this line, and with this unit if one is looked for: it is asked first. `known` is what a project
        says of the devices on it."""
        known = known or KnownLine()
        self.about.know(endpoint, known)
        self.line.choose(endpoint, unit, known.never)

    def turn_to(self, endpoint: Endpoint, unit: int, known: KnownLine | None = None) -> None:
        """Go to the first page, on another line perhaps; not while a search is at work, which is said."""
        if self.about.at_work:
            self.tell(
                self.tr("A search is at work"),
                self.tr("It goes on at {place}. Stop it to look for unit {unit} at {other}.").format(
                    place=self.about.endpoint, unit=unit, other=endpoint
                ),
                "caution",
            )
            return
        self.tell("")
        self.begin_at(endpoint, unit, known)
        self.go_to(LINE)

    def _reachable(self, step: int) -> bool:
        about = self.about
        if step == LINE:
            return not about.at_work
        if step == SEARCH:
            return about.at_work or about.found.probes > 0 or bool(about.found.heard) or bool(about.why)
        return bool(about.devices)

    def _done(self, step: int) -> bool:
        about = self.about
        match step:
            case 0:
                return about.found.probes > 0 or bool(about.found.heard)
            case 1:
                return bool(about.devices) and not about.at_work and not self._unfinished
            case 2:
                return any(one.ranges for one in about.devices) and not about.at_work
            case 3:
                return any(about.named.values())
        return False

    def _go_back(self) -> None:
        self.go_to(max(LINE, self.step - 1))

    def _go_on(self) -> None:
        match self.step:
            case 0:
                self._search()
            case 1 if not self.about.devices:
                self._search()
            case 4:
                self._make()
            case _:
                self.go_to(self.step + 1)

    @property
    def _unfinished(self) -> bool:
        """Whether the search was ended, or found nobody."""
        return (self.about.found.stopped_by != "done" and not self.about.found.heard) or not self.about.devices

    def _search(self) -> None:
        problem = self.line.problem()
        self.line.tell(problem)
        if problem or self.about.at_work:
            return
        endpoint, wanted = self.line.endpoint(), self.line.wanted()
        held = self._holds(endpoint)
        if held and not self._let_go(endpoint):
            self.go_to(LINE)
            self.line.tell(held)
            return
        if self._goes_on(endpoint, wanted):
            wanted = replace(self.about.wanted, never=wanted.never)
        elif self._may_forget():
            self.about.begin_at(endpoint)
            self._looked_at = None
            self._asked = replace(wanted, never={})
        else:
            return
        if not self.about.search(wanted, self.about.examination.how):
            self.line.tell(self.about.why)
            return
        self.go_to(SEARCH)

    def _goes_on(self, endpoint: Endpoint, wanted: Wanted) -> bool:
        """Whether the search that was ended before it was done is wanted, and not another one."""
        about = self.about
        same = endpoint == about.endpoint and replace(wanted, never={}) == self._asked
        return same and about.found.stopped_by != "done"

    def _may_forget(self) -> bool:
        names = sum(map(len, self.about.named.values()))
        return not names or Question(
            self,
            "asks",
            self.tr("Search anew"),
            self.tr("Search anew and forget what was found?"),
            self.tr("Registers that have names: {count}. A project keeps them; make one first.").format(count=names),
        ).confirm(self.tr("&Search anew"))

    def _search_more(self) -> None:
        try:
            first, last = self.registers.wanted_span()
            never = self.registers.never.untouched()
        except ValueError as why:
            self.registers.tell(str(why))
            return
        self.registers.tell("")
        endpoint = self.about.endpoint
        held = "" if endpoint is None else self._holds(endpoint)
        if endpoint is None or (held and not self._let_go(endpoint)):
            self.registers.tell(held)
            return
        self.about.look_closer()
        tables = self.registers.wanted_tables()
        wanted = replace(self.about.wanted, tables=tables, first=first, last=last, listen_s=0.5, never=never)
        if self.about.search(wanted, self.registers.density):
            self.go_to(SEARCH)

    # The device that is looked at

    @property
    def unit(self) -> int | None:
        """Its address."""
        device = self.search.device
        return None if device is None else device.unit

    def _namer(self) -> Namer:
        def name(table: Table, first: int, last: int) -> str:
            numbering = self.about.numbering.get(self.unit or 0, "from-0")
            try:
                numbers = [documented_number(numbering, table, address) for address in (first, last)]
            except NotARegister:
                numbers = [first, last]
            return register_text(table, *numbers) if first != last else register_text(table, numbers[0])

        return name

    def _change_device(self, unit: int) -> None:
        if unit == self._looked_at:
            return
        self._looked_at = unit
        self.which.begin_anew(self._namer(), self.about.heard_of(unit))
        self._show_registers()

    def _take_numbering(self, numbering: Numbering) -> None:
        for device in self.about.devices:
            self.about.numbering[device.unit] = numbering
        self._show_registers()

    def _show_registers(self) -> None:
        unit = self.unit
        if unit is None:
            return
        names = {(one.table, one.address): one.name for one in self.about.named.get(unit, ())}
        if self.step == REGISTERS and not self.about.at_work:
            self.registers.show_registers(self.about.registers(unit), names, self._namer())
            self.registers.tell_when(self.about.read_between(unit))
        self.project.show_newest(self._namer())

    # Reading

    def _read(self, for_whom: str) -> None:
        unit = self.unit
        self._to_read = for_whom
        if unit is None or not self.about.read_now(unit):
            self._say(self.about.why or self.tr("The line is busy; wait until the search has ended, or stop it."))

    def _choose_recording(self) -> None:
        """Ask which one; it stays open as long as this window, since its registers are looked up in it."""
        words = self.tr("Recordings (*.fanrec)")
        folder = str(self._settings.start_up_folder)
        name, _ = QFileDialog.getOpenFileName(self, self.tr("Open a recording"), folder, words)
        if not name:
            return
        try:
            recording = Recording.open(Path(name))
        except RecordingUnreadable as why:
            self.which.cannot_read(str(why))
            return
        self._recordings.append(recording)
        self._settings.start_up_folder = recording.path.parent
        self.which.add_past(recorded(recording), self.unit)

    def _take_read(self, held: dict[RegisterPlace, int]) -> None:
        if not held:
            return
        if self._to_read == "which":
            self.which.take(held)
            self._to_read = ""

    def _say(self, words: str) -> None:
        if self._to_read == "which":
            self.which.cannot_read(words)
        else:
            self.registers.tell(words)
        self._to_read = ""

    def _show_working(self, on: bool) -> None:
        self.registers.set_working(on)
        if not on:
            if self.unit is not None:
                self.which.offer(self.about.heard_of(self.unit))
            if self._to_read == "which":
                self._say(self.about.why or self.tr("No register could be read: the device did not answer."))
            self._to_read = ""
            self._show_registers()
        self._show()

    # Names

    def _take_named(self, register: NamedRegister) -> None:
        if self.unit is None:
            return
        given, words = self.about.name(self.unit, register), ""
        if given != register.name:
            words = self.tr("Another register has the name {name} already; this one is {given}.")
            words = words.format(name=register.name, given=given)
        if self.step == WHICH:
            self.which.take_named(replace(register, name=given), words)
        else:
            self.registers.tell(words)

    def _name_place(self, place: RegisterPlace) -> None:
        table, address = place
        name = TextQuestion(
            self,
            self.tr("Name this register"),
            self.tr(
                "It becomes a signal of type uint16 without a scale, which can be changed in Design. Where you know "
                "what the device shows, \u201cWhich register?\u201d finds type and scale."
            ),
            self.tr("&Name"),
        ).ask()
        if name and name.strip():
            self._take_named(NamedRegister(name.strip(), table, address))

    def _save_snapshot(self) -> None:
        if self.unit is not None:
            self._save_units([self.unit], self.registers.tell)

    def _save_units(self, units: Sequence[int], say: Callable[[str], object]) -> bool:
        """Save a snapshot of each; whether it was done. No search goes on beyond the question where to."""
        kind = FileKind(self.tr("Register snapshots (*.toml)"), ENDING, _SUFFIX)
        title = self.tr("Save the snapshot as")
        usual = self.tr("unit {unit}").format(unit=units[0]) if len(units) == 1 else self.tr("found")
        place = where_to_save(self, self._settings, "start_up_folder", title, usual + ENDING, (kind,))
        if place is None:
            return False
        files = paths_of_units(place[0], units)
        if not all(path == place[0] or not path.exists() or may_replace(self, path, title) for path in files.values()):
            return False
        self.about.close()
        for unit, path in files.items():
            if not write_or_say(path, text_of_file(self.about.snapshot(unit)), say):
                return False
            self.about.keep(unit)
        return True

    # What becomes of it

    def _make(self) -> None:
        assert self.about.endpoint is not None  # nothing was found without one
        try:
            made = new_project(self.about.endpoint, self.about.found, self.about.chosen())
        except (FanlightError, NotARegister) as why:
            self.tell(self.tr("No project was made"), str(why), "caution")
            return
        self.project_made.emit(made)

    def _add(self) -> None:
        endpoint, found, chosen = self.about.endpoint, self.about.found, self.about.chosen()
        assert endpoint is not None
        self.edit_wanted.emit(lambda project: added_to(project, endpoint, found, chosen))

    def refuse(self, why: EditRefused | str) -> None:
        """What was wanted could not be done."""
        self.tell(self.tr("Nothing was added"), str(why), "caution")

    # What is shown

    def _show(self) -> None:
        about, step = self.about, self.step
        for number in range(PROJECT + 1):
            self.steps.set_reachable(number, self._reachable(number))
            self.steps.set_done(number, self._done(number))
        self.steps.choose(step)
        texts = {
            LINE: self.tr("&Search"),
            SEARCH: self._search_text(),
            PROJECT: self.tr("&Make a project of it"),
        }
        self.go_button.setText(texts.get(step, self.tr("&Next")))
        ready = not about.at_work and (step != LINE or not self.line.problem())
        self.go_button.setEnabled(ready)
        problem = self.line.problem() if step == LINE else ""
        if about.at_work:
            problem = self.tr("The line is busy; wait until the search has ended, or stop it.")
        self.go_button.setToolTip(problem)
        self.back_button.setEnabled(step > LINE and not about.at_work)
        self.stop_button.setEnabled(about.at_work and not about.stopping)
        self._show_devices()
        ended = step == SEARCH and not about.at_work and self._unfinished
        self.again_button.setVisible(ended and self._reachable(REGISTERS))
        self.quick_button.setVisible(LINE < step < PROJECT and bool(about.devices) and not about.at_work)
        self.join_button.setVisible(step == PROJECT)
        why = self.tr("No project is open that it could be added to: open one first, or make one of it.")
        joined = "" if self._project_open() else why
        self.join_button.setEnabled(not joined)
        self.join_button.setToolTip(joined)
        self.join_button.setAccessibleDescription(joined)

    def _show_devices(self) -> None:
        self.device_row.setVisible(self.step in (REGISTERS, WHICH))
        self.devices.blockSignals(True)
        self.devices.clear()
        for one in self.about.devices:
            name = title_of(one)
            text = self.tr("unit {unit}, {name}") if name else self.tr("unit {unit}")
            self.devices.addItem(text.format(unit=one.unit, name=name), one.unit)
        self.devices.setCurrentIndex(self.devices.findData(self.unit))
        self.devices.blockSignals(False)

    def _search_text(self) -> str:
        if self.about.at_work or self.about.devices:
            return self.tr("&Next")
        return self.tr("&Search again") if self.about.found.stopped_by == "done" else self.tr("&Go on searching")

    # Closing

    def may_close(self) -> bool:
        """Whether it may be closed: nothing would be lost by that, or the person saved it or lets it go."""
        about = self.about
        units, names = about.lost_units, about.lost_names
        if not (about.searching or units or names):
            return True
        question = Question(
            self,
            "asks",
            self.tr("Find out"),
            self.tr("End the search and close?") if about.searching else self.tr("Close and forget what was found?"),
            self._what_is_lost(units, names),
        )
        ways = [(self.tr("&Close"), "close")]
        if units:
            ways.insert(0, (self.tr("&Save a snapshot and close\u2026"), "save"))
        taken = question.ask(ways, "stay", way_out=self.tr("&Keep looking"))
        return taken == "close" or (taken == "save" and self._save_units(units, self._say_not_saved))

    def _what_is_lost(self, units: Sequence[int], names: int) -> str:
        spans = [part for one in self.about.devices if one.unit in units for part in one.ranges]
        registers = sum(part.last - part.first + 1 for part in spans)
        sentences = [self.tr("What was tried until now would have to be tried again.")] if self.about.searching else []
        if units:
            text = self.tr("In no file yet: {registers} registers of {devices} devices.")
            if len(units) == 1:
                text = self.tr("In no file yet: {registers} registers of one device.")
            sentences.append(text.format(registers=registers, devices=len(units)))
        if names:
            text = self.tr("Names of registers: {count}. A project keeps them, a snapshot does not.")
            sentences.append(text.format(count=names))
        return "\n".join(sentences)

    def _say_not_saved(self, words: str) -> None:
        self.tell(self.tr("Nothing was saved"), words, "caution")

    def leave(self) -> None:
        """Close without any question."""
        self._leaving = True
        self.close()

    def reject(self) -> None:
        """Close, also by Esc: what is done on the line ends first."""
        if self._leaving or self.may_close():
            self._end()
            super().reject()

    def closeEvent(self, event: QCloseEvent) -> None:
        super().closeEvent(event)
        if event.isAccepted():
            self._end()

    def _end(self) -> None:
        self.which.stop()
        while self._recordings:
            self._recordings.pop().close()
        self.about.close()
