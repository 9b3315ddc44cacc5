"""The state machine of IEC 61800-7-201 against PyPI canopen, `canopen.profiles.p402`.

An independent implementation of the same profile (CiA 402): its SW_MASK and TRANSITIONTABLE, and its BaseNode402, which
takes a drive from state to state by control words of its own, here a simulated one over a bare socket.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import canopen
import pytest
from canopen.profiles.p402 import BaseNode402, State402

from app.follower.drive_bank import DriveBank
from app.follower.simulation import Simulation
from app.follower.states import STATUS, TRANSITIONS, DriveEvent, DriveState, after, command_of, state_shown
from tests.app.follower.playing import RawClient, client, drive_project, signal
from tests.waiting import wait_for

# Its command codes, and which of our events each stands for. It has one code for switch on and disable operation.
COMMANDS = {
    State402.CW_DISABLE_VOLTAGE: {DriveEvent.DISABLE_VOLTAGE, DriveEvent.AUTOMATIC},
    State402.CW_SHUTDOWN: {DriveEvent.SHUTDOWN},
    State402.CW_SWITCH_ON: {DriveEvent.SWITCH_ON, DriveEvent.DISABLE_OPERATION},
    State402.CW_OPERATION_ENABLED: {DriveEvent.ENABLE_OPERATION},
    State402.CW_QUICK_STOP: {DriveEvent.QUICK_STOP},
    State402.CW_SWITCH_ON_DISABLED: {DriveEvent.FAULT_RESET},
}


def theirs(state: DriveState | None) -> str:
    return "START" if state is None else state.value.upper()


def test_states_are_told_by_the_same_masks() -> None:
    assert {theirs(state): mask for state, mask in STATUS.items()} == State402.SW_MASK


@pytest.mark.parametrize("word", range(0x100))
def test_every_status_word_shows_the_same_state(word: int) -> None:
    found = [name for name, (mask, value) in State402.SW_MASK.items() if word & mask == value]
    shown = state_shown(word)
    assert [theirs(shown)] == found if shown is not None else found == []


@pytest.mark.parametrize(("ends", "command"), State402.TRANSITIONTABLE.items())
def test_every_transition_of_theirs_is_ours(ends: tuple[str, str], command: int) -> None:
    source, target = ends
    arrows = [arrow for arrow in TRANSITIONS if (theirs(arrow.source), theirs(arrow.target)) == (source, target)]
    assert len(arrows) == 1
    assert arrows[0].events & COMMANDS[command]
    if arrows[0].source is not None:
        for event in arrows[0].events:
            assert after(arrows[0].source, event) is arrows[0].target


def test_every_transition_of_ours_is_theirs_but_for_the_one_to_a_fault() -> None:
    # Theirs leaves out transition 13, which leads to the fault reaction from anywhere.
    missing = [
        arrow.number
        for arrow in TRANSITIONS
        if (theirs(arrow.source), theirs(arrow.target)) not in State402.TRANSITIONTABLE
    ]
    assert missing == [13]


def test_numbers_of_transitions() -> None:
    # As the comments in canopen's table number them.
    numbers = {(theirs(arrow.source), theirs(arrow.target)): arrow.number for arrow in TRANSITIONS}
    assert numbers["READY TO SWITCH ON", "SWITCH ON DISABLED"] == 7
    assert numbers["OPERATION ENABLED", "QUICK STOP ACTIVE"] == 11
    assert numbers["QUICK STOP ACTIVE", "SWITCH ON DISABLED"] == 12
    assert numbers["FAULT REACTION ACTIVE", "FAULT"] == 14
    assert numbers["FAULT", "SWITCH ON DISABLED"] == 15


@pytest.mark.parametrize(("control", "events"), [(code, each) for code, each in COMMANDS.items() if code != 0x80])
def test_their_control_words_ask_for_the_same(control: int, events: set[DriveEvent]) -> None:
    assert command_of(control) in events


@pytest.mark.parametrize(
    ("pattern", "event"),
    [
        # IEC 61800-7-201, table of the commands in the control word, bits 7 and 3 to 0 (from memory); x is either.
        ("0x110", DriveEvent.SHUTDOWN),
        ("00111", DriveEvent.SWITCH_ON),
        ("0xx0x", DriveEvent.DISABLE_VOLTAGE),
        ("0x01x", DriveEvent.QUICK_STOP),
        ("01111", DriveEvent.ENABLE_OPERATION),
    ],
)
def test_the_bits_of_each_command(pattern: str, event: DriveEvent) -> None:
    def fits(word: int) -> bool:
        bits = f"{word >> 7 & 1}{word & 0xF:04b}"
        return all(wanted in ("x", bit) for wanted, bit in zip(pattern, bits, strict=True))

    assert {command_of(word) for word in range(0x200) if fits(word)} == {event}


UNIT = 3
CONTROL, REFERENCE, STATUS_WORD, FREQUENCY = 300, 310, 400, 401
ELSEWHERE = 5000
"""How far from there the registers are of a project that gives them their roles itself."""
HERTZ = {"unit": "Hz", "encoding": "int16", "scale": {"raw": [0, 10_000], "value": [0, 50]}}
TENTHS = {"unit": "s", "scale": {"raw": [0, 10], "value": [0, 1]}, "write": True}
OWN = (
    signal("control word", ELSEWHERE + CONTROL, drive_role="control-word", write=True),
    signal("reference", ELSEWHERE + REFERENCE, drive_role="speed-reference", write=True, **HERTZ),
    signal("ramp up", ELSEWHERE + REFERENCE + 1, drive_role="ramp-up-time", **TENTHS),
    signal("ramp down", ELSEWHERE + REFERENCE + 2, drive_role="ramp-down-time", **TENTHS),
    signal("status word", ELSEWHERE + STATUS_WORD, table="input", drive_role="status-word"),
    signal("frequency", ELSEWHERE + FREQUENCY, table="input", drive_role="output-frequency", **HERTZ),
)


class NodeOverModbus(BaseNode402):
    """Their client of the profile, with registers instead of CANopen below it, `offset` from those of our map."""

    TIMEOUT_SWITCH_STATE_FINAL = TIMEOUT_SWITCH_STATE_SINGLE = 10.0

    def __init__(self, raw: RawClient, offset: int) -> None:
        super().__init__(1, canopen.ObjectDictionary())  # type: ignore[no-untyped-call]
        self.raw = raw
        self.offset = offset
        self.sent: list[int] = []

    def read(self, register: int) -> int:
        return int(self.raw.ask(UNIT, f"04 {self.offset + register:04X} 0001").replace(" ", "")[4:], 16)

    def write(self, register: int, word: int) -> None:
        pdu = f"06 {self.offset + register:04X} {word & 0xFFFF:04X}"
        assert self.raw.ask(UNIT, pdu).replace(" ", "") == pdu.replace(" ", "")

    @property
    def statusword(self) -> int:
        return self.read(STATUS_WORD)

    def check_statusword(self, timeout: float | None = None) -> int:
        return self.statusword

    @property
    def controlword(self) -> int:
        raise RuntimeError

    @controlword.setter
    def controlword(self, value: int) -> None:
        self.sent.append(value)
        self.write(CONTROL, value)

    def hertz(self) -> float:
        word = self.read(FREQUENCY)
        return (word - 0x10000 if word & 0x8000 else word) / 200


@pytest.fixture(params=[0, ELSEWHERE], ids=["built-in registers", "registers of the project"])
def offset(request: pytest.FixtureRequest) -> int:
    return int(request.param)


@pytest.fixture
def simulation(offset: int) -> Iterator[Simulation]:
    standard = {"model": "drive", "register_map": "iec-61800-7-201"}
    with Simulation(drive_project(*OWN, unit=UNIT) if offset else drive_project(unit=UNIT, simulate=standard)) as it:
        yield it


@pytest.fixture
def node(simulation: Simulation, offset: int) -> Iterator[NodeOverModbus]:
    with client(simulation.serve_tcp(None, "127.0.0.1", 0)) as raw:
        it = NodeOverModbus(raw, offset)
        it.write(REFERENCE + 1, 1)
        it.write(REFERENCE + 2, 50)
        wait_for(lambda: it.state == "SWITCH ON DISABLED")
        yield it


def model(simulation: Simulation) -> DriveBank:
    found = simulation.models["it"]
    assert isinstance(found, DriveBank)
    return found


def test_their_client_takes_a_simulated_drive_through_all_states(node: NodeOverModbus, simulation: Simulation) -> None:
    node.write(REFERENCE, 10_000)
    node.state = "OPERATION ENABLED"
    assert node.sent == [0x06, 0x07, 0x0F]
    wait_for(lambda: math.isclose(node.hertz(), 50.0))
    node.state = "QUICK STOP ACTIVE"
    assert 0 < node.hertz() < 50.0
    wait_for(lambda: node.state == "SWITCH ON DISABLED")
    assert node.hertz() == 0
    node.state = "OPERATION ENABLED"
    wait_for(lambda: node.hertz() > 20.0)
    model(simulation).inputs.jammed = True
    wait_for(lambda: node.state == "FAULT")
    model(simulation).inputs.jammed = False
    node.sent.clear()
    node.state = "SWITCH ON DISABLED"
    assert node.sent == [0x80]
    assert node.hertz() == 0


# Theirs has transition 16 too; a quick stop that cannot be taken back is the standard's default (from memory).
DIRECT = [
    ends for ends in State402.TRANSITIONTABLE if ends[0] in ("READY TO SWITCH ON", "SWITCHED ON", "OPERATION ENABLED")
]


@pytest.mark.parametrize(("source", "target"), DIRECT)
def test_each_transition_of_theirs_by_command(node: NodeOverModbus, source: str, target: str) -> None:
    node.write(REFERENCE, 2000)
    node.state = source
    if source == "OPERATION ENABLED":
        wait_for(lambda: math.isclose(node.hertz(), 10.0))
    node.sent.clear()
    node.state = target
    assert node.sent == [State402.TRANSITIONTABLE[source, target]]


def test_the_sign_of_the_reference_says_the_direction(node: NodeOverModbus) -> None:
    node.write(REFERENCE, -2000)
    node.state = "OPERATION ENABLED"
    wait_for(lambda: math.isclose(node.hertz(), -10.0))


def test_the_status_words_on_the_wire_byte_by_byte(node: NodeOverModbus, simulation: Simulation) -> None:
    """Whole words: voltage enabled (10h), quick stop not asked (20h), remote (200h) and target reached (400h) too."""

    def asks(control: int, status: int) -> None:
        node.write(CONTROL, control)
        wait_for(lambda: node.read(STATUS_WORD) == status, 20)

    node.write(REFERENCE, 10_000)
    asks(0x06, 0x0231)  # shutdown: ready to switch on
    asks(0x07, 0x0233)  # switch on: switched on
    asks(0x0F, 0x0637)  # enable operation: operation enabled, in the end at its reference
    asks(0x10F, 0x0637)  # halt: operation enabled, in the end at zero
    assert node.hertz() == 0
    asks(0x0F, 0x0637)
    wait_for(lambda: math.isclose(node.hertz(), 50.0))
    asks(0x02, 0x0217)  # quick stop: quick stop active
    asks(0x02, 0x0250)  # at standstill: switch on disabled, quick stop still asked
    asks(0x0F, 0x0270)  # the old command alone starts nothing
    asks(0x06, 0x0231)
    model(simulation).inputs.external_fault = True
    asks(0x06, 0x0238)  # fault
    asks(0x86, 0x0238)  # its reset does not count while the cause is there
    model(simulation).advance(0.1)  # or the next step would take the edge without the cause
    model(simulation).inputs.external_fault = False
    asks(0x06, 0x0238)
    asks(0x86, 0x0231)  # fault reset, then the shutdown that stands
    asks(0x00, 0x0270)  # disable voltage


def test_in_local_the_control_word_counts_nothing_and_nothing_starts_by_itself(
    node: NodeOverModbus, simulation: Simulation
) -> None:
    node.write(REFERENCE, 2000)
    node.state = "OPERATION ENABLED"
    model(simulation).inputs.remote = False
    wait_for(lambda: node.state == "SWITCH ON DISABLED")
    model(simulation).inputs.remote = True
    wait_for(lambda: bool(node.read(STATUS_WORD) & 0x200))
    wait_for(lambda: node.state == "SWITCH ON DISABLED")
    assert node.hertz() == 0
    node.state = "OPERATION ENABLED"
