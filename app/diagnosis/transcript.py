"""Transactions as text: a line each, every byte explained, or plain types for JSON."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from app.client.faults import FaultKind, kind_text
from app.client.statistics import Outages
from app.client.transactions import Transaction
from app.diagnosis.explain import Explanation, milliseconds
from app.diagnosis.figures import Figures, Spread
from app.diagnosis.frame_words import hex_text
from app.diagnosis.frames import Frame, FrameRole
from app.language import translate
from app.line.states import LineState

GOOD, BAD = "\u2713", "\u26a0"
"""Marks before the result, so that colour is never the only sign."""


def clock_text(epoch_s: float) -> str:
    """The local time of day to the millisecond of a time in seconds since 1970: '14:05:03.214'."""
    return datetime.fromtimestamp(epoch_s).strftime("%H:%M:%S.%f")[:-3]


def result_text(transaction: Transaction) -> str:
    """How it ended, with a mark and in a few words."""
    fault = transaction.fault
    if fault:
        return f"{BAD} {fault.short}"
    return GOOD + " " + translate("bus", "good")


def times_text(transaction: Transaction) -> str:
    """Measured and, where known, predicted time: '12.9 ms (predicted 12.6)'."""
    predicted = transaction.predicted_ms
    took = milliseconds(transaction.ms)
    if not predicted:
        return f"{took} ms"
    return translate("bus", "{took} ms (predicted {predicted})").format(took=took, predicted=milliseconds(predicted))


def one_line(explanation: Explanation, clock: str) -> str:
    """A transaction in one line, its bytes in parts: bytes that belong together stand together.

    `clock` is the time of day at which the request was sent.
    """
    transaction = explanation.transaction
    columns = (
        clock,
        f"{transaction.follower:<8}",
        f"{transaction.kind:<24}",
        f"{times_text(transaction):<25}",
        f"{result_text(transaction):<16}",
        f"> {_compact(explanation.sent)}",
        *(f"< {_compact(frame)}" for frame in explanation.received),
    )
    return "  ".join(columns).rstrip()


def many_lines(explanation: Explanation, clock: str) -> str:
    """A transaction with every part explained, without a line end behind the last line."""
    transaction = explanation.transaction
    lines = [
        translate("bus", "{clock}  {follower}: {deed}, line '{line}'").format(
            clock=clock, follower=transaction.follower, deed=transaction.kind, line=transaction.line
        ),
        f"  {result_text(transaction)}; {explanation.timing}",
    ]
    if explanation.fault:
        lines.append(f"  {explanation.fault}")
    sent = translate("bus", "sent: request") if transaction.sent else translate("bus", "sent: nothing")
    lines += ["  " + sent, *_part_lines([explanation.sent])]
    for frame in explanation.received:
        lines += ["  " + translate("bus", "received: {what}").format(what=frame.words), *_part_lines([frame])]
    if not explanation.received:
        lines.append("  " + translate("bus", "received: nothing"))
    return "\n".join(lines)


def as_json(explanation: Explanation, epoch_s: float) -> dict[str, Any]:
    """A transaction in plain types; `epoch_s` is when it was sent, in seconds since 1970."""
    transaction = explanation.transaction
    fault = transaction.fault
    predicted = transaction.predicted_ms
    return {
        "time": round(epoch_s, 6),
        "line": transaction.line,
        "follower": transaction.follower,
        "unit": transaction.request.unit,
        "what": transaction.kind,
        "signals": list(explanation.signals),
        "ms": round(transaction.ms, 3),
        "predicted_ms": round(predicted, 3) if predicted else None,
        "fault": None if fault is None else {"kind": str(fault.kind), "words": fault.sentence},
        "sent": _frame_json(explanation.sent),
        "received": [_frame_json(frame) for frame in explanation.received],
    }


def figures_rows(state: LineState, told: Figures) -> list[tuple[str, str]]:
    """How a line does, as pairs of a name and a figure in words; the faults by kind come last."""
    good = translate("bus", "{requests}, {good} good").format(requests=state.requests, good=state.good)
    rows = [(translate("bus", "requests"), good)]
    if told.transactions:
        newest = translate("bus", "of the last {count}").format(count=told.transactions)
        rows.append((newest, translate("bus", "in {seconds:.1f} s").format(seconds=told.seconds)))
        cycle = f"{milliseconds(told.cycle_ms)} ms" if told.cycle_ms else translate("bus", "nothing to read")
        rows.append((translate("bus", "poll cycle"), cycle))
        rows.append((translate("bus", "bus load"), f"{100 * told.used:.0f} %"))
    for name, spread in told.response_time.items():
        rows.append((translate("bus", "response time of {follower}").format(follower=name), spread_text(spread)))
    rows += [(kind_text(kind), f"{count}") for kind, count in by_number(state)]
    if state.outages.last is not None:
        rows.append((translate("bus", "outages"), outages_text(state.outages)))
    return rows


def outages_text(outages: Outages) -> str:
    """The outages of a line in words: '2, 5.3 s in all, the last one of 4.1 s'."""
    told = translate("bus", "{count}, {seconds:.1f} s in total, the last one {last:.1f} s")
    last = outages.last.seconds if outages.last is not None else 0.0
    return told.format(count=outages.count, seconds=outages.seconds, last=last)


def spread_text(spread: Spread) -> str:
    """A spread in words: '0.40 ms median, 1.2 ms 95 %, 8.0 ms worst'."""
    middle, most, worst = (milliseconds(ms) for ms in (spread.median, spread.most, spread.worst))
    return translate("bus", "{median} ms median, {most} ms 95 %, {worst} ms worst").format(
        median=middle, most=most, worst=worst
    )


def by_number(state: LineState) -> list[tuple[FaultKind, int]]:
    """The faults of a line by kind, the most frequent first."""
    return sorted(state.faults.items(), key=lambda pair: -pair[1])


def figures_text(state: LineState, told: Figures) -> list[str]:
    """The figures of a line as lines of text, under its name."""
    rows = figures_rows(state, told)
    width = max(len(name) for name, _ in rows)
    head = translate("bus", "line '{line}' at {where}").format(line=state.name, where=state.where)
    return [head, *(f"  {name:<{width}}  {words}" for name, words in rows)]


def figures_json(state: LineState, told: Figures) -> dict[str, Any]:
    """The same in plain types; what was measured is that of the newest transactions, `measured` of them."""
    return {
        "line": state.name,
        "where": state.where,
        "connected": state.connected,
        "reason": state.reason,
        "requests": state.requests,
        "good": state.good,
        "faults": {str(kind): count for kind, count in by_number(state)},
        "outages": {"count": state.outages.count, "seconds": round(state.outages.seconds, 3)},
        "measured": told.transactions,
        "seconds": round(told.seconds, 3),
        "cycle_ms": round(told.cycle_ms, 3),
        "bus_load": round(told.used, 4),
        "response_time_ms": {
            name: {"median": round(each.median, 3), "95": round(each.most, 3), "worst": round(each.worst, 3)}
            for name, each in told.response_time.items()
        },
    }


def _frame_json(frame: Frame) -> dict[str, Any]:
    return {
        "role": str(frame.role),
        "parts": [
            {
                "hex": hex_text(part.data),
                "part": part.name,
                "words": part.words,
                "signals": list(part.signals),
                "wrong": part.wrong,
            }
            for part in frame.parts
        ],
    }


def _compact(frame: Frame) -> str:
    parts = " ".join(part.data.hex().upper() for part in frame.parts)
    return (
        parts if frame.role in (FrameRole.REQUEST, FrameRole.ANSWER, FrameRole.REFUSAL) else f"[{frame.words}: {parts}]"
    )


HEX_COLUMN = 24
"""Characters that the bytes of a part take in the explained form before its name; longer ones push it on."""


def _part_lines(frames: Iterable[Frame]) -> list[str]:
    return [
        f"    {hex_text(part.data):<{HEX_COLUMN}} {BAD if part.wrong else ' '} {part.name}: {part.words}"
        for frame in frames
        for part in frame.parts
    ]
