"""Texts of others made fit to be shown: what would steer a terminal, or turn a line around, is shown and not obeyed."""

from __future__ import annotations

import json
import unicodedata


def visible(text: str) -> str:
    """`text` with pictures of its control characters (U+2400 and on), and codes of all else that cannot be printed.

    So are shown: C0 and C1 controls, line and paragraph separators, marks that change the direction of writing,
    invisible ones, and halves of surrogate pairs, which stand for the bytes of a file name that is not UTF-8. Blanks of
    every width stay as they are.
    """
    return text if text.isprintable() else "".join(map(_visible, text))


def _visible(char: str) -> str:
    if char.isprintable() or unicodedata.category(char) == "Zs":
        return char
    code = ord(char)
    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "\u2421"
    return f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def visible_json(text: str) -> str:
    """JSON that means the same, with escapes for what is not to reach a terminal. Its own line ends stay."""
    if text.isprintable():
        return text
    return "".join(char if char.isprintable() or char == "\n" else json.dumps(char)[1:-1] for char in text)
