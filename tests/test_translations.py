"""The texts of the program and their translations: complete, in step with the sources, and sound in every detail."""

from __future__ import annotations

import ast
import re
import shutil
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from string import Formatter
from typing import Final

import pytest
from PySide6.QtCore import QTranslator

from resources.translations.__main__ import HERE, ROOT, TEXTS_IN, collect

FILES: Final = sorted(HERE.glob("*.ts"))
SOURCES: Final = sorted(path for folder in TEXTS_IN for path in (ROOT / folder).rglob("*.py"))
KEYS_IN_GERMAN: Final = {
    "Ctrl": "Strg",
    "Shift": "Umschalt",
    "Enter": "Eingabe",
    "Delete": "Entf",
    "Insert": "Einfg",
    "Space": "Leertaste",
    "Down": "Ab",
    "Up": "Auf",
}


@dataclass(frozen=True)
class Message:
    """One text and what became of it."""

    context: str
    source: str
    translations: tuple[str, ...]
    finished: bool

    def __str__(self) -> str:
        return f"{self.context}: {self.source!r} -> {self.translations}"


@cache
def tree_of(path: Path) -> ast.AST:
    return ast.parse(path.read_text("utf-8"))


def messages(file: Path) -> list[Message]:
    found = []
    for context in ElementTree.parse(file).getroot().findall("context"):
        for message in context.findall("message"):
            told = message.find("translation")
            assert told is not None
            forms = tuple(form.text or "" for form in told.findall("numerusform")) or (told.text or "",)
            name, source = context.findtext("name") or "", message.findtext("source") or ""
            found.append(Message(name, source, forms, told.get("type") is None and all(forms)))
    return found


def calls(tree: ast.AST) -> Iterator[tuple[ast.Call, str]]:
    """The calls that texts go through, each with the class around it."""
    waiting: list[tuple[ast.AST, str]] = [(tree, "")]
    while waiting:
        node, around = waiting.pop()
        if isinstance(node, ast.ClassDef):
            around = node.name
        if isinstance(node, ast.Call) and speaks(node.func):
            yield node, around
        waiting += [(child, around) for child in ast.iter_child_nodes(node)]


def finished(file: Path) -> list[Message]:
    return [each for each in messages(file) if each.finished]


def speaks(function: ast.expr) -> bool:
    """Whether a text goes through a translator there."""
    if isinstance(function, ast.Name):
        return function.id in ("tr", "translate", "mark")
    if not isinstance(function, ast.Attribute):
        return False
    return function.attr == "tr" or (function.attr == "translate" and ast.unparse(function.value) == "QCoreApplication")


def is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def text_of(call: ast.Call, around: str) -> tuple[str, str] | None:
    """Context and text of a call, if they stand there."""
    own = isinstance(call.func, ast.Attribute) and call.func.attr == "tr"
    at = 0 if own else 1
    if len(call.args) <= at or not isinstance(call.args[at], ast.Constant):
        return None
    context = around if own else ast.literal_eval(call.args[0])
    return context, ast.literal_eval(call.args[at])


def placeholders(text: str) -> list[str]:
    """The places for values; braces with blanks in them are words about project files."""
    return sorted(re.findall(r"\{\w*(?:![rs])?(?::[^{}]*)?\}|%[ns]", text))


def keys_in(text: str) -> list[str]:
    """The keys of the keyboard in a text, as a German keyboard names them."""
    found = re.findall(r"\b(?:(?:Ctrl|Strg|Shift|Umschalt|Alt)\+)+(?:[A-Z]\w*|\d|[+-])|\bF\d+\b", text)
    return sorted("+".join(KEYS_IN_GERMAN.get(part, part) for part in key.split("+")) for key in found)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
class TestTranslation:
    def test_it_is_in_step_with_the_sources(self, file: Path, tmp_path: Path) -> None:
        fresh = tmp_path / file.name
        shutil.copy(file, fresh)
        assert collect(fresh) == ""
        expected = {(each.context, each.source) for each in messages(fresh)}
        have = {(each.context, each.source) for each in messages(file)}
        assert (sorted(expected - have), sorted(have - expected)) == ([], []), "run python -m resources.translations"

    def test_nothing_is_left_to_translate(self, file: Path) -> None:
        assert [str(each) for each in messages(file) if not each.finished] == []

    def test_what_qt_reads_is_made_of_it(self, file: Path) -> None:
        translator = QTranslator()
        assert translator.load(str(file.with_suffix(".qm")))
        stale = [
            each
            for each in messages(file)
            if translator.translate(each.context, each.source, None, 2 if len(each.translations) > 1 else -1)
            not in each.translations
        ]
        assert stale == [], "run python -m resources.translations"

    def test_every_place_for_a_value_is_kept(self, file: Path) -> None:
        wrong = [
            str(each)
            for each in finished(file)
            for told in each.translations
            if placeholders(told) != placeholders(each.source)
        ]
        assert wrong == []

    def test_every_access_key_is_kept(self, file: Path) -> None:
        def marked(text: str) -> int:
            return len(re.findall(r"&(?!&)\w", text.replace("&&", "")))

        wrong = [
            str(each) for each in finished(file) for told in each.translations if marked(told) != marked(each.source)
        ]
        assert wrong == []

    def test_every_key_of_the_keyboard_is_kept(self, file: Path) -> None:
        wrong = [
            str(each) for each in finished(file) for told in each.translations if keys_in(each.source) != keys_in(told)
        ]
        assert wrong == []

    def test_blanks_ends_and_lines_are_kept(self, file: Path) -> None:
        def shape(text: str) -> tuple[bool, bool, bool, int]:
            dots = text.endswith("\u2026")
            return text[:1].isspace(), text[-1:].isspace(), dots, text.count("\n")

        wrong = [
            str(each) for each in finished(file) for told in each.translations if shape(told) != shape(each.source)
        ]
        assert wrong == []


def misplaced(path: Path) -> Iterator[str]:
    """Calls that the collector of texts cannot follow."""
    tree = tree_of(path)
    inside = {id(inner) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for inner in ast.walk(node)}
    for call, around in calls(tree):
        if trouble := trouble_with(call, around, inside=id(call) in inside, source=path.read_text("utf-8")):
            yield f"{path.relative_to(ROOT)}:{call.lineno}: {ast.unparse(call)}: {trouble}"


def trouble_with(call: ast.Call, around: str, *, inside: bool, source: str) -> str:
    own = isinstance(call.func, ast.Attribute) and call.func.attr == "tr"
    at = 0 if own else 1
    text = call.args[at] if len(call.args) > at else None
    whose = around != "" if own else bool(call.args) and is_text(call.args[0])
    # A marked text is translated where it is used: then it is a name, an attribute or an item.
    later = not own and isinstance(text, ast.Name | ast.Attribute | ast.Subscript)
    if inside:
        return "inside an f-string it is not found"
    if own and ast.unparse(call.func) != "self.tr":
        return "only self.tr knows whose text it is"
    if not whose:
        return "whose text it is must stand there"
    if text is None or not (is_text(text) or later):
        return "the text must stand there, whole"
    if "\\N{" in source and "\\N{" in (ast.get_source_segment(source, text) or ""):
        return "Qt's collector does not know \\N{...}; write \\u...."
    return ""


def test_every_text_stands_where_it_is_spoken() -> None:
    """The collector reads the texts out of the sources."""
    assert [wrong for path in SOURCES if path != ROOT / "widgets/kit/language.py" for wrong in misplaced(path)] == []


def test_the_collector_finds_every_text() -> None:
    spoken = set()
    for path in SOURCES:
        for call, around in calls(tree_of(path)):
            if found := text_of(call, around):
                spoken.add(found)
    for file in FILES:
        collected = {(each.context, each.source) for each in messages(file)}
        assert sorted(spoken - collected) == []
        assert sorted(collected - spoken) == []


def filled_in(tree: ast.AST) -> Iterator[tuple[ast.Call, str]]:
    """The calls of `format` on a text that stands there, translated or not, with keywords alone; each with its text."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Attribute) or node.func.attr != "format":
            continue
        text: ast.expr | None = node.func.value
        if isinstance(text, ast.Call) and speaks(text.func):
            own = isinstance(text.func, ast.Attribute) and text.func.attr == "tr"
            text = text.args[0 if own else 1] if len(text.args) > (0 if own else 1) else None
        if text is not None and is_text(text) and not node.args and all(each.arg for each in node.keywords):
            yield node, ast.literal_eval(text)


def ill_filled(tree: ast.AST) -> list[str]:
    """Texts whose placeholders are not the keywords that they are filled in with."""
    wrong = []
    for call, text in filled_in(tree):
        wanted = {re.split(r"[.\[]", name)[0] for _, name, _, _ in Formatter().parse(text) if name is not None}
        given = {each.arg for each in call.keywords}
        if wanted != given:
            wrong.append(f"{call.lineno}: {text!r} is given {sorted(map(str, given))}")
    return wrong


def test_every_placeholder_is_given_its_value() -> None:
    """A placeholder that got another name would fail, or go missing, only where the text is shown at last."""
    assert {path: wrong for path in SOURCES if (wrong := ill_filled(tree_of(path)))} == {}
    assert sum(1 for path in SOURCES for _ in filled_in(tree_of(path))) > 500


@pytest.mark.parametrize(
    "call",
    [
        'translate("bus", "{unit} of {line}").format(unit=3)',
        'self.tr("{unit}").format(unit=3, line="hall")',
        '"{unit}".format(units=3)',
        'QCoreApplication.translate("bus", "{unit.name}").format(line=1)',
    ],
)
def test_a_placeholder_without_its_value_is_found(call: str) -> None:
    assert len(ill_filled(ast.parse(call))) == 1
    assert ill_filled(ast.parse('translate("bus", "{unit.name} {line[0]:>3}").format(unit=1, line=2)')) == []


LABELS: Final = {
    "setText", "setToolTip", "setWindowTitle", "setTitle", "setPlaceholderText", "setStatusTip", "setWhatsThis",
    "setAccessibleName", "setAccessibleDescription", "setInformativeText", "setLabelText", "setHeaderLabels",
    "setHorizontalHeaderLabels", "addTab", "setTabText", "setTabToolTip", "addAction", "addMenu", "addItem", "addItems",
    "addButton", "addRow", "setSpecialValueText", "setPrefix", "setSuffix", "QLabel", "QPushButton", "QToolButton",
    "QCheckBox", "QRadioButton", "QGroupBox", "QAction", "QMenu",
}  # fmt: skip
"""Calls whose texts people read, be it one word."""
SENTENCES: Final = {
    "command", "tell", "say", "question", "warning", "critical", "information", "NotConnectedError", "EditRefused",
    "ProjectSaveError", "CannotConnect", "FollowerError", "BadEndpoint", "Fault", "Cause", "Problem", "Unbound", "Fix",
    "Finding", "NotARegister", "OutOfRange", "Implausible", "ValueError", "EntryRefused", "refuse", "_show",
}  # fmt: skip
"""Calls that take names and keys too, besides the words that people read."""
NOT_SAID: Final = (
    ("app/cli/", "the command line speaks English, since scripts read it"),
    ("app/signals/repertoire.py", "mistakes of the program"),
    ("app/client/client.py", "mistakes of the program"),
    ("app/checks/rule.py", "mistakes of the program"),
    ("app/probing/line.py", "mistakes of the program"),
    ("app/probing/priors.py", "mistakes of the program"),
    ("app/probing/requests.py", "mistakes of the program"),
    ("app/follower/server.py", "the log"),
    ("app/recording/reader.py", "mistakes of the program"),
    ("app/curves/source.py", "mistakes of the program"),
    ("app/curves/value_axis.py", "mistakes of the program"),
    ("widgets/shell/help.py", "names and versions of libraries"),
)
"""Sources, or folders of them, that speak past the translator, and why they may."""


def silent_texts(path: Path) -> Iterator[str]:
    """Texts that people would read in English whatever they chose."""
    for node in ast.walk(tree_of(path)):
        if not isinstance(node, ast.Call):
            continue
        name = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
        word = r"[^\W\d_]{4,}" if name in LABELS else r"[^\W\d_]{2,}[,;:.]? [^\W\d_]{2,}"
        if name not in LABELS and name not in SENTENCES:
            continue
        # What an item stands for comes behind its words.
        arguments = node.args[:1] if name == "addItem" else [*node.args, *(each.value for each in node.keywords)]
        for argument in arguments:
            for text in literals(argument):
                if re.search(word, text.replace("Fanlight", "")):
                    yield f"{path.relative_to(ROOT)}:{node.lineno}: {name}: {text!r}"


def literals(node: ast.AST) -> Iterator[str]:
    """Texts in an argument that go through no translator; calls in it are looked at by themselves."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.JoinedStr):
        yield "".join(part.value if isinstance(part, ast.Constant) else "" for part in node.values)  # type: ignore[misc]
    elif isinstance(node, ast.IfExp):
        yield from literals(node.body)
        yield from literals(node.orelse)
    elif isinstance(node, ast.BinOp | ast.Tuple | ast.List):
        for child in ast.iter_child_nodes(node):
            yield from literals(child)


def test_nothing_is_said_past_the_translator() -> None:
    spared = tuple(place for place, _ in NOT_SAID)
    paths = [path for path in SOURCES if not str(path.relative_to(ROOT)).startswith(spared)]
    assert [text for path in paths for text in silent_texts(path)] == []


@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_findings_name_rows_of_forms_by_their_labels(file: Path) -> None:
    """A finding says \u201cPoll interval\u201d where a form does, in every language, and no key of the file."""
    known = {message.source: message.translations[0] for message in messages(file) if message.context != "checks"}
    labels = {message.source: message.translations[0] for message in messages(file) if message.context == "checks"}
    named = 0
    for source, translation in labels.items():
        for label in re.findall("\u201c([A-Z][^\u201d{]*)\u201d", source):
            named += 1
            assert label in known, f"no form has a row {label!r}: {source!r}"
            assert f"\u201e{known[label]}\u201c" in translation, f"{known[label]!r} is its label: {translation!r}"
    assert named > 15
