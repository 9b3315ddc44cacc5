"""Design checks, one rule a function: what of a project cannot work, or will mislead somebody."""

from app.checks.finding import Finding, Severity
from app.checks.run import check

__all__ = ["Finding", "Severity", "check"]
