"""Keys of a panel, pressed and let go, whatever operates it: a session, a rehearsal, a window's live session."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from app.panel.machine import Effect


class Operated(Protocol):
    """What has a panel."""

    def key_down(self, key: str, /) -> Iterable[Effect] | None: ...

    def key_up(self, key: str, /) -> Iterable[Effect] | None: ...


def press(panel: Operated, *keys: str) -> list[Effect]:
    """One after the other. Gives what all of them brought about, where it tells."""
    return [effect for key in keys for end in (panel.key_down, panel.key_up) for effect in end(key) or ()]
