"""The state machine of a power drive system, IEC 61800-7-201 (the CiA 402 profile).

States, the events that lead from one to another, what the control word asks for, and what the status word shows in
each state. Masks, transitions and control words are checked against an independent implementation in tests/outside.
"""

from __future__ import annotations

import enum
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from app.errors import FanlightError
from app.language import mark


class DriveState(enum.Enum):
    """Where a drive stands. The value is the standard's name, in lower case."""

    NOT_READY_TO_SWITCH_ON = mark("follower", "not ready to switch on")
    SWITCH_ON_DISABLED = mark("follower", "switch on disabled")
    READY_TO_SWITCH_ON = mark("follower", "ready to switch on")
    SWITCHED_ON = mark("follower", "switched on")
    OPERATION_ENABLED = mark("follower", "operation enabled")
    QUICK_STOP_ACTIVE = mark("follower", "quick stop active")
    FAULT_REACTION_ACTIVE = mark("follower", "fault reaction active")
    FAULT = mark("follower", "fault")


class DriveEvent(enum.Enum):
    """What moves a drive from one state to another: the standard's commands, and what happens by itself."""

    AUTOMATIC = "automatic"
    SHUTDOWN = "shutdown"
    SWITCH_ON = "switch on"
    ENABLE_OPERATION = "enable operation"
    DISABLE_OPERATION = "disable operation"
    DISABLE_VOLTAGE = "disable voltage"
    QUICK_STOP = "quick stop"
    FAULT = "fault"
    FAULT_RESET = "fault reset"


@dataclass(frozen=True, slots=True)
class StateTransition:
    """One arrow of the standard's drawing. `source` None: from anywhere but a fault, or from power off."""

    number: int
    source: DriveState | None
    events: frozenset[DriveEvent]
    target: DriveState


class TransitionError(FanlightError, ValueError):
    """The standard knows no such transition."""


_S = DriveState
_E = DriveEvent

TRANSITIONS: Final = tuple(
    StateTransition(number, source, frozenset(events), target)
    for number, source, events, target in (
        (0, None, {_E.AUTOMATIC}, _S.NOT_READY_TO_SWITCH_ON),
        (1, _S.NOT_READY_TO_SWITCH_ON, {_E.AUTOMATIC}, _S.SWITCH_ON_DISABLED),
        (2, _S.SWITCH_ON_DISABLED, {_E.SHUTDOWN}, _S.READY_TO_SWITCH_ON),
        (3, _S.READY_TO_SWITCH_ON, {_E.SWITCH_ON}, _S.SWITCHED_ON),
        (4, _S.SWITCHED_ON, {_E.ENABLE_OPERATION}, _S.OPERATION_ENABLED),
        (5, _S.OPERATION_ENABLED, {_E.DISABLE_OPERATION}, _S.SWITCHED_ON),
        (6, _S.SWITCHED_ON, {_E.SHUTDOWN}, _S.READY_TO_SWITCH_ON),
        (7, _S.READY_TO_SWITCH_ON, {_E.DISABLE_VOLTAGE, _E.QUICK_STOP}, _S.SWITCH_ON_DISABLED),
        (8, _S.OPERATION_ENABLED, {_E.SHUTDOWN}, _S.READY_TO_SWITCH_ON),
        (9, _S.OPERATION_ENABLED, {_E.DISABLE_VOLTAGE}, _S.SWITCH_ON_DISABLED),
        (10, _S.SWITCHED_ON, {_E.DISABLE_VOLTAGE, _E.QUICK_STOP}, _S.SWITCH_ON_DISABLED),
        (11, _S.OPERATION_ENABLED, {_E.QUICK_STOP}, _S.QUICK_STOP_ACTIVE),
        (12, _S.QUICK_STOP_ACTIVE, {_E.DISABLE_VOLTAGE, _E.AUTOMATIC}, _S.SWITCH_ON_DISABLED),
        (13, None, {_E.FAULT}, _S.FAULT_REACTION_ACTIVE),
        (14, _S.FAULT_REACTION_ACTIVE, {_E.AUTOMATIC}, _S.FAULT),
        (15, _S.FAULT, {_E.FAULT_RESET}, _S.SWITCH_ON_DISABLED),
        (16, _S.QUICK_STOP_ACTIVE, {_E.ENABLE_OPERATION}, _S.OPERATION_ENABLED),
    )
)
"""All transitions with the standard's numbers."""

IN_FAULT: Final = frozenset({DriveState.FAULT_REACTION_ACTIVE, DriveState.FAULT})

_NEXT: Final = MappingProxyType(
    {(arrow.source, event): arrow.target for arrow in TRANSITIONS if arrow.source for event in arrow.events}
)


def after(state: DriveState, event: DriveEvent) -> DriveState:
    """The state that `event` leads to. Raises TransitionError where the standard has no such arrow."""
    if event is DriveEvent.FAULT and state not in IN_FAULT:
        return DriveState.FAULT_REACTION_ACTIVE
    try:
        return _NEXT[state, event]
    except KeyError:
        raise TransitionError(f"nothing leads from '{state.value}' by '{event.value}'") from None


def leads(state: DriveState, event: DriveEvent) -> bool:
    """Whether `event` leads anywhere from `state`."""
    return (state, event) in _NEXT


class ControlBit(enum.IntFlag):
    """The bits of the control word that IEC 61800-7-201 gives a meaning in every mode of operation."""

    SWITCH_ON = 1 << 0
    ENABLE_VOLTAGE = 1 << 1
    NO_QUICK_STOP = 1 << 2
    ENABLE_OPERATION = 1 << 3
    FAULT_RESET = 1 << 7
    HALT = 1 << 8


def command_of(control_word: int) -> DriveEvent:
    """What a control word asks for. Its fault reset is not in this: that counts by its rising edge.

    Switch on and disable operation have the same bits; they are given as switch on.
    """
    word = ControlBit(control_word & sum(ControlBit))
    if ControlBit.ENABLE_VOLTAGE not in word:
        return DriveEvent.DISABLE_VOLTAGE
    if ControlBit.NO_QUICK_STOP not in word:
        return DriveEvent.QUICK_STOP
    if ControlBit.SWITCH_ON not in word:
        return DriveEvent.SHUTDOWN
    return DriveEvent.ENABLE_OPERATION if ControlBit.ENABLE_OPERATION in word else DriveEvent.SWITCH_ON


class StatusBit(enum.IntFlag):
    """The bits of the status word that IEC 61800-7-201 gives a meaning."""

    READY_TO_SWITCH_ON = 1 << 0
    SWITCHED_ON = 1 << 1
    OPERATION_ENABLED = 1 << 2
    FAULT = 1 << 3
    VOLTAGE_ENABLED = 1 << 4
    NO_QUICK_STOP = 1 << 5
    SWITCH_ON_DISABLED = 1 << 6
    WARNING = 1 << 7
    REMOTE = 1 << 9
    TARGET_REACHED = 1 << 10
    INTERNAL_LIMIT = 1 << 11


_WITHOUT_QUICK_STOP: Final = 0x4F
_WITH_QUICK_STOP: Final = 0x6F

STATUS: Final = MappingProxyType(
    {
        DriveState.NOT_READY_TO_SWITCH_ON: (_WITHOUT_QUICK_STOP, 0x00),
        DriveState.SWITCH_ON_DISABLED: (_WITHOUT_QUICK_STOP, 0x40),
        DriveState.READY_TO_SWITCH_ON: (_WITH_QUICK_STOP, 0x21),
        DriveState.SWITCHED_ON: (_WITH_QUICK_STOP, 0x23),
        DriveState.OPERATION_ENABLED: (_WITH_QUICK_STOP, 0x27),
        DriveState.QUICK_STOP_ACTIVE: (_WITH_QUICK_STOP, 0x07),
        DriveState.FAULT_REACTION_ACTIVE: (_WITHOUT_QUICK_STOP, 0x0F),
        DriveState.FAULT: (_WITHOUT_QUICK_STOP, 0x08),
    }
)
"""For each state the mask of the status word's bits that tell it, and their value."""


def state_shown(status_word: int) -> DriveState | None:
    """The state that a status word shows, or None if its bits mean none."""
    return next((state for state, (mask, value) in STATUS.items() if status_word & mask == value), None)
