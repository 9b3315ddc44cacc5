"""A simulated drive behind its registers: the cells of the layout, and a bank cell for all else that signals name."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from app.follower.drive import FAULT_TEXT, STEP, Drive, Inputs
from app.follower.layout import COILS, COMMUNICATION_TIMEOUT, INDICATORS, LAYOUTS, Measured, Setting
from app.follower.motor import LoadData, MotorData
from app.follower.register_bank import TABLES, Quantity, RegisterBank
from app.language import translate
from app.project.binding import Binding
from app.project.model import Follower, Project, Simulated
from app.signals.encoding import encode, is_float, raw_range, register_count
from app.signals.numbering import LAST_ADDRESS, Table

LONGEST_LEAP_S: Final = 60.0
"""Most time that is caught up at once, s; what a halted computer missed beyond it never happens to the drive."""


class DriveBank(RegisterBank):
    """A drive that the line sees through `app.follower.layout`. All methods may be called from any thread.

    The communication time-out starts with the one that the project gives for the follower (at most 65 535 ms, what
    its register holds).
    """

    def __init__(self, project: Project, follower: Follower) -> None:
        """Raises FollowerError if a start value does not fit its signal or the drive."""
        self.drive = _drive(follower.simulated)
        layout = LAYOUTS[follower.simulated.register_map]
        self._control = layout.control
        self._settings = {setting.address: setting for setting in layout.settings}
        self._measured = tuple((measured, register_count(measured.encoding)) for measured in layout.measured)
        self._now: float | None = None
        super().__init__(project, follower)

    @property
    def inputs(self) -> Inputs:
        """The drive's terminals, its supply and its shaft. Set them from any thread."""
        return self.drive.inputs

    def age(self, *, run_time_s: float | None = None, heat: float | None = None) -> None:
        """Give it a past: how long the inverter has fed the motor, and its heat as a share of that where it trips."""
        with self._lock:
            if run_time_s is not None:
                self.drive.run_time_s = run_time_s
            if heat is not None:
                self.drive.heat.share = heat

    def on_request(self) -> None:
        """A request for this drive arrived: the silence of the line starts anew."""
        with self._lock:
            self.drive.on_request()

    def advance_to(self, now: float) -> None:
        """Let the drive's time run up to `now`, seconds of a monotonic clock; the first call sets the start."""
        with self._lock:
            if self._now is None:
                self._now = now
            self.drive.powered = not self.faults.away
            if now - self._now >= STEP / 2:
                self.drive.advance(min(now - self._now, LONGEST_LEAP_S))
                self._now = now

    def pause(self) -> None:
        """The clock stops: what passes until the next `advance_to` does not count."""
        with self._lock:
            self._now = None

    def advance(self, dt: float) -> None:
        """Let `dt` seconds pass at once."""
        with self._lock:
            self.drive.advance(dt)

    def _begin(self) -> None:
        self.drive.start()
        super()._begin()

    def overview(self) -> tuple[Quantity, ...]:
        """The drive's own values."""
        with self._lock:
            drive = self.drive
            return (
                Quantity("state", translate("follower", drive.state.value)),
                Quantity("fault", translate("follower", FAULT_TEXT[drive.fault])),
                Quantity("output frequency", drive.frequency, "Hz"),
                Quantity("target frequency", drive.target, "Hz"),
                Quantity("shaft speed", drive.speed_rpm, "1/min"),
                Quantity("torque", drive.torque, "Nm"),
                Quantity("current", drive.current, "A"),
                Quantity("mechanical power", drive.power_kw, "kW"),
                Quantity("electrical power", drive.supply_power_kw, "kW"),
                Quantity("DC-link voltage", drive.dc_voltage, "V"),
                Quantity("motor thermal load", 100 * drive.heat.share, "%"),
                Quantity("run time", drive.run_time_s, "s"),
            )

    def works_out(self, binding: Binding) -> bool:
        """Whether the signal stands where the drive tells something."""
        if binding.table == "discrete":
            return any(indicator.address == binding.address for indicator in INDICATORS)
        return binding.table != "coil" and self.read_only("holding", binding.address)

    def _lay_out(self) -> None:
        for setting in self._settings.values():
            self._set(setting, setting.start)
        self._set(COMMUNICATION_TIMEOUT, min(self.follower.communication_timeout_ms, COMMUNICATION_TIMEOUT.high))
        self._kept.update(
            ("holding", address)
            for measured, size in self._measured
            for address in range(measured.address, measured.address + size)
        )
        for table in TABLES:
            self._refresh(table, 0, LAST_ADDRESS)

    def _refresh(self, table: Table, first: int, last: int) -> None:
        if table in ("input", "holding"):
            cells = self._cells[table]
            for measured, size in self._measured:
                if measured.address <= last and first < measured.address + size:
                    cells.update(enumerate(_words(measured, measured.raw(self.drive)), measured.address))
        elif table == "discrete":
            for indicator in INDICATORS:
                self._cells["discrete"][indicator.address] = int(indicator.state(self.drive))

    def _unfit(self, table: Table, address: int, values: Sequence[int]) -> str | None:
        if table != "holding":
            return None
        for place, value in enumerate(values, address):
            setting = self._settings.get(place)
            if setting is not None and not setting.low <= setting.count(value) <= setting.high:
                return translate(
                    "follower", "{name} of the drive (register {register}) must be {low} to {high}"
                ).format(name=translate("follower", setting.name), register=place, low=setting.low, high=setting.high)
        return None

    def _after_write(self, table: Table, address: int, values: Sequence[int]) -> None:
        for place, value in enumerate(values, address):
            if table == "holding" and place in self._settings:
                self._set(self._settings[place], value)
            elif table == "coil" and place in COILS:
                word = self._cells["holding"][self._control.address]
                self._set(self._control, word | 1 << place if value else word & ~(1 << place))

    def _set(self, setting: Setting, word: int) -> None:
        self._cells["holding"][setting.address] = word
        if setting.obey is not None:
            setting.obey(self.drive, setting.count(word))
        if setting is self._control:
            self._cells["coil"].update({coil: word >> coil & 1 for coil in COILS})


def _drive(data: Simulated) -> Drive:
    """The machine that the project describes."""
    motor = MotorData(
        power_kw=float(data.power_kw),
        voltage=float(data.voltage),
        poles=data.poles,
        speed_rpm=float(data.speed_rpm),
        power_factor=float(data.power_factor),
        efficiency=float(data.efficiency),
        supply_voltage=float(data.voltage),
    )
    load = LoadData(
        share=float(data.load_share),
        friction=float(data.friction),
        inertia=float(data.inertia),
        kind=data.load,
    )
    return Drive(motor, load, data.trip_class)


def _words(measured: Measured, raw: float) -> tuple[int, ...]:
    """The registers of a measured value; a measurement beyond its register shows the register's end."""
    if is_float(measured.encoding):
        return encode(measured.encoding, raw)
    least, greatest = raw_range(measured.encoding)
    count = int(math.copysign(math.floor(abs(raw) + 0.5), raw))
    return encode(measured.encoding, max(int(least), min(int(greatest), count)))
