"""A project whose drives have a plain control word, made one for the control word of IEC 61800-7-201.

The starters are written once, for the plain word; what differs is known of the roles that their signals have.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from app.language import mark
from app.project.drive_roles import DriveValue
from app.project.model import Action, AnySignal, Bit, BitSignal, Field, Project, RegisterSignal

SHUTDOWN: Final = 0x06
ENABLE_OPERATION: Final = 0x0F
"""Numbers of the control word of IEC 61800-7-201: ready for a start, and run."""

_STATUS_BITS: Final[dict[DriveValue, int]] = {"running": 2, "fault": 3, "remote": 9}
"""Where its status word has them: operation enabled, fault, remote."""
_SIGN: Final = 15
"""The bit of an int16 that says that it is negative: this profile has no bit for reverse."""

_CONTROL_NOTES: Final = mark(
    "starters",
    "Control word of IEC 61800-7-201: 6 is shutdown (the motor runs out, ready for a start), 15 is enable operation. "
    "After power-up and after a fault the drive wants a 6 before it takes a 15: STOP sends it.",
)
_STATUS_NOTES: Final = mark("starters", "Status word of IEC 61800-7-201: bit 2 operation enabled, 3 fault, 9 remote.")


def with_standard_words(project: Project) -> Project:
    """The same project with the control word and the status word of IEC 61800-7-201."""
    roles = {signal.name: signal.drive_role for signal in project.signals if isinstance(signal, BitSignal)}
    control = _words_with(project, "run")
    status = _words_with(project, "running")
    frequency = {
        signal.follower: signal.name
        for signal in project.signals
        if isinstance(signal, RegisterSignal) and signal.drive_role == "output-frequency"
    }
    reversed_ = {follower for word, follower in control.items() if _has_reverse(project, word)}

    def signal_for(signal: AnySignal) -> AnySignal:
        if isinstance(signal, BitSignal):
            return _bit(signal, frequency[(control | status)[signal.bit.of]])
        if signal.name in control and isinstance(signal, RegisterSignal):
            notes = _CONTROL_NOTES.translated()
            return signal.replace(drive_role="control-word", start_value=Decimal(SHUTDOWN), notes=notes)
        if signal.name in status:
            return signal.replace(drive_role="status-word", notes=_STATUS_NOTES.translated())
        if isinstance(signal, RegisterSignal) and signal.drive_role == "speed-reference":
            return _reference(signal, signed=signal.follower in reversed_)
        return signal

    def field_for(field: Field) -> Field:
        return field.replace(entry=False) if roles.get(field.signal) == "reverse" else field

    screens = tuple(
        screen.replace(fields=tuple(field_for(field) for field in screen.fields)) for screen in project.screens
    )
    followers = tuple(
        follower.replace(simulate=follower.simulated.replace(register_map="iec-61800-7-201"))
        for follower in project.followers
    )
    return project.replace(
        followers=followers,
        signals=tuple(signal_for(signal) for signal in project.signals if roles.get(signal.name) != "run"),
        screens=screens,
        actions=tuple(_action(project, action) for action in project.actions),
    )


def _words_with(project: Project, role: DriveValue) -> dict[str, str]:
    """The words that have a bit of this role, with the device of each."""
    words = {signal.bit.of for signal in project.signals if isinstance(signal, BitSignal) and signal.drive_role == role}
    return {
        signal.name: signal.follower
        for signal in project.signals
        if isinstance(signal, RegisterSignal) and signal.name in words
    }


def _has_reverse(project: Project, word: str) -> bool:
    return any(
        isinstance(signal, BitSignal) and signal.drive_role == "reverse" and signal.bit.of == word
        for signal in project.signals
    )


def _bit(signal: BitSignal, frequency: str) -> BitSignal:
    if signal.drive_role == "reverse":
        return signal.replace(bit=Bit(of=frequency, number=_SIGN), write=False, drive_role=None)
    number = _STATUS_BITS.get(signal.drive_role, signal.bit.number) if signal.drive_role else signal.bit.number
    return signal.replace(bit=Bit(of=signal.bit.of, number=number), drive_role=None)


def _reference(signal: RegisterSignal, *, signed: bool) -> RegisterSignal:
    limits = signal.limits
    if signed and limits is not None:
        limits = (-limits[1], limits[1])
    return signal.replace(encoding="int16", limits=limits)


def _action(project: Project, action: Action) -> Action:
    signal = project.signal_named.get(action.signal or "")
    if not isinstance(signal, BitSignal) or signal.drive_role != "run":
        return action
    runs = action.do == "set"
    number = ENABLE_OPERATION if runs else SHUTDOWN
    return action.replace(signal=signal.bit.of, do="write", value=Decimal(number), stops=None if runs else True)
