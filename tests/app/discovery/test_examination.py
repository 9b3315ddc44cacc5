"""What one device is and has: its names, functions, registers, and the snapshot of them."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Literal

import pytest

from app.discovery.examination import Examination
from app.discovery.search import Search, SearchState, Wanted
from app.probing.found import FoundFollower, FoundRange
from app.probing.probe import SearchStopped
from app.snapshots.files import open_snapshot, save
from tests.modelled_line import HiddenDevice, ModelledLine

HELD = {address: address + 1000 for address in (*range(40), *range(200, 350))}
INPUTS = dict.fromkeys(range(3), 5)
WANTED = Wanted(first=0, last=999)


def examined(device: HiddenDevice, examination: Examination, wanted: Wanted = WANTED) -> FoundFollower:
    told: list[str] = []
    follower = examination(
        ModelledLine([device]),
        FoundFollower(device.unit),
        wanted,
        lambda _follower, sentence, _left: told.append(sentence),
    )
    assert any("registers of unit" in sentence for sentence in told)
    return follower


def test_a_device_as_it_is() -> None:
    follower = examined(HiddenDevice(7, holding=HELD, inputs=INPUTS, longest=48), Examination())
    assert follower.functions == (3, 4)
    assert follower.ranges == (
        FoundRange("holding", 0, 39),
        FoundRange("holding", 200, 349),
        FoundRange("input", 0, 2),
    )
    assert follower.longest_read == 48
    assert follower.response_ms == follower.slow_response_ms == pytest.approx(20)
    assert any("stops when nobody asks" in note for note in follower.notes)


def test_the_snapshot_is_an_ordinary_one(tmp_path: Path) -> None:
    examination = Examination()
    examined(HiddenDevice(7, holding=HELD, inputs=INPUTS), examination)
    taken = examination.snapshot(7, "serial:/dev/ttyX")
    assert taken.registers == {
        **{("holding", address): word for address, word in HELD.items()},
        **{("input", address): word for address, word in INPUTS.items()},
    }
    assert taken.numbering == "from-0"
    gaps = {(part.table, part.first, part.last) for part in taken.not_readable}
    assert {(table, first) for table, first, _ in gaps} >= {("holding", 40), ("holding", 350), ("input", 3)}
    assert all("illegal data address" in part.reason for part in taken.not_readable)
    save(taken, tmp_path / "found.registers.toml")
    assert open_snapshot(tmp_path / "found.registers.toml").registers == taken.registers


def test_what_was_found_before_it_was_stopped_is_kept() -> None:
    device = HiddenDevice(holding=HELD)
    examination = Examination()
    told: list[int] = []

    def stop(_follower: FoundFollower, _sentence: str, _left: float | None) -> None:
        told.append(1)
        if len(told) == 8:
            raise SearchStopped

    with pytest.raises(SearchStopped):
        examination(ModelledLine([device]), FoundFollower(1), WANTED, stop)
    assert examination.registers(1)
    again = Examination()
    again.take_json(json.loads(json.dumps(examination.as_json())))
    assert again.registers(1) == examination.registers(1)
    examined(device, again)
    assert again.registers(1) == {("holding", address): word for address, word in HELD.items()}


def test_ranges_never_to_touch_are_not() -> None:
    device = HiddenDevice(holding=HELD)
    examination = Examination()
    examined(device, examination, replace(WANTED, never={"holding": [range(210, 220)]}))
    assert not any(("holding", address) in examination.registers(1) for address in range(210, 220))
    assert not set(range(210, 220)) & holding_asked(device)


def holding_asked(device: HiddenDevice) -> set[int]:
    """Wire addresses of all holding registers that were asked for."""
    spans = [(int.from_bytes(pdu[1:3], "big"), int.from_bytes(pdu[3:5], "big")) for pdu in device.asked if pdu[0] == 3]
    return {address for first, count in spans for address in range(first, first + count)}


@pytest.mark.parametrize("never", [[range(3)], [range(1), range(2, 9)], [range(65_536)]], ids=str)
@pytest.mark.parametrize("framing", ["rtu", "tcp"])
def test_not_even_the_first_question_touches_them(never: list[range], framing: Literal["rtu", "tcp"]) -> None:
    device = HiddenDevice(7, holding=HELD, inputs=INPUTS)
    untouched = {address for span in never for address in span}
    examination = Examination()
    wanted = replace(WANTED, units=(5, 6, 7, 8), never={"holding": never})
    found = Search(ModelledLine([device], framing), wanted, SearchState(), examine=examination).run()
    assert [one.unit for one in found.followers] == [7]
    assert not untouched & holding_asked(device)
    read = {address for table, address in examination.registers(7) if table == "holding"}
    assert read == HELD.keys() - untouched
    assert {("input", address) for address in INPUTS} <= examination.registers(7).keys()
