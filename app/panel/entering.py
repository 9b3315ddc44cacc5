"""What keys do during an entry: choose a field, change its value, confirm or abandon it."""

from __future__ import annotations

from dataclasses import replace

from app.panel import acting
from app.panel.entry import (
    REPEAT_AFTER_S,
    REPEAT_EVERY_S,
    Entry,
    EntryRefused,
    Repeat,
    change,
    move_cursor,
    start,
)
from app.panel.events import Entered
from app.panel.messages import Saying, of_refusal
from app.panel.work import StepInProgress
from app.project.capability import cannot_write


def begin_with(work: StepInProgress, entry: Entry) -> None:
    """Begin an entry: choose one of its fields first, where it has several."""
    if len(entry.fields) == 1:
        _adjust(work, entry)
    else:
        work.change(entry=entry, since=work.at)


def choose_next(work: StepInProgress, _key: str) -> None:
    """Go to the next field, round the end."""
    _choose(work, 1)


def choose_previous(work: StepInProgress, _key: str) -> None:
    """Go to the field before, round the beginning."""
    _choose(work, -1)


def _choose(work: StepInProgress, way: int) -> None:
    entry = work.state.entry
    assert entry is not None
    work.change(entry=replace(entry, place=(entry.place + way) % len(entry.fields)))


def adjust_chosen(work: StepInProgress, _key: str) -> None:
    """Begin to change the value of the field that is chosen."""
    entry = work.state.entry
    assert entry is not None
    _adjust(work, entry)


def _adjust(work: StepInProgress, entry: Entry) -> None:
    field = work.fields[entry.field]
    by_digit = work.project.panel.entry.by == "digit"
    try:
        editing, message = start(work.project, field, work.view[field.signal], by_digit)
    except EntryRefused as refused:
        work.change(entry=_without_editing(entry), since=work.at)
        work.refuse(field.signal, str(refused), refused.saying)
        return
    work.change(entry=replace(entry, editing=editing), since=work.at)
    if message is not None:
        work.tell(message)


def _without_editing(entry: Entry) -> Entry | None:
    """What an entry goes back to: choosing, where there are several fields to choose from."""
    return replace(entry, editing=None) if len(entry.fields) > 1 else None


def raise_value(work: StepInProgress, key: str) -> None:
    """One step up, and more of them while the key stays down."""
    _change(work, key, 1)


def lower_value(work: StepInProgress, key: str) -> None:
    """One step down, and more of them while the key stays down."""
    _change(work, key, -1)


def _change(work: StepInProgress, key: str, way: int) -> None:
    entry, editing = work.editing
    editing, message = change(work.project, work.fields[entry.field], editing, way)
    # Choices go round: repeated, they would rush past.
    repeat = None if editing.choices else Repeat(key, way, work.at + REPEAT_AFTER_S)
    work.change(entry=replace(entry, editing=replace(editing, repeat=repeat)))
    if message is not None:
        work.tell(message)


def repeat_change(work: StepInProgress, _key: str) -> None:
    """The steps that are due because a key is held down."""
    entry, editing = work.editing
    field = work.fields[entry.field]
    message: Saying | None = None
    while (repeat := editing.repeat) is not None and repeat.next_at <= work.at:
        # After a pause without ticks the value must not rush on to make up for it.
        next_at = max(repeat.next_at, work.at - 2 * REPEAT_EVERY_S) + REPEAT_EVERY_S
        editing, message = change(work.project, field, editing, repeat.way)
        editing = replace(editing, repeat=replace(repeat, next_at=next_at, count=repeat.count + 1))
    work.change(entry=replace(entry, editing=editing))
    if message is not None:
        work.tell(message)


def cursor_left(work: StepInProgress, _key: str) -> None:
    """Go to the digit at the left."""
    _move_cursor(work, 1)


def cursor_right(work: StepInProgress, _key: str) -> None:
    """Go to the digit at the right."""
    _move_cursor(work, -1)


def _move_cursor(work: StepInProgress, way: int) -> None:
    entry, editing = work.editing
    editing = move_cursor(work.project, work.fields[entry.field], editing, way)
    work.change(entry=replace(entry, editing=editing))


def confirm(work: StepInProgress, _key: str) -> None:
    """Write the value, unless it is refused: then go on changing it."""
    entry, editing = work.editing
    signal = work.fields[entry.field].signal
    reason = cannot_write(work.project, signal, editing.value)
    if reason is not None:
        work.refuse(signal, reason, of_refusal(work.project, signal, editing.value))
        return
    work.change(entry=_without_editing(entry), since=work.at)
    work.effects.append(Entered(signal, editing.old, editing.value))
    acting.put(work, signal, editing.value)


def restore(work: StepInProgress, _key: str) -> None:
    """Leave the value as it was."""
    entry, _ = work.editing
    work.change(entry=_without_editing(entry), since=work.at)


def leave(work: StepInProgress, _key: str) -> None:
    """End the entry, whatever it had come to."""
    work.change(entry=None, since=work.at)


def stop_repeat(work: StepInProgress, key: str | None = None) -> None:
    """Change the value no further by itself: if `key` does so, or whichever key does."""
    entry = work.state.entry
    if entry is None or entry.editing is None or entry.editing.repeat is None:
        return
    if key is None or entry.editing.repeat.key == key:
        work.change(entry=replace(entry, editing=replace(entry.editing, repeat=None)))
