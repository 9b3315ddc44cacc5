"""Every pane and dialog of the program, each opened on a real window."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Final
from unittest.mock import patch

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QWidget

from app import edits
from app.edits.transfer import Arrivals, NameClash, Unlike
from app.project.binding import bind
from app.project.by_itself import ByItself, written_by_itself
from app.project.model import RegisterSignal
from app.project.problems import Problem
from app.project_file.files import load
from app.project_file.recovery import Origin, Slot
from app.recording.limits import Limits
from app.signals.numbering import Table
from app.snapshots.differences import RegisterDifference
from projects import demo_path, demos
from tests.pictures import find_out, trial
from tests.pictures.stage import settle, settle_until
from widgets.compare.window import ComparisonWindow, Side
from widgets.design.exchange.export_list import ExportDialog
from widgets.design.exchange.import_list import ImportDialog
from widgets.design.forms.blinking import BlinkDialog
from widgets.design.forms.signal_picker import SignalPicker
from widgets.design.page_map.add_screen_change import ScreenChangeDialog
from widgets.design.screen.paste_dialog import ArrivalsDialog
from widgets.design.signals.scaling_aid import ScalingAid
from widgets.design.tables.bad_cells import BadCellsDialog
from widgets.design.tables.fill_series import CopiesDialog, NumberingDialog
from widgets.design.tray.screens_of import ScreensOfDialog
from widgets.design.values.cell_reading import BadCell, Proposal
from widgets.document.file_questions import what_of_conflict
from widgets.document.problems import ProblemsDialog
from widgets.kit.commands import list_commands
from widgets.kit.dialogs.questions import Question, TextQuestion
from widgets.live.arming import ArmingDialog
from widgets.live.follower_trouble import TroubleDialog
from widgets.live.recording_limits import LimitsDialog
from widgets.repair.dialog import RepairDialog
from widgets.shell.finder import CommandFinder, command_targets, part_targets
from widgets.shell.help import AboutDialog, CautionsDialog, ShortcutsDialog
from widgets.shell.recovery_dialog import RecoveryDialog
from widgets.shell.steps import StepsDialog
from widgets.shell.window import START_PAGE, MainWindow
from widgets.snapshots.dialog import SnapshotsDialog
from widgets.snapshots.restoring_dialog import RestoringDialog
from widgets.welcome.new_panel import NewPanelDialog

TABLES: Final[tuple[Table, ...]] = ("holding", "input")
Opened = Callable[[MainWindow], AbstractContextManager[QWidget]]


@dataclass(frozen=True, slots=True)
class Pane:
    """Something to look at: its name for files and tests, and how it is opened. What is opened is a whole window."""

    name: str
    open: Opened


def _in_window(show: Callable[[MainWindow], object]) -> Opened:
    @contextmanager
    def opened(window: MainWindow) -> Iterator[QWidget]:
        window.show_workspace(0)
        show(window)
        settle()
        yield window

    return opened


def _arming(window: MainWindow) -> QDialog:
    """With all that it can have to say."""
    by_itself = written_by_itself(window.document.project)
    starting = ByItself("when 'remote' is set: 'run command' is set to 1", starts=True)
    return ArmingDialog(["pumproom: /dev/ttyUSB0"], window, by_itself=(starting, *by_itself), changed=True)


def _dialog(make: Callable[[MainWindow], QDialog]) -> Opened:
    @contextmanager
    def opened(window: MainWindow) -> Iterator[QWidget]:
        dialog = make(window)
        dialog.show()
        settle()
        yield dialog
        dialog.close()
        dialog.deleteLater()
        settle()

    return opened


def _view(name: str, then: Callable[[MainWindow], object] = lambda _window: None) -> Opened:
    def show(window: MainWindow) -> None:
        window.design.show_view(name)
        then(window)
        window.design.checks.finish()

    return _in_window(show)


def _first_field(window: MainWindow) -> None:
    document = window.document
    screen = next(index for index, each in enumerate(document.project.screens) if each.fields)
    window.design.navigator.go_to(("screen", screen, "field", 0))


def _tab(form: str) -> Callable[[MainWindow], None]:
    return lambda window: window.design.inspector.choose_form(getattr(window.design.inspector, form))


def _dragging(window: MainWindow) -> None:
    """A signal over the glass, where there is no room for it."""
    design = window.design
    plan = design.left.dropping.plan([window.document.project.signals[0].name], (0, 4))
    assert plan is not None
    design.editor.face.grid.set_ghost(plan.ghost)
    design.editor.say_drag(plan.refused)


def _findings(window: MainWindow) -> None:
    """The list of findings over the canvas."""
    window.document.do("screen", lambda project: edits.add_screen(project, "adrift"))
    window.design.checks.finish()
    window.design.canvas.open_list()


def _screens_of(window: MainWindow) -> ScreensOfDialog:
    return ScreensOfDialog(window.document, list(window.document.project.signal_named)[:7], window)


def _go(*place: str | int) -> Callable[[MainWindow], None]:
    return lambda window: window.design.navigator.go_to(place)


def _signal_of(kind: str) -> Callable[[MainWindow], None]:
    def go(window: MainWindow) -> None:
        signals = window.document.project.signals
        window.design.navigator.go_to(
            ("signal", next(n for n, each in enumerate(signals) if type(each).__name__ == kind))
        )

    return go


def _begun(window: MainWindow) -> None:
    """A sentence that is not complete yet, and the list of all."""
    window.design.behaviour.all.setChecked(True)
    window.design.behaviour.add("when")


def _draft(window: MainWindow) -> None:
    """Something typed that cannot be taken over, so that it is listed and marked."""
    _signal_of("RegisterSignal")(window)
    form = window.design.inspector.form_of("signal")
    window.design.drafts.keep(form.subject, form.rows[0].label, ("a b",), "a name has no spaces")


@contextmanager
def _start_page(window: MainWindow) -> Iterator[QWidget]:
    """With a project that was opened last, and one that is gone."""
    gone = Path(tempfile.gettempdir()) / "bakery-mixer.toml"
    for path in (gone, *map(demo_path, reversed(demos()))):
        window.settings.remember(path)
    window.show_workspace(START_PAGE)
    settle_until(lambda: window.beginning.page.recent.found(gone) is not None)
    yield window
    window.show_workspace(0)


@contextmanager
def _bench(window: MainWindow) -> Iterator[QWidget]:
    window.show_workspace(1)
    settle()
    yield window
    window.show_workspace(0)


@contextmanager
def _live(window: MainWindow, *, line_view: bool = False) -> Iterator[QWidget]:
    window.show_workspace(1)
    window.connecting.choose(0)
    window.connecting.connect_line()
    window.menus.line_view.setChecked(line_view)
    session = window.live.session
    assert session is not None, "the simulated followers did not start"
    settle_until(lambda: any(each.quality == "good" for each in window.live.readings().values()))
    settle_until(lambda: not line_view or window.line.view.model.rowCount() > 20)
    yield window
    window.menus.line_view.setChecked(False)
    window.connecting.disconnect_line()
    window.show_workspace(0)


@contextmanager
def _unproved(window: MainWindow) -> Iterator[QWidget]:
    """A stop that is not confirmed."""
    with _live(window):
        session = window.live.session
        assert session is not None
        assert session.simulation is not None
        models = session.simulation.models.values()
        for model in models:
            model.silent = True
        window.live.key_down("stop")
        window.live.key_up("stop")
        settle_until(window.alarm.isVisible)
        yield window
        for model in models:
            model.silent = False
        settle_until(lambda: not window.alarm.isVisible())


@contextmanager
def _writing(window: MainWindow) -> Iterator[QWidget]:
    """A value about to be written from the readings."""
    with _live(window):
        bench = window.bench
        project = window.document.project
        bench.write_bar.open_for(project, next(each.name for each in project.signals if each.limits is not None))
        bench.write_bar.write()
        settle()
        yield window
        bench.write_bar.close_bar()


@contextmanager
def _recording_case(window: MainWindow) -> Iterator[QWidget]:
    """A case of a trial that is recorded: keys, an entry, marks."""
    with _live(window):
        bench = window.bench
        bench.recorder.start()
        settle_until(lambda: all(each.quality == "good" for each in window.live.readings().values()))
        for key in ("right", "left", "start"):
            window.live.key_down(key)
            window.live.key_up(key)
        for row in range(3):
            menu = bench.recorder.row_menu(row)
            assert menu is not None
            menu.actions()[0].trigger()
        settle()
        yield window
        with patch("widgets.bench.case_recorder.Question.confirm", lambda *_: True):
            bench.recorder.discard()


@contextmanager
def _start_up(window: MainWindow) -> Iterator[QWidget]:
    window.show_workspace(2)
    settle()
    yield window
    window.show_workspace(0)


@contextmanager
def _start_up_live(window: MainWindow) -> Iterator[QWidget]:
    with _live(window):
        window.show_workspace(2)
        settle()
        yield window


@contextmanager
def _line_window(window: MainWindow) -> Iterator[QWidget]:
    with _live(window, line_view=True):
        window.menus.line_window.setChecked(True)
        settle()
        yield window.line.window
        window.menus.line_window.setChecked(False)


@contextmanager
def _recovery(window: MainWindow) -> Iterator[QWidget]:
    from filelock import FileLock

    with tempfile.TemporaryDirectory() as folder:
        lock = FileLock(Path(folder) / "lock")
        slot = Slot(Path(folder) / "copy", lock)
        unsaved = demo_path("booster-pump").read_text("utf-8").replace("BOOSTER PUMP", "BOOSTER NO 1")
        slot.write(unsaved, Origin(demo_path("booster-pump"), None, time.time()))
        with _dialog(lambda window: RecoveryDialog([slot], window))(window) as dialog:
            yield dialog


LIST: Final = """Name;Address;Type;Factor;Unit;Access
Supply speed;40101;UINT16;0,01;Hz;R
Supply set point;40102;UINT16;0,01;Hz;RW
Alarm word;40110;bitfield;;;R
Broken;no;UINT16;;;R
"""
"""A register list as a device's maker might give it, with a row that cannot be read."""


@contextmanager
def _import(window: MainWindow) -> Iterator[QWidget]:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "registers.csv"
        file.write_text(LIST, "utf-8")
        dialog = ImportDialog(window.document, window.settings, file, window)
        with _dialog(lambda _window: dialog)(window) as shown:
            settle_until(lambda: dialog.done_so_far is not None)
            settle()
            yield shown


@contextmanager
def _trouble(window: MainWindow) -> Iterator[QWidget]:
    with _live(window):
        session = window.live.session
        assert session is not None
        assert session.simulation is not None
        dialog = TroubleDialog(next(iter(session.simulation.models.values())), window)
        dialog.show()
        settle()
        yield dialog
        dialog.close()
        settle()


@contextmanager
def _snapshots(window: MainWindow) -> Iterator[SnapshotsDialog]:
    dialog = SnapshotsDialog(window.document, window.live, window.settings, window)
    dialog.show()
    settle()
    yield dialog
    dialog.close()
    settle()


@contextmanager
def _snapshots_taken(window: MainWindow) -> Iterator[SnapshotsDialog]:
    with _live(window), _snapshots(window) as dialog, tempfile.TemporaryDirectory() as folder:
        dialog.ranges.setText("holding:0-3")
        dialog.notes.setText("before the impeller was exchanged")
        dialog.take_into(Path(folder) / "as found.registers.toml")
        settle_until(lambda: dialog.live_button.isEnabled())
        settle()
        yield dialog


@contextmanager
def _snapshots_compared(window: MainWindow) -> Iterator[SnapshotsDialog]:
    with _snapshots_taken(window) as dialog:
        session = window.live.session
        assert session is not None
        for signal, value in (("speed set point", 30), ("ramp up", 20)):
            assert session.engine.write(signal, value).result(5).ok
        QTest.mouseClick(dialog.live_button, Qt.MouseButton.LeftButton)
        settle_until(lambda: dialog.table.registers.ticked)
        settle()
        yield dialog


def _question(window: MainWindow) -> QDialog:
    """The one with the most answers."""
    asked: list[QDialog] = []

    def look(question: Question) -> int:
        asked.append(question)
        return 0

    with patch.object(Question, "exec", look), patch.object(Question, "deleteLater"):
        what_of_conflict(window, Path("booster-pump.toml"))
    return asked[0]


def _text_question(window: MainWindow) -> TextQuestion:
    return TextQuestion(window, "Why is this acceptable?", "The signal 'command' is used nowhere.", "&Reason")


@contextmanager
def _steps(window: MainWindow) -> Iterator[QWidget]:
    """With a step, and one that was taken back."""
    document = window.document
    for name in ("adrift", "afloat"):
        document.do(f"Add the screen {name}", lambda project, name=name: edits.add_screen(project, name))  # type: ignore[misc]
        document.seal()
    document.undo()
    with _dialog(lambda window: StepsDialog(document, window))(window) as dialog:
        yield dialog
    document.undo()


def _scaling(window: MainWindow) -> ScalingAid:
    project = window.document.project
    return ScalingAid(project, next(each for each in project.signals if isinstance(each, RegisterSignal)), window)


def _repair(window: MainWindow) -> RepairDialog:
    """A speed that is read one register too far and in too small a scale, after two looks at the device's display."""
    document = window.document
    signal = next(each for each in document.project.signals if isinstance(each, RegisterSignal) and each.scale)
    dialog = RepairDialog(document, window.live, window.settings, signal.name, window)
    address = bind(document.project, signal.name).address
    for raw, shown in ((8330, "41.65"), (5000, "25.00")):
        words = {address - 1: raw, address: 3, address + 1: 417}
        held: dict[tuple[Table, int], int] = {(table, at): word for table in TABLES for at, word in words.items()}
        dialog.take(held)
        dialog.shown_value.setText(shown)
        dialog.add_shown.click()
    return dialog


def _bad_cells(window: MainWindow) -> BadCellsDialog:
    bad = BadCell(3, "Register", "4o1", "'4o1' is not a number")
    return BadCellsDialog(Proposal({}, [], [bad], {3}), window)


def _compared(window: MainWindow) -> ComparisonWindow:
    before, after = load(demo_path("booster-pump")), load(demo_path("drying-hall"))
    return ComparisonWindow(Side("before", lambda: before), Side("after", lambda: after), (), window)


def _finder(window: MainWindow) -> CommandFinder:
    targets = [*command_targets(list_commands(window.menus.all())), *part_targets(window.design)]
    return CommandFinder(targets, (), window)


PROBLEMS: Final = [
    Problem("screen 'run', field 2", "signal 'sped' does not exist", "did you mean 'speed'?"),
    Problem("", "the file ends in the middle of a table"),
]
RESTORED: Final = [
    RegisterDifference("holding", 310, 1, 310, (8330,), (6000,), "speed set point", "41.7 Hz", "30.0 Hz"),
    RegisterDifference("holding", 311, 1, 311, (50,), (200,), "ramp up", "5.0 s", "20.0 s"),
]
LIMITS: Final = Limits(size=100_000_000, seconds=3600, files=5)
ARRIVALS: Final = Arrivals(("speed",), (), (), (NameClash("signal", "speed", (Unlike("register", "310", "410"),)),))


def panes() -> list[Pane]:
    """All of them, in the order of the program."""
    return [
        Pane("design-screen", _view("screen", _first_field)),
        Pane("design-screen-form", _view("screen", _tab("screen_form"))),
        Pane("design-screen-properties", _view("screen", lambda window: window.design.navigator.to_properties())),
        Pane("design-screen-left", _view("screen", lambda window: window.design.panes.left_button.setChecked(True))),
        Pane("design-dragging", _view("screen", _dragging)),
        Pane("design-findings", _view("screen", _findings)),
        Pane("design-panel-form", _view("panel")),
        Pane("design-messages", _view("screen", lambda window: window.design.navigator.to_messages())),
        Pane("design-map", _view("map")),
        Pane("design-screen-changes", _view("behaviour", _go("screen_change", 0))),
        Pane("design-actions", _view("behaviour", _go("action", 0))),
        Pane("design-sentence-begun", _view("behaviour", _begun)),
        Pane("design-signal-register", _view("signals", _signal_of("RegisterSignal"))),
        Pane("design-signal-bit", _view("signals", _signal_of("BitSignal"))),
        Pane("design-signal-held", _view("signals", _signal_of("HeldSignal"))),
        Pane("design-lines", _view("lines", _go("line", 0))),
        Pane("design-followers", _view("lines", _go("follower", 0))),
        Pane("design-draft", _view("signals", _draft)),
        Pane("bench", _bench),
        Pane("bench-live", _live),
        Pane("bench-writing", _writing),
        Pane("bench-stop", _unproved),
        Pane("bench-case", _recording_case),
        Pane("bench-line-view", lambda window: _live(window, line_view=True)),
        Pane("line-window", _line_window),
        Pane("start-up", _start_up),
        Pane("start-up-live", _start_up_live),
        *(Pane(name, opened) for name, opened in trial.PANES.items()),
        *(Pane(name, opened) for name, opened in find_out.PANES.items()),
        Pane("dialog-snapshots", _snapshots),
        Pane("dialog-snapshots-taken", _snapshots_taken),
        Pane("dialog-snapshots-compared", _snapshots_compared),
        Pane("dialog-restoring", _dialog(lambda window: RestoringDialog("pump", RESTORED, window))),
        Pane("dialog-limits", _dialog(lambda window: LimitsDialog(LIMITS, window))),
        Pane("dialog-new", _dialog(NewPanelDialog)),
        Pane("start-page", _start_page),
        Pane(
            "dialog-problems", _dialog(lambda window: ProblemsDialog("x", "x.toml cannot be opened", PROBLEMS, window))
        ),
        Pane("dialog-arming", _dialog(_arming)),
        Pane("dialog-screens-of", _dialog(_screens_of)),
        Pane("dialog-signal", _dialog(lambda window: SignalPicker(window.document.project, window))),
        Pane(
            "dialog-screen-change", _dialog(lambda window: ScreenChangeDialog(window.document.project, "run", window))
        ),
        Pane("dialog-copies", _dialog(lambda window: CopiesDialog(window.document.project, _two(window), window))),
        Pane("dialog-question", _dialog(_question)),
        Pane("dialog-text-question", _dialog(_text_question)),
        Pane("dialog-blink", _dialog(lambda window: BlinkDialog(window.document, window))),
        Pane("dialog-steps", _steps),
        Pane("dialog-numbering", _dialog(lambda window: NumberingDialog(window.document.project, [0, 1], window))),
        Pane("dialog-scaling", _dialog(_scaling)),
        Pane("dialog-repair", _dialog(_repair)),
        Pane("dialog-bad-cells", _dialog(_bad_cells)),
        Pane("dialog-import", _import),
        Pane(
            "dialog-export",
            _dialog(lambda window: ExportDialog(window.document.project, window.settings, "pump", (), window)),
        ),
        Pane("dialog-trouble", _trouble),
        Pane("dialog-arrivals", _dialog(lambda window: ArrivalsDialog(ARRIVALS, window))),
        Pane("dialog-recovery", _recovery),
        Pane("dialog-comparison", _dialog(_compared)),
        Pane("dialog-find", _dialog(_finder)),
        Pane(
            "dialog-shortcuts",
            _dialog(lambda window: ShortcutsDialog(window.menus.all(), window.document.project.panel, window)),
        ),
        Pane("dialog-cautions", _dialog(CautionsDialog)),
        Pane("dialog-about", _dialog(AboutDialog)),
    ]


def _two(window: MainWindow) -> list[str]:
    names = [signal.name for signal in window.document.project.signals if type(signal).__name__ == "RegisterSignal"]
    return names[:2]
