"""Rules about a panel in several languages: what is not translated, what has no room, and what cannot be chosen."""

from __future__ import annotations

from collections.abc import Iterator

from app.checks import fixes
from app.checks.context import CheckContext, fields_of
from app.checks.finding import Fix, Violation
from app.checks.room import widen_fix
from app.checks.rule import each, whole
from app.checks.screens import instead_of, name_characters, outside, respelled
from app.language import translate
from app.project.binding import unwritable
from app.project.languages import same_values
from app.project.model import AnySignal, HeldSignal, Screen
from app.project.problems import Place, quoted
from app.signals.repertoire import missing


@each("screen", name="translation-missing")
def translation_missing(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A text that one of the panel's languages leaves out: the operator reads it in another one.

    Text without a letter needs no translation; what reads the same in both languages is written in both.
    """
    for language in context.panel.languages[1:]:
        yield from _missing_rows(screen, language)


@each("signal", name="translation-missing", depends_on=("chosen",))
def translation_of_text_missing(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A text per value that one of the panel's languages leaves out, if a choice field shows it."""
    if signal.name not in context.chosen:
        return
    for language in context.panel.languages[1:]:
        known = same_values(signal.texts, signal.texts_in.get(language, {}))
        lacking = [text for value, text in signal.texts.items() if value not in known and _has_letter(text)]
        if lacking:
            yield Violation(
                "warning",
                (),
                translate("checks", "its text {text} is not translated into {language}").format(
                    text=quoted(lacking[0]), language=quoted(language)
                )
                if len(lacking) == 1
                else translate(
                    "checks", "{count} of its texts are not translated into {language}, including {text}"
                ).format(count=len(lacking), text=quoted(lacking[0]), language=quoted(language)),
                translate("checks", "write them in that language too"),
            )


def _missing_rows(screen: Screen, language: str) -> Iterator[Violation]:
    rows = screen.text_in.get(language)
    if rows is None:
        if any(_has_letter(row) for row in screen.text):
            yield Violation(
                "warning",
                (),
                translate("checks", "its text is not translated into {language}").format(language=quoted(language)),
                translate("checks", "choose that language above the panel and write it there"),
            )
        return
    for number, row in enumerate(screen.text):
        if _has_letter(row) and not (number < len(rows) and rows[number].strip()):
            yield Violation(
                "warning",
                ("text_in", language, number),
                translate("checks", "{text} has no translation in {language}").format(
                    text=quoted(row.strip()), language=quoted(language)
                ),
                translate("checks", "choose that language above the panel and write it there"),
            )


def _has_letter(text: str) -> bool:
    return any(character.isalpha() for character in text)


@each("screen", name="translation-too-long")
def translation_too_long(context: CheckContext, screen: Screen) -> Iterator[Violation]:
    """A text in another language that the panel, a field or the next text has no room for."""
    for language in context.panel.languages[1:]:
        for row, text in enumerate(screen.text_in.get(language, ())):
            yield from outside(context.panel, ("text_in", language, row), row, text)
        yield from _under_fields(screen, language)
        for place, field in fields_of(screen):
            signal = context.signal(field.signal)
            if signal is None or field.kind != "choice":
                continue
            texts = signal.texts_in.get(language, {})
            value = max(texts, key=lambda value: len(texts[value]), default=None)
            if value is not None and len(texts[value]) > field.width:
                yield Violation(
                    "error",
                    place,
                    translate(
                        "checks",
                        "{text}, the {language} text of {signal} for {value}, has {count} characters, but the field "
                        "is {width} wide",
                    ).format(
                        text=quoted(texts[value]),
                        language=quoted(language),
                        signal=quoted(signal.name),
                        value=value,
                        count=len(texts[value]),
                        width=field.width,
                    ),
                    translate("checks", "make the field wider or shorten the text"),
                    widen_fix(context.panel, screen, place, len(texts[value])),
                )


def _under_fields(screen: Screen, language: str) -> Iterator[Violation]:
    rows = screen.text_in.get(language, ())
    for field in screen.fields:
        row, column = field.at
        hidden = rows[row][column : column + field.width].strip() if 0 <= row < len(rows) and column >= 0 else ""
        if hidden:
            yield Violation(
                "warning",
                ("text_in", language, row),
                translate("checks", "the field of {signal} hides {text}").format(
                    signal=quoted(field.signal), text=quoted(hidden)
                ),
                translate("checks", "clear that text, or move the field"),
                Fix(translate("checks", "Clear the text under the field"), fixes.blank_under, (language,)),
            )


@each("screen", "signal", name="translation-character")
def translation_character(context: CheckContext, part: Screen | AnySignal) -> Iterator[Violation]:
    """A character in another language that the panel's repertoire lacks: '?' is shown in its place."""
    name = context.panel.repertoire
    for language in context.panel.languages[1:]:
        if isinstance(part, Screen):
            for row, text in enumerate(part.text_in.get(language, ())):
                if lacking := missing(name, text):
                    yield _lacking(("text_in", language, row), (), text, lacking, name)
        else:
            for value, text in part.texts_in.get(language, {}).items():
                if lacking := missing(name, text):
                    yield _lacking((), ("texts_in", language, value), text, lacking, name)


def _lacking(place: Place, keys: Place, text: str, lacking: str, name: str) -> Violation:
    spelled = respelled(name, text)
    fix = None
    if spelled is not None:
        words = translate("checks", "Write {text}").format(text=quoted(spelled.strip()))
        fix = Fix(words, fixes.set_at, (keys, spelled)) if keys else Fix(words, fixes.set_here, (spelled,))
    return Violation(
        "error",
        place,
        translate(
            "checks",
            "{text} contains {characters}, missing in the panel's character set {repertoire}; '?' would be shown",
        ).format(text=quoted(text.strip()), characters=name_characters(lacking), repertoire=quoted(name)),
        instead_of(lacking),
        fix,
    )


@whole("panel", "actions", "signals", "followers", name="language-choice")
def language_choice(context: CheckContext) -> Iterator[Violation]:
    """Languages that nobody can choose, or a choice that cannot be made."""
    project = context.project
    panel = project.panel
    keys = [(place, action) for place, action in context.actions() if action.do == "next-language"]
    chooser = context.signal(panel.language)
    if len(panel.languages) < 2:
        hint = translate("checks", "add a second language in the panel's properties, or remove this")
        if panel.language is not None:
            message = translate("checks", "a signal selects the language, but the panel has only one")
            yield Violation("warning", ("panel", "language"), message, hint)
        for place, _ in keys:
            message = translate("checks", "it shows the next language, but the panel has only one")
            yield Violation("error", place, message, hint)
        return
    if panel.language is None and not keys:
        yield Violation(
            "warning",
            ("panel", "languages"),
            translate("checks", "nothing selects the language, so only {language} is shown").format(
                language=quoted(panel.languages[0])
            ),
            translate("checks", "let a key show the next language, or choose the signal that selects it"),
        )
    if chooser is None:
        return
    if context.is_text(chooser):
        yield Violation(
            "error",
            ("panel", "language"),
            translate("checks", "{signal} is a text and cannot select the language").format(
                signal=quoted(chooser.name)
            ),
            translate("checks", "choose a signal that is a number: 0 is the first language"),
        )
    reason = None if isinstance(chooser, HeldSignal) else unwritable(project, chooser.name)
    if reason is not None:
        for place, _ in keys:
            yield Violation(
                "error",
                place,
                translate("checks", "it is refused: {reason}").format(reason=reason),
                translate("checks", "make the signal that selects the language writable, or remove the action"),
            )
