"""Our repertoires against other tables of the same characters.

Sources: PyPI `RPLCD`, `RPLCD/codecs/hd44780_a00.py` and `hd44780_a02.py` (character tables A00 and A02 of the HD44780U
display controller); the codecs `ascii` and `latin-1` of the Python standard library.
"""

from __future__ import annotations

from types import ModuleType

import pytest
from RPLCD.codecs import hd44780_a00, hd44780_a02

from app.signals.repertoire import repertoire

# What the reference takes for a cell that shows something else: dashes and blanks for their plainer cousins, and
# letters for cells that only resemble them. A check that let them pass would promise what the panel does not show.
LOOKALIKES = "\u00a0\u2010\u2011\u2012\u2013\u2014\u2015"
LEFT_OUT = {
    "lcd-kana": set(LOOKALIKES + "\u3000\u309b\u309c¤ˣ\u2c60\u03f4"),
    "lcd-european": set(LOOKALIKES + "ᴼ\u2661\u2764"),
}
# What the reference has no entry for.
ADDED = {
    # theta: the reference writes the capital symbol U+03F4, its comment says small theta; the micro sign and the
    # sharp s are drawn as mu and beta
    "lcd-kana": {"θ": 0xF2, "µ": 0xE4, "ß": 0xE2},
    # the ring at 0xB0 is where Latin-1 has its degree sign, as all cells around it are; the micro sign as mu
    "lcd-european": {"°": 0xB0, "µ": 0xB5},
}


@pytest.mark.parametrize(("name", "reference"), [("lcd-kana", hd44780_a00), ("lcd-european", hd44780_a02)])
def test_character_tables_are_those_of_the_reference(name: str, reference: ModuleType) -> None:
    free_for_own_characters = range(8)
    theirs = {
        character: code
        for character, code in reference.encoding_table.items()
        if code not in free_for_own_characters and character not in LEFT_OUT[name]
    }
    assert len(theirs) > 180
    ours = dict(repertoire(name).codes)
    for character, code in ADDED[name].items():
        assert ours.pop(character) == code
        assert character not in reference.encoding_table
    assert ours == theirs


@pytest.mark.parametrize("name", LEFT_OUT)
def test_what_is_left_out_is_in_the_reference(name: str) -> None:
    reference = {"lcd-kana": hd44780_a00, "lcd-european": hd44780_a02}[name]
    assert set(reference.encoding_table) >= LEFT_OUT[name]
    assert not LEFT_OUT[name] & set(repertoire(name).codes)


@pytest.mark.parametrize("name", ["ascii", "latin-1"])
def test_codes_are_those_of_the_codec(name: str) -> None:
    codes = {}
    for code in range(256):
        try:
            character = bytes([code]).decode(name)
        except UnicodeDecodeError:
            continue
        if character.isprintable():
            codes[character] = code
    assert repertoire(name).codes == codes
