"""What is done about a finding: its fix, or its acceptance with a reason."""

from __future__ import annotations

from PySide6.QtCore import QObject

from app.checks.accepting import accept, withdraw
from app.checks.finding import Finding
from widgets.design.findings import FindingsList
from widgets.document.document import Document
from widgets.document.running_checks import RunningChecks
from widgets.kit.dialogs.questions import TextQuestion


class FindingDeeds(QObject):
    """Each deed is one step of the document, after which the checks are brought up to date."""

    def __init__(self, document: Document, checks: RunningChecks, findings: FindingsList) -> None:
        super().__init__(findings)
        self._document = document
        self._checks = checks
        self._findings = findings
        findings.fix_wanted.connect(self.fix)
        findings.accept_wanted.connect(self.accept)

    def fix(self, finding: Finding) -> None:
        """Make the edit that takes a finding away."""
        if not self._checks.up_to_date:
            self._checks.finish()
        if finding.fix is None or finding not in self._checks.findings:
            self._document.refused.emit(self.tr("Nothing changed: this problem no longer exists."))
        elif self._document.do(finding.fix.words, finding.apply_fix) is None:
            self._checks.finish()

    def accept(self, finding: Finding) -> None:
        """Accept a finding with a reason that is asked for, or not any more."""
        do = self._document.do
        if finding.accepted:
            do(self.tr("Withdraw acceptance of a finding"), lambda project: withdraw(project, finding))
        else:
            question = TextQuestion(
                self._findings.window(),
                self.tr("Why is this acceptable?"),
                f"{finding.message[:1].upper()}{finding.message[1:]}.",
                self.tr("&Reason"),
            )
            reason = question.ask()
            if reason is None:
                return
            still = self._checks.accepted
            do(self.tr("Accept a finding"), lambda project: accept(project, finding, reason, still))
        self._checks.finish()

    def fix_shown(self) -> None:
        """Fix the finding that is told in the strip."""
        row = self._findings.shown()
        if row is None:
            self._document.refused.emit(self.tr("Nothing was found."))
        elif row.finding is None or self._findings.fix_of_shown() is None:
            self._document.refused.emit(self.tr("There is no automatic fix for this; press Enter to go to it."))
        else:
            self.fix(row.finding)

    def accept_shown(self) -> None:
        """Accept the finding that is told in the strip, or not any more."""
        if self._findings.shown() is None:
            self._document.refused.emit(self.tr("Nothing was found."))
        else:
            self._findings.accept_current()
