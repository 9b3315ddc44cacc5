"""The wiring: one project running, its line, its panel and, where asked, its simulated followers."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Callable, Mapping
from concurrent.futures import Future
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, Literal, Self

from app.client.endpoint import Endpoint
from app.errors import FanlightError
from app.follower.simulation import FollowerError, Simulation
from app.language import mark, translate
from app.line.engine import Engine, Snapshot
from app.line.samples import SampleBus
from app.line.states import Owed
from app.line.write_queue import Obstacle, Outcome, WriteReport
from app.panel.driver import PanelDriver
from app.panel.events import Effect, PanelEvent, ReleaseAll, Write, WriteDone, WriteFailed
from app.project.model import DIRECT_UNITS, PanelMessage, Project
from app.project.problems import quoted
from app.project.purpose import Purpose
from app.signals.reading import Reading, Value

Via = Literal["simulated"] | Endpoint | None
"""Where the followers are: simulated by this program, at one endpoint, or where the project says (None)."""

KEPT_REPORTS = 10_000
"""Reports of writes that wait at most for somebody who wants them."""
RELEASE_S = 1.0
"""How long a stop waits at most for the line to take what keys have asked for, releases above all, in seconds."""
OWED_SHOWN_S = 0.5
"""A stop that was never sent is shown as owed after so many seconds: until then it is merely on its way."""


@dataclass(frozen=True, slots=True)
class Unproved:
    """What somebody at the machine must know of stops: a headline, the rest of it, and whether they were given up."""

    headline: str
    words: str
    failed: bool


class CannotConnect(FanlightError):
    """The project cannot be run that way; the message says what to do."""


class Session:
    """A project running. All methods belong to one thread, the caller's; none of them but `stop` waits for the line.

    A simulated line is armed from the start, since nothing real can move. A real line is armed only by `armed=True`
    or later by `engine.arm`.
    """

    def __init__(
        self,
        project: Project,
        via: Via = None,
        *,
        armed: bool = False,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        """Prepare to run `project`. Raises CannotConnect if `via` does not fit it, BadEndpoint if a line does not."""
        self.project = project
        self.simulation = Simulation(project) if via == "simulated" else None
        self._armed = armed
        self._clock = clock
        self._endpoints = _endpoints(project, via)
        self._engine: Engine | None = None
        self.samples = SampleBus()
        """Every reading as it comes, for those who subscribe; before `start` for those who want the first ones, too."""
        self._waiting: list[tuple[Write, Future[WriteReport]]] = []
        self._reports: deque[WriteReport] = deque(maxlen=KEPT_REPORTS)
        self._aside: list[Future[WriteReport]] = []
        self._failed: dict[str, WriteReport] = {}
        self.looked_at: float | None = None
        """When somebody said last to have looked at the machine after a stop that failed; None if nobody did."""
        self._disarmed = ""
        self.panel = PanelDriver(project, self, clock)
        """What is operated; only while the session runs. Its ticks bring what became of the writes."""
        self._shown = ""

    def __enter__(self) -> Self:
        self.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    @property
    def engine(self) -> Engine:
        """The polling engine. Only while the session runs."""
        if self._engine is None:
            raise RuntimeError("the session is not running")
        return self._engine

    @property
    def running(self) -> bool:
        """Whether start() was called and stop() was not."""
        return self._engine is not None

    @property
    def endpoints(self) -> Mapping[str, Endpoint]:
        """Where each line leads, by name."""
        return MappingProxyType(self._endpoints)

    @property
    def writing(self) -> bool:
        """Whether a write is still on its way."""
        return bool(self._waiting)

    @property
    def owed(self) -> tuple[Owed, ...]:
        """The stops that somebody must know of: they are not proved, and not just on their way."""
        late = time.monotonic() - OWED_SHOWN_S
        lines = self.snapshot().lines.values() if self.running else ()
        return tuple(owed for line in lines for owed in line.owed if owed.tries or owed.since < late)

    @property
    def failed(self) -> tuple[WriteReport, ...]:
        """The stops that were given up, or that the follower did not take: what they were to stop may still be on.

        Each stays until something is written to its signal after all, or `forget_failed`.
        """
        return tuple(self._failed.values())

    @property
    def unproved(self) -> Unproved | None:
        """The stops that failed or are still owed, in words; None while all is well."""
        if self._failed:
            headline = translate("bus", "STOP FAILED: {signals} may still be on. Stop the machine at the machine.")
            said = {
                name: translate("bus", "'{signal}': {reason}").format(signal=name, reason=report.reason)
                for name, report in self._failed.items()
            }
        else:
            now = time.monotonic()
            headline = translate("bus", "STOP NOT CONFIRMED: {signals} may still be on")
            said = {
                owed.signal: translate(
                    "bus", "'{signal}': sent {tries} times, repeated for another {left:.0f} s; {reason}"
                ).format(
                    signal=owed.signal,
                    tries=owed.tries,
                    left=max(0.0, owed.until - now),
                    reason=owed.reason or translate("bus", "it could not be sent"),
                )
                for owed in self.owed
            }
        if not said:
            return None
        signals = ", ".join(map(quoted, said))
        return Unproved(headline.format(signals=signals), "\n".join(said.values()), bool(self._failed))

    def forget_failed(self) -> None:
        """Somebody has seen the stops that failed."""
        self.looked_at = self._clock()
        self._failed.clear()

    @property
    def disarmed(self) -> str:
        """Why lines disarmed themselves, in words; empty unless one did."""
        reasons = (line.disarmed for line in self.snapshot().lines.values()) if self.running else ()
        return "; ".join(reason for reason in reasons if reason)

    def start(self) -> None:
        """Start the simulated followers, if any, then the line. Returns at once; readings come in by themselves.

        Raises FollowerError if a line cannot be simulated; then nothing runs.
        """
        if self.running:
            return
        armed = [line.name for line in self.project.lines] if self._armed or self.simulation else []
        if self.simulation is not None:
            self.simulation.start()
            try:
                for line in self.project.lines:
                    host, port = self.simulation.serve_tcp(line.name, "127.0.0.1", 0)
                    self._endpoints[line.name] = Endpoint.tcp(host, port, timeout_ms=line.timeout_ms)
            except FollowerError:
                self.simulation.stop()
                raise
        engine = Engine(
            self.project, self._endpoints, armed=armed, stays_armed=self.simulation is not None, samples=self.samples
        )
        engine.start()
        self._engine = engine
        self.panel.begin()
        self._shown = ""
        self._read_shown_first()

    def stop(self) -> tuple[str, ...]:
        """Release what is held, then stop the line and the simulated followers. No thread is left.

        Waits, RELEASE_S at most, until what keys have asked for is written: a stop or a release may still be on its
        way. Gives the signals whose stop or release is not proved by then: they may still be on.
        """
        unproved: dict[str, None] = {}
        if self._engine is not None:
            self.panel.release_all()
            self._finish_writes(self._engine)
            stops = [write.signal for write, _ in self._waiting if write.purpose is not Purpose.VALUE]
            unproved = dict.fromkeys([*stops, *self._failed])
            self._engine.stop()
            self._engine = None
        self._waiting.clear()
        if self.simulation is not None:
            self.simulation.stop()
        return tuple(unproved)

    def disarm(self) -> tuple[Effect, ...]:
        """Write to no line any more, but for what stops something: that still goes out, and soon.

        Keys that are held are let go. Stops that were on their way already go out, too.
        """
        effects = self.panel.release_all()
        for line in self.project.lines:
            self.engine.arm(line.name, False)
        return effects

    def registers(self) -> Mapping[str, Reading]:
        """The newest readings of the line, for the panel."""
        return self.snapshot().readings

    def answers(self) -> list[PanelEvent]:
        """What became of the panel's writes that ended since the last call; for its tick."""
        done = [pair for pair in self._waiting if pair[1].done()]
        if done:
            self._waiting = [pair for pair in self._waiting if pair not in done]
        answers = [self._outcome(write, future) for write, future in done]
        self._reports += [future.result() for future in self._aside if future.done()]
        self._aside = [future for future in self._aside if not future.done()]
        disarmed = self.disarmed
        if self._disarmed != disarmed:
            # What is held was pressed before the line was lost: it must not go on by itself when the line is back.
            self._disarmed = disarmed
            answers.append(ReleaseAll(self._clock()))
        return answers

    def carry_out(self, effects: tuple[Effect, ...], _cause: PanelEvent) -> tuple[Effect, ...]:
        """Write what the panel wants written, and read first what it shows."""
        for effect in effects:
            if isinstance(effect, Write):
                self._waiting.append((effect, self.engine.write(effect.signal, effect.value, effect.purpose)))
        self._read_shown_first()
        return effects

    def write(self, signal: str, value: Value) -> Future[WriteReport]:
        """Write one value past the panel, as somebody asks for it who looks at the readings.

        As `Engine.write`; its report is also among `take_reports`, and the panel says nothing of it.
        """
        future = self.engine.write(signal, value)
        self._aside.append(future)
        return future

    def take_reports(self) -> list[WriteReport]:
        """What became of the writes that ended since the last call, oldest first."""
        return [self._reports.popleft() for _ in range(len(self._reports))]

    def snapshot(self) -> Snapshot:
        """The newest readings and the state of followers and lines."""
        return self.engine.snapshot()

    def _finish_writes(self, engine: Engine) -> None:
        end = time.monotonic() + RELEASE_S
        while self._waiting and (left := end - time.monotonic()) > 0:
            engine.flush(left)
            self.panel.tick()

    def _read_shown_first(self) -> None:
        if self.panel.state.shown != self._shown:
            self._shown = self.panel.state.shown
            screen = self.project.screen_named.get(self._shown)
            self.engine.show(set(screen.signal_names) if screen is not None else set())

    def _outcome(self, write: Write, future: Future[WriteReport]) -> PanelEvent:
        report = future.result()
        self._reports.append(report)
        if report.ok or write.purpose is not Purpose.VALUE:
            self._failed.pop(write.signal, None)
        if not report.ok and write.purpose is not Purpose.VALUE and _matters(report):
            self._failed[write.signal] = report
        if report.ok:
            return WriteDone(write.signal, self._clock(), write.value)
        message, kept = _failure_text(report)
        return WriteFailed(write.signal, report.reason, self._clock(), write.value, message, kept)


_TOLD: Final[Mapping[Outcome | Obstacle, PanelMessage]] = MappingProxyType(
    {
        Obstacle.NOT_ARMED: "writing_off",
        Obstacle.DOWN: "no_connection",
        Obstacle.NO_ANSWER: "no_answer",
        Obstacle.STOP_FIRST: "no_answer",
        Outcome.REFUSED: "refused",
        Outcome.NOT_SENT: "not_possible",
    }
)


def _failure_text(report: WriteReport) -> tuple[PanelMessage, Value | None]:
    """What the panel says of a write that failed, and what the follower holds instead, where it was read back."""
    if report.outcome in (Outcome.LIMITED, Outcome.IGNORED, Outcome.CHANGED) and report.kept is not None:
        return "kept", report.kept
    return _TOLD.get(report.obstacle or report.outcome, "not_confirmed"), None


def _matters(report: WriteReport) -> bool:
    """Whether what a failed stop was to stop may be on.

    Not if nothing may be written, or no press was ever sent; nor if the follower has taken it and holds a value of its
    own now, as a command register does that empties itself.
    """
    if report.outcome is Outcome.NOT_SENT:
        return report.obstacle not in (None, Obstacle.NOT_ARMED)
    return report.outcome is not Outcome.CHANGED and report.kept != 0


def _endpoints(project: Project, via: Via) -> dict[str, Endpoint]:
    """Where each line leads. Simulated lines get theirs when their follower listens."""
    if via == "simulated":
        return {}
    if via is None:
        return _fitting(project, {line.name: Endpoint.of_line(line) for line in project.lines})
    if len(project.lines) != 1:
        names = ", ".join(f"'{line.name}'" for line in project.lines) or translate("bus", "none")
        raise CannotConnect(
            mark(
                "bus",
                "one endpoint can replace one line, but the project has {count} ({names}); change the lines in the "
                "project, or use 'simulated'",
            ),
            count=len(project.lines),
            names=names,
        )
    return _fitting(project, {project.lines[0].name: via})


def _fitting(project: Project, endpoints: dict[str, Endpoint]) -> dict[str, Endpoint]:
    """The endpoints, if every unit can be asked there. Written to unit 0 of a serial line, every device would obey."""
    for follower in project.followers:
        endpoint = endpoints.get(follower.line)
        if follower.unit in DIRECT_UNITS and endpoint is not None and endpoint.rtu:
            raise CannotConnect(
                mark(
                    "bus",
                    "device '{follower}' has unit address {unit}, which is for Modbus TCP only, but {endpoint} is a "
                    "serial line; use the address set at the device, 1 to 247",
                ),
                follower=follower.name,
                unit=follower.unit,
                endpoint=endpoint,
            )
    return endpoints
