"""No key of a panel moves under the pointer: only the size of the window places it, whatever happens meanwhile."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.client.endpoint import Endpoint
from app.client.faults import EXCEPTIONS, closed_fault, exception_fault, opening_fault, refusal_words
from app.client.reply_guard import RtuGuard
from app.follower.simulation import Simulation
from app.line.states import FollowerState
from app.modbus.requests import read_request
from app.project.model import Project
from app.project_file.files import load
from app.signals.numbering import register_text
from projects import demo_path
from tests.pictures.stage import SMALLEST_SCREEN, Setting, settle, settle_until, staged
from tests.staged_follower import crc
from tests.widgets.bench_project import bench_project
from widgets.face.face import PanelFace
from widgets.kit.language import Language
from widgets.kit.palette import Appearance
from widgets.live.stop_alarm import StopAlarm
from widgets.live.value_setter import ValueSetter
from widgets.shell.window import BENCH, DESIGN, START_UP, MainWindow

pytestmark = pytest.mark.usefixtures("no_thread_is_left")

LONG = "a sentence that goes on and on about what happened, where, and what is best done about it now; " * 6
LARGE = (1920, 1080)
SETTINGS = [
    (Setting(), SMALLEST_SCREEN),
    (Setting(Appearance.DARK, Language.GERMAN), LARGE),
    (Setting(percent=150), SMALLEST_SCREEN),
    (Setting(Appearance.LIGHT, Language.GERMAN, 200), SMALLEST_SCREEN),
]


class Places:
    """Where the keys stood first; every later look must find them there."""

    def __init__(self, window: MainWindow) -> None:
        self.window = window
        self.first: dict[str, dict[str, QRect]] = {}
        self.size = window.size()

    def look(self, state: str) -> None:
        settle()
        assert self.window.size() == self.size, f"{state}: the window grew"
        workspace = ("design", "bench", "start-up")[self.window.workspace_number]
        now = self._keys()
        assert now, f"{state}: no key is in sight"
        before = self.first.setdefault(workspace, now)
        moved = {key: (before[key], place) for key, place in now.items() if before.setdefault(key, place) != place}
        assert not moved, f"{state}, {workspace}: {moved}"
        assert {name for name in before if not name.startswith("card")} <= now.keys()

    def look_everywhere(self, state: str) -> None:
        here = self.window.workspace_number
        for workspace in (BENCH, START_UP):
            self.window.show_workspace(workspace)
            self.look(state)
        self.window.show_workspace(here)

    def _keys(self) -> dict[str, QRect]:
        faces = [
            face for face in self.window.workspace.findChildren(PanelFace) if face.isVisible() and not face.editing
        ]
        return {
            name: _global(button) for face in faces if not face.editing for name, button in face.keypad.buttons.items()
        } | self._beside_keys()

    def _beside_keys(self) -> dict[str, QRect]:
        """What else a pointer may be on: the card of a device with its controls, and the words below the keys."""
        bench = self.window.bench
        card = bench.cards.current
        if self.window.workspace is not bench or card is None or not card.isVisible():
            return {}
        parts: dict[str, QWidget] = {"card": card, "words": bench.why, "set": card.setter.button, "more": card.more}
        # A real device has no switches, and its button says "Write".
        simulated = not self.window.live.connected or self.window.live.writing.simulated
        parts |= {button.text(): button for button in card.buttons} if simulated else {}
        return {f"card: {name}": _global(part) for name, part in parts.items() if part.isVisible()}


@contextmanager
def status(project: Project, setting: Setting, size: tuple[int, int]) -> Iterator[tuple[MainWindow, Places]]:
    with staged(setting) as window:
        window.take(project, None)
        window.resize(*size)
        window.show_workspace(BENCH)
        settle()
        yield window, Places(window)


def live(window: MainWindow) -> bool:
    return any(each.quality == "good" for each in window.live.readings().values())


def connect(window: MainWindow, where: int) -> None:
    window.connecting.choose(where)
    window.connecting.connect_line()


@pytest.mark.parametrize(("setting", "size"), SETTINGS, ids=str)
def test_simulated_no_state_moves_a_key(setting: Setting, size: tuple[int, int], tmp_path: Path) -> None:
    with status(bench_project(), setting, size) as (window, places):
        places.look_everywhere("not connected")
        bench = window.bench
        connect(window, 0)
        places.look_everywhere("connecting")
        settle_until(lambda: live(window))
        places.look_everywhere("live")
        assert window.live.session is not None
        assert window.live.session.simulation is not None
        fan = window.live.session.simulation.models["fan"]
        inputs = getattr(fan, "inputs", None)
        assert inputs is not None
        inputs.external_fault = True
        settle_until(lambda: "FAULT" in bench.face.rows[2].text)
        places.look_everywhere("tripped")
        inputs.external_fault = False
        fan.faults.exceptions = 1.0
        settle_until(lambda: any(each.quality == "refused" for each in window.live.readings().values()))
        places.look_everywhere("refused")
        fan.faults.clear()
        fan.silent = True
        settle_until(lambda: _answering(window, "fan") is False)
        places.look_everywhere("silent")
        fan.silent = False
        settle_until(lambda: _answering(window, "fan"))
        for setter in bench.findChildren(ValueSetter):
            setter.value.setText("much")
            QTest.keyClick(setter.value, Qt.Key.Key_Return)
        places.look_everywhere("refused set")
        _say_everything(window, places)
        window.document.do("Title", lambda project: project.replace(title=LONG))
        places.look_everywhere("changed design")
        window.document.undo()
        start_up = window.start_up
        places.look_everywhere("start-up made")
        record = tmp_path / f"{'long ' * 30}.fanrec"
        assert start_up.recording_control.record_into(record)
        places.look_everywhere("recording")
        start_up.recording_control.end_action.trigger()
        places.look_everywhere("recorded")
        assert start_up.play(record)
        places.look_everywhere("replay")
        start_up.close_recording()
        places.look_everywhere("live again")
        assert window.theme is not None
        before = window.theme.appearance
        window.theme.choose(Appearance.DARK if before is Appearance.LIGHT else Appearance.LIGHT)
        places.look_everywhere("other palette")
        window.theme.choose(before)
        window.connecting.disconnect_line()
        places.look_everywhere("disconnected")


def _answering(window: MainWindow, name: str) -> bool | None:
    session = window.live.session
    assert session is not None
    return session.snapshot().followers[name].answering


def _say_everything(window: MainWindow, places: Places) -> None:
    """Every place that says something says something long."""
    window.tell(LONG, trouble=True)
    places.look_everywhere("told")
    window.notices.say("changed", LONG, (("Compare", lambda: None), ("Reload it", lambda: None)))
    places.look_everywhere("file bar")
    for why in (window.bench.why, window.start_up.why):
        why.setText(LONG)
    places.look_everywhere("why not")
    window.notices.retract("changed")
    window.start_up.response.result.setText("\n".join([LONG] * 9))
    places.look_everywhere("response")
    window.strip.set_trouble("hall", LONG)
    places.look_everywhere("trouble on the strip")


@pytest.mark.parametrize(("setting", "size"), SETTINGS[:2], ids=str)
def test_on_a_real_line_neither_arming_nor_its_loss_moves_a_key(setting: Setting, size: tuple[int, int]) -> None:
    with Simulation(bench_project()) as device:
        port = device.serve_tcp(None, "127.0.0.1", 0)[1]
        with status(bench_project(port), setting, size) as (window, places):
            places.look_everywhere("not connected")
            connect(window, 1)
            settle_until(lambda: live(window))
            places.look_everywhere("live, locked")
            QTest.mouseClick(window.bench.face.keypad.buttons["start"], Qt.MouseButton.LeftButton)
            settle_until(lambda: window.bench.why.reason)
            places.look_everywhere("key refused")
            window.live.arm()
            places.look_everywhere("armed")
            window.bench.readings.view.selectRow(2)
            window.bench.write_action.trigger()
            places.look("write bar")
            window.bench.write_bar.hide()
            device.models["fan"].silent = True
            QTest.mouseClick(window.bench.face.keypad.buttons["stop"], Qt.MouseButton.LeftButton)
            alarm = window.findChild(StopAlarm)
            assert alarm is not None
            settle_until(alarm.isVisible)
            places.look_everywhere("unproved stop")
            assert not _global(alarm).intersects(_global(window.bench.face.keypad)), "it lies over the keys"
            device.models["fan"].silent = False
            settle_until(alarm.isHidden)
            places.look_everywhere("proved stop")
            device.stop()
            settle_until(lambda: _answering(window, "fan") is False)
            places.look_everywhere("line lost")
            window.live.disarm()
            places.look_everywhere("disarmed")
            window.connecting.disconnect_line()
            places.look_everywhere("disconnected")


@pytest.mark.parametrize(("setting", "size"), SETTINGS, ids=str)
def test_two_lines_and_long_names_move_no_key(setting: Setting, size: tuple[int, int]) -> None:
    project = load(demo_path("drying-hall"))
    with status(project, setting, size) as (window, places):
        places.look_everywhere("not connected")
        connect(window, 0)
        settle_until(lambda: live(window))
        places.look_everywhere("live")
        _say_two_lines(window)
        places.look_everywhere("trouble on both")


def _say_two_lines(window: MainWindow) -> None:
    for line in window.document.project.lines:
        window.strip.set_trouble(line.name, LONG)


@pytest.mark.parametrize(("setting", "size"), SETTINGS, ids=str)
def test_nothing_moves_a_key_while_a_screen_is_tried(setting: Setting, size: tuple[int, int]) -> None:
    with staged(setting) as window:
        window.take(bench_project(), None)
        window.resize(*size)
        window.show_workspace(DESIGN)
        settle()
        places = Places(window)
        design = window.design
        design.try_it()
        places.look("tried")
        design.editor.say(LONG)
        design.document.refused.emit(LONG)
        design.document.offered.emit(LONG, "Do it", lambda: None)
        places.look("something refused")
        notice = design.notice
        keys = next(face for face in window.workspace.findChildren(PanelFace) if face.isVisible()).keypad
        assert not notice.isVisible() or not _global(notice).intersects(_global(keys)), "it lies over the keys"
        design.editor.tryout.said.setText(LONG)
        places.look("the panel did something")
        window.notices.say("changed", LONG, (("Compare", lambda: None),))
        window.tell(LONG)
        places.look("a notice")
        for setter in design.findChildren(ValueSetter):
            setter.value.setText("much")
            QTest.keyClick(setter.value, Qt.Key.Key_Return)
        places.look("refused set")
        design.try_it()


def _global(widget: QWidget) -> QRect:
    return QRect(widget.mapToGlobal(QPoint(0, 0)), widget.size())


CHANGES: list[Callable[[MainWindow], object]] = [
    lambda window: window.notices.say("changed", LONG, (("Compare", lambda: None),)),
    lambda window: window.document.do("Title", lambda project: project.replace(title="other")),
    lambda window: window.theme.choose(Appearance.DARK) if window.theme else None,
    lambda window: window.bench.why.setText(LONG),
]


@pytest.mark.parametrize("number", range(len(CHANGES)))
def test_a_press_ends_on_the_key_where_it_began(number: int, qtbot: QtBot) -> None:
    """The pointer stands still, something happens while the button of the mouse is down; then it goes up."""
    with status(bench_project(), Setting(), SMALLEST_SCREEN) as (window, _places):
        connect(window, 0)
        settle_until(lambda: live(window))
        heard: list[str] = []
        window.bench.face.key_pressed.connect(lambda key: heard.append(f"+{key}"))
        window.bench.face.key_released.connect(lambda key: heard.append(f"-{key}"))
        stop = window.bench.face.keypad.buttons["stop"]
        pointer = stop.mapTo(window, stop.rect().center())
        handle = window.windowHandle()
        QTest.mousePress(handle, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, pointer)
        CHANGES[number](window)
        settle()
        QApplication.processEvents()
        QTest.mouseRelease(handle, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, pointer)
        assert heard == ["+stop", "-stop"]
        window.document.undo()


def _longest_advice() -> list[str]:
    """What the line says of a device that does not answer as it should: all kinds, the longest of each."""
    sentences = [exception_fault(code, "read holding 65400..65524").sentence for code in (*EXCEPTIONS, 0x77)]
    sentences += [refusal_words(code, register_text("holding", 465525)) for code in (*EXCEPTIONS, 0x77)]
    request = read_request(247, "holding", 0, 12)
    sound = bytes.fromhex("F7 03 18") + bytes(range(1, 25))
    sound += crc(sound)
    damaged = [sound[1:], sound[:3] + sound[2:], sound[:4] + bytes((sound[4] ^ 4,)) + sound[5:]]
    damaged.append(bytes(byte if byte.bit_count() % 2 else 0 for byte in sound))
    damaged += [bytes(4), bytes(29), bytes(60), sound[:9], b"\xf6" + sound[1:]]
    for data in damaged:
        guard = RtuGuard(request)
        guard.feed(data)
        sentences.append(guard.verdict().sentence)
    serial = Endpoint(kind="serial", device="/dev/serial/by-id/usb-adapter-if00-port0")
    network = Endpoint(kind="tcp", host="192.168.100.200", port=502)
    for number in (errno.EACCES, errno.ENOENT, errno.EBUSY, errno.ENOTTY, errno.EINVAL):
        sentences.append(opening_fault(serial, OSError(number, os.strerror(number))).sentence)
    for error in (ConnectionRefusedError(), TimeoutError(), OSError(errno.EHOSTUNREACH, ""), OSError(errno.EIO, "I/O")):
        sentences.append(opening_fault(network, error).sentence)
    return [*sentences, closed_fault(network, None).sentence, closed_fault(network, ConnectionResetError()).sentence]


@pytest.mark.parametrize("percent", [100, 150, 200])
@pytest.mark.parametrize("language", [Language.ENGLISH, Language.GERMAN])
def test_the_longest_advice_is_whole_on_the_card_or_a_press_away(language: Language, percent: int) -> None:
    with status(bench_project(), Setting(language=language, percent=percent), SMALLEST_SCREEN) as (window, _places):
        card = window.bench.cards.card(0)
        window.bench.show_devices()
        settle()
        height = card.height()
        for sentence in _longest_advice():
            card.show_state(FollowerState("fan", "hall", 1, answering=False, reason=sentence), 0.0)
            settle()
            assert card.body.text() == sentence
            assert card.body.whole != card.more_words.isVisible(), sentence
            assert card.height() == height
            seen = card.body.visibleRegion().boundingRect()
            assert seen.height() >= card.body.text_height(), f"only by scrolling: {sentence}"


@pytest.mark.parametrize("demo", ["booster-pump", "drying-hall"])
@pytest.mark.parametrize("percent", [100, 150, 200])
def test_every_key_is_whole_in_sight_on_the_smallest_screen(demo: str, percent: int) -> None:
    setting = Setting(language=Language.GERMAN, percent=percent)
    with status(load(demo_path(demo)), setting, SMALLEST_SCREEN) as (window, _places):
        for workspace in (BENCH, START_UP):
            window.show_workspace(workspace)
            settle()
            face = window.bench.face if workspace == BENCH else window.start_up.face
            for name, button in face.keypad.buttons.items():
                whole = QRect(QPoint(0, 0), button.size())
                assert button.visibleRegion().boundingRect() == whole, f"{name} on workplace {workspace}"


@pytest.mark.parametrize("size", [SMALLEST_SCREEN, LARGE], ids=str)
def test_letters_of_the_panel_become_no_smaller_as_all_else_is_drawn_larger(size: tuple[int, int]) -> None:
    heights = []
    for percent in (100, 125, 150, 175, 200):
        with status(bench_project(), Setting(percent=percent), size) as (window, _places):
            beyond = window.height() - size[1]
            bench = window.bench
            bench.setFixedHeight(bench.height() - max(0, beyond))  # another workspace may want a higher window
            settle()
            heights.append(bench.face.grid.pixels)
    assert all(height >= heights[0] for height in heights), heights
