"""Design checks, one rule a function: what of a project cannot work, or will mislead somebody; and its remedy."""

from app.checks.finding import Finding, Fix, Severity
from app.checks.run import Checker, check

__all__ = ["Checker", "Finding", "Fix", "Severity", "check"]
