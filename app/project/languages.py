"""A project as its panel shows it in one of its languages.

The first language stands in `text`, `texts` and `messages`; the others stand beside it, in `text_in`, `texts_in` and
`messages_in`, and what they leave out is shown in the first. Whoever draws or checks a panel takes the project in a
language and needs to know nothing more of languages.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from app.project.model import OTHERWISE, AnySignal, Project, Screen
from app.project.project_cache import ProjectCache

_MADE: Final = ProjectCache[dict[int, Project]]()


def in_language(project: Project, number: int) -> Project:
    """`project` with the texts of its language `number`, counted from 0; the project itself for the first one.

    A number that the panel has no language for counts as 0. Made once for each project value and language.
    """
    if not 0 < number < len(project.panel.languages):
        return project
    made = _MADE.of(project, lambda _project: {})
    found = made.get(number)
    if found is None:
        found = made[number] = _translate_project(project, project.panel.languages[number])
    return found


def edited_in(project: Project, number: int, edit: Callable[[Project], Project], *, only: str | None = None) -> Project:
    """What `edit` makes of the project when it sees and changes the screens' texts of language `number`.

    A screen whose text was left out in that language, and is still the same as in the first, stays without one. `only`
    names the one screen whose text the edit is about; then the others need not be looked at.
    """
    if not 0 < number < len(project.panel.languages):
        return edit(project)
    language = project.panel.languages[number]
    before = _with_screens(project, lambda screen: _turned_over(screen, language), only)
    after = edit(before)
    if after is before:
        return project
    former = {id(seen): screen for seen, screen in zip(before.screens, project.screens, strict=True)}
    had = {screen.name for screen in project.screens if language in screen.text_in}

    def back(screen: Screen) -> Screen:
        return former.get(id(screen)) or _turned_back(screen, language, keep=screen.name in had)

    return _with_screens(after, back, only)


def _translate_project(project: Project, language: str) -> Project:
    screens = tuple(_screen_in(screen, language) for screen in project.screens)
    signals = tuple(_signal_in(signal, language) for signal in project.signals)
    messages = project.panel.messages_in.get(language)
    panel = project.panel.replace(messages={**project.panel.messages, **messages}) if messages else project.panel
    return project.replace(panel=panel, screens=screens, signals=signals)


def _screen_in(screen: Screen, language: str) -> Screen:
    text = screen.text_in.get(language)
    return screen if text is None else screen.replace(text=text)


def _signal_in(signal: AnySignal, language: str) -> AnySignal:
    texts = signal.texts_in.get(language)
    return signal.replace(texts=merged(signal.texts, texts)) if texts else signal


def merged(first: Mapping[str, str], texts: Mapping[str, str]) -> dict[str, str]:
    """The texts of the first language with those of another in their place; "01" is the same value as "1"."""
    values = {_value(each) for each in texts}
    return {**{value: text for value, text in first.items() if _value(value) not in values}, **texts}


def same_values(texts: Mapping[str, str], others: Mapping[str, str]) -> dict[str, str]:
    """Those of `texts` that are for values for which `others` has a text too."""
    values = {_value(each) for each in others}
    return {value: text for value, text in texts.items() if _value(value) in values}


def _value(key: str) -> int | str:
    return key if key == OTHERWISE else int(key)


def _with_screens(project: Project, change: Callable[[Screen], Screen], only: str | None) -> Project:
    screens = tuple(change(screen) if only in (None, screen.name) else screen for screen in project.screens)
    same = all(new is old for new, old in zip(screens, project.screens, strict=True))
    return project if same else project.replace(screens=screens)


def _turned_over(screen: Screen, language: str) -> Screen:
    """The screen with the texts of the first and of this language in each other's place."""
    return screen.replace(
        text=screen.text_in.get(language, screen.text), text_in={**screen.text_in, language: screen.text}
    )


def _turned_back(screen: Screen, language: str, *, keep: bool) -> Screen:
    first = screen.text_in.get(language)
    if first is None:  # a screen that the edit made: it has one text
        return screen
    text_in = {name: text for name, text in screen.text_in.items() if name != language}
    if keep or screen.text != first:
        text_in[language] = screen.text
    return screen.replace(text=first, text_in=text_in)
