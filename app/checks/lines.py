"""Rules about lines and followers: who shares what, and whether the line is busy often enough."""

from __future__ import annotations

from collections.abc import Iterator

from app.checks import fixes
from app.checks.context import CheckContext
from app.checks.finding import Fix, Violation
from app.checks.rule import each, whole
from app.language import translate
from app.project.binding import bindings
from app.project.drive_roles import (
    COMMAND_BITS,
    DRIVE_VALUES,
    OWN_CONTROL,
    OWN_CONTROL_BITS,
    OWN_REGISTERS,
    OWN_STATUS,
    OWN_STATUS_BITS,
)
from app.project.model import DIRECT_UNITS, LAST_UNIT, AnySignal, Line, Project, RegisterSignal, SerialLine, TcpLine
from app.project.problems import quoted


@whole("lines", name="device-shared")
def device_shared(context: CheckContext) -> Iterator[Violation]:
    """Two lines on one serial port or one network address: a serial port can be opened by one of them only."""
    first: dict[tuple[str, str, int], int] = {}
    for index, line in enumerate(context.project.lines):
        serial = isinstance(line, SerialLine)
        end = (
            ("serial", _port(line.device), 0) if isinstance(line, SerialLine) else ("net", line.host.lower(), line.port)
        )
        earlier = first.setdefault(end, index)
        if earlier == index:
            continue
        if serial:
            message = translate("checks", "it uses {device}, like line {line}")
        else:
            message = translate("checks", "it uses {device} port {port}, like line {line}")
        yield Violation(
            "error" if serial else "warning",
            ("line", index),
            message.format(device=end[1], port=end[2], line=quoted(context.project.lines[earlier].name)),
            translate("checks", "put the devices of both on one line, or use another port or host"),
        )


def _port(device: str) -> str:
    """The device without what makes no difference: Windows knows its ports in capitals and in small letters."""
    return device if "/" in device else device.upper().removeprefix("\\\\.\\")


@each("line", name="no-address")
def no_address(_context: CheckContext, line: Line) -> Iterator[Violation]:
    """A line to a host that cannot exist: it stands there until somebody chooses one."""
    if not isinstance(line, SerialLine) and line.host.lower().rstrip(".").endswith(".invalid"):
        yield Violation(
            "error",
            ("host",),
            translate("checks", "its address is not set yet: {host} is only a placeholder").format(
                host=quoted(line.host)
            ),
            translate("checks", "enter the name or IP address set at the device or converter"),
        )


@whole("followers", name="unit-clash")
def unit_clash(context: CheckContext) -> Iterator[Violation]:
    """Two followers at one unit address of one line: both answer at once, or the one is taken for the other."""
    first: dict[tuple[str, int], int] = {}
    for index, follower in enumerate(context.project.followers):
        earlier = first.setdefault((follower.line, follower.unit), index)
        if earlier == index:
            continue
        free = _free_unit(context.project, follower.line)
        yield Violation(
            "error",
            ("follower", index),
            translate("checks", "unit address {unit} on line {line} is already used by device {follower}").format(
                unit=follower.unit,
                line=quoted(follower.line),
                follower=quoted(context.project.followers[earlier].name),
            ),
            translate("checks", "every device on a line needs its own unit address"),
            _give_unit(free),
        )


def _free_unit(project: Project, line: str) -> int | None:
    taken = {follower.unit for follower in project.followers if follower.line == line}
    return next((unit for unit in range(1, LAST_UNIT + 1) if unit not in taken), None)


def _give_unit(free: int | None) -> Fix | None:
    if free is None:
        return None
    words = translate("checks", "Set its unit address to {unit}").format(unit=free)
    return Fix(words, fixes.set_at, (("unit",), free))


@whole("lines", "followers", name="unit-of-tcp")
def unit_of_tcp(context: CheckContext) -> Iterator[Violation]:
    """A unit that only Modbus TCP has, on a line of RTU frames: there 0 is every device at once, and 255 nobody."""
    for index, follower in enumerate(context.project.followers):
        line = context.project.line_named.get(follower.line)
        if follower.unit not in DIRECT_UNITS or line is None or isinstance(line, TcpLine):
            continue
        message = (
            translate("checks", "unit address 0 is the broadcast address of a serial line; no device answers to it")
            if follower.unit == 0
            else translate("checks", "unit address 255 is for Modbus TCP only; no device on a serial line has it")
        )
        yield Violation(
            "error",
            ("follower", index, "unit"),
            message,
            translate("checks", "use the address set at the device, 1 to 247"),
            _give_unit(_free_unit(context.project, follower.line)),
        )


@whole("followers", "signals", name="polled-too-slowly")
def polled_too_slowly(context: CheckContext) -> Iterator[Violation]:
    """A follower with a communication time-out that hears from the panel less often: it stops by itself in between."""
    quickest: dict[str, tuple[int, RegisterSignal]] = {}
    for index, signal in enumerate(context.project.signals):
        if isinstance(signal, RegisterSignal):
            _, known = quickest.setdefault(signal.follower, (index, signal))
            if signal.every_ms < known.every_ms:
                quickest[signal.follower] = index, signal
    for index, follower in enumerate(context.project.followers):
        limit = follower.communication_timeout_ms
        if not limit or follower.name not in quickest:
            continue
        at, signal_read = quickest[follower.name]
        if signal_read.every_ms < limit:
            continue
        wanted = max(10, limit // 4)
        yield Violation(
            "warning",
            ("follower", index),
            translate(
                "checks",
                "it stops by itself after {limit} ms without a request, but its signals are only read every {every} ms",
            ).format(limit=limit, every=signal_read.every_ms),
            translate(
                "checks", "read one of them more often: \u201cPoll interval\u201d {every} ms, for example"
            ).format(every=wanted),
            None
            if wanted >= limit
            else Fix(
                translate("checks", "Read {signal} every {every} ms").format(
                    signal=quoted(signal_read.name), every=wanted
                ),
                fixes.set_elsewhere,
                (("signal", at, "every_ms"), wanted),
            ),
        )


@whole("followers", "signals", name="drive-without-role")
def drive_by_itself(context: CheckContext) -> Iterator[Violation]:
    """A simulated drive that no signal of its follower reaches: it would stand still whatever the panel writes."""
    reached = set()
    known = set()
    for binding in bindings(context.project).values():
        known.add(binding.follower.name)
        first, last = OWN_REGISTERS[binding.table]
        if binding.signal.drive_role is not None or (
            binding.address <= last and first < binding.address + binding.count
        ):
            reached.add(binding.follower.name)
    for index, follower in enumerate(context.project.followers):
        if follower.simulated.model == "drive" and follower.name in known - reached:
            yield Violation(
                "note",
                ("follower", index),
                translate("checks", "none of its signals has a role in the simulated drive, so the drive will not run"),
                translate("checks", "give its signals a \u201cRole\u201d in the drive"),
                Fix(translate("checks", "Simulate plain registers instead"), fixes.set_at, (("simulate",), "bank")),
            )


@whole("followers", "signals", name="role-without-effect")
def role_without_effect(context: CheckContext) -> Iterator[Violation]:
    """A command bit of a simulated drive that goes by a control word: pressing its key would do nothing there."""
    found = bindings(context.project)
    words = {
        binding.follower.name: binding.signal.name
        for binding in found.values()
        if binding.signal.drive_role == "control-word" and binding.follower.simulated.model == "drive"
    }
    for index, signal in enumerate(context.project.signals):
        binding = found.get(signal.name)
        if binding is None or binding.follower.name not in words:
            continue
        role = binding.signal.drive_role
        if role in COMMAND_BITS:
            word = quoted(words[binding.follower.name])
            yield Violation(
                "warning",
                ("signal", index),
                translate(
                    "checks",
                    "its role in the simulated drive ({role}) has no effect: the drive is controlled by {signal}",
                ).format(role=translate("project", DRIVE_VALUES[role]), signal=word),
                translate("checks", "remove this \u201cRole\u201d, or that of {signal}").format(signal=word),
                Fix(translate("checks", "Remove this role"), fixes.set_at, (("drive_role",), None)),
            )


@whole("followers", "signals", name="bit-without-meaning")
def bit_without_meaning(context: CheckContext) -> Iterator[Violation]:
    """A bit of the built-in control or status word of a simulated drive that nothing stands at.

    A warning where it may be written: a key that does would do nothing there, as with `role-without-effect`.
    """
    found = bindings(context.project)
    own = {binding.follower.name for binding in found.values() if binding.signal.drive_role is not None}
    for index, signal in enumerate(context.project.signals):
        binding = found.get(signal.name)
        if binding is None or binding.follower.simulated.model != "drive" or binding.follower.name in own:
            continue
        register_map = binding.follower.simulated.register_map
        number, known = binding.bit, OWN_CONTROL_BITS[register_map]
        message = translate("checks", "bit {number} has no meaning in the control word of the simulated drive")
        if binding.table == "coil":
            number = binding.address if binding.address <= OWN_REGISTERS["coil"][1] else None
        elif binding.address == OWN_STATUS and binding.table in ("input", "holding"):
            known = OWN_STATUS_BITS[register_map]
            message = translate("checks", "bit {number} has no meaning in the status word of the simulated drive")
        elif (binding.table, binding.address) != ("holding", OWN_CONTROL):
            continue
        if number is not None and number not in known:
            yield Violation(
                "warning" if binding.signal.write else "note",
                ("signal", index),
                message.format(number=number),
                translate(
                    "checks",
                    "use one of bits {bits}, choose another \u201cRegister map\u201d, "
                    "or give the signals of this device a \u201cRole\u201d in the drive",
                ).format(bits=", ".join(map(str, sorted(known)))),
            )


@each("signal", name="refreshed-too-slowly")
def refreshed_too_slowly(context: CheckContext, signal: AnySignal) -> Iterator[Violation]:
    """A signal written again and again for a communication time-out, but less often than that."""
    if not isinstance(signal, RegisterSignal) or not signal.refresh_ms:
        return
    follower = context.project.follower_named.get(signal.follower)
    limit = 0 if follower is None else follower.communication_timeout_ms
    if not limit or signal.refresh_ms < limit:
        return
    wanted = max(10, limit // 4)
    yield Violation(
        "warning",
        (),
        translate(
            "checks",
            "it is written every {every} ms (\u201cWrite interval\u201d), but its device stops after {limit} ms",
        ).format(every=signal.refresh_ms, limit=limit),
        translate("checks", "write it more often, for example every {every} ms").format(every=wanted),
        None
        if wanted >= limit
        else Fix(
            translate("checks", "Write it every {every} ms").format(every=wanted),
            fixes.set_at,
            (("refresh_ms",), wanted),
        ),
    )
