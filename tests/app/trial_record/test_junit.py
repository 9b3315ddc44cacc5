"""Records as JUnit XML, read by a library that reads it everywhere."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree as ET

from junitparser import Error, Failure, JUnitXml, Skipped

from app.trial.outcome import CaseOutcome, Result, StepOutcome
from app.trial_record.junit import junit
from tests.app.trial_record.test_record import made


def case(name: str, result: Result, reason: str = "") -> CaseOutcome:
    return CaseOutcome(name, (StepOutcome(1, "step", "press start", result, reason),), took_s=1.5)


def test_another_library_reads_it(tmp_path: Path) -> None:
    """junitparser, from the registry."""
    record = replace(
        made(),
        cases=(
            case("passes", Result.PASS),
            case("fails & <says> so", Result.FAIL, "row 1 is 'x\x07y\U0001f6d1'"),
            case("is blocked", Result.BLOCKED, "the device does not answer"),
            case("is not tested", Result.NOT_TESTED, "nobody was there"),
        ),
        took_s=6.0,
    )
    (tmp_path / "r.xml").write_bytes(junit(record))
    read = JUnitXml.fromfile(str(tmp_path / "r.xml"))
    assert (read.tests, read.failures, read.errors, read.skipped, read.time) == (4, 1, 1, 1, 6.0)
    (suite,) = read
    cases = list(suite)
    assert [each.name for each in cases] == ["passes", "fails & <says> so", "is blocked", "is not tested"]
    assert [[type(result) for result in each.result] for each in cases] == [[], [Failure], [Error], [Skipped]]
    assert cases[1].result[0].message == "step 1: press start: row 1 is 'x\u2407y\U0001f6d1'"
    assert "press start" in cases[0].system_out
    told = {each.get("name"): each.get("value") for each in ET.fromstring(junit(record)).iter("property")}
    assert told["against"] == "simulated devices"
    assert (told["by"], told["place"]) == (record.by, record.place)


def test_what_was_measured_stands_in_the_output() -> None:
    step = StepOutcome(1, "step", "measure: belt speed", Result.PASS, "", "0.4 to 0.6 m/s", "0.52 m/s")
    (told,) = ET.fromstring(junit(replace(made(), cases=(CaseOutcome("it moves", (step,)),)))).iter("system-out")
    assert told.text == "step 1: measure: belt speed: pass: 0.52 m/s"
