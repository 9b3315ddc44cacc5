"""The canonical text of a project under edit, kept by its parts so that only what an edit changed is written anew."""

from __future__ import annotations

import time
from typing import Final

from app.project.model import Part, Project
from app.project.paths import attributes
from app.project_file.canonical import canonical, part_text
from app.project_file.layout import LAYOUTS

_NAMED: Final = attributes(Project)
_LISTS: Final = tuple(
    (key, _NAMED[key]) for key in LAYOUTS[Project].keys if Project.model_fields[_NAMED[key]].get_default() == ()
)
"""The keys of the lists of parts in a project, in the order of the file, with their attributes."""

_LOOK_EVERY: Final = 8
"""Parts that are written between two looks at the clock; each takes some 0.1 ms."""


class KeptText:
    """Gives the text of one project after another; for parts that it has written before it costs next to nothing.

    The values of a project share what an edit left alone, so that a part is known by its identity.
    """

    def __init__(self) -> None:
        self._kept: dict[int, tuple[Part, str]] = {}

    def prepare(self, project: Project, for_s: float) -> bool:
        """Write parts for at most about `for_s` seconds. True if all are written and `text` will be quick."""
        end = time.perf_counter() + for_s
        written = 0
        for key, part in _parts(project):
            if id(part) in self._kept:
                continue
            self._write(key, part)
            written += 1
            if written % _LOOK_EVERY == 0 and time.perf_counter() > end:
                return False
        return True

    def text(self, project: Project) -> str:
        """The same as `canonical(project)`. Forgets the parts that the project does not have."""
        kept: dict[int, tuple[Part, str]] = {}
        texts = [canonical(project.model_copy(update={attribute: () for _, attribute in _LISTS}))]
        for key, part in _parts(project):
            entry = self._kept.get(id(part)) or self._write(key, part)
            kept[id(part)] = entry
            texts.append(entry[1])
        self._kept = kept
        return "".join(texts)

    def _write(self, key: str, part: Part) -> tuple[Part, str]:
        # The part is kept along with its text: as long as it lives no other object gets its identity.
        entry = self._kept[id(part)] = (part, part_text(part, key))
        return entry


def _parts(project: Project) -> list[tuple[str, Part]]:
    return [(key, part) for key, attribute in _LISTS for part in getattr(project, attribute)]
