"""Texts per value and names of keys, as they are typed into rows of forms."""

from __future__ import annotations

import pytest

from widgets.design.forms.screen_forms import read_keys
from widgets.design.signals.form import read_texts


def test_texts_of_values() -> None:
    assert read_texts("0 = off\nOtherwise = not known") == {"0": "off", "otherwise": "not known"}
    assert read_texts("0 = off\n\n 1=on = really \n-2 =") == {"0": "off", "1": "on = really", "-2": ""}
    for text, why in (("on", "line 1"), ("0=a\nx=b", "line 2"), ("1=a\n01=b", "already")):
        with pytest.raises(ValueError, match=why):
            read_texts(text)


def test_key_names() -> None:
    assert read_keys(" left, right ,,enter ") == ("left", "right", "enter")
    with pytest.raises(ValueError, match="'a'"):
        read_keys("a, b, a")
