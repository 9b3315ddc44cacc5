"""Counts of requests, good answers and faults."""

from __future__ import annotations

from app.bus.faults import Fault, FaultKind
from app.bus.requests import read_request
from app.bus.statistics import Counts
from app.bus.transactions import Transaction

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
    assert dict(counts.faults_now()) == {FaultKind.SILENCE: 1, FaultKind.LATE: 1}
