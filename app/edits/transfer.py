"""Copying from one project and pasting into another, or the same: blocks of cells, fields, whole screens.

What is copied (a *piece*) is a small project itself: its screens, the signals that their fields show, and the followers
and lines of those. So it is read, written and checked like every project, and the edits for projects serve it too. A
piece of cells has one screen, and a panel just as large as the block. Where its screen has no text at all, only the
fields are meant, and pasting leaves the text beneath alone.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Final, Literal

from app.edits.blocks import Block, fields_in, shifted
from app.edits.fields import with_fields
from app.edits.languages import set_languages
from app.edits.refused import EditRefused, changed, free_name, must_exist, with_names_in_order
from app.edits.rows import BLANK, RowTexts, full_rows, with_texts
from app.edits.screens import screen_called, with_screen
from app.edits.signals import rename_signal
from app.language import translate
from app.project.model import BitSignal, Field, Follower, Part, Project, RegisterSignal, Screen, ScreenChange
from app.project.paths import attributes
from app.project.problems import quoted
from app.project_file.canonical import inline

_MATTERS: Final = ("numbering", "word_order", "byte_order")
"""What of a follower decides which registers a signal means and how they are read."""


@dataclass(frozen=True, slots=True)
class Unlike:
    """A key of the file that differs: what stands there in the project, and what in the piece, as the file has it."""

    key: str
    here: str
    there: str


@dataclass(frozen=True, slots=True)
class NameClash:
    """A signal or a follower of a piece whose name means something else in the project."""

    kind: Literal["signal", "follower"]
    name: str
    unlike: tuple[Unlike, ...]


@dataclass(frozen=True, slots=True)
class Arrivals:
    """What comes along with a piece, by name, and what has the same name but differs."""

    signals: tuple[str, ...]
    followers: tuple[str, ...]
    lines: tuple[str, ...]
    differing: tuple[NameClash, ...]

    @property
    def nothing(self) -> bool:
        """Whether the project has all of it already, and nothing differs."""
        return not (self.signals or self.followers or self.lines or self.differing)


# Copying


def cells_of(project: Project, screen_name: str, block: Block, fields: Iterable[int] | None = None) -> Project:
    """The piece for a block of cells: its text and the fields wholly in it; with `fields` given, only those, no text.

    Raises EditRefused where the block leaves the panel.
    """
    screen = screen_called(project, screen_name)
    panel = project.panel
    if block.top < 0 or block.left < 0 or block.top + block.rows > panel.rows:
        raise EditRefused(translate("edits", "this cell is outside the panel"))
    if block.left + block.columns > panel.columns or block.rows < 1 or block.columns < 1:
        raise EditRefused(translate("edits", "this cell is outside the panel"))
    chosen = fields_in(screen, block) if fields is None else tuple(fields)
    copied = tuple(
        changed(field, at=(field.at[0] - block.top, field.at[1] - block.left))
        for field in (screen.fields[index] for index in chosen)
    )

    def cut(text: tuple[str, ...]) -> tuple[str, ...]:
        rows = full_rows(project, text)[block.top : block.top + block.rows]
        return tuple(row[block.left : block.left + block.columns].rstrip(BLANK) for row in rows)

    text = () if fields is not None else cut(screen.text)
    text_in = {} if fields is not None else {language: cut(rows) for language, rows in screen.text_in.items()}
    runs = [run for run in screen.blinking if block.holds(run)] if fields is None else []
    blinking = tuple(shifted(run, -block.top, -block.left) for run in runs)
    part = changed(screen, text=text, text_in=text_in, blinking=blinking, fields=copied, notes="", map=None)
    return _piece(project, (part,), block.rows, block.columns)


def screens_of(project: Project, names: Iterable[str]) -> Project:
    """The piece for whole screens, in the order of the project, with the screen changes from one of them to another.

    Places on the page map stay behind, since something else may be there, and so do actions: they may write to a
    machine, and are not to be brought into a project unseen.
    """
    wanted = frozenset(names)
    for name in wanted:
        must_exist("screen", name, project.screen_named)
    screens = tuple(
        screen if screen.map is None else changed(screen, map=None)
        for screen in project.screens
        if screen.name in wanted
    )
    if not screens:
        raise EditRefused(translate("edits", "no screen is selected"))
    piece = _piece(project, screens, project.panel.rows, project.panel.columns)
    screen_changes = tuple(
        screen_change
        for screen_change in project.screen_changes
        if screen_change.from_ in wanted and screen_change.to in wanted
    )
    return changed(piece, screen_changes=screen_changes) if screen_changes else piece


def _piece(project: Project, screens: tuple[Screen, ...], rows: int, columns: int) -> Project:
    names = _signals_of(project, screens)
    signals = tuple(signal for signal in project.signals if signal.name in names)
    follower_names = {signal.follower for signal in signals if isinstance(signal, RegisterSignal)}
    followers = tuple(follower for follower in project.followers if follower.name in follower_names)
    line_names = {follower.line for follower in followers}
    lines = tuple(line for line in project.lines if line.name in line_names)
    panel = changed(
        project.panel,
        rows=rows,
        columns=columns,
        start=screens[0].name,
        language=None,
        messages={},
        messages_in={},
    )
    return Project(panel=panel, lines=lines, followers=followers, signals=signals, screens=screens)


def _signals_of(project: Project, screens: Iterable[Screen]) -> set[str]:
    """The signals that the fields of some screens show or blink by, and the signals that bits among them are of."""
    names: set[str] = set().union(*[screen.signal_names for screen in screens])
    for name in tuple(names):
        signal = project.signal_named.get(name)
        if isinstance(signal, BitSignal):
            names.add(signal.bit.of)
    return names


# Pasting


def arrivals(project: Project, piece: Project) -> Arrivals:
    """What of a piece the project does not have, and what it has under the same name but otherwise."""
    piece = _in_languages_of(project, piece)
    signals: list[str] = []
    differing: list[NameClash] = []
    for signal in piece.signals:
        here = project.signal_named.get(signal.name)
        if here is None:
            signals.append(signal.name)
        elif unlike := _unlike(here, signal):
            differing.append(NameClash("signal", signal.name, unlike))
    coming = frozenset(signals)
    used = {signal.follower for signal in piece.signals if signal.name in coming and isinstance(signal, RegisterSignal)}
    followers: list[str] = []
    for follower in piece.followers:
        other = project.follower_named.get(follower.name)
        if follower.name not in used:
            continue
        if other is None:
            followers.append(follower.name)
        elif unlike := _unlike(other, follower, only=_MATTERS):
            differing.append(NameClash("follower", follower.name, unlike))
    on = {piece.follower_named[name].line for name in followers}
    lines = tuple(line.name for line in piece.lines if line.name in on and line.name not in project.line_named)
    return Arrivals(tuple(signals), tuple(followers), lines, tuple(differing))


def paste_cells(
    project: Project, piece: Project, screen_name: str, row: int, column: int, *, renaming: bool = False
) -> Project:
    """With a block of cells pasted, its upper left corner on this cell, and the signals that it shows.

    Text is written over text; nothing is written under or over a field that is there. What has a name of this project
    but differs is taken from this project, or comes under a new name (`renaming`).
    """
    screen = screen_called(project, screen_name)
    panel, block = project.panel, Block(row, column, piece.panel.rows, piece.panel.columns)
    if row < 0 or column < 0 or row + block.rows > panel.rows or column + block.columns > panel.columns:
        raise EditRefused(
            translate(
                "edits", "this needs {rows} x {columns} cells, but there are only {left_rows} x {left} from the cursor"
            ).format(
                rows=block.rows,
                columns=block.columns,
                left_rows=max(0, panel.rows - row),
                left=max(0, panel.columns - column),
            )
        )
    project, piece = _with_signals(project, piece, renaming)
    part = piece.screens[0]
    pasted = tuple(changed(field, at=(field.at[0] + row, field.at[1] + column)) for field in part.fields)
    first = len(screen.fields)
    after = with_fields(project, screen, (*screen.fields, *pasted), range(first, first + len(pasted)))
    if part.blinking:
        blinking = (*screen.blinking, *(shifted(run, row, column) for run in part.blinking))
        after = with_screen(after, changed(screen_called(after, screen_name), blinking=blinking))
    if not part.text:
        return after
    return _with_pasted_text(after, screen, part, block)


def paste_screens(project: Project, piece: Project, at: int | None = None, *, renaming: bool = False) -> Project:
    """With whole screens pasted at index `at` of the list, or at its end, and the signals that they show.

    A screen whose name is taken gets the next free one. Screen changes among the screens come along where the panel has
    their keys. Refused where a screen does not fit this panel.
    """
    _must_fit(project, piece)
    project, piece = _with_signals(project, piece, renaming)
    called: dict[str, str] = {}
    for screen in piece.screens:
        called[screen.name] = free_name(screen.name, {*project.screen_named, *called.values()})
    screens = tuple(
        screen if called[screen.name] == screen.name else changed(screen, name=called[screen.name])
        for screen in piece.screens
    )
    screen_changes = tuple(
        changed(screen_change, from_=called[screen_change.from_], to=called[screen_change.to])
        for screen_change in incoming_screen_changes(project, piece)
        if screen_change.from_ in called and screen_change.to in called
    )
    at = len(project.screens) if at is None else max(0, min(at, len(project.screens)))
    screens = (*project.screens[:at], *screens, *project.screens[at:])
    return changed(
        project,
        screens=screens,
        screen_changes=(*project.screen_changes, *screen_changes) if screen_changes else project.screen_changes,
    )


def incoming_screen_changes(project: Project, piece: Project) -> tuple[ScreenChange, ...]:
    """The screen changes of a piece for which the panel of the project has the keys."""
    return tuple(
        screen_change
        for screen_change in piece.screen_changes
        if screen_change.key is None or screen_change.key in project.panel.keys
    )


def _with_pasted_text(project: Project, before: Screen, part: Screen, block: Block) -> Project:
    """With the text of a pasted screen part in a block; `before` is the screen without the pasted fields."""
    screen = screen_called(project, before.name)
    for language in part.text_in:
        if language not in screen.text_in:
            screen = changed(screen, text_in={**screen.text_in, language: screen.text})
    project = changed(project, screens=tuple(screen if each.name == screen.name else each for each in project.screens))
    covered = {
        (field.at[0], column): field
        for field in before.fields
        for column in range(field.at[1], field.at[1] + field.width)
    }

    def write(rows: RowTexts, language: str) -> RowTexts:
        text = part.text_in.get(language, part.text)
        rows = list(rows)
        for down in range(block.rows):
            line = (text[down] if down < len(text) else "").ljust(block.columns)[: block.columns]
            row = block.top + down
            for over, character in enumerate(line):
                field = covered.get((row, block.left + over))
                if field is not None and character != BLANK:
                    raise EditRefused(
                        translate("edits", "the field of signal {signal} would cover the text").format(
                            signal=quoted(field.signal)
                        )
                    )
            rows[row] = rows[row][: block.left] + line + rows[row][block.left + block.columns :]
        return rows

    return with_texts(project, screen, write)


def _with_signals(project: Project, piece: Project, renaming: bool) -> tuple[Project, Project]:
    """The project with the signals, followers and lines of a piece, and the piece in the names of the project."""
    piece = _in_languages_of(project, piece)
    found = arrivals(project, piece)
    if renaming and found.differing:
        piece = _rename_clashes(project, piece, found)
        found = arrivals(project, piece)
    if not found.signals:
        return project, piece
    after = changed(
        project,
        lines=(*project.lines, *(piece.line_named[name] for name in found.lines)),
        followers=(*project.followers, *(piece.follower_named[name] for name in found.followers)),
        signals=(*project.signals, *(piece.signal_named[name] for name in found.signals)),
    )
    return with_names_in_order(after, project), piece


def _rename_clashes(project: Project, piece: Project, found: Arrivals) -> Project:
    """The piece with new names for what differs."""
    for difference in found.differing:
        name = difference.name
        if difference.kind == "signal":
            piece = rename_signal(piece, name, free_name(name, {*project.signal_named, *piece.signal_named}))
    # A signal that had to be renamed comes along now, and its follower may be one that differs only for it.
    for difference in arrivals(project, piece).differing:
        if difference.kind == "follower":
            piece = _with_follower_renamed(project, piece, difference.name)
    return piece


def _with_follower_renamed(project: Project, piece: Project, name: str) -> Project:
    """The piece with the signals that come along on a copy of a follower, which has a name that is free."""
    coming = frozenset(arrivals(project, piece).signals)
    new_name = free_name(name, {*project.follower_named, *piece.follower_named})
    follower: Follower = changed(piece.follower_named[name], name=new_name)
    signals = tuple(
        changed(signal, follower=new_name)
        if isinstance(signal, RegisterSignal) and signal.follower == name and signal.name in coming
        else signal
        for signal in piece.signals
    )
    return changed(piece, followers=(*piece.followers, follower), signals=signals)


def _in_languages_of(project: Project, piece: Project) -> Project:
    """The piece with the languages of the project: its texts in others are left out."""
    if piece.panel.languages == project.panel.languages:
        return piece
    try:
        return set_languages(piece, project.panel.languages)
    except EditRefused:  # the project's first language is none of the piece's
        return set_languages(piece, ())


def _must_fit(project: Project, piece: Project) -> None:
    """Raises EditRefused if text or a field of a screen would leave the panel."""
    rows, columns = project.panel.rows, project.panel.columns
    if piece.panel.rows <= rows and piece.panel.columns <= columns:
        return
    for screen in piece.screens:
        texts = (screen.text, *screen.text_in.values())
        fits = all(
            not line.strip(BLANK) or (row < rows and len(line.rstrip(BLANK)) <= columns)
            for text in texts
            for row, line in enumerate(text)
        ) and all(_inside(field, rows, columns) for field in screen.fields)
        if not fits:
            raise EditRefused(
                translate(
                    "edits", "screen {screen} is made for {rows} x {columns} cells; this panel has {here} x {across}"
                ).format(
                    screen=quoted(screen.name),
                    rows=piece.panel.rows,
                    columns=piece.panel.columns,
                    here=rows,
                    across=columns,
                )
            )


def _inside(field: Field, rows: int, columns: int) -> bool:
    return 0 <= field.at[0] < rows and field.at[1] >= 0 and field.at[1] + field.width <= columns


def _unlike(here: Part, there: Part, only: Collection[str] | None = None) -> tuple[Unlike, ...]:
    """The keys of the file, but for remarks, in which two parts of one name differ; also those that one kind lacks."""
    mine, others = attributes(type(here)), attributes(type(there))
    found: list[Unlike] = []
    for key in dict.fromkeys((*mine, *others)):
        if key == "notes" or (only is not None and key not in only):
            continue
        one = getattr(here, mine[key]) if key in mine else None
        other = getattr(there, others[key]) if key in others else None
        if one != other:
            found.append(Unlike(key, _in_the_file(one), _in_the_file(other)))
    return tuple(found)


def _in_the_file(value: object) -> str:
    """A value as the file has it; nothing where it is left out."""
    return "" if value is None or value in ((), {}) else inline(value)
