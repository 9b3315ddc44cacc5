"""The frames of a transaction in their parts: what each byte is, and what it says."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import Final

from app.language import mark, translate


class FrameRole(enum.StrEnum):
    """What a frame, or a run of bytes that is none, is to the request."""

    REQUEST = "request"
    ANSWER = "answer"
    REFUSAL = "refusal"
    """The follower answered with an exception."""
    ECHO = "echo"
    """Our own request, heard again through the adapter."""
    OTHER_CLIENT = "other-client"
    """The request of another client on the same serial line."""
    STRANGER = "stranger"
    """A sound frame that does not answer this request."""
    DAMAGED = "damaged"
    """The answer, with a check sum that does not fit or without its first byte."""
    CUT = "cut"
    """The answer, broken off."""
    NOISE = "noise"
    """Bytes that make no frame."""


ROLE_WORDS: Final = {
    FrameRole.REQUEST: mark("bus", "request"),
    FrameRole.ANSWER: mark("bus", "answer"),
    FrameRole.REFUSAL: mark("bus", "answer: refused"),
    FrameRole.ECHO: mark("bus", "echo of the request from the adapter"),
    FrameRole.OTHER_CLIENT: mark("bus", "request of another client"),
    FrameRole.STRANGER: mark("bus", "a frame that does not answer this request"),
    FrameRole.DAMAGED: mark("bus", "damaged answer"),
    FrameRole.CUT: mark("bus", "incomplete answer"),
    FrameRole.NOISE: mark("bus", "bytes that are not a frame"),
}


@dataclass(frozen=True, slots=True)
class FramePart:
    """Some bytes of a frame, what they are, and what they say. `wrong` marks what does not fit the request.

    `signals` names the signals of the project that these bytes are about.
    """

    data: bytes
    name: str
    words: str
    signals: tuple[str, ...] = ()
    wrong: bool = False


@dataclass(frozen=True, slots=True)
class Frame:
    """A frame, or a run of bytes that is none, in its parts."""

    role: FrameRole
    parts: tuple[FramePart, ...]

    @property
    def data(self) -> bytes:
        """All its bytes."""
        return b"".join(part.data for part in self.parts)

    @property
    def words(self) -> str:
        """What it is to the request."""
        return translate("bus", ROLE_WORDS[self.role])
