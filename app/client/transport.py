"""The open line: bytes out, bytes in, and at once to know when it closes. pymodbus's transports do the carrying.

pymodbus's own transaction layer is left out on purpose: it takes late answers, other functions and other lengths for
the answer, and notices a closed connection only at the time-out.
"""

from __future__ import annotations

import asyncio
import logging
import socket
import threading
from collections.abc import Callable
from contextlib import suppress
from typing import Any, Final, TypeVar

from pymodbus.transport import CommParams, CommType, ModbusProtocol
from pymodbus.transport.serialtransport import SerialTransport

from app.client.endpoint import Endpoint
from app.client.faults import LineFault, opening_fault
from app.language import translate
from app.modbus.own_ports import note_own
from app.modbus.serial_port import parity_letter

# What pymodbus logs is said better by our own faults; without a handler Python would print it to standard error.
logging.getLogger("pymodbus").addHandler(logging.NullHandler())

OPENING_S: Final = 1.0
"""The least time that opening may take, in seconds; a longer time-out of the line lengthens it."""

_T = TypeVar("_T")


class Wire(ModbusProtocol):
    """One connection, opened once. `on_data` gets what arrives; `on_closed` is called once if it closes by itself."""

    def __init__(
        self, endpoint: Endpoint, on_data: Callable[[bytes], None], on_closed: Callable[[Exception | None], None]
    ) -> None:
        """Prepare, inside a running event loop."""
        super().__init__(_parameters(endpoint), is_server=False)
        self._endpoint = endpoint
        self._on_data = on_data
        self._on_closed = on_closed
        self._gathered: list[bytes] = []

    async def open(self) -> None:
        """Open the line. Raises LineFault, saying what is wrong and what to do."""
        limit = max(OPENING_S, self._endpoint.timeout_ms / 1000)
        try:
            async with asyncio.timeout(limit):
                if self._endpoint.kind == "serial":
                    await self._open_serial()
                else:
                    await self._open_network()
        except (OSError, ValueError, UnicodeError, TimeoutError) as error:
            self.close()
            raise LineFault(opening_fault(self._endpoint, error)) from error

    async def _open_network(self) -> None:
        endpoint = self._endpoint
        found = await _in_a_thread(
            lambda: socket.getaddrinfo(endpoint.host, endpoint.port, type=socket.SOCK_STREAM), lambda _: None
        )
        trouble: OSError | None = None
        for family, _, protocol, _, address in found:
            try:
                self.transport, _ = await self.loop.create_connection(
                    lambda: self,
                    str(address[0]),
                    int(address[1]),
                    family=family,
                    proto=protocol,
                    flags=socket.AI_NUMERICHOST,
                )
            except OSError as error:
                trouble = trouble or error
            else:
                return
        raise trouble or OSError(translate("bus", "there is no address for {host}").format(host=endpoint.host))

    async def _open_serial(self) -> None:
        endpoint, loop = self._endpoint, self.loop
        parameters = self.comm_params

        def make() -> Any:
            try:
                return SerialTransport(
                    loop,
                    self,
                    endpoint.device,
                    parameters.baudrate,
                    parameters.bytesize,
                    parameters.parity,
                    parameters.stopbits,
                    parameters.timeout_connect,
                )
            except (OSError, ValueError):
                raise
            except Exception as error:  # pyserial lets termios.error through, which is no OSError
                raise OSError(*error.args) from error

        transport = await _in_a_thread(make, lambda late: late.sync_serial.close())
        note_own(transport.sync_serial)
        self.transport = transport
        transport.setup()

    def send_bytes(self, data: bytes) -> None:
        """Put `data` on the line, now. Nothing happens on a line that is closed; `on_closed` has said so or will."""
        transport = self.transport
        if isinstance(transport, SerialTransport):
            transport.write(data)
            if transport.sync_serial and not transport.force_poll:
                transport.intern_write_ready()  # at the next turn of the loop it would be later than it was meant
        elif transport is not None:
            transport.write(data)  # type: ignore[attr-defined]

    def gather_bytes(self, data: bytes) -> None:
        """Put `data` on a network line together with all else that is gathered in this turn of the loop: one call of
        the system for many requests."""
        if not self._gathered:
            self.loop.call_soon(self._send_gathered)
        self._gathered.append(data)

    def _send_gathered(self) -> None:
        gathered, self._gathered = self._gathered, []
        self.send_bytes(b"".join(gathered))

    def data_received(self, data: bytes) -> None:
        """What the transport calls with every piece that arrives."""
        self._on_data(data)

    def callback_new_connection(self) -> ModbusProtocol:
        """Only servers get new connections."""
        return self

    def callback_connected(self) -> None:
        """The transport is ready."""

    def callback_disconnected(self, exc: Exception | None) -> None:
        """The transport closed by itself."""
        self._on_closed(exc)

    def callback_data(self, data: bytes, addr: tuple[Any, ...] | None = None) -> int:  # noqa: ARG002 - pymodbus's signature
        """Not used: `data_received` is taken over whole."""
        return len(data)


def _parameters(endpoint: Endpoint) -> CommParams:
    if endpoint.kind == "serial":
        return CommParams(
            comm_name=str(endpoint),
            comm_type=CommType.SERIAL,
            host=endpoint.device,
            baudrate=endpoint.baud,
            bytesize=8,
            parity=parity_letter(endpoint.device, endpoint.parity),
            stopbits=endpoint.stop_bits,
            reconnect_delay=0.0,
            timeout_connect=endpoint.timeout_ms / 1000,
        )
    return CommParams(
        comm_name=str(endpoint),
        comm_type=CommType.TCP,
        host=endpoint.host,
        port=endpoint.port,
        reconnect_delay=0.0,
        timeout_connect=endpoint.timeout_ms / 1000,
    )


async def _in_a_thread(work: Callable[[], _T], discard: Callable[[_T], None]) -> _T:
    """Do what may block for long outside the event loop, so that other lines go on.

    The thread is a daemon and nobody waits for it: a name service that does not answer must not hold up stopping.
    What comes too late is handed to `discard`.
    """
    loop = asyncio.get_running_loop()
    done: asyncio.Future[_T] = loop.create_future()

    def deliver(result: _T | None, error: Exception | None) -> None:
        if done.done():
            if error is None:
                discard(result)  # type: ignore[arg-type]
        elif error is not None:
            done.set_exception(error)
        else:
            done.set_result(result)  # type: ignore[arg-type]

    def run() -> None:
        result: _T | None = None
        error: Exception | None = None
        try:
            result = work()
        except Exception as caught:  # noqa: BLE001 - it is raised again where it is awaited
            error = caught
        try:
            loop.call_soon_threadsafe(deliver, result, error)
        except RuntimeError:  # the loop has ended meanwhile
            if error is None:
                with suppress(Exception):
                    discard(result)  # type: ignore[arg-type]

    threading.Thread(target=run, name="fanlight-opening", daemon=True).start()
    return await done
