"""Keys of the keyboard that stand for keys of the panel."""

from __future__ import annotations

from hypothesis import given, strategies as st
from PySide6.QtCore import Qt

from widgets.face.keypad import keyboard_map

Key = Qt.Key


def test_arrows_enter_and_escape_stand_for_themselves() -> None:
    found = keyboard_map(["left", "right", "up", "down", "enter", "escape"])
    assert found[Key.Key_Left] == "left"
    assert found[Key.Key_Return] == found[Key.Key_Enter] == "enter"
    assert found[Key.Key_Escape] == "escape"
    assert Key.Key_F1 not in found


def test_other_names_get_the_function_keys_in_order() -> None:
    found = keyboard_map(["up", "start", "stop", "F1", "reset"])
    assert found[Key.Key_F1] == "F1", "a key of that name comes first, wherever it stands"
    assert [found[key] for key in (Key.Key_F2, Key.Key_F3, Key.Key_F4)] == ["start", "stop", "reset"]


def test_digits_letters_and_signs_stand_for_themselves() -> None:
    found = keyboard_map(["7", "p", "+"])
    assert found == {Key.Key_7: "7", Key.Key_P: "p", Key.Key_Plus: "+"}


def test_more_keys_than_the_keyboard_has_leave_the_last_without() -> None:
    names = [f"key {n}" for n in range(15)]
    assert list(keyboard_map(names).values()) == names[:12]


@given(st.lists(st.text(min_size=1, max_size=6), unique=True, max_size=40))
def test_no_key_of_the_panel_is_on_two_keys_but_enter(names: list[str]) -> None:
    found = keyboard_map(names)
    found.pop(Key.Key_Enter, None)
    assert len(set(found.values())) == len(found)
    assert set(found.values()) <= set(names)
