"""Rules about a panel in several languages: what is not translated, what has no room, and what cannot be chosen."""

from __future__ import annotations

from collections.abc import Iterator

from app.checks.finding import Fault
from app.checks.rule import rule
from app.checks.survey import Survey
from app.language import translate
from app.project.binding import unwritable
from app.project.model import HeldSignal, Project, Screen
from app.project.problems import Place, quoted
from app.signals.repertoire import missing


@rule("translation-missing")
def translation_missing(survey: Survey) -> Iterator[Fault]:
    """A text that one of the panel's languages leaves out: the operator reads it in another one.

    Text without a letter needs no translation; what reads the same in both languages is written in both. A text per
    value is looked at only where a choice field shows it.
    """
    project = survey.project
    for language in project.panel.languages[1:]:
        for index, screen in enumerate(project.screens):
            yield from _missing_rows(("screen", index), screen, language)
        shown = {field.signal for _, _, field in survey.fields() if field.kind == "choice"}
        for index, signal in enumerate(project.signals):
            if signal.name not in shown:
                continue
            known = {int(value) for value in signal.texts_in.get(language, {})}
            lacking = [text for value, text in signal.texts.items() if int(value) not in known and _has_letter(text)]
            if lacking:
                yield Fault(
                    "warning",
                    ("signal", index),
                    translate("checks", "its text {text} is not translated into {language}").format(
                        text=quoted(lacking[0]), language=quoted(language)
                    )
                    if len(lacking) == 1
                    else translate(
                        "checks", "{count} of its texts are not translated into {language}, {text} among them"
                    ).format(count=len(lacking), text=quoted(lacking[0]), language=quoted(language)),
                    translate("checks", "write them in that language too"),
                )


def _missing_rows(place: Place, screen: Screen, language: str) -> Iterator[Fault]:
    rows = screen.text_in.get(language)
    if rows is None:
        if any(_has_letter(row) for row in screen.text):
            yield Fault(
                "warning",
                place,
                translate("checks", "its text is not translated into {language}").format(language=quoted(language)),
                translate("checks", "choose that language above the face and write it there"),
            )
        return
    for number, row in enumerate(screen.text):
        if _has_letter(row) and not (number < len(rows) and rows[number].strip()):
            yield Fault(
                "warning",
                (*place, "text_in", language, number),
                translate("checks", "{text} has no counterpart in {language}").format(
                    text=quoted(row.strip()), language=quoted(language)
                ),
                translate("checks", "choose that language above the face and write it there"),
            )


def _has_letter(text: str) -> bool:
    return any(character.isalpha() for character in text)


@rule("translation-too-long")
def translation_too_long(survey: Survey) -> Iterator[Fault]:
    """A text in another language that the panel, a field or the next text has no room for."""
    project = survey.project
    for language in project.panel.languages[1:]:
        for index, screen in enumerate(project.screens):
            for row, text in enumerate(screen.text_in.get(language, ())):
                yield from _outside(project, ("screen", index, "text_in", language, row), row, text)
            yield from _under_fields(("screen", index), screen, language)
        for place, _, field in survey.fields():
            signal = survey.signal(field.signal)
            if signal is None or field.kind != "choice":
                continue
            texts = signal.texts_in.get(language, {})
            value = max(texts, key=lambda value: len(texts[value]), default=None)
            if value is not None and len(texts[value]) > field.width:
                yield Fault(
                    "error",
                    place,
                    translate(
                        "checks",
                        "{text}, the {language} text of {signal} for {value}, has {count} characters, and the field is "
                        "{width} wide",
                    ).format(
                        text=quoted(texts[value]),
                        language=quoted(language),
                        signal=quoted(signal.name),
                        value=value,
                        count=len(texts[value]),
                        width=field.width,
                    ),
                    translate("checks", "make the field wider or shorten the text"),
                )


def _outside(project: Project, place: Place, row: int, text: str) -> Iterator[Fault]:
    panel, text = project.panel, text.rstrip()
    if row >= panel.rows and text:
        yield Fault(
            "error",
            place,
            translate("checks", "{text} is below the last of the panel's {rows} rows").format(
                text=quoted(text.strip()), rows=panel.rows
            ),
            translate("checks", "move it up or to another screen"),
        )
    elif len(text) > panel.columns:
        yield Fault(
            "error",
            place,
            translate("checks", "the text has {count} characters, the panel {columns} columns: {lost} is lost").format(
                count=len(text), columns=panel.columns, lost=quoted(text[panel.columns :])
            ),
            translate("checks", "shorten the text"),
        )


def _under_fields(place: Place, screen: Screen, language: str) -> Iterator[Fault]:
    rows = screen.text_in.get(language, ())
    for field in screen.fields:
        row, column = field.at
        hidden = rows[row][column : column + field.width].strip() if 0 <= row < len(rows) and column >= 0 else ""
        if hidden:
            yield Fault(
                "warning",
                (*place, "text_in", language, row),
                translate("checks", "the field of {signal} hides {text}").format(
                    signal=quoted(field.signal), text=quoted(hidden)
                ),
                translate("checks", "put blanks there, or move the field"),
            )


@rule("translation-character")
def translation_character(survey: Survey) -> Iterator[Fault]:
    """A character in another language that the panel's repertoire lacks: '?' is shown in its place."""
    project = survey.project
    name = project.panel.repertoire
    for language in project.panel.languages[1:]:
        for index, screen in enumerate(project.screens):
            for row, text in enumerate(screen.text_in.get(language, ())):
                if lacking := missing(name, text):
                    yield _lacking(("screen", index, "text_in", language, row), text.strip(), lacking, name)
        for index, signal in enumerate(project.signals):
            for text in signal.texts_in.get(language, {}).values():
                if lacking := missing(name, text):
                    yield _lacking(("signal", index), text, lacking, name)


def _lacking(place: Place, text: str, lacking: str, name: str) -> Fault:
    listed = " ".join(f"'{character}' (U+{ord(character):04X})" for character in lacking)
    return Fault(
        "error",
        place,
        translate(
            "checks", "{text} has {characters}, which the panel's repertoire {repertoire} lacks; '?' would be shown"
        ).format(text=quoted(text), characters=listed, repertoire=quoted(name)),
        translate("checks", "write it with other characters, or choose the repertoire of the panel that you have"),
    )


@rule("language-choice")
def language_choice(survey: Survey) -> Iterator[Fault]:
    """Languages that nobody can choose, or a choice that cannot be made."""
    project = survey.project
    panel = project.panel
    keys = [(place, action) for place, action in survey.actions() if action.do == "next-language"]
    chooser = survey.signal(panel.language)
    if len(panel.languages) < 2:
        hint = translate("checks", "name two languages or more in the panel's properties, or take this out")
        if panel.language is not None:
            message = translate("checks", "a signal chooses the language, and the panel has none to choose from")
            yield Fault("warning", ("panel", "language"), message, hint)
        for place, _ in keys:
            message = translate("checks", "it is to show the next language, and the panel has no other")
            yield Fault("error", place, message, hint)
        return
    if panel.language is None and not keys:
        yield Fault(
            "warning",
            ("panel", "languages"),
            translate("checks", "nothing chooses the language, so only {language} is ever shown").format(
                language=quoted(panel.languages[0])
            ),
            translate("checks", "let a key show the next language, or name the signal that chooses"),
        )
    if chooser is None:
        return
    if survey.is_text(chooser):
        yield Fault(
            "error",
            ("panel", "language"),
            translate("checks", "{signal} is a text and cannot choose the language").format(
                signal=quoted(chooser.name)
            ),
            translate("checks", "name a signal that is a number: 0 is the first language"),
        )
    reason = None if isinstance(chooser, HeldSignal) else unwritable(project, chooser.name)
    if reason is not None:
        for place, _ in keys:
            yield Fault(
                "error",
                place,
                translate("checks", "it is refused: {reason}").format(reason=reason),
                translate("checks", "let the signal that chooses the language be written, or take the action out"),
            )
