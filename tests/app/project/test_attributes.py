"""The table of attributes agrees with the models, and what it writes it reads."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from app.project.attributes import ATTRIBUTES, SIGNAL, keys_of
from app.project.model import Bit, BitSignal, HeldSignal, Part, RegisterSignal, Scale

NUMBER = RegisterSignal.model_validate(
    {
        "name": "speed",
        "follower": "pump",
        "register": 8330,
        "encoding": "uint32",
        "word_order": "low-first",
        "scale": Scale(raw=(Decimal(0), Decimal(10_000)), value=(Decimal(0), Decimal(50))),
        "unit": "Hz",
        "decimals": 2,
        "limits": (Decimal("-0.5"), Decimal("41.65")),
        "step": Decimal("0.1"),
        "texts": {"0": "off; all", "otherwise": '"on"'},
        "write": True,
        "every_ms": 250,
        "refresh_ms": 900,
        "drive_role": "output-frequency",
        "notes": "two\nlines",
    }
)
WORD = RegisterSignal.model_validate({"name": "state", "follower": "pump", "register": 0, "hex": True})
BIT = BitSignal(name="fault", bit=Bit(of="state", number=3), drive_role="fault")
SIGNALS = (NUMBER, WORD, BIT, HeldSignal(name="wanted", held=Decimal("1.5")))


@pytest.mark.parametrize("model", [RegisterSignal, BitSignal, HeldSignal])
def test_every_key_of_a_signal_has_its_entry(model: type[Part]) -> None:
    assert set(keys_of(model)) == {field.alias or name for name, field in model.model_fields.items()}


def test_no_entry_is_of_nothing() -> None:
    assert {key for signal in SIGNALS for key in keys_of(type(signal))} == set(ATTRIBUTES)
    assert len(ATTRIBUTES) == len(SIGNAL)


@pytest.mark.parametrize("signal", SIGNALS, ids=lambda signal: signal.name)
def test_what_stands_in_a_cell_is_read_as_the_same_value(signal: Any) -> None:
    shown = [attribute for attribute in SIGNAL if attribute.width and attribute.is_of(signal)]
    assert len(shown) >= 6
    for attribute in shown:
        assert attribute.read(signal, attribute.text(signal)) == getattr(signal, attribute.key), attribute.key


def test_an_empty_cell_is_nothing_where_there_may_be_nothing() -> None:
    empty = {
        key: ATTRIBUTES[key].read(NUMBER, " ") for key in ("word_order", "limits", "step", "drive_role", "refresh_ms")
    }
    assert empty == {"word_order": None, "limits": None, "step": None, "drive_role": None, "refresh_ms": 0}
    with pytest.raises(ValueError, match="enter a whole number"):
        ATTRIBUTES["every_ms"].read(NUMBER, "")


def test_a_bit_can_only_be_what_is_on_or_off() -> None:
    with pytest.raises(ValueError, match="'output-frequency' is not one of these: "):
        ATTRIBUTES["drive_role"].read(BIT, "output-frequency")
