"""One transaction's bytes taken apart: each part named and put into words, right or wrong, without input or output.

What arrived is explained as far as it goes. Nothing is left out: the parts, put together again, are the bytes that went
over the line.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.client.faults import FaultKind
from app.client.transactions import Transaction
from app.diagnosis.frame_parts import FrameReader
from app.diagnosis.frames import Frame, FrameRole
from app.diagnosis.received import mbap_frames, rtu_frames
from app.diagnosis.register_names import NO_NAMES, RegisterNames
from app.language import translate, with_mark


@dataclass(frozen=True, slots=True)
class Explanation:
    """A transaction in words. `fault` is empty if a verified answer came; `signals` are all that it was about."""

    transaction: Transaction
    sent: Frame
    received: tuple[Frame, ...]
    signals: tuple[str, ...]
    timing: str
    fault: str


def explain(transaction: Transaction, names: RegisterNames = NO_NAMES) -> Explanation:
    """Take a transaction apart; `names` puts the signals of a project to the registers."""
    request = transaction.request
    rtu = transaction.sent in (request.rtu, b"")  # nothing was sent for an answer that nobody asked for
    reader = FrameReader(request, transaction.follower, names, None if rtu else transaction.sent[:2])
    received = tuple(rtu_frames(transaction, reader) if rtu else mbap_frames(transaction.received, reader))
    fault = transaction.fault
    return Explanation(
        transaction,
        reader.frame(FrameRole.REQUEST, transaction.sent),
        received,
        names.at(transaction.follower, request.table, request.address, reader.count),
        _timing(transaction),
        fault.sentence if fault else "",
    )


def _timing(transaction: Transaction) -> str:
    """Measured against predicted time, in words."""
    fault = transaction.fault
    answered = fault is None or fault.kind in (FaultKind.EXCEPTION, FaultKind.LATE, FaultKind.UNASKED)
    took, predicted = milliseconds(transaction.ms), transaction.predicted_ms
    if not predicted:
        return f"{took} ms" if answered else translate("bus", "given up after {took} ms").format(took=took)
    if answered:
        told = translate("bus", "{took} ms, predicted {predicted} ms")
    else:
        told = translate("bus", "given up after {took} ms, predicted {predicted} ms")
    return told.format(took=took, predicted=milliseconds(predicted))


def milliseconds(ms: float) -> str:
    """A time in milliseconds, as fine as is worth reading."""
    return with_mark(f"{ms:.2f}" if ms < 1 else f"{ms:.1f}" if ms < 100 else f"{ms:.0f}")
