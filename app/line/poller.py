"""One line at work: it connects and connects again, reads what is due, and lets writes go first.

A line that works is connecting, up, or pausing before it connects again; `run` is all of it, and ends only when it is
cancelled. While it is up, `_poll` does one thing after the other, the first of these that there is to do:

1. a write; what stops something goes first among these (`app.line.writer`),
2. an output that is to be written again so that its drive does not time out,
3. nothing, while as many reads are under way as the line allows,
4. a read that somebody wants beside the plan, where no read is due, or a few of these have gone before it,
5. the read that is due, those of the shown screen ahead (`app.planning.schedule`),
6. nothing, until something is due or `_wake` is called.

What can go wrong:

- A follower does not answer. It is left alone for a while, longer the more of them are silent, so that the others
  have most of the line; its signals are not live any more, and say why (`app.line.followers`).
- It is silent when an output must be written again: shortly before that a silent follower is put off, or listened for
  no longer than there is time.
- It refuses a read. The refusal may be for one register of many, so the read is parted (`app.planning.jobs`).
- The connection ends: LineFault. All is down, what waits to be written is dropped but for stops, and the line connects
  again, after pauses that grow. It seems dead without having said so: the same at once, without a pause.
- Something here is wrong. Then the line ends with words that say so: an engine that goes on without a line must not
  look as if it read.

What holds, and why:

- Each read is either due, or under way, or retired with others in its place: whoever takes it from the schedule puts it
  back, on every way out of `_read`. A way that does not would stop a signal from being read, and nobody would be told.
  Only the loss of the connection leaves them out; `_up` puts all of them in anew.
- All that may give the line something to do calls `_wake`. It sleeps without a limit otherwise.
- A value becomes a reading in one place, once its answer is proved, and not if its follower fell silent meanwhile.
- Whoever waits for something gets an answer, whatever ends the line: writes and wanted reads fail with its reason.
"""

from __future__ import annotations

import asyncio
import logging
import random
import time
from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import replace
from typing import Final

from app.client.endpoint import Endpoint
from app.client.faults import Fault, FaultKind, LineFault, refusal_words
from app.client.repeated_answers import REPEATED_WITHIN_S
from app.client.transactions import Transaction
from app.language import translate
from app.line.followers import ConnectionStale, Followers, words_of
from app.line.read_requests import AdHocRead, AdHocReads
from app.line.readings import Readings
from app.line.states import FollowerState, LineState
from app.line.write_queue import Obstacle, WriteReport
from app.line.writer import WriteExecutor
from app.modbus.requests import read_request
from app.planning.jobs import AGAIN_S, Job, Jobs
from app.planning.plan import LinePlan, Read
from app.planning.schedule import Schedule
from app.project.binding import Binding, bindings
from app.project.model import Project
from app.project.purpose import Purpose
from app.signals.numbering import register_text
from app.signals.reading import Value

FIRST_PAUSE_S: Final = 0.1
"""Before the second attempt to open a line; doubled with every further one."""
LONGEST_PAUSE_S: Final = 0.5
"""Between attempts to open a line, unless its time-out is shorter: a line that can be had again is had soon."""
LOST_S: Final = 5.0
"""A line is disarmed when a follower without a communication time-out of its own did not answer for so many seconds: a
plug that was pulled and put back is survived, a walk to the machine is not. Common practice, no source."""
BEHIND_S: Final = 0.001
"""By how much a failed read steps back behind the others of its follower."""
AT_ONCE_AGAIN: Final = 0.35
"""How often, by chance, a failed read is tried again at once instead: a follower that fails in step with the reads
(every third request, say) would else always fail at the same ones."""


_log = logging.getLogger(__name__)


class LinePoller:
    """The work of one line. Everything but `armed` (a plain flag) belongs to the engine's event loop."""

    def __init__(
        self,
        project: Project,
        plan: LinePlan,
        endpoint: Endpoint,
        readings: Readings,
        record: Callable[[Transaction], None],
        changed: Callable[[], None],
        *,
        armed: bool = False,
        stays_armed: bool = False,
        shared_with: str = "",
    ) -> None:
        """`stays_armed`: also when it was lost. `shared_with` names another line of the project on the same port."""
        self.name = plan.line
        self._shared_with = shared_with
        self._endpoint = endpoint
        self._readings = readings
        self._changed = changed
        self._followers = Followers(project, plan.line, endpoint, readings, record, changed)
        self._client = self._followers.client
        self._client.on_closed = lambda _: self._wake()
        self._writing = WriteExecutor(project, plan.line, self._followers, readings, changed)
        self._writing.armed = armed
        self._writing.down = _not_yet()
        self._stays_armed = stays_armed
        self._armed_at = time.monotonic()
        self._disarmed = ""
        """Why it disarmed itself; empty unless it did. Then stops may still be written."""
        self._bound = bindings(project)
        self._due: Schedule[Job] = Schedule()
        self._jobs = Jobs(plan.reads, self._job, self._due.put, project.follower_named, self._client.pace)
        self._reading: set[asyncio.Task[None]] = set()
        self._ad_hoc_reads = AdHocReads()
        self._followers.write_deadline = lambda: self._writing.write_deadline
        self._client.pressed = lambda: self._writing.stop_due
        self._connected = False
        self._since = time.monotonic()
        self._trouble: Fault | None = None
        self._ended: Fault | None = None
        """Why nothing is read any more, once the work has ended."""
        self._waker: asyncio.Future[None] | None = None

    @property
    def armed(self) -> bool:
        """Whether the line may be written to. Read from any thread."""
        return self._writing.armed

    @property
    def takes_stops(self) -> bool:
        """Whether what stops something may be written: also after the line has disarmed itself."""
        return self.armed or bool(self._disarmed)

    def arm(self, on: bool) -> None:
        """Allow or forbid writing. From any thread; `disarm` then drops what waits."""
        self._armed_at, self._disarmed = time.monotonic(), ""
        self._writing.armed = on

    @property
    def waiting(self) -> int:
        """Writes that wait or are under way."""
        return self._writing.waiting

    def state(self) -> LineState:
        """How the line is doing."""
        trouble, statistics = self._trouble, self._followers.statistics
        return LineState(
            self.name,
            str(self._endpoint),
            self._connected,
            self.armed,
            trouble.sentence if trouble else "" if self._connected else translate("bus", "connecting"),
            trouble.short if trouble else "",
            statistics.requests,
            statistics.good,
            statistics.faults,
            self._since,
            self._writing.owed,
            self._disarmed,
            self._followers.outages.outages,
            connecting=not self._connected and trouble is None,
        )

    def show(self, names: frozenset[str]) -> None:
        """These signals are on the shown screen: they are read first."""
        bases = {self._bound[name].base.name for name in names if name in self._bound}
        self._due.show(bases, time.monotonic())
        self._wake()

    def follower_states(self) -> dict[str, FollowerState]:
        """How its followers are doing, by name."""
        return {name: polled.state for name, polled in self._followers.polled_followers.items()}

    def want(
        self, binding: Binding, value: Value, future: Future[WriteReport], purpose: Purpose = Purpose.VALUE
    ) -> None:
        """Let a value wait to be written, or refuse it. For a stop `takes_stops` was asked before."""
        self._writing.want(binding, value, future, purpose)
        if self._writing.stop_due:
            self._client.hurry()
        self._wake()

    def look_up(self, ad_hoc: AdHocRead) -> None:
        """Let a read that the plan does not have wait for its turn between those that it has."""
        if self._ended is not None:
            ad_hoc.fail(self._ended)
            return
        self._ad_hoc_reads.put(ad_hoc)
        self._wake()

    def disarm(self, until: float | None) -> None:
        """Nothing is written any more; what waits is dropped. Only stops that are owed still go out, until `until`."""
        words = translate("bus", "line '{name}' was disarmed").format(name=self.name)
        self._writing.forget(words, Obstacle.NOT_ARMED, until)
        self._wake()
        self._changed()

    def look_after(self, now: float) -> None:
        """Give up the stops whose time is over, and disarm the line if a follower was lost for too long."""
        self._writing.drop_late(now)
        if not self.armed or self._stays_armed:
            return
        for polled in self._followers.polled_followers.values():
            limit_s = polled.follower.communication_timeout_ms / 1000 or LOST_S
            lost_at = polled.lost_at
            # One answer alone gets lost on any line.
            lost = polled.failures > 1 or not self._connected
            if lost and lost_at is not None and lost_at >= self._armed_at and now - lost_at > limit_s:
                self._disarmed = translate(
                    "bus", "line '{line}' was disarmed: device '{name}' did not answer for {limit} s"
                ).format(line=self.name, name=polled.follower.name, limit=f"{limit_s:g}")
                self._writing.armed = False
                self.disarm(None)
                return

    # the life of the line ------------------------------------------------------------------------------------------

    async def run(self) -> None:
        """Work until cancelled."""
        pause = FIRST_PAUSE_S
        longest = max(FIRST_PAUSE_S, min(LONGEST_PAUSE_S, self._endpoint.timeout_ms / 1000))
        statistics = self._followers.statistics
        try:
            while True:
                good = statistics.good
                try:
                    await self._client.open()
                    self._up()
                    await self._poll()
                except LineFault as failed:
                    statistics.fault(failed.fault.kind)
                    self._down(failed.fault)
                except ConnectionStale:
                    self._client.close()
                    self._becomes(False)
                    self._writing.down = _not_yet()
                    self._writing.forget(
                        translate("bus", "the connection of line '{name}' was closed").format(name=self.name)
                    )
                    pause = FIRST_PAUSE_S
                    continue  # the requests that went unanswered were pause enough
                if statistics.good > good:
                    pause = FIRST_PAUSE_S
                await asyncio.sleep(pause)
                pause = min(2 * pause, longest)
        except Exception:
            _log.exception("line '%s' stopped working", self.name)
            self._down(
                Fault(
                    FaultKind.CLOSED,
                    translate("bus", "line '{name}' was stopped by a fault in this program; start it again").format(
                        name=self.name
                    ),
                )
            )
            raise
        finally:
            self._client.close()
            self._becomes(False)
            self._writing.down = Fault(FaultKind.CLOSED, translate("bus", "stopped"))
            self._ended = self._trouble or Fault(FaultKind.CLOSED, translate("bus", "the line was stopped"))
            self._ad_hoc_reads.fail(self._ended)
            self._writing.end(translate("bus", "line '{name}' was stopped").format(name=self.name))

    def note_ended(self) -> None:
        """The engine has ended: nothing is live any more."""
        self._followers.note_ended()
        self._trouble = Fault(FaultKind.CLOSED, translate("bus", "the line was stopped"))

    def _becomes(self, connected: bool) -> None:
        """It is up from now on, or down."""
        if connected is not self._connected:
            self._connected, self._since = connected, time.monotonic()

    def _up(self) -> None:
        self._becomes(True)
        self._trouble = None
        self._writing.note_connected()
        self._followers.note_connected()
        now = time.monotonic()
        self._due.clear()
        for job in self._jobs:
            self._due.put(job, now if job.tries is None else now + AGAIN_S)
        self._changed()

    def _down(self, fault: Fault) -> None:
        """The line as a whole is down: nothing on it is live, and nothing waits to be written."""
        if fault.kind is FaultKind.PORT_BUSY and self._shared_with:
            fault = replace(
                fault,
                detail=translate(
                    "bus",
                    "serial port {device} is also used by line '{shared_with}' of this project; put the devices of "
                    "both on one line, or choose another port",
                ).format(device=self._endpoint.device, shared_with=self._shared_with),
            )
        self._client.close()
        self._becomes(False)
        self._trouble, self._writing.down = fault, fault
        self._writing.forget(fault.sentence)
        self._ad_hoc_reads.fail(fault)
        self._followers.note_lost(fault)
        self._changed()

    async def _poll(self) -> None:
        """Write and read until the connection is lost. Raises LineFault or Reopen."""
        try:
            while True:
                for task in [task for task in self._reading if task.done()]:
                    self._reading.discard(task)
                    task.result()
                if not self._client.connected:
                    raise LineFault(self._client.down_fault)
                if await self._writing.one():
                    continue
                now = time.monotonic()
                refresh = self._writing.refresh_due
                if refresh is not None and refresh <= now:
                    await self._writing.refresh(now)
                    continue
                next_due = self._due.next_due
                pressing = self._writing.write_deadline
                if len(self._reading) >= self._client.in_flight:
                    await self._idle(None if pressing is None else pressing - now)
                elif (ad_hoc := self._ad_hoc_reads.take(next_due is None or next_due > now)) is not None:
                    await self._fulfil(ad_hoc)
                elif (entry := self._due.take(now)) is not None:
                    due, job = entry
                    if self._client.in_flight == 1:
                        await self._read(job, due, now)
                    else:
                        task = asyncio.create_task(self._read(job, due, now))
                        task.add_done_callback(lambda _: self._wake())
                        self._reading.add(task)
                else:
                    soon = [at for at in (next_due, pressing) if at is not None]
                    await self._idle(min(soon) - now if soon else None)
        finally:
            tasks, self._reading = self._reading, set()
            for task in tasks:
                task.cancel()
            await asyncio.gather(*tasks, return_exceptions=True)

    async def _idle(self, at_most_s: float | None) -> None:
        """Wait until something is due, or somebody calls `_wake`."""
        loop = asyncio.get_running_loop()
        waker: asyncio.Future[None] = loop.create_future()
        self._waker = waker
        alarm = None if at_most_s is None else loop.call_later(at_most_s, self._wake)
        try:
            await waker
        finally:
            if alarm is not None:
                alarm.cancel()
            self._waker = None

    def _wake(self) -> None:
        if self._waker is not None and not self._waker.done():
            self._waker.set_result(None)

    # reading -------------------------------------------------------------------------------------------------------

    def _job(self, read: Read) -> Job:
        parts = tuple((self._bound[span.signal], span.address, span.count) for span in read.spans)
        return Job(read, read_request(read.unit, read.table, read.address, read.count), parts)

    def _again(self, job: Job, at: float) -> None:
        if not job.retired:
            self._due.put(job, at)

    async def _read(self, job: Job, due: float, now: float) -> None:
        """Read what is due, unless its follower is being left alone, and let it wait for its next time."""
        if job.retired:
            return
        polled = self._followers.polled_followers[job.read.follower]
        if polled.retry_at > now:
            self._again(job, polled.retry_at)
            return
        after = self._followers.better_after(polled, now)
        if after is not None:
            self._again(job, after + BEHIND_S)
            return
        request, free_at = self._followers.unambiguous(polled, job.request, alone=job.alone)
        if request is None:
            self._again(job, free_at)
            return
        whole = request is job.request
        try:
            pdu, at = await self._followers.ask(job.read.follower, request)
        except LineFault as failed:
            fault = failed.fault
            if fault.of_connection:
                raise
            if fault.kind is not FaultKind.EXCEPTION:
                # Behind the follower's other reads, so that each of them is tried.
                behind = random.random() >= AT_ONCE_AGAIN
                self._again(job, max(time.monotonic(), polled.retry_at) + BEHIND_S if behind else due)
                if polled.answering is not False:
                    self._readings.unread(job.read.signals, fault.sentence)
            elif whole:
                if await self._followers.believes(request, fault):
                    self._note_refusal(job, fault, now)
                else:
                    self._again(job, now + REPEATED_WITHIN_S)
            else:
                job.alone = job.alone or request.count > job.request.count
                self._again(job, now)
            return
        first, end = request.address, request.address + request.count

        def let_out() -> None:
            if polled.answering is False:
                return  # meanwhile it is known to be silent, and nothing of it is live
            words = words_of(request, pdu)
            for binding, address, width in job.parts:
                if first <= address and address + width <= end:
                    self._readings.take(binding, words[address - first : address - first + width], at)
            self._changed()

        self._client.when_proved(request, let_out)
        brought = first <= job.request.address and job.request.address + job.request.count <= end
        if brought:
            self._jobs.note_answer(job, now)
        self._again(job, max(due + job.every_s, now) if brought else now)

    async def _fulfil(self, ad_hoc: AdHocRead) -> None:
        """Read what the plan does not have. Raises LineFault if the line is down, and Reopen."""
        try:
            ad_hoc.fulfil(await self._followers.registers(ad_hoc.follower, ad_hoc.table, ad_hoc.address, ad_hoc.count))
        except LineFault as failed:
            ad_hoc.fail(failed.fault)
            if failed.fault.of_connection:
                raise
        except BaseException:
            # Cancelled, or the connection is opened afresh: whoever waits must not wait for ever.
            polled = self._followers.polled_followers[ad_hoc.follower]
            ad_hoc.fail(polled.fault or Fault(FaultKind.CLOSED, translate("bus", "the line was stopped")))
            raise

    def _note_refusal(self, job: Job, fault: Fault, now: float) -> None:
        """The follower refused a read."""
        told: Job | None = job
        if fault.code in (1, 2, 3):
            known = any(self._readings.ever_read(name) for name in job.signals)
            told = self._jobs.note_refusal(job, now, known=known, divisible=fault.code != 1)
        else:
            self._again(job, now + job.every_s)
        if told is None or told.tries is not None:
            return
        for binding, _, _ in told.parts:
            reason = refusal_words(fault.code, register_text(binding.table, binding.base.number))
            self._readings.mark_refused((binding.signal.name,), reason)
        self._changed()


def _not_yet() -> Fault:
    return Fault(FaultKind.CLOSED, translate("bus", "it is not connected yet"))
