"""The state machine of IEC 61800-7-201."""

from __future__ import annotations

import pytest

from app.follower.states import STATUS, TRANSITIONS, DriveEvent, DriveState, TransitionError, after, state_shown


def test_all_seventeen_transitions_are_there_once() -> None:
    assert [arrow.number for arrow in TRANSITIONS] == list(range(17))


@pytest.mark.parametrize("state", DriveState)
def test_a_fault_leads_to_its_reaction_from_everywhere_but_a_fault(state: DriveState) -> None:
    if state in (DriveState.FAULT, DriveState.FAULT_REACTION_ACTIVE):
        with pytest.raises(TransitionError):
            after(state, DriveEvent.FAULT)
    else:
        assert after(state, DriveEvent.FAULT) is DriveState.FAULT_REACTION_ACTIVE


def test_nothing_but_a_reset_leaves_a_fault() -> None:
    leaving = [event for event in DriveEvent if _leads(DriveState.FAULT, event)]
    assert leaving == [DriveEvent.FAULT_RESET]
    assert after(DriveState.FAULT, DriveEvent.FAULT_RESET) is DriveState.SWITCH_ON_DISABLED


def _leads(state: DriveState, event: DriveEvent) -> bool:
    try:
        after(state, event)
    except TransitionError:
        return False
    return True


def test_an_impossible_transition_names_both_ends() -> None:
    with pytest.raises(TransitionError, match="'switch on disabled' by 'enable operation'"):
        after(DriveState.SWITCH_ON_DISABLED, DriveEvent.ENABLE_OPERATION)


@pytest.mark.parametrize("word", range(0x80))
def test_no_status_word_shows_two_states(word: int) -> None:
    shown = [state for state, (mask, value) in STATUS.items() if word & mask == value]
    assert len(shown) <= 1
    assert state_shown(word) is (shown[0] if shown else None)
