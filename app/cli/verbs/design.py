"""The verbs about project files alone: what is wrong with one, what differs between two, what would be read."""

from __future__ import annotations

import argparse
from collections.abc import Sequence

from app.checks.finding import Finding
from app.cli.options import add_json, add_project
from app.cli.outcome import FINE, FOUND_WRONG, put, put_json, tell
from app.project.model import FORMAT
from app.project_file.files import ProjectFileError, load, load_known


def check_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight check`."""
    add_project(verb)
    add_json(verb)


def check(args: argparse.Namespace) -> int:
    """Check the design of a project."""
    from app.checks import Checker

    accepted: list[dict[str, str]] = []
    try:
        checker = Checker()
        project, _, number = load_known(args.project)
        if number < FORMAT:
            former = f"{args.project} has format {number} of an earlier Fanlight"
            tell(f"{former}; saving it in the window writes format {FORMAT}")
        findings = [_as_json(finding) for finding in checker.check(project)]
        accepted = [{**_as_json(finding), "reason": finding.accepted} for finding in checker.accepted]
    except ProjectFileError as error:
        if error.unreadable:
            raise
        findings = [
            {
                "rule": "project-file",
                "severity": "error",
                "where": problem.where,
                "message": problem.message,
                "hint": problem.hint,
            }
            for problem in error.problems
        ]
    if args.json:
        put_json({"findings": findings, "accepted": accepted})
    else:
        for finding in findings:
            put(f"{finding['severity']}: {finding['where']}: {finding['message']} [{finding['rule']}]")
            if finding["hint"]:
                put(f"    {finding['hint']}")
        for finding in accepted:
            put(f"accepted {finding['severity']}: {finding['where']}: {finding['message']} [{finding['rule']}]")
            put(f"    {finding['reason']}")
        tell(_count(findings) + (f", {len(accepted)} accepted" if accepted else ""))
    return FOUND_WRONG if any(finding["severity"] == "error" for finding in findings) else FINE


def _as_json(finding: Finding) -> dict[str, str]:
    return {
        "rule": finding.rule,
        "severity": str(finding.severity),
        "where": finding.where,
        "message": finding.message,
        "hint": finding.hint,
    }


def _count(findings: Sequence[dict[str, str]]) -> str:
    if not findings:
        return "nothing found"
    kinds = [(kind, sum(finding["severity"] == kind for finding in findings)) for kind in ("error", "warning", "note")]
    return ", ".join(f"{n} {kind}{'s' if n != 1 else ''}" for kind, n in kinds if n)


def plan_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight plan`."""
    add_project(verb)
    add_json(verb)


def plan(args: argparse.Namespace) -> int:
    """Show which registers are read together, and how long that takes."""
    from app.planning.plan import make_plan

    plan = make_plan(load(args.project))
    for reason in plan.left_out.values():
        tell(f"not read: {reason}")
    status = FOUND_WRONG if plan.left_out else FINE
    if args.json:
        put_json(plan.as_json())
        return status
    for line in plan.lines:
        put(f"line '{line.line}': one poll cycle takes {line.cycle_ms:.1f} ms")
        for read in line.reads:
            span = f"{read.address}..{read.address + read.count - 1}" if read.count > 1 else f"{read.address}"
            put(
                f"  {read.follower} (unit {read.unit}) {read.table} {span}, every {read.every_ms} ms, "
                f"{read.ms:.1f} ms: {', '.join(read.signals)}"
            )
    return status


def compare_arguments(verb: argparse.ArgumentParser) -> None:
    """The options of `fanlight compare`."""
    verb.add_argument("before", metavar="A", help="a project file")
    verb.add_argument("after", metavar="B", help="the project file that it is compared with")
    add_json(verb)


def compare(args: argparse.Namespace) -> int:
    """Show what differs between two project files, part by part."""
    from app.comparison.comparison import compare
    from app.comparison.words import as_json, in_lines, summary

    comparison = compare(load(args.before), load(args.after))
    if args.json:
        put_json(as_json(comparison))
    else:
        put(*in_lines(comparison))
        tell(summary(comparison))
    return FINE if comparison.same else FOUND_WRONG
