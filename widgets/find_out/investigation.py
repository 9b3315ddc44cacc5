"""What is being found out, behind the pages of the window: where, what was found, what was named; and the work on it.

All work on the line is done in one thread at a time, which is told to stop and ends within some 20 ms. The window's
thread looks from time to time at what the other one has left, which are frozen values.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any, Final

from PySide6.QtCore import QObject, QTimer, Signal

from app.client.endpoint import Endpoint
from app.discovery.examination import Examination
from app.discovery.hearing import listen_at
from app.discovery.into_project import ChosenDevice, NamedRegister, all_found
from app.discovery.known_line import KnownLine
from app.discovery.past import PastRegisters, heard_of
from app.discovery.reading_again import read_again
from app.discovery.search import Search, SearchState, Wanted
from app.edits.refused import free_name
from app.errors import FanlightError
from app.listening.heard import Heard
from app.listening.trouble import LineTrouble
from app.probing.found import Found, FoundFollower
from app.probing.line import ReadingLine
from app.probing.probe import SearchStopped
from app.probing.registers import Pass
from app.signals.numbering import Numbering
from app.snapshots.snapshot import RegisterPlace, RegisterSnapshot

LOOKED_AFTER_MS: Final = 50
READ_TIMEOUT_S: Final = 0.5
LISTENED_S: Final = 3.0
"""How long another client is listened to for the values that it reads now."""
_ENDING_S: Final = 0.08
"""How long a window that closes waits for an end: only a host that accepts no connection takes longer."""
_ending: set[Investigation] = set()
"""Those whose window is gone while their last piece of work ends; it sends nothing any more."""

Holds = Callable[[Endpoint], str]
"""Why a line cannot be searched now, in words: a session of this program has it. Empty: it can."""


class Investigation(QObject):
    """`holds` is asked before each piece of work."""

    changed = Signal()
    """Something new is known: `found`, `sentence`, `seconds_left`."""
    working = Signal(bool)
    """A piece of work has begun, or ended: then `why` says if something went wrong."""
    read = Signal(object)
    """What the registers of a device hold now, as it was wanted by `read_now`: a mapping."""
    named_changed = Signal()

    def __init__(self, holds: Holds = lambda _endpoint: "", parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.endpoint: Endpoint | None = None
        self.wanted = Wanted()
        self.state = SearchState()
        self.examination = Examination()
        self.sentence = ""
        self.seconds_left: float | None = None
        self.why = ""
        self.trouble: LineTrouble | None = None
        self.named: dict[int, tuple[NamedRegister, ...]] = {}
        """By unit."""
        self.numbering: dict[int, Numbering] = {}
        """How each device's manual counts, by unit; from-0 as long as nobody said."""
        self._known = Endpoint.tcp(""), KnownLine()
        self.searching = False
        """Whether what is being done is a search, rather than a reading."""
        self._newest: dict[int, dict[RegisterPlace, int]] = {}
        """What was read again since the search, by unit."""
        self._read_between: dict[int, tuple[datetime, datetime]] = {}
        """When the values of each unit were read: the first of them, and the last."""
        self._began = datetime.now().astimezone()
        """The newest piece of work."""
        self._examined: frozenset[int] = frozenset()
        """Units that were whole before it."""
        self._kept: set[int] = set()
        """Units whose registers are in a file."""
        self._asked = 0
        """The unit that is read again."""
        self._names_kept = True
        self._heard: tuple[Heard | None, datetime] = None, datetime.now().astimezone()
        """What the last search heard of another client, and when that ended."""
        self._holds = holds
        self._stop = threading.Event()
        self._thread: threading.Thread | None = None
        self._news: tuple[str, float | None] | None = None
        self._held: dict[RegisterPlace, int] | None = None
        """What the thread of the work leaves here is taken from time to time: it touches nothing of Qt."""
        self._failed = ""
        self._looking = QTimer(self)
        self._looking.setInterval(LOOKED_AFTER_MS)
        self._looking.timeout.connect(self._look)

    @property
    def found(self) -> Found:
        """The newest."""
        return self.state.found

    @property
    def devices(self) -> Sequence[FoundFollower]:
        """Those that answered themselves."""
        return [one for one in self.found.followers if not one.gateway]

    def device(self, unit: int) -> FoundFollower | None:
        """One of them."""
        return next((one for one in self.devices if one.unit == unit), None)

    @property
    def at_work(self) -> bool:
        """Whether something is being done on the line."""
        return self._thread is not None

    def know(self, endpoint: Endpoint, known: KnownLine) -> None:
        """What a project says of that line."""
        self._known = endpoint, known

    @property
    def known(self) -> KnownLine:
        """Of the line that is looked at; of another one nothing is known."""
        place, known = self._known
        return known if self.endpoint is not None and self.endpoint.same_place(place) else KnownLine()

    def begin_at(self, endpoint: Endpoint) -> None:
        """Look at this line: what was found and named before is forgotten. Not while something is being done."""
        if self.at_work:
            return
        self.endpoint = endpoint
        self.state = SearchState()
        self.examination = Examination()
        self.named, self.numbering, self._newest = {}, dict(self.known.numbering), {}
        self._read_between.clear()
        self.keep_all()
        self.sentence, self.why, self.trouble, self.seconds_left = "", "", None, None
        self.named_changed.emit()
        self.changed.emit()

    def search(self, wanted: Wanted, how: Pass = "likely") -> bool:
        """Search, or go on where a search was stopped; whether it was begun: `why` says why not."""
        self.wanted = wanted
        self.examination.how = how
        if not self._begin(self._search):
            return False
        self.searching = True
        self._newest.clear()
        self._kept.clear()
        return True

    def look_closer(self) -> None:
        """The devices that were examined are to be examined again by the next search, for more registers."""
        self.state.examined.clear()

    def read_now(self, unit: int) -> bool:
        """Read all known registers of a device; they come by `read`. Whether it was begun: `why` says why not."""
        if not self._begin(lambda line: self._read(line, unit)):
            return False
        self._asked = unit
        return True

    def stop(self) -> None:
        """Let what is done end soon; what was found stays."""
        self._stop.set()
        self.changed.emit()

    @property
    def stopping(self) -> bool:
        """Whether it was told to end and has not yet."""
        return self.at_work and self._stop.is_set()

    def close(self) -> None:
        """End all work. From now on nothing is sent."""
        self._stop.set()
        if self._thread is not None:
            self._thread.join(_ENDING_S)
            if self._thread.is_alive():
                self.setParent(None)
                _ending.add(self)

    # In the thread of the work

    def _search(self, line: ReadingLine) -> str:
        search = Search(line, self.wanted, self.state, self._tell, self.examination)
        try:
            search.run()
        finally:
            self.trouble = search.trouble
            self._heard = search.heard, datetime.now().astimezone()
        return self.state.why

    def _read(self, line: ReadingLine, unit: int) -> str:
        device = self.device(unit)
        if line.serial and self.found.settings is not None:
            line.tune(self.found.settings)
        if self.found.heard:
            heard = listen_at(line, None, LISTENED_S).unit(unit)
            self._held = {} if heard is None else heard.words()
        elif device is not None:
            self._held = read_again(line, device, device.ranges, READ_TIMEOUT_S, never=self.wanted.never)
        return ""

    def _tell(self, _found: Found, sentence: str, seconds: float | None) -> None:
        self._news = sentence, seconds

    def _work(self, endpoint: Endpoint, work: Callable[[ReadingLine], str]) -> None:
        try:
            with ReadingLine(endpoint, self._stop.is_set) as line:
                self._failed = work(line)
        except SearchStopped:
            pass
        except FanlightError as error:
            self._failed = str(error)

    # In the window's thread

    def _begin(self, work: Callable[[ReadingLine], str]) -> bool:
        if self.at_work or self.endpoint is None:
            return False
        self.why = self._holds(self.endpoint)
        if self.why:
            self.changed.emit()
            return False
        self._stop.clear()
        self._began = datetime.now().astimezone()
        self._examined = frozenset(self.state.examined)
        self._news, self._held, self._failed = None, None, ""
        self._thread = threading.Thread(
            target=self._work, args=(self.endpoint, work), name="fanlight-finding-out", daemon=True
        )
        self._thread.start()
        self._looking.start()
        self.working.emit(True)
        return True

    def _look(self) -> None:
        ended = self._thread is None or not self._thread.is_alive()
        news, self._news = self._news, None
        if news is not None:
            self.sentence, self.seconds_left = news
            self.changed.emit()
        if ended:
            self._end()

    def _end(self) -> None:
        self._looking.stop()
        self._thread = None
        _ending.discard(self)
        self._note_times()
        self.searching = False
        if self._held is not None:
            if self._held:
                self._newest[self._asked] = self._held
                self._kept.discard(self._asked)
            self.read.emit(self._held)
        self.why = self._failed
        self.seconds_left = None
        self.working.emit(False)
        self.changed.emit()

    def _note_times(self) -> None:
        now = datetime.now().astimezone()
        if self._held:
            self._read_between[self._asked] = self._began, now
        for device in self.devices if self.searching else ():
            if device.unit not in self._examined:
                first, _ = self._read_between.get(device.unit, (self._began, now))
                self._read_between[device.unit] = first, now

    # What would be lost

    @property
    def lost_units(self) -> Sequence[int]:
        """The units of which registers are known that are in no file."""
        return [one.unit for one in self.devices if one.ranges and one.unit not in self._kept]

    @property
    def lost_names(self) -> int:
        """How many registers have a name that is in no project."""
        return 0 if self._names_kept else sum(map(len, self.named.values()))

    def keep(self, unit: int) -> None:
        """The registers of this unit are in a file now."""
        self._kept.add(unit)

    def keep_all(self) -> None:
        """All that was found is in a project now, or nothing was found yet."""
        self._kept.update(one.unit for one in self.devices)
        self._names_kept = True

    # What becomes of it

    def name(self, unit: int, register: NamedRegister) -> str:
        """A register of a device has a name now, instead of the one that it had. Gives that name back: with a number
        behind it if another register of any device has it already, as a project has each name once."""
        place = unit, register.table, register.address
        others = {(where, one.table, one.address): one.name for where, several in self.named.items() for one in several}
        taken = {name for where, name in others.items() if where != place}
        register = replace(register, name=free_name(register.name, taken))
        kept = (one for one in self.named.get(unit, ()) if (one.table, one.address) != place[1:])
        self.named[unit] = (*kept, register)
        self._names_kept = False
        self.named_changed.emit()
        return register.name

    def forget(self, unit: int, register: NamedRegister) -> None:
        """It has none any more."""
        self.named[unit] = tuple(one for one in self.named.get(unit, ()) if one != register)
        self.named_changed.emit()

    def chosen(self) -> tuple[ChosenDevice, ...]:
        """All devices as they go into a project: with what was named, and how their manuals count."""
        return tuple(
            replace(
                whole,
                registers=self.named.get(whole.found.unit) or whole.registers,
                numbering=self.numbering.get(whole.found.unit, "from-0"),
            )
            for whole in all_found(self.found, self.wanted.never, self.known)
        )

    def registers(self, unit: int) -> dict[RegisterPlace, int]:
        """What the registers of a device held when they were read last, or heard to be read by another client."""
        return {**_heard_registers(self.found, unit), **self.examination.registers(unit), **self._newest.get(unit, {})}

    def read_between(self, unit: int) -> tuple[datetime, datetime] | None:
        """When those were read: the first of them not before, the last not after. None: they were not."""
        return self._read_between.get(unit)

    def heard_of(self, unit: int) -> PastRegisters | None:
        """What another client was heard to read of a device, over time; None if nothing was."""
        heard, until = self._heard
        return None if heard is None or not self.found.heard else heard_of(heard, unit, until)

    def snapshot(self, unit: int) -> RegisterSnapshot:
        """The same as an ordinary snapshot."""
        return replace(self.examination.snapshot(unit, str(self.endpoint or "")), registers=self.registers(unit))


def _heard_registers(found: Found, unit: int) -> dict[RegisterPlace, int]:
    held: dict[RegisterPlace, int] = {}
    units: Any = (found.heard or {}).get("units", ())
    for request in (request for one in units if one["unit"] == unit for request in one["requests"]):
        held.update(((request["table"], at), word) for at, word in enumerate(request["values"] or (), request["first"]))
    return held
