"""Which screens and arrows of a page map a trial has tried, from what its record says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, Self

from app.page_map.arrows import Arrow, Inlet

HowFar = Literal["all", "some", "none"]


@dataclass(frozen=True, slots=True)
class Tried:
    """What came about: screens that were shown, and screen changes by where they led from, to, and their index."""

    screens: frozenset[str]
    changes: frozenset[tuple[str | None, str, int]]

    @classmethod
    def of(cls, coverage: Mapping[str, Any]) -> Self:
        """From the coverage of a run as plain data (`app.trial.coverage`); what is not as it should be counts as not
        tried."""
        on_map = coverage.get("map")
        on_map = on_map if isinstance(on_map, dict) else {}
        changes = [each for each in on_map.get("changes", ()) if isinstance(each, list | tuple) and len(each) == 3]
        return cls(
            frozenset(map(str, on_map.get("screens", ()))),
            frozenset([(source, target, index) for source, target, index in changes]),
        )

    def arrow(self, arrow: Arrow) -> HowFar:
        """How much of what an arrow stands for came about."""
        # An idle screen change leads from wherever it counts: it has no screen of its own that it comes from.
        done = [
            (arrow.from_, arrow.to, lead.screen_change) in self.changes
            or (lead.kind == "idle" and (None, arrow.to, lead.screen_change) in self.changes)
            for lead in arrow.leads
        ]
        return "all" if all(done) else "some" if any(done) else "none"

    def inlet(self, inlet: Inlet) -> HowFar:
        """Whether what leads here from every screen came about at least once."""
        wanted = (inlet.to, inlet.lead.screen_change)
        return "all" if any(change[1:] == wanted for change in self.changes) else "none"
