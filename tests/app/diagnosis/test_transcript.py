"""Transactions as text and as plain types."""

from __future__ import annotations

import json
import re
import time

from app.client.faults import Fault, FaultKind
from app.client.transactions import Transaction
from app.diagnosis.explain import explain
from app.diagnosis.register_names import RegisterNames
from app.diagnosis.transcript import as_json, clock_text, many_lines, one_line
from app.modbus.requests import read_request
from app.project_file.files import load
from projects import demo_path

NAMES = RegisterNames.of(load(demo_path("booster-pump")))
READ = read_request(3, "holding", 310, 1)
# The check sums were worked out by tests.staged_follower.crc, bit by bit.
ANSWER = bytes.fromhex("03 03 02 20 8A 59 E3")


def transaction(received: bytes, fault: Fault | None = None) -> Transaction:
    return Transaction(
        at=1.0,
        line="pump room",
        follower="pump",
        request=READ,
        sent=READ.rtu,
        received=received,
        ms=12.94,
        fault=fault,
    )


def test_one_line_has_time_follower_deed_bytes_in_parts_and_result() -> None:
    line = one_line(explain(transaction(ANSWER), NAMES), "14:05:03.214")
    assert line.startswith("14:05:03.214  pump ")
    assert "read holding 310" in line
    assert "12.9 ms" in line
    assert "good" in line
    assert "> 03 03 0136 0001 641A" in line
    assert line.endswith("< 03 03 02 208A 59E3")


def test_many_lines_explain_each_part_and_end_with_what_to_check() -> None:
    text = many_lines(explain(transaction(ANSWER), NAMES), "14:05:03.214")
    assert "register 310: speed set point = 41.7 Hz (raw 8330)" in text
    silent = Fault(FaultKind.SILENCE, "unit 3 did not answer")
    text = many_lines(explain(transaction(b"", silent), NAMES), "14:05:03.214")
    assert silent.sentence in text
    assert "\u26a0 no answer" in text
    assert "received: nothing" in text


def test_what_is_no_answer_is_said_in_the_line_too() -> None:
    line = one_line(explain(transaction(b"\xff" + ANSWER), NAMES), "")
    assert "[bytes that are not a frame: FF]" in line


def test_json_is_plain_and_whole() -> None:
    told = json.loads(json.dumps(as_json(explain(transaction(ANSWER), NAMES), 1000.5)))
    assert told["time"] == 1000.5
    assert (told["follower"], told["unit"], told["what"]) == ("pump", 3, "read holding 310")
    assert told["signals"] == ["speed set point"]
    assert told["fault"] is None
    assert bytes.fromhex("".join(part["hex"] for part in told["received"][0]["parts"])) == ANSWER
    silent = Fault(FaultKind.SILENCE, "unit 3 did not answer")
    told = as_json(explain(transaction(b"", silent), NAMES), 1000.5)
    assert told["fault"] == {"kind": "silence", "words": silent.sentence}


def test_clock_text_is_the_local_time_to_the_millisecond() -> None:
    assert re.fullmatch(r"\d\d:\d\d:\d\d\.250", clock_text(1_700_000_000.25))
    assert clock_text(1_700_000_000.25).startswith(time.strftime("%H:%M:%S", time.localtime(1_700_000_000)))
