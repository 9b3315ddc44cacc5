"""Saving into files of the user's choice: the one question where to, and the one way to write them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QFileDialog, QWidget

from app.project_file.replace_file import write_whole
from widgets.document.file_questions import may_replace
from widgets.document.settings import Settings

Folder = Literal["project_folder", "list_folder", "start_up_folder"]
"""The property of the settings in which the folder is remembered."""


@dataclass(frozen=True, slots=True)
class FileKind:
    """What can be written: its words with the pattern, as file dialogs take them, and the ending that names get.

    `also` is another ending by which a name is left as it is.
    """

    words: str
    ending: str
    also: str = ""

    def fits(self, path: Path) -> bool:
        """Whether a name has such an ending."""
        return path.name.lower().endswith(tuple(each for each in (self.ending, self.also) if each))


def where_to_save(
    parent: QWidget,
    settings: Settings,
    folder: Folder,
    title: str,
    usual: str | Path,
    kinds: Sequence[FileKind],
    *,
    new_only: bool = False,
) -> tuple[Path, FileKind] | None:
    """Ask where to save; None if nothing is to be saved. `usual` is the name to begin with, or a whole path.

    A name without an ending of its kind gets one. Then, and not before, it is asked whether a file of that name may be
    replaced; `new_only` leaves that out, for what is never written over another file.
    """
    start = getattr(settings, folder) / usual
    words = ";;".join(kind.words for kind in kinds)
    # The dialog would ask about the name as it was typed, which need not be that of the file.
    without_asking = QFileDialog.Option.DontConfirmOverwrite
    name, chosen = QFileDialog.getSaveFileName(parent, title, str(start), words, "", without_asking)
    if not name:
        return None
    path = Path(name)
    wanted = sorted(kinds, key=lambda each: each.words != chosen)
    kind = next((each for each in wanted if each.fits(path)), None)
    if kind is None:
        # "press 1.5 kW" has no ending, though it has a point.
        kind = wanted[0]
        path = path.with_name(path.name + kind.ending)
    if not new_only and path.exists() and not path.is_dir() and not may_replace(parent, path, title):
        return None
    setattr(settings, folder, path.parent)
    return path, kind


def write_or_say(path: Path, content: str | bytes, say: Callable[[str], object]) -> bool:
    """Make `content`, text as UTF-8, the content of a file in one step. False if it was not, which `say` is told."""
    try:
        write_whole(path, content.encode() if isinstance(content, str) else content)
    except OSError as error:
        words = QCoreApplication.translate("Save", "{file} cannot be written: {why}. Choose another folder or name.")
        say(words.format(file=path, why=error.strerror or error))
        return False
    return True
