"""The record of a run: complete, in one form, and read back as it was."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, date, datetime
from fractions import Fraction
from pathlib import Path

import pytest

from app.client.endpoint import Endpoint
from app.trial.outcome import CaseOutcome, Instrument, PersonAsked, Reply, Result, StepOutcome, Verdict
from app.trial.runner import Runner
from app.trial.script_file import project_digest
from app.trial.stand import RehearsedStand
from app.trial_record.journal import Journal
from app.trial_record.record import (
    CLAIM,
    CannotUseRecord,
    Circumstances,
    TrialRecord,
    load_record,
    record_bytes,
    record_in,
    record_of,
    save_record,
)
from tests.app.trial.trials import PUMP, trial_in
from tests.builders import demo


class Tester:
    """Somebody who sees the shaft stand still and measures 402.5 V."""

    def ask(self, question: PersonAsked) -> None:
        self._question = question

    def answer(self) -> Reply:
        if self._question.kind == "measure":
            tool = Instrument("multimeter", "1234", date(2099, 3, 1))
            return Reply(True, by="M. Tester", value=Fraction("402.5"), instrument=tool)
        return Reply(True, "seen", "M. Tester")


def made(*, by_nobody: bool = False) -> TrialRecord:
    project = demo("booster-pump")
    trial = trial_in(PUMP)
    outcome = Runner(trial, RehearsedStand(project), None if by_nobody else Tester()).run()
    around = Circumstances(
        "M. Tester",
        "bench 2",
        "/somewhere/booster-pump.toml",
        "pump.trial.toml",
        {"pump room": Endpoint.serial("/dev/ttyUSB0")},
        {"pump": {"ProductCode": "P-1"}},
    )
    return record_of(outcome, trial, project, around)


def test_it_says_first_what_it_was_run_against_and_claims_no_more_than_it_proves() -> None:
    content = record_bytes(made()).decode()
    assert content.splitlines()[0] == '{"against": "simulated devices",'
    told = json.loads(content)
    assert told["claim"] == CLAIM
    assert "functional test" in CLAIM
    assert "18.6" in CLAIM
    assert told["project"]["name"] == "booster-pump.toml", "no path of a computer"
    assert told["project"]["digest"] == project_digest(demo("booster-pump"))
    assert told["lines"] == [
        {"name": "pump room", "settings": "19200 bit/s 8E1, time-out 300 ms", "where": "serial:/dev/ttyUSB0"}
    ]
    assert told["devices"][0]["identification"] == {"ProductCode": "P-1"}
    assert told["program"]["pymodbus"]


def test_each_step_has_what_was_expected_and_what_was_seen() -> None:
    told = json.loads(record_bytes(made()))
    trip = told["cases"][1]["steps"][1]
    assert trip["expected"] == "screen 'fault' is shown, row 2 is 'external fault'"
    assert trip["seen"]["screen"] == "fault"
    assert trip["seen"]["rows"][1].strip() == "external fault"
    reading = trip["seen"]["readings"][0]
    assert (reading["signal"], reading["raw"], reading["quality"]) == ("fault code", "36864", "good")
    measured = told["cases"][2]["steps"][1]
    assert measured["answer"]["instrument"] == {"due": "2099-03-01", "name": "multimeter", "serial": "1234"}
    assert measured["expected"] == "360 to 440 V"
    assert [case["result"] for case in told["cases"]] == ["pass"] * 3


def test_it_is_read_back_as_it_was_and_written_again_the_same() -> None:
    content = record_bytes(made())
    again = record_in(content)
    assert record_bytes(again) == content
    assert again.result is Verdict.PASSED
    assert again.cases[0].result is Result.PASS
    agreed = Reply(True, by="M. Tester")
    consented = replace(made(), cases=(replace(made().cases[0], agreed=agreed),))
    assert record_in(record_bytes(consented)).cases[0].agreed == agreed


def test_a_number_with_decimals_is_a_text_and_a_date_is_iso_8601() -> None:
    content = record_bytes(made())
    assert json.loads(content, parse_float=lambda text: pytest.fail(f"a float: {text}"))
    told = json.loads(content)
    assert datetime.fromisoformat(told["began"]).tzinfo is not None
    assert told["took_s"].count(".") == 1


def test_what_a_terminal_gave_that_is_not_utf_8_neither_ends_a_run_nor_loses_its_record(tmp_path: Path) -> None:
    whole = made()
    record = replace(whole, by="M. M\udcfcller", place="Halle \u00e4", program={"\udcff": "\udcff"})
    assert record_bytes(record).decode()
    read = record_in(record_bytes(record))
    assert (read.by, read.place, read.program) == ("M. M?ller", "Halle \u00e4", {"?": "?"})
    journal = Journal(tmp_path / "r.trial.json", record)
    journal.step_ends(0, replace(whole.cases[0].steps[0], remark="gr\udcfcn"))
    assert not journal.trouble
    journal.close(over=False)


def test_what_nobody_answered_is_not_tested_and_can_be_accepted_by_name_and_reason_only() -> None:
    record = made(by_nobody=True)
    assert record.result is Verdict.NOT_PASSED
    with pytest.raises(CannotUseRecord, match="a name and a reason"):
        record.accepting("what only a person sees", "M. Tester", " ")
    accepted = record.accepting("what only a person sees", "M. Tester", "no mains here")
    assert accepted.result is Verdict.WITH_EXCEPTIONS
    assert record_in(record_bytes(accepted)).exceptions[0].reason == "no mains here"
    assert accepted.accepting("what only a person sees", "A. Other", "agreed").exceptions[0].by == "A. Other"


def test_a_run_that_was_not_finished_never_is_passed() -> None:
    step = StepOutcome(1, "step", "press start", Result.PASS)
    head = made()
    case = CaseOutcome("one", (step,), stopped=True)
    assert (
        head.__class__(**{name: getattr(head, name) for name in head.__slots__} | {"cases": (case,), "finished": False})
        .judged()
        .result
        is Verdict.UNFINISHED
    )


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"", "is not JSON"),
        (b"\xff", "it is not UTF-8"),
        (b'{"against": "device"}', "'result' is missing"),
        (b'{"against": "a toy"}', "against: "),
        (b'{"a": 1, "a": 2}', "the key 'a' stands twice"),
        (b'{"a": 1.5}', "1.5 is a number with decimals"),
        (b"[" * 100_000, "nested too deeply"),
    ],
)
def test_what_is_no_record_is_refused_in_words(content: bytes, why: str, tmp_path: Path) -> None:
    (tmp_path / "x.trial.json").write_bytes(content)
    with pytest.raises(CannotUseRecord, match="is not a record of a trial") as told:
        load_record(tmp_path / "x.trial.json")
    assert why in str(told.value)


def test_a_file_that_cannot_be_read_or_written_is_told(tmp_path: Path) -> None:
    for path in (tmp_path / "none", tmp_path):
        with pytest.raises(CannotUseRecord):
            load_record(path)
    with pytest.raises(CannotUseRecord, match="the record was not written to"):
        save_record(made(), tmp_path / "no" / "folder.trial.json")
    assert save_record(made(), tmp_path / "r.trial.json") == (tmp_path / "r.trial.json").read_bytes()
    assert load_record(tmp_path / "r.trial.json").began <= datetime.now(UTC)
