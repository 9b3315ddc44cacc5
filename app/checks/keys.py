"""Rules about keys: two causes that fight for one, and keys that are taken for something else.

What the panel does with a key (see `app.panel.machine`) says what a conflict is. A screen change with `from` goes
before one without, and all actions of a key are done before its screen change: neither is a conflict, both may be
meant. Two screen changes of the same key with the same `from` are one, since the second is never taken; so are two
actions of one key on one screen that write to the same place.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from app.checks import fixes
from app.checks.context import CheckContext, overlap
from app.checks.finding import Fix, Violation
from app.checks.rule import each, whole
from app.language import translate
from app.project.model import Action, EntryKeys, Screen, ScreenChange
from app.project.problems import quoted


@whole("screen_changes", name="screen-changes-conflict")
def screen_changes_conflict(context: CheckContext) -> Iterator[Violation]:
    """Two screen changes by one key on one screen: the second is never taken."""
    first: dict[tuple[str | None, str], int] = {}
    for index, screen_change in enumerate(context.project.screen_changes):
        if screen_change.key is None:
            continue
        earlier = first.setdefault((screen_change.from_, screen_change.key), index)
        if earlier == index:
            continue
        if screen_change.from_ is None:
            message = translate("checks", "key {key} already goes to {screen} on every screen (screen change {number})")
        else:
            message = translate(
                "checks", "key {key} already goes to {screen} on screen {source} (screen change {number})"
            )
        yield Violation(
            "error",
            ("screen_change", index),
            message.format(
                key=quoted(screen_change.key),
                source=quoted(screen_change.from_ or ""),
                screen=quoted(context.project.screen_changes[earlier].to),
                number=earlier + 1,
            ),
            translate("checks", "remove one of the two, or use another key"),
            remove_screen_change(),
        )


def remove_screen_change() -> Fix:
    """The fix that takes a screen change out."""
    return Fix(translate("checks", "Remove this screen change"), fixes.remove)


def remove_action() -> Fix:
    """The fix that takes an action out."""
    return Fix(translate("checks", "Remove this action"), fixes.remove)


@each("screen_change", name="screen-change-to-itself")
def screen_change_to_itself(_context: CheckContext, screen_change: ScreenChange) -> Iterator[Violation]:
    """A screen change from a screen to that same screen: the key does nothing."""
    if screen_change.from_ is not None and screen_change.from_ == screen_change.to:
        yield Violation(
            "warning",
            (),
            translate("checks", "it goes from {screen} to the same screen, so nothing happens").format(
                screen=quoted(screen_change.to)
            ),
            translate("checks", "choose another screen, or delete the screen change"),
            remove_screen_change(),
        )


@whole("actions", "signals", name="actions-conflict")
def actions_fight(context: CheckContext) -> Iterator[Violation]:
    """Two actions by one key on one screen that write to the same place: the one undoes or repeats the other."""
    by_key: dict[str, list[tuple[int, Action]]] = {}
    for index, action in enumerate(context.project.actions):
        if action.key is not None and action.signal is not None and action.do != "begin-entry":
            by_key.setdefault(action.key, []).append((index, action))
    for key, actions in by_key.items():
        for (earlier, first), (index, second) in combinations(actions, 2):
            if not overlap(first, second):
                continue
            one, other = first.signal or "", second.signal or ""
            word = context.source(one)
            same_word = word is not None and word is context.source(other) and word.name in (one, other)
            if one != other and not same_word:
                continue
            repeated = (first.do, first.signal, first.value) == (second.do, second.signal, second.value)
            mild = repeated and second.do != "toggle"
            if one == other:
                message = translate(
                    "checks",
                    "key {key} already does '{first}' on {signal} (action {number}); this one does '{second}' on the "
                    "same signal right after it",
                )
            else:
                message = translate(
                    "checks",
                    "key {key} already does '{first}' on {signal} (action {number}); this one does '{second}' on "
                    "{other} right after it",
                )
            yield Violation(
                "warning" if mild else "error",
                ("action", index),
                message.format(
                    key=quoted(key),
                    first=first.do,
                    signal=quoted(one),
                    number=earlier + 1,
                    second=second.do,
                    other=quoted(other),
                ),
                translate("checks", "delete one of the two, or choose another key or another screen for it"),
                remove_action() if mild and first.from_ in (None, second.from_) else None,
            )


@whole("actions", "screen_changes", name="momentary-left-behind")
def momentary_left_behind(context: CheckContext) -> Iterator[Violation]:
    """A momentary action whose key changes the screen too: that ends it the moment it begins."""
    for place, action in context.actions():
        if action.do != "momentary" or action.key is None:
            continue
        for index, screen_change in enumerate(context.project.screen_changes):
            if screen_change.key == action.key and (
                None in (screen_change.from_, action.from_) or screen_change.from_ == action.from_
            ):
                yield Violation(
                    "error",
                    place,
                    translate(
                        "checks",
                        "key {key} also changes the screen (screen change {number}), which ends the action at once",
                    ).format(key=quoted(action.key), number=index + 1),
                    translate("checks", "use another key for the screen change or the action"),
                )
                break


@each("screen", name="begin-key-taken", depends_on=("screen_changes", "actions"))
def begin_key_taken(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A screen with entry whose begin key has a screen change or an action there: entry cannot be begun."""
    if not any(field.entry for field in screen.fields):
        return
    begin = context.panel.entry.begin
    actions = [action for action in context.key_actions(screen.name) if action.do == "begin-entry"]
    if any(action.key in context.panel.keys for action in actions):
        return
    message = None
    for number, screen_change in context.screen_changes_by_key(begin):
        if screen_change.from_ in (None, screen.name) and screen_change.to != screen.name:
            message = translate(
                "checks", "its fields allow entry, but its begin key {key} is used by screen change {number}"
            ).format(key=quoted(begin), number=number + 1)
            break
    else:
        for number, action in enumerate(context.project.actions):
            if action.key == begin and action.from_ in (None, screen.name):
                message = translate(
                    "checks", "its fields allow entry, but its begin key {key} is used by action {number}"
                ).format(key=quoted(begin), number=number + 1)
                break
    if message is not None:
        hint = translate("checks", "use another key for that, or start the entry by an action of another key")
        yield Violation("error", (), message, hint)


@whole("panel", "actions", "screen_changes", "screen_names", "entered", name="nothing-to-enter")
def nothing_to_enter(context: CheckContext) -> Iterator[Violation]:
    """An action that begins entry where there is no field to enter: the key only brings a refusal."""
    screens = set(context.screen_names)
    for place, action in context.actions():
        if action.do != "begin-entry":
            continue
        reached = {action.from_} if action.from_ is not None else screens
        # The screen change of the same key goes before the entry.
        reached = reached | {screen_change.to for _, screen_change in context.screen_changes_by_key(action.key)}
        if reached & {"next", "previous"}:
            reached = screens
        entered = [names for screen, names in context.entered.items() if screen in reached]
        if any(action.signal is None or action.signal in names for names in entered):
            continue
        if action.signal is None:
            message = translate(
                "checks", "it starts value entry, but none of its screens has a field that allows entry"
            )
        else:
            message = translate(
                "checks", "it starts entry of {signal}, but none of its screens has a field that allows it"
            ).format(signal=quoted(action.signal))
        hint = translate("checks", "allow value entry in a field there, or remove the action")
        yield Violation("warning", place, message, hint, remove_action() if _begins_without(context, action) else None)


def _begins_without(context: CheckContext, action: Action) -> bool:
    """Whether no entry hangs on this action: there is none, or the key that begins it does nothing else."""
    if not context.entered:
        return True
    begin = context.panel.entry.begin
    others = [other for other in context.project.actions if other is not action]
    taken = {screen_change.key for screen_change in context.project.screen_changes} | {other.key for other in others}
    return begin in context.panel.keys and begin not in taken


@whole("panel", "actions", "screen_changes", name="key-unused")
def key_unused(context: CheckContext) -> Iterator[Violation]:
    """Keys that do nothing on any screen, once others do something: an operator presses them in vain.

    Those that serve in entry as panels usually come, arrows, enter and escape, are there whether they are used or not.
    """
    entry, usual = context.panel.entry, EntryKeys()
    roles = ("begin", "up", "down", "left", "right", "confirm", "abandon")
    used = {screen_change.key for screen_change in context.project.screen_changes}
    used |= {action.key for action in context.project.actions}
    if not used - {None}:
        return
    used |= {getattr(keys, role) for keys in (entry, usual) for role in roles}
    unused = [key for key in dict.fromkeys(context.panel.keys) if key not in used]
    if unused:
        yield Violation(
            "note",
            ("panel", "keys"),
            translate("checks", "these keys do nothing on any screen: {keys}").format(
                keys=", ".join(quoted(key) for key in unused)
            ),
            translate("checks", "give them something to do, or leave them out of the panel's keys"),
        )
