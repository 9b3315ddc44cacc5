"""The parts that everything of SSH is made of: texts with their length before them (RFC 4251, section 5)."""

from __future__ import annotations

from app.errors import FanlightError


class Malformed(FanlightError, ValueError):
    """Bytes end before they should, or later."""


def packed(content: bytes) -> bytes:
    """A text of SSH: four bytes of length, then the text."""
    return len(content).to_bytes(4, "big") + content


class Unpacker:
    """Takes such bytes apart, from their beginning on. Nothing may be missing, and nothing left."""

    def __init__(self, content: bytes) -> None:
        self._content = content
        self._at = 0

    def take(self, count: int) -> bytes:
        """The next bytes. Raises Malformed if there are not so many."""
        if count > len(self._content) - self._at:
            raise Malformed
        self._at += count
        return self._content[self._at - count : self._at]

    def number(self) -> int:
        """The next four bytes, as a number."""
        return int.from_bytes(self.take(4), "big")

    def text(self) -> bytes:
        """The next text."""
        return self.take(self.number())

    def end(self) -> None:
        """Nothing may follow. Raises Malformed."""
        if self._at != len(self._content):
            raise Malformed
