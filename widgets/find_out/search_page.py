"""The page "Search": what is tried now, how far it is, which devices answer and what each of them is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QStackedLayout, QVBoxLayout, QWidget

from app.probing.found import Found, FoundFollower
from app.signals.numbering import register_text
from widgets.find_out.found_tables import DevicesModel, FactsModel, HeardModel, milliseconds
from widgets.find_out.investigation import Investigation
from widgets.find_out.trouble_view import TroubleView
from widgets.kit.empty_state import EmptyState
from widgets.kit.plain import plain_label
from widgets.kit.quick_cells import QuickTable
from widgets.kit.scaling import line_height, scaled
from widgets.kit.tables import selected_rows, set_widths

translate = QCoreApplication.translate

_FUNCTIONS: Final = {1: "01", 2: "02", 3: "03", 4: "04", 8: "08", 17: "17", 43: "43/14"}
_VALUES: Final = 12


class SearchPage(QWidget):
    """Shows an investigation while it goes on, and what came of it. Starts nothing."""

    chosen = Signal(int)
    """Another device was chosen: its unit address."""

    def __init__(self, investigation: Investigation, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.about = investigation
        self.now = plain_label("", "heading", wrap=True)
        self.now.setMinimumHeight(line_height(20, lines=2))
        self.now.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.figures = plain_label("", "faint", wrap=True)
        self.devices = DevicesModel(self)
        self.table = QuickTable(self.devices)
        self.table.setAccessibleName(self.tr("Devices that answer"))
        self.table.setSelectionMode(QuickTable.SelectionMode.SingleSelection)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._choose())
        set_widths(self.table, {0: scaled(110), 1: scaled(120), 2: scaled(110)})
        self.facts = FactsModel(self)
        self.facts_table = QuickTable(self.facts)
        self.facts_table.setAccessibleName(self.tr("What is known of the chosen device"))
        set_widths(self.facts_table, {0: scaled(170)})
        self.heard = HeardModel(self)
        self.heard_table = QuickTable(self.heard)
        self.heard_table.setAccessibleName(self.tr("What another client asks for"))
        set_widths(self.heard_table, {0: scaled(110), 1: scaled(290), 2: scaled(110)})
        lower = QWidget()
        self._lower = QStackedLayout(lower)
        self._lower.setContentsMargins(0, 0, 0, 0)
        for part in (self.facts_table, self.heard_table):
            self._lower.addWidget(part)
        self.tables = QWidget()
        both = QVBoxLayout(self.tables)
        both.setContentsMargins(0, 0, 0, 0)
        both.setSpacing(scaled(8))
        both.addWidget(self.table, 2)
        both.addWidget(lower, 3)
        self.trouble = TroubleView()
        self.empty = EmptyState(
            self.tr("No device has answered yet"),
            self.tr("Each one is listed here as soon as it answers. The search can be stopped, and go on later."),
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(scaled(8))
        layout.addWidget(self.now)
        layout.addWidget(self.figures)
        layout.addWidget(self.empty, 1)
        layout.addWidget(self.tables, 1)
        layout.addWidget(self.trouble, 0)
        layout.addStretch(0)
        investigation.changed.connect(self.show_newest)
        investigation.working.connect(lambda _on: self.show_newest())
        self.show_newest()

    @property
    def device(self) -> FoundFollower | None:
        """The chosen one, the first if none is."""
        rows = selected_rows(self.table)
        devices = self.about.devices
        return devices[rows[0]] if rows and rows[0] < len(devices) else devices[0] if devices else None

    def choose(self, row: int) -> None:
        """Choose the device of this row."""
        self.table.selectRow(row)

    def show_newest(self) -> None:
        """Show what is known by now."""
        about, found = self.about, self.about.found
        self.now.setText(self._sentence(found))
        self.figures.setText(self._figures(found))
        self.devices.show(about.devices)
        if about.devices and not selected_rows(self.table):
            self.table.selectRow(0)
        if found.heard:
            self.heard.show(_heard_rows(found.heard))
        else:
            self._show_facts()
        self._lower.setCurrentWidget(self.heard_table if found.heard else self.facts_table)
        trouble = None if about.at_work or not (found.probes or found.heard) else about.trouble
        if trouble is not None:
            self.trouble.show_trouble(trouble)
        anybody = bool(about.devices or found.heard)
        self.tables.setVisible(anybody)
        self.empty.setVisible(not anybody and about.at_work)
        self.trouble.setVisible(trouble is not None and (bool(trouble.suspicions) or not anybody))

    def _sentence(self, found: Found) -> str:
        if self.about.stopping:
            return self.tr("Stopping.")
        if self.about.at_work:
            return self.about.sentence or self.tr("Opening the line.")
        if self.about.why:
            return self.about.why
        if found.heard:
            return self.tr("Another client asks devices on this line, so nothing was sent. This is what was heard.")
        if not found.probes:
            return self.tr("Nothing was searched yet.")
        count = len(self.about.devices)
        if not count and found.stopped_by != "person":
            return self.tr("No device answered.")
        ended = {
            "done": self.tr("The search is finished: {count} devices answer."),
            "budget": self.tr("The time is over. Devices that answer so far: {count}."),
            "person": self.tr("Stopped. Devices that answer so far: {count}. The search can go on where it was."),
            "somebody else": self.tr("Another client spoke. Devices that answered until then: {count}."),
            "port gone": self.tr("The line is gone. Devices that answered until then: {count}."),
        }
        if count == 1 and found.stopped_by == "done":
            return self.tr("The search is finished: one device answers.")
        if not count:
            return self.tr("Stopped: no device has answered so far. The search can go on where it was.")
        return ended[found.stopped_by].format(count=count)

    def _figures(self, found: Found) -> str:
        parts = []
        if found.settings is not None:
            parts.append(self.tr("Settings: {settings}").format(settings=found.settings))
            if found.heard and not found.heard["parity_known"]:
                parts.append(self.tr("parity not told by this port"))
        if found.heard and not found.probes:
            parts.append(self.tr("listened for {time}").format(time=_time(found.seconds)))
        else:
            parts.append(self.tr("{probes} requests in {time}").format(probes=found.probes, time=_time(found.seconds)))
        left = self.about.seconds_left
        if self.about.at_work and left is not None:
            parts.append(self.tr("about {time} left").format(time=_time(left)))
        parts.append(self.tr("nothing written"))
        if self.about.at_work and any(one.ranges for one in self.about.devices):
            parts.append(self.tr("stop it to go on with what was found"))
        return "\u00a0\u00a0\u00a0\u00b7   ".join(parts)

    def _choose(self) -> None:
        self._show_facts()
        if self.device is not None:
            self.chosen.emit(self.device.unit)

    def _show_facts(self) -> None:
        device = self.device
        self.facts.show([] if device is None else self.facts_of(device))

    def facts_of(self, device: FoundFollower) -> list[tuple[str, str]]:
        """What is known of it, as rows."""
        titles = {
            "VendorName": self.tr("Maker"),
            "ProductCode": self.tr("Product code"),
            "MajorMinorRevision": self.tr("Revision"),
            "VendorUrl": self.tr("Address of the maker"),
            "ProductName": self.tr("Product"),
            "ModelName": self.tr("Model"),
            "UserApplicationName": self.tr("Application"),
            "ServerId": self.tr("Calls itself"),
        }
        rows = [(titles.get(key, key), text) for key, text in device.identification.items()]
        if device.functions:
            functions = ", ".join(_FUNCTIONS.get(one, str(one)) for one in device.functions)
            rows.append((self.tr("Functions that read"), functions))
        if device.response_ms is not None:
            text = self.tr("median {median}; 99 of 100 answers within {slow}")
            slow = milliseconds(device.slow_response_ms or device.response_ms)
            rows.append((self.tr("Response time"), text.format(median=milliseconds(device.response_ms), slow=slow)))
        if device.longest_read is not None:
            rows.append((self.tr("Longest read"), self.tr("{count} registers").format(count=device.longest_read)))
        if device.in_flight is not None:
            one, two = self.tr("one at a time"), self.tr("two at a time; more was not tried")
            rows.append((self.tr("Requests"), one if device.in_flight == 1 else two))
        for part in device.ranges:
            rows.append((self.tr("Wire addresses"), register_text(part.table, part.first, part.last)))
        return [*rows, *((self.tr("Note"), note) for note in device.notes)]


def _time(seconds: float) -> str:
    whole = round(seconds)
    if whole < 120:
        return f"{whole} s"
    minutes, rest = divmod(whole, 60)
    return f"{minutes} min {rest:02} s" if minutes < 60 else f"{minutes // 60} h {minutes % 60:02} min"


def _heard_rows(heard: Mapping[str, Any]) -> Sequence[tuple[str, str, str, str]]:
    rows = []
    for unit in heard["units"]:
        for request in unit["requests"]:
            registers = register_text(request["table"], request["first"], request["last"])
            way = (
                translate("SearchPage", "writes {registers}")
                if request["writes"]
                else translate("SearchPage", "reads {registers}")
            )
            answered = translate("SearchPage", "{answered} of {asked}").format(**request)
            values = request["values"] or ()
            text = " ".join(map(str, values[:_VALUES])) + (" \u2026" if len(values) > _VALUES else "")
            rows.append((str(unit["unit"]), way.format(registers=registers), answered, text))
    return rows
