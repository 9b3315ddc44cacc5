"""The window that finds out a device, in every state that it is met in: what stands in it is staged, not searched."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from typing import Final
from unittest.mock import patch

from PySide6.QtWidgets import QWidget

from app.client.endpoint import Endpoint
from app.discovery.into_project import NamedRegister
from app.discovery.past import PastRegisters
from app.discovery.search import trying
from app.language import translate
from app.listening.evidence import EvidenceGatherer, LineEvidence
from app.listening.listener import Listener
from app.listening.trouble import line_trouble
from app.matching.reading_ways import RegisterWords
from app.modbus.serial_port import LineSettings
from app.probing.found import Found, FoundFollower, FoundRange
from app.probing.registers import RegisterState
from app.probing.settings_search import Attempt, Outlook
from app.signals.numbering import Table
from tests.pictures.stage import settle, settle_until
from tests.traffic import answer, ask
from widgets.document.settings import Settings
from widgets.find_out.investigation import Investigation
from widgets.find_out.window import LINE, PROJECT, REGISTERS, SEARCH, WHICH, FindOutWindow
from widgets.kit.dialogs.questions import Question
from widgets.shell.window import MainWindow

PLACE: Final = Endpoint.serial("/dev/ttyUSB0")
SETTINGS: Final = LineSettings(38_400, "none", 1)
HOIST: Final = 41
"""The unit address of the device that everything is known of."""

Opened = Callable[[MainWindow], AbstractContextManager[QWidget]]
Staged = Callable[[FindOutWindow], object]


def _window(step: int, stage: Staged = lambda _made: None, *, at_work: bool = False) -> Opened:
    """At a step, `stage` having put in what was found; `at_work`: while the search goes on."""

    @contextmanager
    def opened(window: MainWindow) -> Iterator[QWidget]:
        made = FindOutWindow(Settings(keep=False), project_open=lambda: True, parent=window)
        made.begin_at(PLACE)
        made.line.consent.setChecked(True)
        made.about.begin_at(PLACE)
        with patch.object(Investigation, "at_work", at_work):
            stage(made)
            if at_work:
                made.about.working.emit(True)
            made.about.changed.emit()
            made.show()
            made.go_to(step)
            settle()
            yield made
        made.leave()
        made.deleteLater()
        settle()

    return opened


def _found(made: FindOutWindow) -> None:
    """Two devices, the registers of one of them read, and two of those named."""
    about = made.about
    state = RegisterState({at: 977 * at % 65_536 for at in (*range(48), *range(200, 260))}, longest=60)
    about.examination.states[HOIST, "holding"] = state
    about.state.found = Found(
        SETTINGS,
        None,
        (
            FoundFollower(
                HOIST,
                response_ms=18.4,
                slow_response_ms=31.0,
                functions=(3, 4, 17),
                identification={"ServerId": "HX-4 hoist drive"},
                longest_read=60,
                ranges=state.ranges("holding"),
                notes=("It answers only while its door is shut, or so it seems from a note that is rather long.",),
            ),
            FoundFollower(7, response_ms=6.1),
        ),
        probes=1422,
        seconds=81.5,
    )
    noon = datetime.datetime(2026, 3, 1, 11, 58, 40, tzinfo=datetime.UTC)
    about._read_between[HOIST] = noon, noon + datetime.timedelta(seconds=81.5)
    about.name(HOIST, NamedRegister("output frequency", "holding", 2, unit="Hz", decimals=2))
    about.name(HOIST, NamedRegister("motor current", "holding", 12, unit="A", decimals=1))


def _looking_for_settings(made: FindOutWindow) -> None:
    about = made.about
    about.state.found = Found(probes=212, seconds=24.6, stopped_by="done")
    about.sentence = trying(Attempt(LineSettings(19_200, "even", 1), 41), Outlook(0.37, 97.0, 9000.0))


def _looking_for_units(made: FindOutWindow) -> None:
    about = made.about
    about.state.found = Found(SETTINGS, None, (FoundFollower(7, response_ms=6.1),), probes=268, seconds=33.1)
    about.sentence = translate("finding out", "Asking unit {unit}, {left} units are left.").format(unit=42, left=205)
    about.seconds_left = 96.0


def _heard(made: FindOutWindow) -> None:
    """Another master, from the bytes that it and its devices send."""
    listener = Listener()
    at = 0.0
    for turn in range(40):
        for frame in (
            *(ask(3, 3, 100, 12), answer(3, 3, [8330 + turn, 1207, 17, 0, 0, 3, 977, 21, 40, 5, 12_000, turn])),
            *(ask(3, 4, 0, 2), answer(3, 4, [614, turn])),
            *(ask(12, 3, 40_000, 2), answer(12, 3, [turn, 65_535])),
            ask(20, 3, 0, 1),
        ):
            listener.feed(frame, at)
            at += 0.02
    heard = listener.heard(LineSettings(19_200, "even", 1), at)
    followers = tuple(
        FoundFollower(one.unit, functions=one.functions, ranges=tuple(FoundRange(*part) for part in one.ranges))
        for one in heard.units
        if one.answers
    )
    made.about.state.found = Found(
        heard.settings, heard.as_json(), followers, seconds=heard.seconds, stopped_by="somebody else"
    )


def _trouble(*evidence: LineEvidence) -> Staged:
    def stage(made: FindOutWindow) -> None:
        made.about.trouble = line_trouble(evidence)
        made.about.state.found = Found(probes=max(1, sum(one.requests for one in evidence)), seconds=184.0)

    return stage


def _silent(*speeds: int, requests: int = 36) -> list[LineEvidence]:
    gathered = []
    for speed in speeds:
        gather = EvidenceGatherer(LineSettings(speed, "even", 1))
        for unit in range(1, requests + 1):
            gather.asked(unit, "silence", b"")
        gathered.append(gather.evidence())
    return gathered


def _disturbed() -> LineEvidence:
    """Noise between frames, and answers that are garbled."""
    gather = EvidenceGatherer(SETTINGS)
    for number in range(20):
        sound = answer(7, 3, [8330])
        gather.asked(7, *(("garbled", sound[:4] + b"\x07" + sound[5:]) if number % 3 == 0 else ("answer", sound)))
    gather.listened(10.0, b"\x00\xff\x80\x00\xfe\xf8", 0, 6)
    return gather.evidence()


def _wrong_speeds(*speeds: int) -> list[LineEvidence]:
    """Something came, but with many stop bits missing."""
    gathered = []
    for speed in speeds:
        gather = EvidenceGatherer(LineSettings(speed, "even", 1))
        gather.listened(2.0, b"\x00\xfe\x3c\x80" * 10, 0, 40, framing_errors=17, breaks=2, parity_errors=12)
        gathered.append(gather.evidence())
    return gathered


def _disturbed_device(made: FindOutWindow) -> None:
    made.about.trouble = line_trouble([_disturbed()])
    made.about.state.found = Found(SETTINGS, None, (FoundFollower(7, response_ms=6.1),), probes=268, seconds=33.1)


def _stopped(made: FindOutWindow) -> None:
    made.about.trouble = line_trouble(_silent(19_200, requests=14), finished=False)
    made.about.state.found = Found(probes=14, seconds=3.2, stopped_by="person")


def _bare(made: FindOutWindow) -> None:
    """A device of which no register is known."""
    made.about.state.found = Found(SETTINGS, None, (FoundFollower(7, response_ms=6.1),), probes=268, seconds=33.1)


def _closer(made: FindOutWindow) -> None:
    _found(made)
    made.registers.closer.set_open(True)


def _readings(made: FindOutWindow) -> None:
    """After three readings: a register, a set point that follows it, and what is open yet."""
    _found(made)
    made.about.changed.emit()
    page = made.which
    for shown, raw, other in (("41.65 Hz", 4165, 4166), ("0.00 Hz", 0, 0), ("12.5 Hz", 1250, 1248)):
        page.value.setText(shown)
        with patch.object(Investigation, "read_now", return_value=True):
            page.read_now()
        still: RegisterWords = {("holding", at): (at * 977) % 1000 for at in range(60)}
        for _ in range(2):
            page.take({**still, ("holding", 13): raw, ("holding", 12): 0, ("holding", 40): other})
    settle_until(lambda: len(page.candidates.result.readings) == 3)
    page.signal_name.setText("output frequency")


def _moving(made: FindOutWindow) -> None:
    """A third one, while the display goes on."""
    _readings(made)
    page = made.which
    page.value.setText("33.10 Hz")
    with patch.object(Investigation, "read_now", return_value=True):
        page.read_now()
    for raw in (3310, 3480):
        page.take({**page.readings[-1].registers, ("holding", 13): raw, ("holding", 40): raw})
    settle_until(lambda: not page.keep_button.isHidden())


@contextmanager
def _closing(window: MainWindow) -> Iterator[QWidget]:
    """The question before what was found is forgotten."""
    asked: list[Question] = []

    def look(question: Question) -> int:
        asked.append(question)
        return 0

    with _window(SEARCH, _found)(window) as made, patch.object(Question, "deleteLater"):
        assert isinstance(made, FindOutWindow)
        with patch.object(Question, "exec", look):
            made.may_close()
        asked[0].show()
        settle()
        yield asked[0]
        asked[0].close()


def _recording(made: FindOutWindow) -> None:
    """Registers are looked up in a recording, of which one moment was entered, and another one outside of it."""
    _found(made)
    made.about.changed.emit()
    begin = datetime.datetime(2026, 3, 1, 14, 6, 0, tzinfo=datetime.UTC)
    made.which.add_past(
        [PastRegisters("run-3.fanrec, hoist", HOIST, begin, 754.0, lambda _at: dict.fromkeys(_places(), 4165))], HOIST
    )
    for shown, moment in (("41.65 Hz", "14:06:30"), ("12.5 Hz", "13:00")):
        made.which.value.setText(shown)
        made.which.moment.setText(moment)
        made.which.read_now()
    settle_until(lambda: len(made.which.candidates.result.readings) == 1)


def _places() -> list[tuple[Table, int]]:
    return [("holding", at) for at in range(13, 16)]


_USUAL: Final = (19_200, 9600, 38_400, 57_600, 115_200)

PANES: Final[dict[str, Opened]] = {
    "dialog-find-out-line": _window(LINE),
    "dialog-find-out-settings": _window(SEARCH, _looking_for_settings, at_work=True),
    "dialog-find-out-units": _window(SEARCH, _looking_for_units, at_work=True),
    "dialog-find-out-search": _window(SEARCH, _found),
    "dialog-find-out-heard": _window(SEARCH, _heard),
    "dialog-find-out-disturbed": _window(SEARCH, _disturbed_device),
    "dialog-find-out-trouble": _window(SEARCH, _trouble(*_wrong_speeds(*_USUAL))),
    "dialog-find-out-nobody": _window(SEARCH, _trouble(*_silent(*_USUAL))),
    "dialog-find-out-early": _window(SEARCH, _stopped),
    "dialog-find-out-registers": _window(REGISTERS, _found),
    "dialog-find-out-closer": _window(REGISTERS, _closer),
    "dialog-find-out-no-registers": _window(REGISTERS, _bare),
    "dialog-find-out-which": _window(WHICH, _found),
    "dialog-find-out-readings": _window(WHICH, _readings),
    "dialog-find-out-moving": _window(WHICH, _moving),
    "dialog-find-out-recording": _window(WHICH, _recording),
    "dialog-find-out-project": _window(PROJECT, _found),
    "dialog-find-out-no-names": _window(PROJECT, _bare),
    "dialog-find-out-closing": _closing,
}
