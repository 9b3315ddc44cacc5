"""Findings by the part that they are about: looked up whenever a part is drawn, counted once."""

from __future__ import annotations

from collections.abc import Iterable

from app.checks.finding import Finding, Severity


class FindingsByPart:
    """Which parts of a kind findings are about, and which findings are about one part."""

    def __init__(self, findings: Iterable[Finding] = ()) -> None:
        self._of: dict[str, dict[int, list[Finding]]] = {}
        for finding in findings:
            place = finding.place
            if len(place) > 1 and isinstance(place[0], str) and isinstance(place[1], int):
                self._of.setdefault(place[0], {}).setdefault(place[1], []).append(finding)

    def parts(self, kind: str, *severities: Severity) -> frozenset[int]:
        """The indices of the parts of a kind ("signal", "screen_change" ...) that are found wrong; only errors, if
        nothing else is said."""
        counted = severities or ("error",)
        return frozenset(
            index
            for index, findings in self._of.get(kind, {}).items()
            if any(finding.severity in counted for finding in findings)
        )

    def about(self, kind: str, index: int) -> tuple[Finding, ...]:
        """What is found about one part, in the order of the findings."""
        return tuple(self._of.get(kind, {}).get(index, ()))
