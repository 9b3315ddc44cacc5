"""Words for what a signal can be."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

translate = QCoreApplication.translate


def table_words() -> dict[str, str]:
    """The tables, and what stands there for signals that are in none: stored word and what a person reads."""
    return {
        "holding": translate("SignalCells", "holding"),
        "input": translate("SignalCells", "input"),
        "coil": translate("SignalCells", "coil"),
        "discrete": translate("SignalCells", "discrete"),
        "bit": translate("SignalCells", "bit"),
        "held": translate("SignalCells", "held"),
    }
