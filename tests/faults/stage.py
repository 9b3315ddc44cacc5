"""Stages one fault against the real engine on a real line, and tells what came of it.

The follower's registers hold their own address and the number of the request that reads them, so that the answer to any
other request, or a part of it, is another value. Every value that becomes a reading is compared with what the follower
held for exactly the request that was outstanding.
"""

from __future__ import annotations

import struct
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import Future, TimeoutError as NotYet
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path

from app.client.faults import FaultKind
from app.line.engine import Engine
from app.line.write_queue import WriteReport
from app.project.binding import Binding, Words
from app.project.model import Project
from tests.builders import SERIAL, pump_project, word
from tests.faults.table import TIMEOUT_MS, Act, StagedFault, T
from tests.staged_follower import Asked, Registers, StagedFollower

RECOVERS_WITHIN = 2.0
"""Time-outs, from the end of the fault until every signal has a new value."""
PATIENCE_S = 15.0
"""How long anything is waited for before it counts as not having happened."""
LEAST_REQUESTS = 6
"""So many requests at least meet a fault, since what it is called may change when it lasts."""

SET = 50
"""The register that is written; it keeps what it gets."""

PROJECT = pump_project(
    *(word(f"{n}", n, every_ms=40) for n in (10, 20, 30)),
    word("wide", 40, encoding="uint32", every_ms=40),
    word("input", 10, table="input", every_ms=40),
    word("set", SET, write=True, every_ms=40),
    line=SERIAL,
    max_registers=2,
)


class Telling(Registers):
    """Each word is the low 6 bits of its address, its table, and the low 9 bits of the number of the request."""

    def pdu(self, asked: Asked) -> bytes:
        if asked.function not in (3, 4):
            return super().pdu(asked)
        words = [self._word(asked, asked.address + index) for index in range(asked.count)]
        return struct.pack(f">BB{asked.count}H", asked.function, 2 * asked.count, *words)

    def _word(self, asked: Asked, address: int) -> int:
        if address == SET and asked.function == 3:
            return self.words.get(SET, 0)
        return (address & 0x3F) << 10 | (asked.function & 1) << 9 | asked.number & 0x1FF


class Stage:
    """A follower that is honest until a fault is put in its way, and remembers every true answer."""

    def __init__(self) -> None:
        self.honest = Telling()
        self.truth: dict[int, bytes] = {}
        """The true answer to every request, by its number."""
        self.act: Act | None = None
        self.only_once = False
        self.met = 0
        """Requests that met the fault."""
        self.last_met = 0.0
        """When the last of them was done with."""
        self._busy = 0

    def __call__(self, asked: Asked) -> Iterator[bytes | float | object]:
        pdu = self.truth[asked.number] = self.honest.pdu(asked)
        act = self.act
        if act is None:
            yield asked.framed(pdu)
            return
        if self.only_once:
            self.act = None
        self._busy += 1
        try:
            self.met += 1
            yield from act(asked, pdu)
        finally:
            self._busy -= 1
            self.last_met = time.monotonic()

    @property
    def over(self) -> bool:
        """Whether the fault was lifted, and no request is still meeting it."""
        return self.act is None and not self._busy


class Watch:
    """Stands where values become readings, and compares each with the truth of the request that was outstanding."""

    def __init__(self, engine: Engine, follower: StagedFollower, stage: Stage, project: Project) -> None:
        self.wrong: list[str] = []
        self.taken: dict[str, list[float]] = {signal.name: [] for signal in project.signals}
        self.count = 0
        self._engine, self._follower, self._stage = engine, follower, stage
        readings = engine._readings
        self._take = readings.take
        readings.take = self._watched  # type: ignore[method-assign]

    def _watched(self, binding: Binding, words: Words, at: float) -> None:
        name = binding.signal.name
        assert not isinstance(words, int)
        asked = self._outstanding(at)
        truth = () if asked is None else self._truth(asked, binding)
        if tuple(words) != truth:
            self.wrong.append(f"{name}: {tuple(words)} instead of {truth}")
        self.count += 1
        self.taken[name].append(at)
        self._take(binding, words, at)

    def _outstanding(self, at: float) -> Asked | None:
        """The request whose transaction had just ended at `at`, as the follower got it."""
        _, kept = self._engine.transactions.since(0)
        sent = next((each.at for each in reversed(kept) if each.at <= at and each.sent), at)
        asked = next((each for each in reversed(self._follower.asked) if each.at <= at), None)
        return asked if asked is not None and sent <= asked.at else None

    def _truth(self, asked: Asked, binding: Binding) -> tuple[int, ...]:
        pdu = self._stage.truth.get(asked.number, b"")
        if not pdu or pdu[0] != (3 if binding.table == "holding" else 4):
            return ()
        words = struct.unpack(f">{pdu[1] // 2}H", pdu[2:])
        first = binding.address - asked.address
        return words[first : first + binding.count] if first >= 0 else ()

    def all_taken_since(self, moment: float) -> float | None:
        """When every signal had a value newer than `moment`, or None if one has none yet."""
        firsts = []
        for times in self.taken.values():
            newer = [at for at in reversed(times) if at > moment]
            if not newer:
                return None
            firsts.append(newer[-1])
        return max(firsts)


@dataclass(slots=True)
class Outcome:
    """What came of one staged fault on one framing."""

    fault: StagedFault
    framing: str
    kinds: Counter[FaultKind] = field(default_factory=Counter)
    """What requests and connections were called, and how often, until all was well again."""
    wrong: list[str] = field(default_factory=list)
    values: int = 0
    recovered: float | None = None
    """Time-outs from the end of the fault until every signal had a new value."""
    problems: list[str] = field(default_factory=list)
    """What was not as the table demands, wrong values apart. A busy computer may cause these, never a wrong value."""


def staged(fault: StagedFault, framing: str) -> Outcome:
    """Stage one fault, and if it does not go as demanded a second time; wrong values of both runs count."""
    outcome = run(fault, framing)
    if outcome.problems:
        again = run(fault, framing)
        outcome = replace(again, wrong=outcome.wrong + again.wrong, values=outcome.values + again.values)
    return outcome


def run(fault: StagedFault, framing: str) -> Outcome:
    """Stage one fault once."""
    stage = Stage()
    with (
        tempfile.TemporaryDirectory() as folder,
        StagedFollower(framing, stage, TIMEOUT_MS, Path(folder) / "port" if framing == "serial" else None) as follower,
    ):
        engine = Engine(PROJECT, {"bus": follower.endpoint}, armed=["bus"])
        watch = Watch(engine, follower, stage, PROJECT)
        engine.start()
        try:
            outcome = Outcome(fault, framing, wrong=watch.wrong)
            _Run(outcome, stage, follower, engine, watch).play()
        finally:
            engine.stop()
        outcome.values = watch.count
        return outcome


@dataclass(slots=True)
class _Run:
    outcome: Outcome
    stage: Stage
    follower: StagedFollower
    engine: Engine
    watch: Watch
    seen: set[str] = field(default_factory=set)
    """All reasons that were shown."""

    def play(self) -> None:
        fault, stage, engine = self.outcome.fault, self.stage, self.engine
        if not self._until(self._all_good):
            self._problem("it did not even begin: no good readings before the fault")
            return
        before = engine.snapshot().lines["bus"].faults
        count = engine.transactions.count
        if fault.act is None:
            self.follower.stop()
        else:
            stage.only_once = fault.once
            stage.act = fault.act
        began = time.monotonic()
        write = engine.write("set", Fraction(4711))
        if not self._until(lambda: self._met(fault, before, began)):
            self._problem(f"not as demanded while it lasted: {self._as_it_is(before)}")
        self._recover()
        self._judge_write(write, fault)
        self._judge_names(before, count, fault)
        self._write_again()

    def _met(self, fault: StagedFault, before: Mapping[FaultKind, int], began: float) -> bool:
        """Whether the fault has lasted long enough, was named, and shows as it has to."""
        now = self.engine.snapshot()
        if fault.named is not None:
            counted = now.lines["bus"].faults.get(fault.named, 0) - before.get(fault.named, 0)
            if counted < (1 if fault.once or fault.goes_on else 2):  # a write is sent once
                return False
        if fault.once:
            return True
        if fault.act is not None and fault.named not in _CONNECTION and self.stage.met < LEAST_REQUESTS:
            return False
        if fault.goes_on:
            return self.watch.all_taken_since(began + T) is not None and self.stage.met >= 4 * LEAST_REQUESTS
        return all(reading.quality is fault.shows and reading.reason for reading in now.readings.values())

    def _recover(self) -> None:
        """End the fault, and see how long it takes until all is well."""
        fault, stage = self.outcome.fault, self.stage
        stage.act = None
        if fault.act is None:
            self.follower.start()
        lifted = time.monotonic()
        self._until(lambda: stage.over)
        ended = stage.last_met if fault.once else max(lifted, stage.last_met)
        if not self._until(lambda: self.watch.all_taken_since(ended) is not None):
            self._problem("it did not recover")
            return
        self.outcome.recovered = ((self.watch.all_taken_since(ended) or ended) - ended) / T
        if fault.named is not None and self.outcome.recovered > RECOVERS_WITHIN:
            self._problem(f"it took {self.outcome.recovered:.1f} time-outs to recover")
        if not self._until(self._all_well):
            self._problem("readings came, but not all is shown as well again")

    def _write_again(self) -> None:
        last = self.engine.write("set", Fraction(42))
        try:
            if not last.result(PATIENCE_S).ok or self.stage.honest.words.get(SET) != 42:
                self._problem(f"a write after the fault failed: {last.result().reason}")
        except NotYet:
            self._problem("a write after the fault got no report")

    def _judge_write(self, write: Future[WriteReport], fault: StagedFault) -> None:
        try:
            report = write.result(PATIENCE_S)
        except NotYet:
            self._problem("the write got no report")
            return
        if report.ok and (fault.write_fails or self.stage.honest.words.get(SET) != 4711):
            self.outcome.wrong.append("a write was reported as done that was not")
        elif not report.ok and not report.reason:
            self._problem("a write failed without a reason")

    def _judge_names(self, before: Mapping[FaultKind, int], count: int, fault: StagedFault) -> None:
        self.outcome.kinds = Counter(self.engine.snapshot().lines["bus"].faults)
        self.outcome.kinds.subtract(before)
        self.outcome.kinds = +self.outcome.kinds
        allowed = fault.also | ({fault.named} if fault.named else set())
        for kind in self.outcome.kinds:
            if kind not in allowed:
                self._problem(f"called {kind} {self.outcome.kinds[kind]} times")
        _, transactions = self.engine.transactions.since(count)
        sentences = self.seen | {done.fault.sentence for done in transactions if done.fault is not None}
        if fault.says and not any(fault.says in sentence for sentence in sentences):
            self._problem(f"nothing said '{fault.says}' but: {sorted(sentences)}")

    def _until(self, condition: Callable[[], bool]) -> bool:
        end = time.monotonic() + PATIENCE_S
        while True:
            now = self.engine.snapshot()
            self.seen.update((now.lines["bus"].reason, now.followers["pump"].reason))
            if condition():
                return True
            if time.monotonic() > end:
                return False
            threading.Event().wait(0.005)

    def _all_good(self) -> bool:
        return all(reading.good for reading in self.engine.snapshot().readings.values())

    def _all_well(self) -> bool:
        now = self.engine.snapshot()
        pump, line = now.followers["pump"], now.lines["bus"]
        return self._all_good() and bool(pump.answering) and not pump.reason and line.connected and not line.reason

    def _as_it_is(self, before: Mapping[FaultKind, int]) -> str:
        now = self.engine.snapshot()
        kinds = {str(kind): n - before.get(kind, 0) for kind, n in now.lines["bus"].faults.items()}
        qualities = Counter(str(reading.quality) for reading in now.readings.values())
        return f"faults {kinds}, readings {dict(qualities)}, met by {self.stage.met} requests"

    def _problem(self, text: str) -> None:
        self.outcome.problems.append(text)


_CONNECTION = (FaultKind.CLOSED, FaultKind.RESET, FaultKind.REFUSED_CONNECTION, FaultKind.PORT_MISSING)
