"""Keys of a panel, pressed and let go, whatever operates it: a session, a rehearsal, a window's live session."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Protocol

from app.panel.machine import Effect
from app.session.session import Session


class Operated(Protocol):
    """What has a panel."""

    def key_down(self, key: str, /) -> Iterable[Effect] | None: ...

    def key_up(self, key: str, /) -> Iterable[Effect] | None: ...


def press(panel: Operated, *keys: str) -> list[Effect]:
    """One after the other. Gives what all of them brought about, where it tells."""
    return [effect for key in keys for end in (panel.key_down, panel.key_up) for effect in end(key) or ()]


def shows(session: Session, *texts: str) -> Callable[[], bool]:
    """Whether the panel of a session shows all of these texts, asked whenever it is called."""

    def look() -> bool:
        session.panel.tick()
        face = "\n".join(row.text for row in session.panel.rows())
        return all(text in face for text in texts)

    return look
