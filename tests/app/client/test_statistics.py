"""Counts of requests, good answers and faults."""

from __future__ import annotations

from app.client.faults import Fault, FaultKind
from app.client.statistics import OUTAGE_S, Counts, Outage, OutageBook
from app.client.transactions import Transaction
from app.modbus.requests import read_request

REQUEST = read_request(3, "holding", 1, 1)


def transaction(ms: float, fault: Fault | None = None) -> Transaction:
    return Transaction(0.0, "bus", "pump", REQUEST, REQUEST.rtu, b"", ms, fault)


def test_requests_and_faults_are_counted_and_a_lost_connection_is_no_fault_of_a_request() -> None:
    counts = Counts()
    counts.count(transaction(12.0))
    counts.count(transaction(9.0))
    counts.count(transaction(100.0, Fault(FaultKind.SILENCE, "nobody")))
    counts.count(transaction(1.0, Fault(FaultKind.CLOSED, "gone")))
    counts.fault(FaultKind.LATE)
    assert (counts.requests, counts.good) == (4, 2)
    assert dict(counts.faults) == {FaultKind.SILENCE: 1, FaultKind.LATE: 1}


def test_an_outage_lasts_from_the_first_failure_to_the_next_answer() -> None:
    book = OutageBook()
    book.note_failure(1.0, "it was never there")
    book.note_answer(9.0)
    assert book.outages.count == 0, "what never answered is not out"
    book.note_failure(10.0, "gone")
    book.note_failure(11.0, "still gone")
    book.note_answer(14.0)
    assert book.outages.last == Outage(10.0, 14.0, "gone")
    book.note_failure(20.0, "one request")
    book.note_answer(20.0 + OUTAGE_S / 2)
    assert book.outages.count == 1, "single requests are faults"
    book.note_failure(30.0, "again")
    book.note_answer(32.0)
    assert (book.outages.count, book.outages.seconds) == (2, 6.0)
