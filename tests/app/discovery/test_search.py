"""The whole search on modelled lines: found, stopped, taken up again, and silent where somebody else speaks."""

from __future__ import annotations

import json
import struct
from collections.abc import Callable
from typing import Literal

import pytest

from app.discovery.examination import Examination
from app.discovery.search import Grown, Search, SearchState, Wanted
from app.probing.found import Found, FoundFollower
from app.probing.probe import (
    PROBE_TIMEOUT_S,
    CannotProbe,
    LineSettings,
    Probe,
    ProbedLine,
    ProbeResult,
    SearchStopped,
    SomebodyElse,
)
from app.probing.unit_search import ALL_IN_A_ROW
from tests.modelled_line import HiddenDevice, ModelledLine
from tests.serial_port import received
from tests.staged_follower import crc

SLOW = LineSettings(9600, "none", 1)


class BrokenLine(ModelledLine):
    """Raises `why` instead of sending request number `last`."""

    def __init__(self, devices: list[HiddenDevice], last: int, why: Exception) -> None:
        super().__init__(devices)
        self._last = last
        self._why = why

    def ask(self, probe: Probe, timeout_s: float) -> ProbeResult:
        if sum(self.sent.values()) == self._last:
            raise self._why
        return super().ask(probe, timeout_s)


class BabblingLine(ModelledLine):
    """Never quiet."""

    def ask(self, probe: Probe, timeout_s: float) -> ProbeResult:
        self.clock += 0.5
        return ProbeResult(probe, "garbled", received=b"\x55" * 9, sent=False)


def polls(settings: LineSettings) -> Callable[[LineSettings, float], bytes]:
    """A master that reads three registers of unit 5 twice a second."""
    request, answer = b"\x05\x03\x00\x10\x00\x03", b"\x05\x03\x06" + struct.pack(">3H", 8330, 2, 3)
    said = request + crc(request) + answer + crc(answer)

    def talk(port: LineSettings, seconds: float) -> bytes:
        whole = said * round(2 * seconds)
        return received(whole, (settings.baud, settings.parity), (port.baud, port.parity))

    return talk


def units(found: Found) -> list[int]:
    return [one.unit for one in found.followers]


def test_finds_settings_and_units() -> None:
    line = ModelledLine([HiddenDevice(7, SLOW), HiddenDevice(31, SLOW)])
    told: list[tuple[Found, str, float | None]] = []
    search = Search(line, Wanted(), SearchState(), lambda *said: told.append(said))
    found = search.run()
    assert (found.settings, units(found), found.stopped_by, found.heard) == (SLOW, [7, 31], "done", None)
    assert found.followers[0].response_ms == 20.0
    assert found.probes == sum(line.sent.values())
    assert found.seconds == line.now()
    sentences = [sentence for _, sentence, _ in told]
    assert sentences[0] == "Listening whether somebody else speaks on the line."
    trying = [(sentence, left) for _, sentence, left in told if sentence.startswith("Trying 9600 8N1, unit 1:")]
    assert trying
    for sentence, left in trying:
        assert "of 100 devices would have answered by now" in sentence
        assert left is None, "an expected time is no time that is left"
    seconds = [left for _, _, left in told if left is not None]
    assert seconds[-1] < 1 < seconds[0]


def test_examines_each_device_once() -> None:
    line = ModelledLine([HiddenDevice(1), HiddenDevice(2)])
    state = SearchState()

    def examine(_line: object, follower: FoundFollower, _wanted: Wanted, _grown: object) -> FoundFollower:
        if follower.unit == 2 and 1 in state.examined and line.clock < 1000:
            line.clock = 1000
            raise SearchStopped
        return FoundFollower(follower.unit, functions=(3,))

    assert Search(line, Wanted(), state, examine=examine).run().stopped_by == "person"
    assert state.examined == {1}
    found = Search(line, Wanted(), state, examine=examine).run()
    assert [one.functions for one in found.followers] == [(3,), (3,)]


@pytest.mark.parametrize(("framing", "first"), [("tcp", 255), ("rtu", 1)])
def test_looks_at_a_device_before_the_units_where_nobody_answers(framing: Literal["tcp", "rtu"], first: int) -> None:
    """On a network 243 silent units behind the first ones cost 73 s; what is looked for is likely among those."""
    line = ModelledLine([HiddenDevice(first), HiddenDevice(120)], framing)
    state = SearchState()
    examined: list[tuple[int, int]] = []
    told: list[tuple[str, float | None]] = []

    def examine(on: ProbedLine, follower: FoundFollower, wanted: Wanted, grown: Grown) -> FoundFollower:
        examined.append((follower.unit, len(state.units.asked)))
        return Examination()(on, follower, wanted, grown)

    search = Search(line, Wanted(), state, lambda _found, *said: told.append(said), examine)
    found = search.run()
    (one, asked), (other, later) = examined
    assert (one, other) == (first, 120)
    assert asked <= ALL_IN_A_ROW < later < len(state.units.asked)
    assert [len(each.ranges) for each in found.followers] == [1, 1]
    left = len(state.units.asked) - asked
    sentence, seconds = next(
        said for said in told if said[0].startswith(f"Looking for holding registers of unit {first}: ")
    )
    assert sentence.endswith(f"Then {left} more units are asked.")
    assert seconds is not None
    assert seconds > left * PROBE_TIMEOUT_S


def test_one_that_answers_for_all_units_is_examined_once_and_only_when_that_is_clear() -> None:
    examined: list[tuple[int, bool]] = []
    state = SearchState()

    def examine(_line: object, follower: FoundFollower, _wanted: object, _grown: object) -> FoundFollower:
        examined.append((follower.unit, state.units.every_unit))
        return follower

    Search(ModelledLine([HiddenDevice(every_unit=True)], "tcp"), Wanted(), state, examine=examine).run()
    assert examined == [(255, True)]


def test_a_search_that_ended_while_it_looked_at_a_device_goes_on_with_that_and_with_the_units() -> None:
    devices = [HiddenDevice(255), HiddenDevice(120)]
    whole, examination = ModelledLine(devices, "tcp"), Examination()
    Search(whole, Wanted(), SearchState(), examine=examination).run()

    line, kept = ModelledLine(devices, "tcp"), Examination()
    state = SearchState()
    assert Search(line, Wanted(budget_s=2.0), state, examine=kept).run().stopped_by == "budget"
    assert (state.units.answering, state.examined, state.units_done) == ([255], set(), False)
    state = SearchState.from_json(json.loads(json.dumps(state.as_json())))
    again = Examination()
    again.take_json(json.loads(json.dumps(kept.as_json())))
    found = Search(line, Wanted(), state, examine=again).run()
    assert (found.stopped_by, units(found), state.examined) == ("done", [255, 120], {120, 255})
    assert again.registers(255) == examination.registers(255)
    assert sum(line.sent.values()) < sum(whole.sent.values()) + 20


def test_a_stopped_search_goes_on_from_its_file_and_asks_nothing_twice() -> None:
    device = HiddenDevice(40, SLOW)
    whole = ModelledLine([device])
    assert units(Search(whole, Wanted(), SearchState()).run()) == [40]

    state, probes, runs = SearchState(), 0, 0
    while True:
        line = BrokenLine([device], 23, SearchStopped())
        found = Search(line, Wanted(), state).run()
        probes += sum(line.sent.values())
        assert found.probes == probes
        runs += 1
        if found.stopped_by == "done":
            break
        assert found.stopped_by == "person"
        state = SearchState.from_json(json.loads(json.dumps(state.as_json())))
    assert units(found) == [40]
    assert runs > 5
    # What was under way when it was stopped may be asked again, and no more.
    assert probes <= sum(whole.sent.values()) + 4 * runs


def test_the_budget_ends_it() -> None:
    line = ModelledLine([])
    found = Search(line, Wanted(budget_s=20.0), SearchState()).run()
    assert found.stopped_by == "budget"
    assert 20.0 <= line.now() < 22.0


def test_sends_nothing_where_another_client_asks() -> None:
    line = ModelledLine([HiddenDevice(5, SLOW)], speaks=polls(SLOW))
    search = Search(line, Wanted(), SearchState())
    found = search.run()
    assert (found.stopped_by, found.settings, units(found)) == ("somebody else", SLOW, [5])
    assert search.heard is not None
    assert [one.unit for one in search.heard.units if one.words()] == [5]
    assert [(part.table, part.first, part.last) for part in found.followers[0].ranges] == [("holding", 16, 18)]
    assert found.heard is not None
    json.dumps(found.as_json())
    assert not line.sent


def test_listens_to_whom_it_meets_in_the_midst() -> None:
    line = BrokenLine([HiddenDevice(1)], 10, SomebodyElse("another client is asking"))
    found = Search(line, Wanted(), SearchState()).run()
    assert (found.stopped_by, units(found)) == ("somebody else", [1])


def test_gives_up_a_line_that_is_never_quiet() -> None:
    line = BabblingLine([])
    search = Search(line, Wanted(), SearchState())
    assert search.run().stopped_by == "somebody else"
    assert "without a pause" in search.state.why
    assert search.state.settings.tried == set()


def test_says_that_the_port_is_gone() -> None:
    search = Search(BrokenLine([], 30, CannotProbe("the adapter was unplugged")), Wanted(), SearchState())
    assert search.run().stopped_by == "port gone"
    assert search.state.why == "the adapter was unplugged"


def test_a_network_has_no_settings_and_a_gateway_is_no_device() -> None:
    gateway = HiddenDevice(every_unit=True, own=lambda pdu: bytes((pdu[0] | 0x80, 11)))
    line = ModelledLine([*(HiddenDevice(unit) for unit in (2, 5, 9, 40, 41)), gateway], "tcp")
    found = Search(line, Wanted(), SearchState()).run()
    assert found.settings is None
    assert units(found) == [2, 5, 9, 40, 41, 0]
    assert found.followers[-1].gateway == "no answer"
    assert "244 unit addresses" in found.followers[-1].notes[0]


def test_a_device_that_answers_to_every_unit_is_one() -> None:
    line = ModelledLine([HiddenDevice(every_unit=True)], "tcp")
    found = Search(line, Wanted(), SearchState()).run()
    assert units(found) == [255]
    assert found.followers[0].notes == ("It answers to every unit address.",)


def test_names_the_trouble_of_a_silent_line_but_not_after_seconds() -> None:
    state = SearchState()
    search = Search(ModelledLine([]), Wanted(budget_s=3.0), state)
    search.run()
    assert search.trouble.suspicions == ()
    assert "Too early" in search.trouble.summary
    search = Search(ModelledLine([]), Wanted(budget_s=60.0), state)
    search.run()
    assert [one.kind for one in search.trouble.suspicions] == ["contact", "swapped wires"]


def test_says_nothing_about_wires_of_a_network() -> None:
    search = Search(ModelledLine([], "tcp"), Wanted(units=(255, 0, 1)), SearchState())
    search.run()
    assert search.trouble.suspicions == ()
    assert "none of 6 requests" in search.trouble.summary
