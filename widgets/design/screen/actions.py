"""The commands of the screen editor, with their keys and their places in the Design menu."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QWidget

from widgets.design.screen.arranging import Arranging
from widgets.design.screen.clipboard import Clipboard
from widgets.design.screen.commands import ScreenCommands
from widgets.face.sample_values import FieldContents
from widgets.kit.commands import Keys, allow, command


class EditorActions(QObject):
    """Keys about cells hold while the face has the focus, those of the search in the whole editor."""

    chosen = Signal()
    """One of the commands, perhaps while something else than the editor is in front. Comes before what it does."""
    blink_wanted = Signal()
    insert_chosen = Signal(bool)
    keys_toggled = Signal(bool)
    shown_chosen = Signal(object)
    """A `FieldContents`."""
    zoom_wanted = Signal(int)
    """By so many pixels; 0: as large as fits."""
    find_wanted = Signal()
    replace_wanted = Signal()
    find_next_wanted = Signal(int)
    """1 for the next place, -1 for the one before."""

    def __init__(
        self, editor: QWidget, face: QWidget, commands: ScreenCommands, arranging: Arranging, clipboard: Clipboard
    ) -> None:
        super().__init__(editor)
        self._editor = editor
        self._face = face
        self._commands = commands
        self._arranging = arranging
        self._clipboard = clipboard
        self._menus: list[tuple[str, list[QAction | None]]] = []
        self._state: tuple[object, ...] = ()
        self._make_cells()
        self._make_arranging()
        self._make_search()
        self._make_view()

    def fill_menu(self, menu: QMenu) -> None:
        """Put the commands, in groups, into a menu of the window."""
        for title, actions in self._menus:
            _fill(menu.addMenu(title), actions)

    def fill_arranging(self, menu: QMenu) -> None:
        """Put the commands that arrange what is selected into a menu."""
        title, actions = self._menus[1]
        _fill(menu.addMenu(title), actions)

    def show_state(self, *, screen: bool, trying: bool, insert: bool, shown: FieldContents, keys: bool) -> None:
        """Whether there is a screen, whether it is tried just now, whether typing inserts.

        And what the fields show, and whether the keys of the panel are drawn.
        """
        state = (screen, trying, insert, shown, keys)
        if state == self._state:
            return
        self._state = state
        why_not = self.tr("the panel is being tried out") if trying else self.tr("this project has no screen yet")
        for _, actions in self._menus:
            for action in actions:
                if action is not None:
                    allow(action, screen and not trying, why_not)
        for action, on in ((self.insert, insert), (self.keys, keys), (self.shown[shown], True)):
            before = action.blockSignals(True)  # only what a person does is a command
            action.setChecked(on)
            action.blockSignals(before)

    def _make_cells(self) -> None:
        clipboard = self._clipboard
        self.insert = self._on_face(
            self.tr("&Insert instead of overwriting"), self.insert_chosen.emit, "Ins", toggles=True
        )
        self.transfer = [
            self._on_face(self.tr("Cu&t"), clipboard.cut, ["Ctrl+X", "Shift+Del"]),
            self._on_face(self.tr("&Copy"), clipboard.copy, ["Ctrl+C", "Ctrl+Ins"]),
            self._on_face(self.tr("&Paste"), clipboard.paste, ["Ctrl+V", "Shift+Ins"]),
            self._on_face(self.tr("D&uplicate"), self._arranging.duplicate, "Ctrl+D"),
        ]
        select_all = self._on_face(self.tr("Select &all"), self._commands.select_all, "Ctrl+A")
        self.blink = self._on_face(self.tr("&Blink when\u2026"), self.blink_wanted.emit, "Ctrl+Alt+K")
        self._menus.append((self.tr("&Cells"), [*self.transfer, None, select_all, self.insert, None, self.blink]))

    def _make_arranging(self) -> None:
        arranging = self._arranging
        self._menus.append(
            (
                self.tr("Arran&ge"),
                [
                    self._on_face(self.tr("Move &up"), lambda: arranging.move(-1, 0), "Alt+Up"),
                    self._on_face(self.tr("Move &down"), lambda: arranging.move(1, 0), "Alt+Down"),
                    self._on_face(self.tr("Move to the &left"), lambda: arranging.move(0, -1), "Alt+Left"),
                    self._on_face(self.tr("Move to the &right"), lambda: arranging.move(0, 1), "Alt+Right"),
                    None,
                    self._on_face(self.tr("&Wider"), lambda: arranging.widen(1), ["Alt+Shift+Right", "Ctrl+Alt+Right"]),
                    self._on_face(
                        self.tr("&Narrower"), lambda: arranging.widen(-1), ["Alt+Shift+Left", "Ctrl+Alt+Left"]
                    ),
                    self._on_face(self.tr("&Fit to the widest value"), arranging.fit_width, "Ctrl+B"),
                    self._on_face(self.tr("&Equally wide"), arranging.same_width, "Ctrl+G"),
                    None,
                    self._on_face(self.tr("&Align left"), lambda: arranging.align("left"), "Alt+Home"),
                    self._on_face(self.tr("&Centre"), lambda: arranging.align("centre"), "Ctrl+E"),
                    self._on_face(self.tr("Align ri&ght"), lambda: arranging.align("right"), "Alt+End"),
                ],
            )
        )

    def _make_search(self) -> None:
        self.find = self._in_editor(self.tr("&Find\u2026"), self.find_wanted.emit, "Ctrl+F")
        self.replace = self._in_editor(self.tr("&Replace\u2026"), self.replace_wanted.emit, "Ctrl+H")
        self._menus.append(
            (
                self.tr("Find on &screens"),
                [
                    self.find,
                    self.replace,
                    None,
                    self._in_editor(self.tr("&Next match"), lambda: self.find_next_wanted.emit(1), "F3"),
                    self._in_editor(self.tr("&Previous match"), lambda: self.find_next_wanted.emit(-1), "Shift+F3"),
                ],
            )
        )

    def _make_view(self) -> None:
        group = QActionGroup(self)
        self.shown: dict[FieldContents, QAction] = {}
        for shown, text, keys in (
            (FieldContents.SAMPLE, self.tr("&Sample values"), "Ctrl+Shift+F2"),
            (FieldContents.WIDEST, self.tr("&Widest values"), "Ctrl+Shift+F3"),
            (FieldContents.MARKS, self.tr("&Marks"), "Ctrl+Shift+F4"),
            (FieldContents.LIVE, self.tr("&Live values"), "Ctrl+Shift+F5"),
        ):
            action = self._in_editor(text, lambda shown=shown: self.shown_chosen.emit(shown), keys)
            action.setCheckable(True)
            group.addAction(action)
            self.shown[shown] = action
        self.keys = self._in_editor(self.tr("&Keys of the panel"), self.keys_toggled.emit, "Shift+F4", toggles=True)
        self._menus.append(
            (
                self.tr("Sho&w in the fields"),
                [
                    *self.shown.values(),
                    None,
                    self.keys,
                    None,
                    self._on_face(self.tr("Lar&ger"), lambda: self.zoom_wanted.emit(2), ["Ctrl++", "Ctrl+="]),
                    self._on_face(self.tr("Smalle&r"), lambda: self.zoom_wanted.emit(-2), "Ctrl+-"),
                    self._on_face(self.tr("As large as &fits"), lambda: self.zoom_wanted.emit(0), "Ctrl+0"),
                ],
            )
        )

    def _on_face(self, text: str, run: Callable[..., object], keys: Keys, *, toggles: bool = False) -> QAction:
        return self._command(self._face, text, run, keys, toggles)

    def _in_editor(self, text: str, run: Callable[..., object], keys: Keys, *, toggles: bool = False) -> QAction:
        return self._command(self._editor, text, run, keys, toggles)

    def _command(self, owner: QWidget, text: str, run: Callable[..., object], keys: Keys, toggles: bool) -> QAction:
        def run_here(*arguments: object) -> None:
            self.chosen.emit()
            run(*arguments)

        return command(owner, text, run_here, keys, toggles=toggles, within=True)


def _fill(menu: QMenu, actions: list[QAction | None]) -> None:
    for action in actions:
        if action is None:
            menu.addSeparator()
        else:
            menu.addAction(action)
