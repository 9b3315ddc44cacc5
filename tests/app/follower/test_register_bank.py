"""The register cells of one follower."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from pymodbus.constants import ExcCodes

from app.follower.drive_bank import DriveBank
from app.follower.errors import FollowerError
from app.follower.register_bank import RegisterBank
from app.project.model import Project
from tests.app.follower.playing import bank_project, drive_project, signal


def bank(project: Project) -> RegisterBank:
    return RegisterBank(project, project.followers[0])


def test_it_has_the_cells_that_signals_name_and_no_others() -> None:
    it = bank(
        bank_project(
            signal("level", 40_011, encoding="float32"),
            signal("valve", 3, table="coil"),
            signal("door", 10_002, table="discrete"),
            signal("code", 30_001, table="input"),
            signal("label", 40_020, encoding="string", length=3),
            numbering="prefixed",
            gaps=False,
        )
    )
    assert list(it.cells("holding")) == [10, 11, 19, 20, 21]
    assert list(it.cells("coil")) == [2]
    assert list(it.cells("discrete")) == [1]
    assert list(it.cells("input")) == [0]
    assert it.has("holding", 10, 2)
    assert not it.has("holding", 10, 3)


def test_where_gaps_may_be_read_along_they_read_nought_and_take_nothing() -> None:
    it = bank(
        bank_project(
            signal("level", 10, start_value=Decimal(7)),
            signal("flow", 14, encoding="uint32"),
            signal("far", 200),
            signal("valve", 3, table="coil"),
            signal("horn", 1203, table="coil"),
        )
    )
    assert it.read("holding", 10, 6) == [7, 0, 0, 0, 0, 0]
    assert it.write("holding", 12, [1]) is ExcCodes.ILLEGAL_ADDRESS
    assert it.write("holding", 10, [1]) is None
    assert not it.has("holding", 9, 1), "before the first"
    assert not it.has("holding", 16, 1), "no read reaches from one signal to the other"
    assert it.has("coil", 3, 1201)
    assert it.write("coil", 4, [1]) is ExcCodes.ILLEGAL_ADDRESS
    it.reboot(0.0)
    assert it.read("holding", 10, 6) == [7, 0, 0, 0, 0, 0]


def test_registers_of_a_drive_between_signals_stay_what_they_are() -> None:
    it = DriveBank(project := drive_project(signal("before", 298), signal("behind", 305)), project.followers[0])
    assert it.write("holding", 300, [0]) is None
    assert it.write("holding", 299, [0]) is ExcCodes.ILLEGAL_ADDRESS
    assert it.has("holding", 298, 8)


def test_start_values_are_engineering_values_in_the_followers_word_order() -> None:
    it = bank(
        bank_project(
            signal("speed", 1, scale={"raw": [0, 10_000], "value": [0, 50]}, start_value=Decimal("41.65")),
            signal("count", 2, encoding="uint32", start_value=Decimal(0x12345678)),
            signal("label", 4, encoding="string", length=2, start_value="AB1"),
            signal("valve", 0, table="coil", start_value=Decimal(1)),
            signal("nothing", 6),
            word_order="low-first",
        )
    )
    assert it.read("holding", 1, 6) == [8330, 0x5678, 0x1234, 0x4142, 0x3100, 0]
    assert it.read("coil", 0, 1) == [1]


@pytest.mark.parametrize(
    ("keys", "why"),
    [
        ({"start_value": Decimal(65_536)}, "65536"),
        ({"start_value": Decimal("-1")}, "-1"),
        ({"start_value": "on"}, "string"),
        ({"encoding": "string", "length": 2, "start_value": Decimal(1)}, "string"),
        ({"table": "coil", "start_value": Decimal(2)}, "use 0 or 1"),
    ],
)
def test_a_start_value_that_does_not_fit_is_told_with_its_place(keys: dict[str, object], why: str) -> None:
    with pytest.raises(FollowerError, match=r"device 'it' cannot be simulated: start_value .* of signal 'odd'") as told:
        bank(bank_project(signal("odd", 1, **keys)))
    assert why in str(told.value)


def test_the_line_writes_holding_registers_and_coils_whatever_the_panel_may_write() -> None:
    it = bank(bank_project(signal("a", 1, write=False), signal("b", 2), signal("c", 5, table="coil")))
    assert it.write("holding", 1, [7, 8]) is None
    assert it.write("coil", 5, [1]) is None
    assert it.read("holding", 1, 2) == [7, 8]
    assert it.read("coil", 5, 1) == [1]


def test_the_line_writes_no_inputs() -> None:
    it = bank(bank_project(signal("a", 1, table="input"), signal("b", 1, table="discrete")))
    assert it.write("input", 1, [7]) is ExcCodes.ILLEGAL_ADDRESS
    assert it.write("discrete", 1, [1]) is ExcCodes.ILLEGAL_ADDRESS
    assert it.read("input", 1, 1) == [0]


def test_a_person_sets_any_signal_in_its_own_units() -> None:
    it = bank(
        bank_project(
            signal("pressure", 1, table="input", scale={"raw": [0, 100], "value": [0, 10]}),
            signal("word", 2),
            {"name": "bit", "bit": {"of": "word", "number": 3}},
            signal("door", 0, table="discrete"),
        )
    )
    it.set("pressure", Fraction("2.5"))
    it.set("word", 0b0101)
    it.set("bit", 1)
    it.set("door", 1)
    assert it.read("input", 1, 1) == [25]
    assert it.read("holding", 2, 1) == [0b1101]
    assert it.get("pressure") == Fraction("2.5")
    assert it.get("bit") == 1
    assert {quantity.name: quantity.value for quantity in it.overview()} == {
        "pressure": Fraction("2.5"),
        "word": 13,
        "bit": 1,
        "door": 1,
    }


def test_setting_what_is_not_there_or_does_not_fit_is_told() -> None:
    it = bank(bank_project(signal("a", 1), {"name": "held", "held": Decimal(1)}))
    with pytest.raises(FollowerError, match="device 'it' has no input or signal 'b'"):
        it.set("b", 1)
    with pytest.raises(FollowerError, match="no input or signal 'held'"):
        it.get("held")
    with pytest.raises(FollowerError, match="signal 'a' cannot be set to 65536"):
        it.set("a", 65_536)


def test_implausible_registers_are_left_out_of_the_overview() -> None:
    it = bank(bank_project(signal("bcd", 1, encoding="bcd16"), signal("fine", 2)))
    it.write("holding", 1, [0xABCD])
    assert [quantity.name for quantity in it.overview()] == ["fine"]
    with pytest.raises(FollowerError, match="signal 'bcd'"):
        it.get("bcd")


def test_signals_of_other_followers_are_not_its_own() -> None:
    project = bank_project(signal("a", 1), {"name": "b", "follower": "other", "register": 2})
    assert list(bank(project).cells("holding")) == [1]


def test_bits_come_packed_from_the_lowest_on() -> None:
    names = [signal(f"c{place}", place, table="coil", start_value=Decimal(1)) for place in (0, 3, 15, 16, 33)]
    it = bank(bank_project(*names))
    assert it.read_packed("coil", 0, 3) == [0x8009, 0x0001, 0x0002]
