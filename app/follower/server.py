"""Endpoints where simulated followers answer: Modbus TCP, RTU frames over TCP, and serial ports.

pymodbus's ready-made servers are not used here: they answer only the last of several requests that arrive together,
lose what follows an RTU frame in the same read, hide why a port could not be opened, and keep the newest server in a
global. Its simulator and its serial transport are used; the rest is asyncio.
"""

from __future__ import annotations

import asyncio
import contextlib
import errno
import logging
import os
import socket
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Literal, TypeAlias, cast

from pymodbus.transport.serialtransport import SerialTransport, create_serial_connection

from app.follower.errors import FollowerError
from app.follower.framing import (
    LONGEST_RTU,
    MBAP_SIZE,
    FrameError,
    mbap,
    mbap_frame,
    rtu_frame,
    rtu_request,
    rtu_rest,
    rtu_silence,
)
from app.follower.requests import BROADCAST, Responder
from app.language import translate

Framing = Literal["tcp", "rtu"]
Parity = Literal["none", "even", "odd"]
Send: TypeAlias = Callable[[bytes], Awaitable[None]]

FRAME_END_S: Final = 0.05
"""Silence that ends a frame of unknown length or a cut one, s. Longer than t3.5 because adapters and operating systems
deliver bytes late and in lumps; complete frames do not wait for it."""

REOPEN_S: Final = 1.0
"""Time between attempts to open a serial device that was unplugged, s."""

_PARITY: Final[dict[Parity, str]] = {"none": "N", "even": "E", "odd": "O"}

try:
    import termios
except ImportError:  # Windows
    _BAD_SETTINGS: tuple[type[Exception], ...] = (ValueError,)
else:
    _BAD_SETTINGS = (ValueError, termios.error)  # the latter is not an OSError

_NOT_OPENED: tuple[type[Exception], ...] = (OSError, *_BAD_SETTINGS)  # serial.SerialException is an OSError

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class SerialSettings:
    """How characters stand on a serial line; the defaults are those of MODBUS over Serial Line V1.02."""

    baud: int = 19_200
    parity: Parity = "even"
    stop_bits: Literal[1, 2] = 1


_TURNS_TO_CONNECT: Final = 5
"""So many turns of the loop bring a connection that was just accepted to where it is known, and can be dropped."""


class TcpServer:
    """Followers at a TCP port. Lives in the event loop that opened it."""

    def __init__(self, responder: Responder, framing: Framing, server: asyncio.Server) -> None:
        """Use `open` instead."""
        self._responder = responder
        self._framing = framing
        self._server = server
        self._connections: dict[asyncio.Task[None], asyncio.StreamWriter] = {}

    @classmethod
    async def open(cls, responder: Responder, host: str, port: int, framing: Framing = "tcp") -> TcpServer:
        """Listen. Port 0 takes a free one. Raises FollowerError if that cannot be done."""
        opened: list[TcpServer] = []

        def connected(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
            opened[0]._connected(reader, writer)

        try:
            # On Windows the option would let two programs share a port; elsewhere it only skips the wait after a stop.
            server = await asyncio.start_server(
                connected, host, port, reuse_address=os.name != "nt", start_serving=False, family=_family(host)
            )
            opened.append(cls(responder, framing, server))
            await server.start_serving()
        except (OSError, OverflowError, UnicodeError) as why:
            raise FollowerError(_cannot_listen(host, port, why)) from None
        return opened[0]

    @property
    def address(self) -> tuple[str, int]:
        """Host and port where it listens."""
        host, port = self._server.sockets[0].getsockname()[:2]
        return host, port

    async def close(self) -> None:
        """Stop listening and drop all connections; nothing is left when it returns."""
        self._server.close()
        for _ in range(_TURNS_TO_CONNECT):
            await asyncio.sleep(0)
        for task, writer in self._connections.items():
            writer.transport.abort()  # not waiting for a client that does not read its answers
            task.cancel()
        await asyncio.gather(*self._connections, return_exceptions=True)
        await self._server.wait_closed()

    def _connected(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        if not self._server.is_serving():
            writer.transport.abort()  # accepted while it was being closed
            return
        task = asyncio.get_running_loop().create_task(self._serve(reader, writer))
        self._connections[task] = writer
        task.add_done_callback(self._connections.pop)

    async def _serve(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        try:
            if self._framing == "tcp":
                await _serve_mbap(self._responder, reader, writer)
            else:

                async def send(frame: bytes) -> None:
                    writer.write(frame)
                    await writer.drain()

                await serve_rtu(self._responder, reader, send)
        except (asyncio.IncompleteReadError, OSError):
            pass  # the client went
        except FrameError as why:
            _log.warning("connection closed: %s", why)
        finally:
            with contextlib.suppress(OSError):
                writer.close()


class SerialServer:
    """Followers at a serial port. Lives in the event loop that opened it. Survives an adapter that is unplugged."""

    def __init__(self, responder: Responder, device: str, settings: SerialSettings) -> None:
        """Use `open` instead."""
        self._responder = responder
        self._device = device
        self._settings = settings
        self._transport: SerialTransport | None = None
        self._task: asyncio.Task[None] | None = None

    @classmethod
    async def open(cls, responder: Responder, device: str, settings: SerialSettings) -> SerialServer:
        """Open the device. Raises FollowerError if that cannot be done."""
        server = cls(responder, device, settings)
        reader = await server._open()
        server._task = asyncio.get_running_loop().create_task(server._keep_serving(reader))
        return server

    async def close(self) -> None:
        """Give the device back; nothing is left when it returns."""
        if self._task is not None:
            self._task.cancel()
            await asyncio.gather(self._task, return_exceptions=True)
        self._release()

    async def _open(self) -> asyncio.StreamReader:
        settings = self._settings
        reader = asyncio.StreamReader()
        loop = asyncio.get_running_loop()
        try:
            transport, _ = await create_serial_connection(
                loop,
                lambda: asyncio.StreamReaderProtocol(reader),
                self._device,
                baudrate=settings.baud,
                bytesize=8,
                parity=_PARITY["none" if _is_pty(self._device) else settings.parity],
                stopbits=settings.stop_bits,
                timeout=0,
            )
        except _NOT_OPENED as why:
            raise FollowerError(_cannot_open(self._device, why)) from None
        self._transport = cast("SerialTransport", transport)
        await asyncio.sleep(0)  # the transport sets itself up in the loop's next turn and must not be closed before
        return reader

    async def _send(self, frame: bytes) -> None:
        if self._transport is None or self._transport.sync_serial is None:
            raise ConnectionError("the device is gone")
        self._transport.write(frame)

    async def _keep_serving(self, reader: asyncio.StreamReader) -> None:
        while True:
            try:
                await serve_rtu(self._responder, reader, self._send, rtu_silence(self._settings.baud))
            except OSError as why:
                _log.warning("serial device %s lost: %s", self._device, why)
            self._release()
            reader = await self._reopened()

    async def _reopened(self) -> asyncio.StreamReader:
        while True:
            await asyncio.sleep(REOPEN_S)
            with contextlib.suppress(FollowerError):
                return await self._open()

    def _release(self) -> None:
        if self._transport is not None:
            self._transport.close()
            self._transport = None


async def _serve_mbap(responder: Responder, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
    """Answer requests in the order in which they came, however they were cut into segments."""
    while True:
        header = mbap(await reader.readexactly(MBAP_SIZE))
        pdu = await reader.readexactly(header.size)
        answer = await _troubled(responder, header.unit, await responder.answer(header.unit, pdu))
        if answer is not None:
            writer.write(mbap_frame(header.transaction, header.unit, answer))
            await writer.drain()


async def serve_rtu(responder: Responder, reader: asyncio.StreamReader, send: Send, silence: float = 0.0) -> None:
    """Answer RTU requests until the stream ends. `silence` is kept before each answer, s (t3.5 of the line)."""
    units = {BROADCAST, *responder.models}
    held = b""
    while True:
        try:
            # Frames of a known length go as soon as they are whole; others end by silence.
            async with asyncio.timeout(FRAME_END_S if held else None) as limit:
                arrived = await reader.read(1024)
            if not arrived:
                return
            held = (held + arrived)[-2 * LONGEST_RTU :]
        except TimeoutError:
            if not limit.expired():
                raise  # the connection's own time-out, not ours
            request = rtu_rest(held, units)
            held = b""
            if request is not None:
                await _answer_rtu(responder, request, send, silence)
            continue
        while held:
            used, request = rtu_request(held, units)
            held = held[used:]
            if request is None:
                break
            await _answer_rtu(responder, request, send, silence)


async def _answer_rtu(responder: Responder, request: tuple[int, bytes], send: Send, silence: float) -> None:
    unit, pdu = request
    if unit == BROADCAST:
        await responder.broadcast(pdu)
        return
    answer = await _troubled(responder, unit, await responder.answer(unit, pdu))
    if answer is not None:
        if silence:
            await asyncio.sleep(silence)
        frame = rtu_frame(unit, answer)
        faults = responder.models[unit].faults
        await send(faults.frame(frame) if faults.any else frame)


async def _troubled(responder: Responder, unit: int, answer: bytes | None) -> bytes | None:
    """The answer after the trouble that was ordered for its follower."""
    model = responder.models.get(unit)
    if model is None or answer is None or not model.faults.any:
        return answer
    if wait := model.faults.wait_s():
        await asyncio.sleep(wait)
    return model.faults.answer(answer)


def _family(host: str) -> socket.AddressFamily:
    """One address only, so that port 0 means one port: IPv4 unless the host is an IPv6 address."""
    return socket.AF_INET6 if ":" in host else socket.AF_INET


def _cannot_listen(host: str, port: int, why: Exception) -> str:
    place = translate("follower", "cannot listen at {host}:{port}").format(host=host, port=port)
    number = why.errno if isinstance(why, OSError) else None
    if isinstance(why, (socket.gaierror, UnicodeError)):
        return translate(
            "follower",
            "{place}: this computer cannot resolve the host name; use 127.0.0.1, or 0.0.0.0 for all its addresses",
        ).format(place=place)
    if number == errno.EADDRINUSE:
        return translate(
            "follower", "{place}: another program uses that port; stop it, or take another port (0 takes a free one)"
        ).format(place=place)
    if number in (errno.EACCES, errno.EPERM):
        return translate(
            "follower",
            "{place}: ports below 1024 need special rights on this system; take one from 1024 up, such as 5020",
        ).format(place=place)
    if number == errno.EADDRNOTAVAIL:
        return translate(
            "follower", "{place}: this computer has no such address; use 127.0.0.1, or 0.0.0.0 for all its addresses"
        ).format(place=place)
    return f"{place}: {_reason(why)}"


def _is_pty(device: str) -> bool:
    """Whether it is a pseudo-terminal (Linux, macOS), which has no parity and refuses to be given one."""
    return str(Path(device).resolve()).startswith(("/dev/pts/", "/dev/ttys"))


def _cannot_open(device: str, why: Exception) -> str:
    place = translate("follower", "cannot open the serial device {device}").format(device=device)
    number = why.errno if isinstance(why, OSError) else None
    text = str(why)
    if isinstance(why, _BAD_SETTINGS):
        return translate("follower", "{place} with these settings: {text}; change baud, parity or stop_bits").format(
            place=place, text=text
        )
    if number == errno.ENOENT or "FileNotFoundError" in text:
        return translate("follower", "{place}: there is no such device; plug it in, or look up its name").format(
            place=place
        )
    if number == errno.EACCES and os.name != "nt":
        return translate(
            "follower",
            "{place}: permission denied; on most systems your user must be in the group that owns the device",
        ).format(place=place)
    if number in (errno.EBUSY, errno.EAGAIN) or "exclusively lock" in text or "PermissionError" in text:
        return translate("follower", "{place}: another program uses it; close that first").format(place=place)
    if number == errno.ENOTTY or "Could not configure port" in text:
        return translate("follower", "{place}: that is no serial port; look up its name").format(place=place)
    return f"{place}: {_reason(why)}"


def _reason(why: Exception) -> str:
    if isinstance(why, OSError) and why.strerror:
        return why.strerror
    return str(why) or type(why).__name__
