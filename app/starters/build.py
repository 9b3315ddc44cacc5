"""The new project that some answers make."""

from __future__ import annotations

import re
from functools import cache
from importlib import resources

from app.edits.panel import rename_key
from app.language import translate
from app.panel.messages import ready_for
from app.project.messages import Known
from app.project.model import Follower, Panel, Project, Screen, ScreenChange
from app.project_file.files import parse
from app.signals.repertoire import REPLACEMENT, spelled
from app.starters.answers import DRIVES, KEY_NAMES, Answers
from app.starters.control_words import with_standard_words
from app.starters.fitting import fitted

_MORE_SCREENS = 3
"""Of a panel whose signals are still to be imported: a ring to put them on."""


def build(answers: Answers) -> Project:
    """A project of these answers, with the texts of the language that is spoken.

    Raises UnusableAnswer if an answer does not fit.
    """
    answers.check()
    drives = answers.starter in DRIVES
    if answers.starter == "empty" or (drives and answers.registers == "list"):
        return _titled(_bare(answers), answers)
    project = starter_file(answers.starter)
    if drives and answers.registers == "iec-61800-7-201":
        project = with_standard_words(project)
    project = _connected(_titled(project, answers), answers)
    project = fitted(_with_keys(project, answers), answers.rows, answers.columns)
    language = _language()
    if language != "en":
        project = project.replace(panel=project.panel.replace(messages=ready_for(project, language)))
    return project


def starter_file(name: str, language: str | None = None) -> Project:
    """The file that a starter begins with, in a language or in the one that is spoken; in English if it has none."""
    return _read(name, language or _language())


@cache
def _read(name: str, language: str) -> Project:
    folder = resources.files("resources") / "starters"
    file = folder / f"{name}.{language}.toml"
    return parse((file if file.is_file() else folder / f"{name}.toml").read_bytes())


def _language() -> Known:
    # Translators say here which language theirs is; it chooses the file, and the words of the panel itself.
    return "de" if translate("starters", "en") == "de" else "en"


def _titled(project: Project, answers: Answers) -> Project:
    """With the title asked for; a heading that is the starter's own title becomes that."""
    title = " ".join(answers.title.split())
    if not title:
        return project
    panel = project.panel
    spelled_out = (spelled(panel.repertoire, letter) for letter in title.upper())
    heading = "".join(letters for letters in spelled_out if letters != REPLACEMENT)
    heading = heading.strip()[: answers.columns]
    former = project.title.upper()
    screens = tuple(
        screen.replace(
            text=tuple(
                # A bare screen has no heading that could become this one: its first row does.
                heading if row == former and (former or number == 0) else row
                for number, row in enumerate(screen.text)
            )
        )
        for screen in project.screens
    )
    return project.replace(title=title, screens=screens)


def _connected(project: Project, answers: Answers) -> Project:
    line = answers.line(project.lines[0].name)
    followers = tuple(follower.replace(unit=answers.unit + index) for index, follower in enumerate(project.followers))
    return project.replace(lines=(line,), followers=followers)


def _with_keys(project: Project, answers: Answers) -> Project:
    """With the keys named as they are on this panel, also in the texts that name one."""
    for key, name in KEY_NAMES[answers.keys].items():
        if name == key:
            continue
        project = rename_key(project, key, name)
        word = re.compile(rf"\b{key.upper()}\b")
        screens = tuple(
            screen.replace(text=tuple(word.sub(name.upper(), row) for row in screen.text)) for screen in project.screens
        )
        notes = word.sub(name.upper(), project.notes)
        project = project.replace(notes=notes, screens=screens)
    return project


def _bare(answers: Answers) -> Project:
    """A panel, a line and a device, and one screen, or a ring of them if a list of signals comes next."""
    names = [translate("starters", "main")]
    changes: tuple[ScreenChange, ...] = ()
    if answers.starter in DRIVES:
        names = [translate("starters", "screen {number}").format(number=number + 1) for number in range(_MORE_SCREENS)]
        changes = (
            ScreenChange(key="right", to="next"),
            ScreenChange(key="left", to="previous"),
            ScreenChange(idle_s=60, to=names[0]),
        )
    keys = ("left", "right", "up", "down", "enter", "escape", *KEY_NAMES[answers.keys].values())
    panel = Panel(rows=answers.rows, columns=answers.columns, repertoire="latin-1", keys=keys, start=names[0])
    line = answers.line(translate("starters", "line"))
    drive = answers.starter in DRIVES
    device = Follower(
        name=translate("starters", "drive") if drive else translate("starters", "device"),
        line=line.name,
        unit=answers.unit,
        simulate="drive" if drive else "bank",
    )
    screens = tuple(Screen(name=name, text=("",) * answers.rows) for name in names)
    return Project(panel=panel, lines=(line,), followers=(device,), screens=screens, screen_changes=changes)
