"""A variable-speed drive with its motor and load, without registers or sockets: commands in, measured values out.

Time passes only in `Drive.advance`, in steps of `STEP` seconds, so a result depends on how much time passed and on what
was commanded, never on how often somebody looked.
"""

from __future__ import annotations

import enum
import math
from dataclasses import dataclass
from typing import Final

from app.follower.motor import RPM, LoadData, MotorData, load_torque, rectifier_mean, rectifier_peak, stepped
from app.follower.ramp import Ramp
from app.follower.states import (
    IN_FAULT,
    STATUS,
    ControlBit,
    DriveEvent,
    DriveState,
    StatusBit,
    after,
    command_of,
    leads,
)
from app.follower.thermal import Heat
from app.language import mark

STEP: Final = 0.01
"""The fixed integration step, s."""

BASE_FREQUENCY: Final = 50.0
"""Full reference, Hz; ramp times are from standstill to here."""

QUICK_STOP_S: Final = 1.0
"""The ramp of a quick stop, s from base frequency to standstill."""

TORQUE_LIMIT: Final = 1.5
"""Most torque that the inverter lets the motor make, of rated torque. Common practice, no source."""

BRAKING_RISE: Final = 150.0
"""How far the DC link rises while the motor feeds rated power back, V: where a braking chopper would hold it.
Common practice for 400 V, no source. The rise is taken as proportional to the power fed back."""

DC_LINK_LAG: Final = 0.03
"""Time constant with which the DC link follows, s."""

_DC_LINK_STEP: Final = -math.expm1(-STEP / DC_LINK_LAG)

PULL_OUT: Final = 3.0
"""A shaft that is stopped from a speed at which the slip would make more torque than this, of the rated one, makes an
overcurrent. Common practice, no source."""

STALL_S: Final = 15.0
"""How long the torque limit may hold the ramp back, s. Common practice, no source."""

UNDERVOLTAGE: Final = 0.65
OVERVOLTAGE: Final = 1.42
"""Of the DC link, of the voltage that it has without load: 368 V and 804 V at 400 V. Common practice, no source."""

WARN_NEAR: Final = 0.05
"""So near to a limit of the voltage, as a share of it, there is a warning."""

WATCHED_SHARE: Final = 0.5
"""After this share of the communication time-out without a request there is a warning."""

STANDSTILL: Final = 5 * RPM
"""Below this the shaft counts as standing, rad/s."""


class CommandBit(enum.IntFlag):
    """The bits of the plain control word, a layout of our own; fault reset stands where the standard has it."""

    QUICK_STOP = 1 << 2
    RUN = 1 << 4
    REVERSE = 1 << 5
    FAULT_RESET = 1 << 7


class FaultCode(enum.IntEnum):
    """Why the drive tripped: error codes of IEC 61800-7-201 (from memory)."""

    NONE = 0
    OVERCURRENT = 0x2310
    OVERLOAD = 0x2350
    OVERVOLTAGE = 0x3210
    UNDERVOLTAGE = 0x3220
    BLOCKED = 0x7121
    COMMUNICATION = 0x7500
    EXTERNAL = 0x9000


class WarningBit(enum.IntFlag):
    """The bits of the warning word: what will trip the drive unless something changes."""

    OVERLOAD = 1 << 0
    TORQUE_LIMIT = 1 << 1
    UNDERVOLTAGE = 1 << 2
    OVERVOLTAGE = 1 << 3
    COMMUNICATION = 1 << 4


FAULT_TEXT: Final = {
    FaultCode.NONE: mark("follower", "no fault"),
    FaultCode.OVERCURRENT: mark("follower", "overcurrent: motor pulled out"),
    FaultCode.OVERLOAD: mark("follower", "motor overload: overcurrent for too long"),
    FaultCode.OVERVOLTAGE: mark("follower", "overvoltage of the DC link"),
    FaultCode.UNDERVOLTAGE: mark("follower", "undervoltage of the DC link"),
    FaultCode.BLOCKED: mark("follower", "motor stalled: at the torque limit for too long"),
    FaultCode.COMMUNICATION: mark("follower", "communication time-out: no request in time"),
    FaultCode.EXTERNAL: mark("follower", "external fault input"),
}
"""What each fault code means, in words."""


@dataclass(slots=True)
class Inputs:
    """What stands at the drive's terminals. Set from any thread; read once in every step."""

    external_fault: bool = False
    remote: bool = True
    """Whether the line commands the drive. In local nothing does, and the motor is brought to standstill."""
    safe_torque_off: bool = False
    """While set the inverter gives no torque and the motor coasts: no fault, but nothing starts by itself after it."""
    preset: int = 0
    """A preset speed, 1 to 4, that outranks the reference of the line; 0: none."""
    supply: float = 1.0
    """The voltage of the supply, of the rated one: below 1 it sags."""
    jammed: bool = False
    """Whether something holds the shaft fast."""
    trip: FaultCode = FaultCode.NONE
    """A fault that it is made to trip with, once, whatever the machine does: to see what shows it."""


_GIVES_TORQUE_SOON: Final = (
    DriveState.READY_TO_SWITCH_ON,
    DriveState.SWITCHED_ON,
    DriveState.OPERATION_ENABLED,
    DriveState.QUICK_STOP_ACTIVE,
)


class Drive:
    """A drive, its motor and its load. Not thread-safe but for `inputs`.

    It is commanded by a plain control word (`obey`), for which it goes through the states by itself, or by the control
    word of IEC 61800-7-201 (`obey_standard`), which takes it from state to state; whichever came last counts.

    Commands are obeyed only in remote. A run command that stood while the drive tripped, stopped quickly or came back
    from local must be taken away before it counts again, so nothing starts by itself. A motor that still turns is
    caught at its speed.
    """

    def __init__(self, motor: MotorData | None = None, load: LoadData | None = None, trip_class: int = 10) -> None:
        """`trip_class` is that of the motor's overload protection: 10, 20 or 30."""
        self.motor = motor or MotorData()
        self.load = load or LoadData()
        self.inputs = Inputs()
        self.powered = True
        """Whether its control has power; without it the inverter gives no torque and the DC link drains."""
        self.speed = 0.0
        """Of the shaft, rad/s."""
        self.torque = 0.0
        """Of the motor, Nm, the mean over the last step: within a step the field stands and the shaft catches up."""
        self.dc_voltage = rectifier_peak(self.motor.supply_voltage)
        self.heat = Heat(trip_class)
        """Of the motor, as the overload protection sees it."""
        self._ramp = Ramp()
        self._run_steps = 0
        self._owed = 0.0
        self._peak_voltage = rectifier_peak(self.motor.supply_voltage)
        self._mean_voltage = rectifier_mean(self.motor.supply_voltage)
        self._breakaway = self.load.breakaway(self.motor)
        self._square = self.load.square(self.motor)
        self._line = self.load.line(self.motor)
        self.start()

    def start(self) -> None:
        """Begin as after a power-up: no command, no fault, settings as delivered.

        What outlives the power stays: the inputs, a shaft that turns, the run time, and the motor's heat, which the
        protection remembers. Common practice, no source.
        """
        self.reference = 0.0
        """Wanted output frequency, Hz, -BASE_FREQUENCY..BASE_FREQUENCY, negative in reverse."""
        self.ramp_up_s = 5.0
        self.ramp_down_s = 5.0
        self.rounding_s = 0.0
        """How long the ends of a ramp are rounded, s; 0: not at all."""
        self.presets = [0.0, 0.0, 0.0, 0.0]
        """The preset speeds, Hz, 0..BASE_FREQUENCY."""
        self.direction_lock = 0
        """0: both directions; 1: forward only; 2: reverse only."""
        self.communication_timeout_s = 0.0
        """Longest silence of the line while the motor runs, s; 0 = not watched."""
        self.state = DriveState.NOT_READY_TO_SWITCH_ON
        self.fault = FaultCode.NONE
        self.frequency = 0.0
        """Output frequency, Hz; negative in reverse. 0 while the inverter is off."""
        self.limiting = False
        """Whether the torque limit holds the ramp back."""
        self._ramp.be(0.0)
        self._limited_s = 0.0
        self._torn = False
        self._command = CommandBit(0)
        self._control: ControlBit | None = None
        """The control word of the standard, if that commands it."""
        self._run_asked = self._reverse_asked = self._quick_stop_asked = False
        self._reset = False
        self._locked = False
        self._was_remote = self.inputs.remote
        self._silence_s = 0.0

    @property
    def command(self) -> CommandBit:
        """The plain control word that stands."""
        return self._command

    def obey(self, word: int) -> None:
        """Take a new plain control word. A rising fault reset counts at this moment, and only in remote."""
        before, self._command = self._command, CommandBit(word & sum(CommandBit))
        self._control = None
        self._run_asked = CommandBit.RUN in self._command
        self._reverse_asked = CommandBit.REVERSE in self._command
        self._quick_stop_asked = CommandBit.QUICK_STOP in self._command
        if CommandBit.FAULT_RESET in self._command & ~before and self.inputs.remote:
            self._reset = True

    def obey_standard(self, word: int) -> None:
        """Take a new control word of IEC 61800-7-201, its bits 0 to 3, 7 and 8; fault reset as with `obey`.

        What the standard leaves to options is as it is by default there (from memory): disable operation goes down the
        ramp first, shutdown and disable voltage let the motor coast, a quick stop ends in switch on disabled, and halt
        goes down the ramp in operation enabled. In local the drive stops and ends in switch on disabled.
        """
        before, self._control = self._control or ControlBit(0), ControlBit(word & sum(ControlBit))
        asked = command_of(word)
        self._run_asked = asked is DriveEvent.ENABLE_OPERATION and ControlBit.HALT not in self._control
        self._reverse_asked = False
        self._quick_stop_asked = asked is DriveEvent.QUICK_STOP
        if ControlBit.FAULT_RESET in self._control & ~before and self.inputs.remote:
            self._reset = True

    @property
    def control_word(self) -> int:
        """The control word of IEC 61800-7-201 that stands, as far as it is obeyed; 0 while a plain one commands."""
        return int(self._control or 0)

    def on_request(self) -> None:
        """A request arrived: the silence of the line starts anew."""
        self._silence_s = 0.0

    def advance(self, dt: float) -> None:
        """Let `dt` seconds pass. What is less than a step is owed to the next call."""
        self._owed += dt
        steps = int(self._owed / STEP + 1e-6)
        self._owed -= steps * STEP
        for _ in range(steps):
            self._step()

    @property
    def running(self) -> bool:
        """Whether the inverter feeds the motor."""
        if self.state is DriveState.FAULT_REACTION_ACTIVE:
            return self.fault is FaultCode.COMMUNICATION
        return self.state in (DriveState.OPERATION_ENABLED, DriveState.QUICK_STOP_ACTIVE)

    @property
    def faulted(self) -> bool:
        """Whether a fault is active or waits for its reset."""
        return self.state in IN_FAULT

    @property
    def target(self) -> float:
        """Where the ramp leads, Hz, negative in reverse."""
        if self.state is not DriveState.OPERATION_ENABLED or not self._run:
            return 0.0
        preset = self.inputs.preset
        wanted = self.presets[preset - 1] if 1 <= preset <= len(self.presets) else self.reference
        if self._reverse_asked:
            wanted = -wanted
        locked = wanted < 0 if self.direction_lock == 1 else wanted > 0 if self.direction_lock else False
        return 0.0 if locked else wanted

    @property
    def at_reference(self) -> bool:
        """Whether it runs and its ramp has come to its end; while halted, whether it has come to zero."""
        halted = self._control is not None and ControlBit.HALT in self._control
        asked = self.state is DriveState.OPERATION_ENABLED and (self._run or halted)
        return asked and self.frequency == self.target

    @property
    def status_word(self) -> int:
        """The status word of IEC 61800-7-201."""
        mask, value = STATUS[self.state]
        word = StatusBit(value)
        if self.state is not DriveState.NOT_READY_TO_SWITCH_ON:
            word |= StatusBit.VOLTAGE_ENABLED
            if not mask & StatusBit.NO_QUICK_STOP and not self._quick_stop:
                word |= StatusBit.NO_QUICK_STOP
        if self.inputs.remote:
            word |= StatusBit.REMOTE
        if self.at_reference:
            word |= StatusBit.TARGET_REACHED
        if self.limiting:
            word |= StatusBit.INTERNAL_LIMIT
        if self.warnings:
            word |= StatusBit.WARNING
        return int(word)

    @property
    def warnings(self) -> WarningBit:
        """What is near to a trip."""
        found = WarningBit(0)
        share = self.dc_voltage / self._peak_voltage
        if self.heat.warns:
            found |= WarningBit.OVERLOAD
        if self.limiting:
            found |= WarningBit.TORQUE_LIMIT
        if share < UNDERVOLTAGE + WARN_NEAR:
            found |= WarningBit.UNDERVOLTAGE
        if share > OVERVOLTAGE - WARN_NEAR:
            found |= WarningBit.OVERVOLTAGE
        if self.running and 0 < WATCHED_SHARE * self.communication_timeout_s < self._silence_s:
            found |= WarningBit.COMMUNICATION
        return found

    @property
    def supply_power_kw(self) -> float:
        """Electrical power that the motor takes, kW; negative while it feeds back."""
        return self.motor.supply_power_kw(self.torque, self.frequency) if self.running else 0.0

    @property
    def current(self) -> float:
        """Output current, A."""
        return self.motor.current_at(self.torque) if self.running else 0.0

    @property
    def run_time_s(self) -> float:
        """How long the inverter has fed the motor, s."""
        return self._run_steps * STEP

    @run_time_s.setter
    def run_time_s(self, seconds: float) -> None:
        self._run_steps = round(seconds / STEP)

    @property
    def speed_rpm(self) -> float:
        """Of the shaft, min-1."""
        return self.speed / RPM

    @property
    def power_kw(self) -> float:
        """Mechanical power at the shaft, kW; negative while the load drives the motor."""
        return self.torque * self.speed / 1000

    @property
    def _run(self) -> bool:
        return self.inputs.remote and self._run_asked and not self._locked

    @property
    def _quick_stop(self) -> bool:
        return self.inputs.remote and self._quick_stop_asked

    @property
    def _standing(self) -> bool:
        return self.frequency == 0.0 and abs(self.speed) < STANDSTILL

    def _step(self) -> None:
        if not self.powered:
            pass  # nothing watches, and nothing obeys
        elif self._watch():
            self._reset = False
        else:
            self._obey()
        self._turn()
        self._feed()
        self.heat.step(self.current / self.motor.current, STEP)

    def _watch(self) -> bool:
        """Trips, and the lock against starting by itself. True if it tripped: no more transitions in this step."""
        remote = self.inputs.remote
        if remote and not self._was_remote:
            self._locked = True
        self._was_remote = remote
        if not self._run_asked:
            self._locked = False
        self._silence_s += STEP
        ordered, self.inputs.trip = self.inputs.trip, FaultCode.NONE
        if self.faulted:
            return False
        due = ordered or self._fault_due()
        if due is not None:
            self._trip(due)
            return True
        if remote and self.running and 0 < self.communication_timeout_s < self._silence_s - STEP / 2:
            self._trip(FaultCode.COMMUNICATION)
            return True
        return False

    def _fault_due(self) -> FaultCode | None:
        share = self.dc_voltage / self._peak_voltage
        if self.inputs.external_fault:
            return FaultCode.EXTERNAL
        if share > OVERVOLTAGE:
            return FaultCode.OVERVOLTAGE
        if not self.running:
            return None
        if share < UNDERVOLTAGE:
            return FaultCode.UNDERVOLTAGE
        if self._torn:
            return FaultCode.OVERCURRENT
        if self._limited_s > STALL_S:
            return FaultCode.BLOCKED
        return FaultCode.OVERLOAD if self.heat.trips else None

    @property
    def _cause_gone(self) -> bool:
        """Whether what tripped the drive is over, so that a reset may be taken."""
        if self.fault is FaultCode.OVERLOAD and self.heat.warns:
            return False
        share = self.dc_voltage / self._peak_voltage
        return not self.inputs.external_fault and UNDERVOLTAGE <= share <= OVERVOLTAGE

    def _trip(self, fault: FaultCode) -> None:
        self.fault = fault
        self.state = after(self.state, DriveEvent.FAULT)
        self._locked = True

    def _obey(self) -> None:
        """At most one transition of the state machine, so that every state can be seen."""
        event = self._due() if self._control is None else self._due_by_control(self._control)
        if self.inputs.safe_torque_off and self.state in _GIVES_TORQUE_SOON:
            event = DriveEvent.DISABLE_VOLTAGE
            self._locked = True
        reset, self._reset = self._reset, False
        if self.state is DriveState.FAULT and reset and self._cause_gone:
            event = DriveEvent.FAULT_RESET
            self.fault = FaultCode.NONE
        if event is None:
            return
        if event is DriveEvent.QUICK_STOP:
            self._locked = True
        self.state = after(self.state, event)
        if event is DriveEvent.ENABLE_OPERATION:
            self.frequency = self.motor.field_frequency(self.speed)
            self._ramp.be(self.frequency)
            self._silence_s = 0.0

    def _due(self) -> DriveEvent | None:
        """Where the drive goes by itself for what the plain control word asks."""
        match self.state:
            case DriveState.NOT_READY_TO_SWITCH_ON:
                return DriveEvent.AUTOMATIC
            case DriveState.SWITCH_ON_DISABLED:
                held = self._locked or self._quick_stop or self.inputs.safe_torque_off
                return None if held else DriveEvent.SHUTDOWN
            case DriveState.READY_TO_SWITCH_ON:
                return DriveEvent.QUICK_STOP if self._quick_stop else DriveEvent.SWITCH_ON if self._run else None
            case DriveState.SWITCHED_ON:
                if self._quick_stop:
                    return DriveEvent.QUICK_STOP
                return DriveEvent.ENABLE_OPERATION if self._run else DriveEvent.SHUTDOWN
            case DriveState.OPERATION_ENABLED:
                if self._quick_stop:
                    return DriveEvent.QUICK_STOP
                return DriveEvent.DISABLE_OPERATION if self._standing and not self._run else None
            case DriveState.QUICK_STOP_ACTIVE:
                return DriveEvent.DISABLE_VOLTAGE if self._standing else None
            case DriveState.FAULT_REACTION_ACTIVE:
                return DriveEvent.AUTOMATIC if self._standing or not self.running else None
            case DriveState.FAULT:
                return None

    def _due_by_control(self, control: ControlBit) -> DriveEvent | None:
        """Where the control word of the standard takes it, one transition at a time."""
        asked = command_of(control)
        if not self.inputs.remote or self._locked:
            asked = DriveEvent.DISABLE_VOLTAGE
        match self.state:
            case DriveState.NOT_READY_TO_SWITCH_ON | DriveState.FAULT_REACTION_ACTIVE:
                return self._due()
            case DriveState.SWITCH_ON_DISABLED if self.inputs.safe_torque_off:
                return None
            case DriveState.READY_TO_SWITCH_ON if asked is DriveEvent.ENABLE_OPERATION:
                return DriveEvent.SWITCH_ON  # transitions 3 and 4 one after the other
            case DriveState.OPERATION_ENABLED if asked is DriveEvent.SWITCH_ON:
                return DriveEvent.DISABLE_OPERATION if self._standing else None
            case DriveState.OPERATION_ENABLED if not self.inputs.remote or self._locked:
                return asked if self._standing else None
            case DriveState.QUICK_STOP_ACTIVE:
                coasts = command_of(control) is DriveEvent.DISABLE_VOLTAGE and self.inputs.remote
                return DriveEvent.DISABLE_VOLTAGE if self._standing or coasts else None
            case _:
                return asked if leads(self.state, asked) else None

    def _turn(self) -> None:
        """The ramp and the motion: J dw/dt = T_motor - T_load."""
        running = self.running
        if running:
            self._run_steps += 1
            quick = self.state is DriveState.QUICK_STOP_ACTIVE
            up = BASE_FREQUENCY * STEP / max(self.ramp_up_s, STEP)
            down = BASE_FREQUENCY * STEP / max(QUICK_STOP_S if quick else self.ramp_down_s, STEP)
            self._ramp.round_over(0 if quick else round(self.rounding_s / STEP))
            self.frequency = self._ramp.step(self.target, up, down)
        else:
            self.frequency = 0.0
            self._ramp.be(0.0)
        torque, gradient = self._motor_torque(running)
        before = self.speed
        net = torque - load_torque(before, self._breakaway, self._square, self._line)
        if before == 0.0:
            # Static friction: what does not break away does not move.
            net = math.copysign(max(abs(torque) - self._breakaway, 0.0), torque)
        gradient -= self._line + 2 * self._square * abs(before)
        self.speed = stepped(before, net / self.load.inertia, gradient / self.load.inertia, STEP)
        if before * self.speed < 0 and abs(self._motor_torque(running)[0]) <= self._breakaway:
            self.speed = 0.0  # friction stops a shaft; it never turns one back
        self._torn = False
        if self.inputs.jammed:
            # The current follows the slip before any limit can act.
            self._torn = running and abs(self.speed) * self.motor.stiffness > PULL_OUT * self.motor.torque
            self.speed = 0.0
        self._hold_back(running)
        self.torque = (torque + self._motor_torque(running)[0]) / 2

    def _motor_torque(self, running: bool) -> tuple[float, float]:
        """Torque, and its derivative to the shaft speed: a straight line through the field's speed, limited."""
        if not running:
            return 0.0, 0.0
        torque = self.motor.stiffness * (self.motor.field_speed(self.frequency) - self.speed)
        limit = TORQUE_LIMIT * self.motor.torque
        if abs(torque) > limit:
            return math.copysign(limit, torque), 0.0
        return torque, -self.motor.stiffness

    def _hold_back(self, running: bool) -> None:
        """Keep the field within the slip of the torque limit: the ramp waits for a shaft that cannot follow."""
        self.limiting = False
        if not running:
            self._limited_s = 0.0
            return
        shaft = self.motor.field_frequency(self.speed)
        most = TORQUE_LIMIT * self.motor.slip_frequency
        excess = abs(self.frequency - shaft) / most
        if excess > 1.0:
            self.frequency = shaft + math.copysign(most, self.frequency - shaft)
            self._ramp.be(self.frequency)
            self.limiting = True
        self._limited_s = self._limited_s + STEP if self.limiting else 0.0

    def _feed(self) -> None:
        """The DC link: from the peak of the line at no load down to the bridge's mean at rated power, up in braking."""
        share = self.power_kw / self.motor.power_kw
        supply = self.inputs.supply if self.powered else 0.0
        peak = self._peak_voltage * supply
        if share >= 0:
            wanted = peak - (peak - self._mean_voltage * supply) * min(share, 1.5)
        else:
            wanted = peak + BRAKING_RISE * min(-share, 1.0)
        self.dc_voltage += (wanted - self.dc_voltage) * _DC_LINK_STEP
