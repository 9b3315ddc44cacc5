"""Endpoints where simulated followers answer: Modbus TCP, RTU frames over TCP, and serial ports.

pymodbus's ready-made servers are not used here: they answer only the last of several requests that arrive together,
lose what follows an RTU frame in the same read, hide why a port could not be opened, and keep the newest server in a
global. Its simulator and its serial transport are used; the rest is asyncio. Clients have their turns: one that sends
without reading waits for itself alone.
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
from typing import Final, Literal, TypeAlias, cast

from pymodbus.transport.serialtransport import SerialTransport, create_serial_connection

from app.follower.errors import FollowerError
from app.follower.framing import (
    FrameError,
    mbap,
    mbap_frame,
    rtu_frame,
    rtu_request,
    rtu_rest,
    rtu_silence,
)
from app.follower.requests import BROADCAST, Responder
from app.follower.seldom import Seldom
from app.language import translate
from app.modbus.framing import LONGEST_RTU, MBAP_HEADER
from app.modbus.own_ports import note_own
from app.modbus.serial_port import Parity, parity_letter

Framing = Literal["tcp", "rtu"]
Send: TypeAlias = Callable[[bytes], Awaitable[None]]

FRAME_END_S: Final = 0.05
"""Silence that ends a frame of unknown length or a cut one, s. Longer than t3.5 because adapters and operating systems
deliver bytes late and in lumps; complete frames do not wait for it."""

REOPEN_S: Final = 1.0
"""Time between attempts to open a serial device that was unplugged, s."""

ACCEPT_AGAIN_S: Final = 1.0
"""Time before another connection is let in when the system had no room for one, s."""
BACKLOG: Final = 100
"""Connections that wait at most until they are let in."""
AT_ONCE: Final = 1024
"""Bytes that are taken from a connection at once. What a client sends beyond some of these waits in the system, whose
buffers are full at last: then it has to wait for its answers."""
MOST_UNREAD: Final = 4096
"""Bytes of answers that may wait for a client to read them; until it has, its requests are not read either."""

try:
    import termios
except ImportError:  # Windows
    _BAD_SETTINGS: tuple[type[Exception], ...] = (ValueError,)
else:
    _BAD_SETTINGS = (ValueError, termios.error)  # the latter is not an OSError

_NOT_OPENED: tuple[type[Exception], ...] = (OSError, *_BAD_SETTINGS)  # serial.SerialException is an OSError

_log = logging.getLogger(__name__)
_log.addFilter(Seldom())


@dataclass(frozen=True, slots=True)
class SerialSettings:
    """How characters stand on a serial line; the defaults are those of MODBUS over Serial Line V1.02."""

    baud: int = 19_200
    parity: Parity = "even"
    stop_bits: Literal[1, 2] = 1


class TcpServer:
    """Followers at a TCP port. Lives in the event loop that opened it.

    asyncio's own servers log a hundred times a second that file descriptors have run out; so this one accepts itself.
    """

    def __init__(self, responder: Responder, framing: Framing, listening: socket.socket) -> None:
        """Use `open` instead."""
        self._responder = responder
        self._framing = framing
        self._listening = listening
        self._connections: dict[asyncio.Task[None], socket.socket] = {}
        self._accepting = asyncio.get_running_loop().create_task(self._accept())

    @classmethod
    async def open(cls, responder: Responder, host: str, port: int, framing: Framing = "tcp") -> TcpServer:
        """Listen. Port 0 takes a free one. Raises FollowerError if that cannot be done."""
        try:
            listening = await _listening(host, port)
        except (OSError, OverflowError, UnicodeError) as why:
            raise FollowerError(_cannot_listen(host, port, why)) from None
        return cls(responder, framing, listening)

    @property
    def address(self) -> tuple[str, int]:
        """Host and port where it listens."""
        host, port = self._listening.getsockname()[:2]
        return host, port

    async def close(self) -> None:
        """Stop listening and drop all connections; nothing is left when it returns."""
        self._accepting.cancel()
        await asyncio.gather(self._accepting, return_exceptions=True)
        self._listening.close()
        connections = dict(self._connections)
        for task in connections:
            task.cancel()
        await asyncio.gather(*connections, return_exceptions=True)
        for connection in connections.values():
            connection.close()  # also of a task that had not begun yet

    async def _accept(self) -> None:
        loop = asyncio.get_running_loop()
        full = False
        while True:
            try:
                connection, _ = await loop.sock_accept(self._listening)
            except ConnectionError:
                continue  # that client went before it was let in
            except OSError as why:
                full = True
                _log.warning("no more connections for now; those that are open go on: %s", _reason(why))
                await asyncio.sleep(ACCEPT_AGAIN_S)
                continue
            if full:
                full = False
                _log.warning("connections are let in again")
            task = loop.create_task(self._serve(connection))
            self._connections[task] = connection
            task.add_done_callback(self._connections.pop)

    async def _serve(self, connection: socket.socket) -> None:
        try:
            # A client that vanished without a word is noticed at last, and its file descriptor free again.
            connection.setsockopt(socket.SOL_SOCKET, socket.SO_KEEPALIVE, 1)
            reader, writer = await asyncio.open_connection(sock=connection, limit=AT_ONCE)
        except OSError:
            connection.close()  # the client went
            return
        writer.transport.set_write_buffer_limits(high=MOST_UNREAD)

        async def send(frame: bytes) -> None:
            writer.write(frame)
            await writer.drain()

        try:
            if self._framing == "tcp":
                await _serve_mbap(self._responder, reader, send)
            else:
                await serve_rtu(self._responder, reader, send)
        except OSError:
            pass  # the client went
        except FrameError as why:
            _log.warning("connection closed: %s", why)
        except asyncio.CancelledError:
            writer.transport.abort()  # not waiting for a client that does not read its answers
            raise
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
                parity=parity_letter(self._device, settings.parity),
                stopbits=settings.stop_bits,
                timeout=0,
            )
        except _NOT_OPENED as why:
            raise FollowerError(_cannot_open(self._device, why)) from None
        self._transport = cast("SerialTransport", transport)
        note_own(self._transport.sync_serial)
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
            reader = await self._reopen()

    async def _reopen(self) -> asyncio.StreamReader:
        while True:
            await asyncio.sleep(REOPEN_S)
            with contextlib.suppress(FollowerError):
                return await self._open()

    def _release(self) -> None:
        if self._transport is not None:
            self._transport.close()
            self._transport = None


async def _serve_mbap(responder: Responder, reader: asyncio.StreamReader, send: Send) -> None:
    """Answer requests in the order in which they came, however they were cut into segments, until the stream ends."""
    held = b""
    while arrived := await reader.read(AT_ONCE):
        held += arrived
        while len(held) >= MBAP_HEADER and len(held) >= (end := MBAP_HEADER + (header := mbap(held)).size):
            pdu, held = held[MBAP_HEADER:end], held[end:]
            answer = await _apply_trouble(responder, header.unit, await responder.answer(header.unit, pdu))
            if answer is not None:
                await send(mbap_frame(header.transaction, header.unit, answer))
            if held:
                await asyncio.sleep(0)  # before the next of many requests, the other clients have their turn


async def serve_rtu(responder: Responder, reader: asyncio.StreamReader, send: Send, silence: float = 0.0) -> None:
    """Answer RTU requests until the stream ends. `silence` is kept before each answer, s (t3.5 of the line)."""
    units = {BROADCAST, *responder.models}
    held = b""
    while True:
        try:
            # Frames of a known length go as soon as they are whole; others end by silence.
            async with asyncio.timeout(FRAME_END_S if held else None) as limit:
                arrived = await reader.read(LONGEST_RTU)
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
            if request is not None:
                await _answer_rtu(responder, request, send, silence)
            await asyncio.sleep(0)  # the other clients have their turn, also when it is noise
            if request is None:
                break


async def _answer_rtu(responder: Responder, request: tuple[int, bytes], send: Send, silence: float) -> None:
    unit, pdu = request
    if unit == BROADCAST:
        await responder.broadcast(pdu)
        return
    answer = await _apply_trouble(responder, unit, await responder.answer(unit, pdu))
    if answer is not None:
        if silence:
            await asyncio.sleep(silence)
        frame = rtu_frame(unit, answer)
        faults = responder.models[unit].faults
        await send(faults.frame(frame) if faults.any else frame)


async def _apply_trouble(responder: Responder, unit: int, answer: bytes | None) -> bytes | None:
    """The answer after the trouble that was ordered for its follower."""
    model = responder.models.get(unit)
    if model is None or answer is None or not model.faults.any:
        return answer
    if wait := model.faults.wait_s():
        await asyncio.sleep(wait)
    return model.faults.answer(answer)


async def _listening(host: str, port: int) -> socket.socket:
    found = await asyncio.get_running_loop().getaddrinfo(host, port, family=_family(host), type=socket.SOCK_STREAM)
    family, kind, protocol, _, address = found[0]
    listening = socket.socket(family, kind, protocol)
    try:
        if os.name != "nt":  # there the option would let two programs share a port; elsewhere it only skips the wait
            listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind(address)
        listening.listen(BACKLOG)
        listening.setblocking(False)
    except BaseException:
        listening.close()
        raise
    return listening


def _family(host: str) -> socket.AddressFamily:
    """One address only, so that port 0 means one port: IPv4 unless the host is an IPv6 address."""
    return socket.AF_INET6 if ":" in host else socket.AF_INET


def _cannot_listen(host: str, port: int, why: Exception) -> str:
    place = translate("follower", "cannot listen on {host}:{port}").format(host=host, port=port)
    number = why.errno if isinstance(why, OSError) else None
    if isinstance(why, (socket.gaierror, UnicodeError)):
        return translate(
            "follower",
            "{place}: this computer cannot resolve the host name; use 127.0.0.1, or 0.0.0.0 for all addresses",
        ).format(place=place)
    if number == errno.EADDRINUSE:
        return translate(
            "follower",
            "{place}: the port is in use by another program; close it, or choose another port (0 chooses a free one)",
        ).format(place=place)
    if number in (errno.EACCES, errno.EPERM):
        return translate(
            "follower",
            "{place}: ports below 1024 need special rights on this system; choose one from 1024, such as 5020",
        ).format(place=place)
    if number == errno.EADDRNOTAVAIL:
        return translate(
            "follower", "{place}: this computer does not have this address; use 127.0.0.1, or 0.0.0.0 for all addresses"
        ).format(place=place)
    return f"{place}: {_reason(why)}"


def _cannot_open(device: str, why: Exception) -> str:
    place = translate("follower", "cannot open the serial port {device}").format(device=device)
    number = why.errno if isinstance(why, OSError) else None
    text = str(why)
    if isinstance(why, _BAD_SETTINGS):
        return translate("follower", "{place} with these settings: {text}; change baud, parity or stop_bits").format(
            place=place, text=text
        )
    if number == errno.ENOENT or "FileNotFoundError" in text:
        return translate("follower", "{place}: port not found; plug the adapter in, or check the name").format(
            place=place
        )
    if number == errno.EACCES and os.name != "nt":
        return translate(
            "follower",
            "{place}: permission denied; on most systems the user must be in the group that owns the port",
        ).format(place=place)
    if number in (errno.EBUSY, errno.EAGAIN) or "exclusively lock" in text or "PermissionError" in text:
        return translate("follower", "{place}: it is in use by another program; close that program first").format(
            place=place
        )
    if number == errno.ENOTTY or "Could not configure port" in text:
        return translate("follower", "{place}: this is not a serial port; check its name").format(place=place)
    return f"{place}: {_reason(why)}"


def _reason(why: Exception) -> str:
    if isinstance(why, OSError) and why.strerror:
        return why.strerror
    return str(why) or type(why).__name__
