"""The simulated followers of a project at work: models, their time, and the endpoints where they answer."""

from __future__ import annotations

import asyncio
import contextlib
import threading
import time
from collections.abc import AsyncIterator, Callable, Coroutine, Iterable, Mapping
from types import MappingProxyType
from typing import Any, Final, Self, TypeVar

from app.follower.drive_bank import DriveBank
from app.follower.errors import FollowerError
from app.follower.register_bank import RegisterBank
from app.follower.requests import Responder
from app.follower.server import Framing, SerialServer, SerialSettings, TcpServer
from app.follower.simulated_drive import SimulatedDriveBank
from app.language import mark, translate
from app.project.binding import bindings_of
from app.project.model import Follower, Project, SerialLine

__all__ = ["FollowerError", "Simulation"]

TICK_S: Final = 0.02
"""How often models without requests are brought up to the time, s. Their own step does not depend on it."""


_T = TypeVar("_T")

Whom = str | Iterable[str] | None
"""Who answers at an endpoint: the followers of the line of that name, those named, or (None) all."""


class Simulation:
    """Simulated followers of a project.

    With a thread of its own: `start`, then `serve_tcp` and `serve_serial` as often as wanted, then `stop`; all of them
    from any one thread. Or in the caller's event loop: `async with simulation.playing():`, and inside it `listen_tcp`
    and `listen_serial`. Models and their registers outlive a stop; a simulation can be started again.
    """

    def __init__(
        self,
        project: Project,
        followers: Iterable[str] | None = None,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        """`followers` names those to simulate; left out, all. `clock` gives monotonic seconds.

        Raises FollowerError if the project has no such follower, or a start value does not fit.
        """
        self.project = project
        self._clock = clock
        names = project.follower_named if followers is None else followers
        chosen = [_follower(project, name) for name in names]
        models = {follower.name: _model(project, follower) for follower in chosen}
        self.models: Mapping[str, RegisterBank] = MappingProxyType(models)
        """By follower's name. Safe to operate from any thread."""
        self._endpoints: list[TcpServer | SerialServer] = []
        self._thread: threading.Thread | None = None
        self._loop: asyncio.AbstractEventLoop | None = None
        self._ended: asyncio.Event | None = None

    def __enter__(self) -> Self:
        self.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    @property
    def running(self) -> bool:
        """Whether the simulation's own thread is alive."""
        return self._thread is not None

    def start(self) -> None:
        """Start the thread. Nothing answers until something is served. Does nothing if it runs already."""
        if self._thread is not None:
            return
        ready = threading.Event()
        self._thread = threading.Thread(target=self._run_thread, args=(ready,), name="simulated followers", daemon=True)
        self._thread.start()
        ready.wait()

    def stop(self) -> None:
        """Stop answering, close every port and end the thread. Does nothing if it does not run."""
        if self._thread is None or self._loop is None or self._ended is None:
            return
        self._loop.call_soon_threadsafe(self._ended.set)
        self._thread.join()
        self._thread = self._loop = self._ended = None

    def serve_tcp(self, whom: Whom, host: str, port: int, framing: Framing = "tcp") -> tuple[str, int]:
        """Answer at a TCP port from the simulation's thread; gives host and port (port 0 takes a free one).

        `framing` "rtu" is for RTU frames in the TCP stream, as plain serial-to-network converters carry them.
        Raises FollowerError if the port cannot be had, or two of the followers have one unit address.
        """
        return self._in_thread(self.listen_tcp(whom, host, port, framing))

    def serve_serial(self, device: str, whom: Whom = None, settings: SerialSettings | None = None) -> None:
        """Answer at a serial port from the simulation's thread.

        `settings` left out: those of the followers' line in the project if it is a serial one, else the standard's.
        Raises FollowerError if the device cannot be opened, or two of the followers have one unit address.
        """
        self._in_thread(self.listen_serial(device, whom, settings))

    @contextlib.asynccontextmanager
    async def playing(self) -> AsyncIterator[Self]:
        """Keep the models' time in the caller's event loop, and close all endpoints at the end."""
        ticking = asyncio.get_running_loop().create_task(self._keep_time())
        try:
            yield self
        finally:
            ticking.cancel()
            endpoints, self._endpoints = self._endpoints, []
            await asyncio.gather(ticking, *(endpoint.close() for endpoint in endpoints), return_exceptions=True)
            for model in self.models.values():
                model.pause()

    async def listen_tcp(self, whom: Whom, host: str, port: int, framing: Framing = "tcp") -> tuple[str, int]:
        """As `serve_tcp`, in the running event loop, inside `playing`."""
        responder = Responder(self._models_of(whom), self._clock, rtu=framing == "rtu")
        server = await TcpServer.open(responder, host, port, framing)
        self._endpoints.append(server)
        return server.address

    async def listen_serial(self, device: str, whom: Whom = None, settings: SerialSettings | None = None) -> None:
        """As `serve_serial`, in the running event loop, inside `playing`."""
        chosen = self._models_of(whom)
        settings = settings or self._line_settings(chosen)
        self._endpoints.append(await SerialServer.open(Responder(chosen, self._clock, rtu=True), device, settings))

    def _models_of(self, whom: Whom) -> list[RegisterBank]:
        if whom is None:
            return list(self.models.values())
        if isinstance(whom, str):
            if whom not in self.project.line_named:
                raise FollowerError(
                    _but(
                        translate("follower", "there is no line '{name}' in the project").format(name=whom),
                        self.project.line_named,
                    )
                )
            found = [model for model in self.models.values() if model.follower.line == whom]
            if not found:
                raise FollowerError(
                    mark("follower", "there is no device to simulate on line '{name}'; add one to the project"),
                    name=whom,
                )
            return found
        names = list(whom)
        for name in names:
            if name not in self.models:
                raise FollowerError(
                    _but(
                        translate("follower", "there is no device '{name}' to simulate").format(name=name), self.models
                    )
                )
        return [self.models[name] for name in dict.fromkeys(names)]

    def _line_settings(self, models: Iterable[RegisterBank]) -> SerialSettings:
        lines = {self.project.line_named.get(model.follower.line) for model in models}
        found = {
            SerialSettings(line.baud, line.parity, line.stop_bits) for line in lines if isinstance(line, SerialLine)
        }
        if len(found) > 1:
            raise FollowerError(
                mark(
                    "follower",
                    "the lines have different serial settings and cannot be simulated on one serial port; choose the "
                    "devices of one line by name",
                )
            )
        return found.pop() if found else SerialSettings()

    def _in_thread(self, call: Coroutine[Any, Any, _T]) -> _T:
        if self._loop is None:
            call.close()
            raise RuntimeError("start the simulation first")
        return asyncio.run_coroutine_threadsafe(call, self._loop).result()

    def _run_thread(self, ready: threading.Event) -> None:
        async def run() -> None:
            self._loop = asyncio.get_running_loop()
            self._ended = asyncio.Event()
            async with self.playing():
                ready.set()
                await self._ended.wait()

        try:
            asyncio.run(run())
        finally:
            ready.set()  # also if there is no loop to be had, so that nobody waits for it

    async def _keep_time(self) -> None:
        while True:
            now = self._clock()
            for model in self.models.values():
                model.advance_to(now)
            await asyncio.sleep(TICK_S)


def _model(project: Project, follower: Follower) -> RegisterBank:
    """What simulates a follower: a drive behind the registers of the project as soon as one of them has a role."""
    if follower.simulated.model == "bank":
        return RegisterBank(project, follower)
    own = (binding.signal for binding in bindings_of(project, follower.name).values())
    has_role = any(signal.drive_role is not None for signal in own)
    return (SimulatedDriveBank if has_role else DriveBank)(project, follower)


def _follower(project: Project, name: str) -> Follower:
    try:
        return project.follower_named[name]
    except KeyError:
        raise FollowerError(
            _but(
                translate("follower", "there is no device '{name}' in the project").format(name=name),
                project.follower_named,
            )
        ) from None


def _but(lacking: str, known: Iterable[str]) -> str:
    """What is lacking, and what is there instead."""
    names = ", ".join(f"'{name}'" for name in known) or translate("follower", "none")
    return translate("follower", "{lacking}; choose from: {names}").format(lacking=lacking, names=names)
