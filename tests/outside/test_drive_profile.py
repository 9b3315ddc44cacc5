"""The state machine of IEC 61800-7-201 against PyPI canopen, `canopen.profiles.p402.State402`.

An independent implementation of the same profile (CiA 402): its SW_MASK and TRANSITIONTABLE.
"""

from __future__ import annotations

import pytest
from canopen.profiles.p402 import State402

from app.follower.states import STATUS, TRANSITIONS, DriveState, Event, after, state_shown

# Its command codes, and which of our events each stands for. It has one code for switch on and disable operation.
COMMANDS = {
    State402.CW_DISABLE_VOLTAGE: {Event.DISABLE_VOLTAGE, Event.AUTOMATIC},
    State402.CW_SHUTDOWN: {Event.SHUTDOWN},
    State402.CW_SWITCH_ON: {Event.SWITCH_ON, Event.DISABLE_OPERATION},
    State402.CW_OPERATION_ENABLED: {Event.ENABLE_OPERATION},
    State402.CW_QUICK_STOP: {Event.QUICK_STOP},
    State402.CW_SWITCH_ON_DISABLED: {Event.FAULT_RESET},
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
