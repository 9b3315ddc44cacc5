"""Editing the languages of the panel: which there are, what chooses among them, and what the panel says in them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeVar

from app.edits.refused import EditRefused, changed, must_exist
from app.language import translate
from app.project.languages import merged, same_values
from app.project.messages import chosen_form, words_in
from app.project.model import BitSignal, HeldSignal, Panel, PanelMessage, Part, Project, RegisterSignal, Screen
from app.project.problems import quoted

_P = TypeVar("_P", bound=Part)


def set_languages(project: Project, languages: Iterable[str]) -> Project:
    """With other languages of the panel, the first of which is the one of the plain texts.

    Texts of a language that goes are gone with it. Where another of the languages becomes the first, the texts change
    places, so that the panel shows in each language what it did.
    """
    before = project.panel.languages
    panel = changed(project.panel, languages=tuple(languages))
    after = panel.languages
    if after == before:
        return project
    if before and after and after[0] != before[0] and after[0] in before:
        project = _with_first(project, before[0], after[0])
    elif before and after and before[0] in after[1:]:
        raise EditRefused(
            translate("edits", "{language} has no texts yet and cannot be the first language").format(
                language=quoted(after[0])
            )
        )
    kept = frozenset(after[1:])
    panel = _with_texts(changed(project.panel, languages=after), "messages_in", kept)
    screens = tuple(_with_texts(screen, "text_in", kept) for screen in project.screens)
    signals = tuple(_with_texts(signal, "texts_in", kept) for signal in project.signals)
    return changed(project, panel=panel, screens=screens, signals=signals)


def rename_language(project: Project, language: str, new_name: str) -> Project:
    """With another name for a language of the panel; its texts follow."""
    languages = project.panel.languages
    if language not in languages:
        raise EditRefused(
            translate("edits", "there is no language {language} in the panel").format(language=quoted(language))
        )
    if new_name == language:
        return project

    def of(part: _P, key: str) -> _P:
        texts = getattr(part, key)
        if language not in texts:
            return part
        return changed(part, **{key: {new_name if each == language else each: texts[each] for each in texts}})

    panel = of(project.panel, "messages_in")
    panel = changed(panel, languages=tuple(new_name if each == language else each for each in languages))
    screens = tuple(of(screen, "text_in") for screen in project.screens)
    signals = tuple(of(signal, "texts_in") for signal in project.signals)
    return changed(project, panel=panel, screens=screens, signals=signals)


def set_language_signal(project: Project, signal: str | None) -> Project:
    """With another signal that chooses the language, or with none."""
    if signal is not None:
        must_exist("signal", signal, project.signal_named)
    panel = changed(project.panel, language=signal)
    return project if panel == project.panel else changed(project, panel=panel)


def translate_screen(project: Project, name: str, language: str, text: Iterable[str] | None) -> Project:
    """With another text of a screen in one of the languages behind the first; None leaves it out."""
    must_exist("screen", name, project.screen_named)
    screen = project.screen_named[name]
    if language not in project.panel.languages[1:]:
        raise EditRefused(
            translate("edits", "the panel has no additional language {language}").format(language=quoted(language))
        )
    text_in = {each: rows for each, rows in screen.text_in.items() if each != language}
    if text is not None:
        rows = tuple(text)
        text_in[language] = rows + ("",) * (project.panel.rows - len(rows))
    if text_in == screen.text_in:
        return project
    new = changed(screen, text_in=text_in)
    return changed(project, screens=tuple(new if each is screen else each for each in project.screens))


def set_message(project: Project, number: int, message: PanelMessage, words: str) -> Project:
    """With other words for a message of the panel in its language `number`; empty: they are left out."""
    said = {each: text for each, text in words_in(project.panel, number).items() if each != message}
    return _with_messages(project, number, {**said, message: words} if words else said)


def fill_messages(project: Project, number: int, words: Mapping[PanelMessage, str]) -> Project:
    """With these words for the messages that the panel leaves out in its language `number`; what it says stays."""
    return _with_messages(project, number, {**words, **words_in(project.panel, number)})


def _with_messages(project: Project, number: int, said: dict[PanelMessage, str]) -> Project:
    panel = project.panel
    if said == words_in(panel, number):
        return project
    if not 0 < number < len(panel.languages):
        return changed(project, panel=changed(panel, messages=said))
    others = {each: texts for each, texts in panel.messages_in.items() if each != panel.languages[number]}
    return changed(
        project,
        panel=changed(panel, messages_in={**others, panel.languages[number]: said} if said else others),
    )


def _messages_with_first(panel: Panel, old: str, new: str) -> Panel:
    """What was left out in the language that was the first one was said in English, and is still."""
    said = panel.messages_in.get(new)
    if not said:
        return panel
    former = {message: panel.messages.get(message) or chosen_form(panel, "en", message) for message in said}
    return changed(panel, messages={**panel.messages, **said}, messages_in={**panel.messages_in, old: former})


def _with_first(project: Project, old: str, new: str) -> Project:
    def screen_of(screen: Screen) -> Screen:
        if new not in screen.text_in:
            return screen  # one text for both
        return changed(screen, text=screen.text_in[new], text_in={**screen.text_in, old: screen.text})

    def signal_of(signal: RegisterSignal | BitSignal | HeldSignal) -> RegisterSignal | BitSignal | HeldSignal:
        texts = signal.texts_in.get(new)
        if not texts:
            return signal
        former = same_values(signal.texts, texts)
        return changed(signal, texts=merged(signal.texts, texts), texts_in={**signal.texts_in, old: former})

    return changed(
        project,
        panel=_messages_with_first(project.panel, old, new),
        screens=tuple(screen_of(screen) for screen in project.screens),
        signals=tuple(signal_of(signal) for signal in project.signals),
    )


def _with_texts(part: _P, key: str, kept: frozenset[str]) -> _P:
    texts = getattr(part, key)
    if kept.issuperset(texts):
        return part
    return changed(part, **{key: {language: texts[language] for language in texts if language in kept}})
