"""Texts of an export in quotation marks, where a spreadsheet would change them or take them for a formula."""

from __future__ import annotations

import json
import re
from typing import Final

_CHANGED: Final = re.compile(
    '^\\s|\\s$|^"|^\ufeff|[\x00-\x09\x0b-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufffe\uffff]|_x[0-9A-Fa-f]{4}_|^$'
)
"""What does not come back as it was: blanks at the ends, control characters, what XML cannot hold."""
NO_UNIT: Final = ("-", "--", "\u2013", "\u2014")
"""What lists write where a value has no unit."""
_FORMULA: Final = ("=", "+", "-", "@")


def quoted(text: str, *, always: bool = False, formulas: bool = True) -> str:
    """`text` as a cell: itself, or as a JSON string in quotation marks where it would not come back as it is.

    `always` quotes an empty text and any other too. `formulas`: also what spreadsheets would calculate.
    """
    if always or (text and (_CHANGED.search(text) or (formulas and text.startswith(_FORMULA)))):
        return json.dumps(text, ensure_ascii=False).translate(_ESCAPES).replace("_x", "\\u005fx")
    return text


_ESCAPES: Final = {
    code: f"\\u{code:04x}"
    for code in (*range(0x7F, 0xA0), 0x2028, 0x2029, 0xFEFF, 0xFFFE, 0xFFFF, *range(0xD800, 0xE000))
}


def unquoted(text: str) -> str | None:
    """What stands in the quotation marks of a cell that `quoted` wrote; None for any other cell."""
    if len(text) < 2 or text[0] != '"' or text[-1] != '"':
        return None
    try:
        found = json.loads(text)
    except ValueError:
        return None
    return found if isinstance(found, str) else None
