"""libmodbus, a Modbus library in C: as the client of a simulated follower, and as a server that answers the same.

Its own unit 255 is what it asks for on Modbus TCP unless told otherwise. Needs gcc and Debian's libmodbus-dev.
"""

from __future__ import annotations

import random
import shutil
import struct
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from decimal import Decimal
from pathlib import Path

import pytest

from app.follower.simulation import Simulation
from app.project.model import Project
from app.signals.functions import TABLE_OF_FUNCTION
from app.signals.numbering import Table
from tests.app.follower.playing import bank_project, client, signal, wired

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="neither gcc nor ptys")

Ask = Callable[[str], str]


def compiled(folder: Path, name: str) -> str:
    """The path of the program of that name."""
    if shutil.which("gcc") is None:
        pytest.skip("there is no gcc")
    made, source = folder / name, Path(__file__).parent / f"{name}.c"
    flags = ["-I/usr/include/modbus", "-o", str(made), str(source), "-lmodbus"]
    if subprocess.run(["gcc", *flags], capture_output=True).returncode:
        pytest.skip("libmodbus-dev is not installed")
    return str(made)


@pytest.fixture(scope="module")
def program(tmp_path_factory: pytest.TempPathFactory) -> str:
    return compiled(tmp_path_factory.mktemp("libmodbus"), "libmodbus_client")


def follower(unit: int) -> Project:
    """Holding 10 to 13 = 18, 2, 3, never read, input 5 = 9, coils 0 to 2 = 1 0 1, discrete 7 = 1."""
    return bank_project(
        *(signal(f"h{place}", 10 + place, start_value=Decimal(value)) for place, value in enumerate((18, 2, 3, 4))),
        signal("i", 5, table="input", start_value=Decimal(9)),
        *(signal(f"c{place}", place, table="coil", start_value=Decimal(1 - place % 2)) for place in range(3)),
        signal("d", 7, table="discrete", start_value=Decimal(1)),
        unit=unit,
        write_functions=[5, 6, 15, 16, 22],
        never_read=[{"first": 13, "last": 13}],
    )


@contextmanager
def running(program: str, *where: str) -> Iterator[Ask]:
    """The program, which answers one order after the other."""
    with subprocess.Popen([program, *where], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        orders, answers = process.stdin, process.stdout

        def ask(order: str) -> str:
            orders.write(order + "\n")
            orders.flush()
            return answers.readline().strip()

        yield ask
        orders.close()
        assert process.wait(10) == 0


@pytest.fixture(params=["tcp", "rtu"])
def ask(request: pytest.FixtureRequest, program: str) -> Iterator[Ask]:
    """On Modbus TCP at the unit that libmodbus asks by itself, on a serial line at unit 17."""
    if request.param == "tcp":
        with Simulation(follower(255)) as simulation:
            host, port = simulation.serve_tcp(None, "127.0.0.1", 0)
            with running(program, "tcp", host, str(port)) as it:
                yield it
    else:
        with wired() as (near, far), Simulation(follower(17)) as simulation:
            simulation.serve_serial(far)
            with running(program, "rtu", near) as it:
                yield it


def unit_of(ask: Ask) -> int:
    return int(ask("identity").split()[0], 16)


def test_it_reads_and_writes(ask: Ask) -> None:
    assert ask("holding 10 3") == "18 2 3"
    assert ask("input 5 1") == "9"
    assert ask("coils 0 3") == "1 0 1"
    assert ask("discrete 7 1") == "1"
    assert ask("write 11 8330") == "done"
    assert ask("write 10 7 9") == "done"
    assert ask("holding 10 3") == "7 9 3"
    assert ask("switch 1 1") == ask("switch 0 0 1 0") == "done"
    assert ask("coils 0 3") == "0 1 0"
    assert ask("both 10 2 12 77") == "7 9"
    assert ask("holding 12 1") == "77"


def test_a_mask_write(ask: Ask) -> None:
    """MODBUS Application Protocol Specification V1.1b3, 6.16 (from memory): 12h with F2h and 25h becomes 17h."""
    assert ask("mask 10 0xF2 0x25") == "done"
    assert ask("holding 10 1") == str(0x17)
    assert ask("mask 9 0xF2 0x25") == "error: Illegal data address"


def test_it_says_what_it_is(ask: Ask) -> None:
    unit = unit_of(ask)
    assert unit in (17, 255)
    assert bytes.fromhex(ask("identity")) == bytes((unit, 0xFF)) + b"it"


@pytest.mark.parametrize(
    ("request_pdu", "exception"),
    [
        ("0x10 0 10 0 0 0", 3),
        ("0x10 0 10 0 0 0 2 0x2B 0 1", 3),
        ("0x10 0 10 0 3 4 2 0x2B 0 1 0 0x64", 3),
        ("0x10 0 10 0 0x7B 6 2 0x2B 0 1 0 0x64", 3),
        ("0x0F 0 0 0 0 0", 3),
        ("0x0F 0 0 0 3 2 1", 3),
        ("0x17 0 10 0 1 0 10 0 0 0", 3),
        ("0x17 0 10 0 1 0 10 0 1 4 0x12 0x34", 3),
        ("0x03 0 10 0 0", 3),
        ("0x2B 0x0D 0 0", 1),
        ("0x2B 0x0E 5 0", 3),
        ("0x2B 0x0E 4 0x80", 2),
        ("0x42 0 0", 1),
    ],
)
def test_what_is_malformed_is_answered_too(ask: Ask, request_pdu: str, exception: int) -> None:
    names = {1: "Illegal function", 2: "Illegal data address", 3: "Illegal data value"}
    unit = unit_of(ask)
    function = int(request_pdu.split()[0], 16)
    # libmodbus hands on the exception of an answer as it came.
    assert ask(f"raw {unit} {request_pdu}") == f"{unit:02X} {function | 0x80:02X} {exception:02X}", names[exception]
    assert ask("holding 10 3") == "18 2 3"


def test_what_is_never_read_is_refused(ask: Ask) -> None:
    assert ask("holding 13 1") == "error: Illegal data address"
    assert ask("holding 10 4") == "error: Illegal data address"
    assert ask("write 13 5") == "done"


@pytest.mark.parametrize("unit", [0, 255])
def test_a_device_that_is_reached_directly_answers_at_0_and_at_255(unit: int, program: str) -> None:
    with Simulation(follower(unit)) as simulation:
        host, port = simulation.serve_tcp(None, "127.0.0.1", 0)
        with running(program, "tcp", host, str(port)) as ask:
            assert ask("holding 10 3") == "18 2 3"
            assert ask("unit 0") == "done"
            assert ask("holding 10 3") == "18 2 3"
            assert ask("unit 17") == "done"
            assert ask("holding 10 3") == "error: Connection timed out"


TABLES: dict[Table, tuple[int, int]] = {
    "coil": (304, 37),
    "discrete": (452, 22),
    "holding": (352, 32),
    "input": (264, 1),
}
"""First address and count of what libmodbus_server.c has."""


def some_request(chance: random.Random) -> bytes:
    """The PDU of a request of every function that both know, mostly within what is there, now and then beyond."""
    function = chance.choice(list(TABLE_OF_FUNCTION))
    first, count = TABLES[TABLE_OF_FUNCTION[function]]

    def address() -> int:
        return chance.choice([*(chance.randrange(first, first + count) for _ in range(8)), first - 1, first + count, 0])

    amount = chance.choice([*(chance.randint(1, count) for _ in range(6)), 0, count + 1, 125, 126, 2000, 2001, 65_535])
    written = chance.randint(1, count)
    match function:
        case 5:
            return struct.pack(">BHH", 5, address(), chance.choice([0xFF00, 0xFF00, 0, 0, 1, 0xFFFF]))
        case 6:
            return struct.pack(">BHH", 6, address(), chance.randrange(65_536))
        case 15:
            size = (written + 7) // 8
            return struct.pack(">BHHB", 15, address(), written, size) + chance.randbytes(size)
        case 16:
            return struct.pack(">BHHB", 16, address(), written, 2 * written) + chance.randbytes(2 * written)
        case 22:
            return struct.pack(">BHHH", 22, address(), chance.randrange(65_536), chance.randrange(65_536))
        case 23:
            wanted = struct.pack(">BHHHHB", 23, address(), amount, address(), written, 2 * written)
            return wanted + chance.randbytes(2 * written)
        case _:
            return struct.pack(">BHH", function, address(), amount)


@pytest.mark.parametrize("seed", range(4))
def test_its_server_answers_the_same_to_whatever_is_asked(seed: int, tmp_path: Path) -> None:
    """Both hold the same from the first request on, so that also what writes have left behind is compared."""
    signals = []
    for table, (first, count) in TABLES.items():
        for at in range(count):
            start = 10 if table == "input" else int(table == "discrete" and at % 3 == 0)
            signals.append(signal(f"{table} {at}", first + at, table=table, start_value=Decimal(start)))
    project, chance = bank_project(*signals, unit=255, write_functions=[5, 6, 15, 16, 22]), random.Random(seed)
    with (
        subprocess.Popen([compiled(tmp_path, "libmodbus_server")], stdout=subprocess.PIPE, text=True) as process,
        Simulation(project) as simulation,
        client(simulation.serve_tcp(None, "127.0.0.1", 0)) as ours,
    ):
        assert process.stdout is not None
        with client(("127.0.0.1", int(process.stdout.readline()))) as theirs:
            for number in range(1500):
                pdu = some_request(chance)
                answer, expected = ours.ask(255, pdu.hex(), number), theirs.ask(255, pdu.hex(), number)
                if (answer, expected) != ("85 03", "85 02"):
                    # A value that is none at an address that is none: the specification looks at the value first.
                    assert answer == expected, pdu.hex(" ")
        assert process.wait(10) == 0
