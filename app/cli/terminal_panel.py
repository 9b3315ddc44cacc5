"""The panel operated in a text terminal."""

from __future__ import annotations

from contextlib import suppress
from itertools import groupby
from typing import Any

from prompt_toolkit.application import Application
from prompt_toolkit.formatted_text import StyleAndTextTuples
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.layout import HSplit, Layout, Window
from prompt_toolkit.layout.controls import FormattedTextControl

from app.line.status import Statuses, StatusLevel
from app.panel.driver import PanelDriver
from app.panel.rendering import Attribute, Row
from app.session.session import Session
from app.signals.visible import visible

FRAME_S = 0.05
"""How often the screen is drawn anew, in seconds."""

ARROWS = {"left": "left", "right": "right", "up": "up", "down": "down", "enter": "enter", "escape": "escape"}
"""Panel keys that have a key of the same meaning on every keyboard; the others are laid on F1, F2, ..."""


def keyboard(keys: tuple[str, ...]) -> dict[str, str]:
    """The keyboard key for each panel key, in the order of the panel. Keys beyond F12 are not reachable."""
    places = {key: ARROWS[key] for key in keys if key in ARROWS}
    others = [key for key in keys if key not in ARROWS]
    return places | {key: f"f{number}" for number, key in enumerate(others[:12], start=1)}


def operate(session: Session) -> int:
    """Show the panel of a running session and pass keys on, until Ctrl+C, Ctrl+Q or the end of the terminal's input.

    Returns the exit status 0.

    A terminal tells when a key goes down but not when it comes up: each press is let go at once.
    """
    bindings = KeyBindings()
    places = keyboard(session.project.panel.keys)
    for key, place in places.items():

        @bindings.add(place, eager=True)
        def _press(_event: KeyPressEvent, key: str = key) -> None:
            session.panel.key_down(key)
            session.panel.key_up(key)

    @bindings.add("c-c")
    @bindings.add("c-q")
    @bindings.add("<sigint>")  # not from the keyboard, but from another program
    def _leave(event: KeyPressEvent) -> None:
        event.app.exit()

    def screen() -> StyleAndTextTuples:
        session.panel.tick()
        return _format(session.panel)

    legend = "  ".join(f"{key}: {place}" if key != place else key for key, place in places.items())
    application: Application[Any] = Application(
        layout=Layout(
            HSplit(
                [
                    Window(
                        FormattedTextControl(screen), height=session.project.panel.rows + 2, always_hide_cursor=True
                    ),
                    Window(FormattedTextControl(lambda: _warnings(session)), wrap_lines=True, dont_extend_height=True),
                    Window(FormattedTextControl(lambda: _state_of_followers(session)), wrap_lines=True),
                    Window(FormattedTextControl(f"{visible(legend)}  leave: Ctrl+C"), height=1, style="reverse"),
                ]
            )
        ),
        key_bindings=bindings,
        full_screen=True,
        refresh_interval=FRAME_S,
    )
    # An escape byte also begins every arrow key; without this limit the Esc key would wait half a second.
    application.ttimeoutlen = 0.05
    application.timeoutlen = 0.05
    with suppress(EOFError):
        application.run()
    return 0


def _format(panel: PanelDriver) -> StyleAndTextTuples:
    edge = "+" + "-" * panel.project.panel.columns + "+"
    shown: StyleAndTextTuples = [("", edge + "\n")]
    for row in panel.rows():
        shown += [("", "|"), *_runs(row), ("", "|\n")]
    return [*shown, ("", edge)]


def _runs(row: Row) -> StyleAndTextTuples:
    cells = zip(row.text, row.attributes, strict=True)
    return [
        (_style(attribute), visible("".join(text for text, _ in run)))
        for attribute, run in groupby(cells, lambda c: c[1])
    ]


def _style(attribute: Attribute) -> str:
    styles = {Attribute.INVERSE: "reverse", Attribute.BLINK: "blink", Attribute.STALE: "italic underline"}
    return " ".join(style for flag, style in styles.items() if flag in attribute)


def _warnings(session: Session) -> StyleAndTextTuples:
    """Stops that are not proved, and that a line disarmed itself; nothing while all is well."""
    unproved = session.unproved
    told: StyleAndTextTuples = []
    if unproved is not None:
        told += [("bold reverse", f" {visible(unproved.headline)} \n")]
        told += [("", f"{visible(line)}\n") for line in unproved.words.splitlines()]
    if session.disarmed:
        told.append(("bold", f"{visible(session.disarmed)}\n"))
    return told


def _state_of_followers(session: Session) -> str:
    snapshot = session.snapshot()
    statuses = Statuses(session.project, snapshot)
    told = {name: statuses.of(name) for name in snapshot.followers}
    return "\n".join(
        visible(f"{name}: {status.sentence if status.level >= StatusLevel.DATA else 'answering'}")
        for name, status in told.items()
    )
