"""Every command of the window has a key of its own and a place in a menu, and no key means two things at one place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import combinations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QDockWidget, QLineEdit, QMenu, QPlainTextEdit, QWidget

from tests.pictures.stage import Setting, settle, staged
from widgets.design.views import VIEWS
from widgets.kit.commands import OWN_KEYS, is_entry, keys_of, list_commands, native, plain
from widgets.kit.language import Language
from widgets.shell.window import MainWindow

CONTEXT = Qt.ShortcutContext


@pytest.fixture(scope="module")
def window() -> Iterator[MainWindow]:
    """The window with all that is made only when it is wanted."""
    with staged(Setting()) as made:
        for view in VIEWS:
            made.design.show_view(view)
            settle()
        made.show_workspace(1)
        made.connecting.connect_line()
        settle()
        yield made


def in_menus(window: MainWindow) -> dict[int, str]:
    return {id(each.action): " > ".join((*each.path, each.name)) for each in list_commands(window.menus.all())}


def owners(action: QAction) -> list[QWidget]:
    return [each for each in action.associatedObjects() if isinstance(each, QWidget) and not isinstance(each, QMenu)]


def every_action(window: MainWindow) -> Iterator[tuple[QWidget, QAction]]:
    """All commands: of the menus, of all widgets, of their buttons and context menus. With whose they are."""
    seen: set[int] = set()
    for widget in (window, *window.findChildren(QWidget)):
        if isinstance(widget, QLineEdit | QPlainTextEdit):
            continue  # Qt's own, such as the button that clears it
        for action in (*widget.actions(), *(child for child in widget.children() if isinstance(child, QAction))):
            if id(action) in seen or action.isSeparator() or isinstance(action.menu(), QMenu):
                continue
            seen.add(id(action))
            # Qt's own: of a button that opens a menu, and the switch of a dock.
            if action.text() and not isinstance(action.parent(), QDockWidget):
                yield widget, action


def named(widget: QWidget, action: QAction) -> str:
    return f"'{plain(action.text())}' of {type(widget).__name__}"


def test_every_command_has_a_key(window: MainWindow) -> None:
    places = in_menus(window)
    without = [
        places.get(id(action), named(widget, action))
        for widget, action in every_action(window)
        if not keys_of(action) and not is_entry(action)
    ]
    assert without == [], "commands without a key; entries of lists are marked with widgets.kit.commands.mark_entry"


def test_every_command_has_a_place_in_the_menus(window: MainWindow) -> None:
    places = in_menus(window)
    told = set(places.values())
    without = [
        named(widget, action)
        for widget, action in every_action(window)
        if id(action) not in places
        and not is_entry(action)
        # The same command once more, at a place where it has another key: a table's own Ctrl+C.
        and not any(place.endswith(f" > {plain(action.text())}") for place in told)
    ]
    assert without == [], "commands that stand in no menu of the menu bar"


def contains(outer: QWidget, inner: QWidget) -> bool:
    return outer is inner or outer.isAncestorOf(inner)


def meet(one: QAction, other: QAction) -> bool:
    """Whether there is a place in the window where the keys of both count."""
    if CONTEXT.WindowShortcut in (one.shortcutContext(), other.shortcutContext()):
        return True
    for first in owners(one):
        for second in owners(other):
            if one.shortcutContext() == CONTEXT.WidgetShortcut and contains(second, first):
                return second is first or other.shortcutContext() != CONTEXT.WidgetShortcut
            if other.shortcutContext() == CONTEXT.WidgetShortcut and contains(first, second):
                return True
            if CONTEXT.WidgetShortcut not in (one.shortcutContext(), other.shortcutContext()) and (
                contains(first, second) or contains(second, first)
            ):
                return True
    return False


def test_no_key_means_two_things_at_one_place(window: MainWindow) -> None:
    places = in_menus(window)
    by_key: dict[str, list[tuple[str, QAction]]] = {}
    for widget, action in every_action(window):
        for keys in action.shortcuts():
            by_key.setdefault(keys.toString(), []).append((places.get(id(action), named(widget, action)), action))
    clashes = [
        f"{keys}: {first} and {second}"
        for keys, found in by_key.items()
        for (first, one), (second, other) in combinations(found, 2)
        if meet(one, other)
    ]
    assert clashes == []


def test_no_key_is_the_beginning_of_another(window: MainWindow) -> None:
    single = {keys.toString() for _, action in every_action(window) for keys in action.shortcuts() if keys.count() == 1}
    chords = {keys.toString() for _, action in every_action(window) for keys in action.shortcuts() if keys.count() > 1}
    assert chords, "parts are added by two keys, one after the other"
    assert {chord for chord in chords if chord.split(", ")[0] in single} == set()


def access_key(text: str) -> str:
    text = text.replace("&&", "")
    return text[text.index("&") + 1].lower() if "&" in text else ""


def every_menu(menu: QMenu) -> Iterator[QMenu]:
    yield menu
    for action in menu.actions():
        inner = action.menu()
        if isinstance(inner, QMenu):
            yield from every_menu(inner)


@pytest.mark.parametrize("language", [Language.ENGLISH, Language.GERMAN])
def test_access_keys_within_a_menu_are_unique(language: Language) -> None:
    clashes = []
    with staged(Setting(language=language)) as window:
        tops = window.menus.all()
        found = {"the menu bar": Counter(access_key(menu.title()) for menu in tops)}
        for menu in (inner for top in tops for inner in every_menu(top)):
            found[plain(menu.title())] = Counter(access_key(action.text()) for action in menu.actions())
        for title, letters in found.items():
            clashes += [f"{title}: {letter}" for letter, count in letters.items() if letter and count > 1]
    assert clashes == []


def test_no_key_that_a_widget_handles_itself_stands_twice_in_one_menu(window: MainWindow) -> None:
    own = [each for each in list_commands(window.menus.all()) if each.action.property(OWN_KEYS)]
    found = Counter((each.path, native(keys_of(each.action))) for each in own)
    assert len(own) > 10
    assert [place for place, count in found.items() if count > 1] == []
    for table in (window.design.signals.table, window.design.lines.followers):
        table.table.customContextMenuRequested.emit(QPoint(5, 5))
        menus = [each for each in table.findChildren(QMenu) if each.actions() and each.isVisible()]
        for menu in menus:
            keys = Counter(action.shortcut().toString() for action in menu.actions() if not action.isSeparator())
            assert [key for key, count in keys.items() if count > 1 and key] == []
            menu.close()
        assert menus


def test_names_of_commands_are_unique_where_they_are_looked_for(window: MainWindow) -> None:
    names = Counter((each.path, each.name) for each in list_commands(window.menus.all()))
    assert [name for name, count in names.items() if count > 1] == []


def test_what_cannot_be_used_just_now_says_why(window: MainWindow) -> None:
    from widgets.kit.commands import why_off

    window.connecting.disconnect_line()
    settle()
    silent = [
        f"{' > '.join(each.path)} > {each.name} ({native(keys_of(each.action))})"
        for each in list_commands(window.menus.all())
        if not each.action.isEnabled() and not why_off(each.action)
    ]
    assert silent == [], "use widgets.kit.commands.allow with a reason"
