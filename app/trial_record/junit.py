"""A record as JUnit XML, for whatever builds and tests: a case is a test case, its steps are its output.

There is no standard of it; what is written are the elements that all readers know.
"""

from __future__ import annotations

from xml.etree import ElementTree as ET

from app.signals.visible import visible
from app.trial.outcome import CaseOutcome, Result, StepOutcome
from app.trial_record.record import TrialRecord

_ELEMENTS = {Result.FAIL: "failure", Result.BLOCKED: "error", Result.NOT_TESTED: "skipped"}


def junit(record: TrialRecord) -> bytes:
    """The record as a JUnit file: failed cases as failures, blocked ones as errors, not tested ones as skipped."""
    results = [case.result for case in record.cases]
    counts = {
        "tests": str(len(results)),
        "failures": str(results.count(Result.FAIL)),
        "errors": str(results.count(Result.BLOCKED)),
        "skipped": str(results.count(Result.NOT_TESTED)),
        "time": f"{record.took_s:.3f}",
    }
    name = record.trial.title or record.trial.name or "trial"
    root = ET.Element("testsuites", {"name": name, **counts})
    stamp = record.began.isoformat(timespec="seconds").split("+")[0]
    suite = ET.SubElement(root, "testsuite", {"name": name, **counts, "timestamp": stamp})
    told = ET.SubElement(suite, "properties")
    for key, value in (
        ("against", record.against),
        ("result", record.result.value),
        ("project", record.project.name),
        ("project digest", record.project.digest),
        ("trial digest", record.trial.digest),
        ("by", record.by),
        ("place", record.place),
    ):
        if value:
            ET.SubElement(told, "property", {"name": key, "value": _clean(value)})
    for case in record.cases:
        _case(suite, name, case)
    ET.indent(root, " ")
    text: bytes = ET.tostring(root, encoding="utf-8", xml_declaration=True)
    return text + b"\n"


def _case(suite: ET.Element, name: str, case: CaseOutcome) -> None:
    about = {"classname": _clean(name), "name": _clean(case.name), "time": f"{case.took_s:.3f}"}
    test = ET.SubElement(suite, "testcase", about)
    element = _ELEMENTS.get(case.result)
    if element is not None:
        # Most readers show nothing but the message: it names the step as well.
        first = next((step for step in case.steps if step.result is case.result), None)
        message = case.reason if first is None else f"{first.part} {first.number}: {first.words}: {case.reason}"
        ET.SubElement(test, element, {"message": _clean(message), "type": case.result.value})
    lines = [": ".join(filter(None, _told(step))) for step in case.steps]
    ET.SubElement(test, "system-out").text = _clean("\n".join([*lines, *case.restored, *case.not_restored]))


def _told(step: StepOutcome) -> tuple[str, ...]:
    """What a step did, and what became of it; of one that passed what was found, measured or said."""
    return (f"{step.part} {step.number}", step.words, step.result.value, step.reason or step.found, step.remark)


def _clean(text: str) -> str:
    """Without the characters that XML cannot hold: pictures or codes of them stand there."""
    return "\n".join(map(visible, text.split("\n")))
