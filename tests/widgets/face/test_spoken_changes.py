"""What is said of a panel that has the focus: words and looks at once, numbers when still, old values as such."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator

import pytest
from PySide6.QtGui import QAccessible
from pytestqt.qtbot import QtBot

from app.panel.rendering import Attribute, Row, Rows
from widgets.face.spoken_changes import STILL_S, SpokenChanges, spoken_rows
from widgets.speech.voice import Urgency, Voice

PLAIN, STALE, INVERSE = Attribute.NONE, Attribute.STALE, Attribute.INVERSE
Panel = tuple[SpokenChanges, list[str]]


def row(text: str, look: Attribute = PLAIN) -> Row:
    return Row(text.ljust(20), (look,) * 20)


def rows(speed: str, state: str = "running", look: Attribute = PLAIN) -> Rows:
    return row("BOOSTER PUMP"), row(f"Speed    {speed} Hz", look), row("=========="), row(state)


@pytest.fixture
def panel(qapp: object) -> Iterator[Panel]:
    QAccessible.setActive(True)
    said: list[str] = []

    def hear(words: str, _assertive: bool) -> bool:
        said.append(words)
        return True

    changes = SpokenChanges(Voice(hear))
    changes.begin(rows(" 0.0", "stopped"))
    yield changes, said
    changes.end()
    QAccessible.setActive(False)


def test_rows_are_read_without_what_is_only_drawn_and_old_ones_first() -> None:
    assert spoken_rows(rows(" 9.5")) == "BOOSTER PUMP; Speed 9.5 Hz; running"
    assert spoken_rows(rows(" 9.5", look=STALE)) == "Old values: Speed 9.5 Hz. BOOSTER PUMP; running"
    assert spoken_rows([row("Speed  ----- Hz"), row("Power ##### kW")]) == "Speed no value Hz; Power too long kW"


def test_words_are_said_at_once_and_a_running_number_when_it_stands(panel: Panel, qtbot: QtBot) -> None:
    changes, said = panel
    began = time.monotonic()
    while time.monotonic() - began < 2.5:  # a start, by which the number changes ten times a second
        changes.show(rows(f"{10 * (time.monotonic() - began):4.1f}"))
        qtbot.wait(100)
    assert said == ["running"]
    changes.show(rows("41.7"))
    stood = time.monotonic()
    qtbot.waitUntil(lambda: len(said) > 1)
    assert said == ["running", "Speed 41.7 Hz"]
    assert time.monotonic() - stood >= STILL_S - 0.1


def test_what_grows_old_is_said_at_once_as_old(panel: Panel, qtbot: QtBot) -> None:
    changes, said = panel
    changes.show(rows(" 0.0", "stopped", STALE))
    qtbot.waitUntil(lambda: bool(said), timeout=int(1000 * STILL_S / 2))
    assert said == ["Old values: Speed 0.0 Hz"]


def test_a_message_is_said_and_what_it_covered_is_not_repeated(panel: Panel, qtbot: QtBot) -> None:
    changes, said = panel
    plain = rows(" 0.0", "stopped")
    changes.show((*plain[:3], row("Not possible", INVERSE)))
    qtbot.waitUntil(lambda: said == ["Not possible"])
    changes.show(plain)
    settled: Callable[[], bool] = lambda: not changes._still.isActive() and not changes._news.isActive()  # noqa: E731
    qtbot.waitUntil(settled)
    assert said == ["Not possible"]


def test_a_value_that_is_changed_by_hand_is_said_soon(panel: Panel, qtbot: QtBot) -> None:
    changes, said = panel
    before = rows(" 0.0", "stopped")
    looks = (PLAIN,) * 9 + (INVERSE,) * 4 + (PLAIN,) * 7
    changes.show((before[0], Row("Speed     0.5 Hz    ", looks), *before[2:]))
    began = time.monotonic()
    qtbot.waitUntil(lambda: bool(said))
    assert said == ["Speed 0.5 Hz"]
    assert time.monotonic() - began < STILL_S


def test_news_that_was_broken_off_is_said_as_it_is_by_then(panel: Panel, qtbot: QtBot) -> None:
    changes, said = panel
    changes.show(rows(" 0.0", "stopped", STALE))
    qtbot.waitUntil(lambda: said == ["Old values: Speed 0.0 Hz"])
    changes._voice.say("the drive has tripped", Urgency.URGENT)
    changes.show(rows(" 0.0", "stopped"))
    qtbot.waitUntil(lambda: len(said) == 3)
    assert said[1:] == ["the drive has tripped", "Speed 0.0 Hz"]
