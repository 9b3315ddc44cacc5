"""The dialog that writes signals to a file for a spreadsheet or another project."""

from __future__ import annotations

from concurrent.futures import Future
from pathlib import Path
from typing import Any

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import (
    QCheckBox,
    QRadioButton,
    QWidget,
)

from app.exchange.sheet import Progress, Stopped
from app.exchange.writing import CannotWrite, TextStyle, as_text, as_workbook, write_file
from app.project.model import AnySignal, BitSignal, Project, RegisterSignal
from widgets.design.exchange.import_choices import box
from widgets.document.save_as import FileKind, where_to_save
from widgets.document.settings import Settings
from widgets.kit.dialogs.long_work import WorkDialog
from widgets.kit.plain import plain_label

translate = QCoreApplication.translate


class ExportDialog(WorkDialog):
    """Choose which signals and which kind of file; nothing of the project is changed."""

    def __init__(
        self,
        project: Project,
        settings: Settings,
        name: str,
        selected: tuple[AnySignal, ...] = (),
        parent: QWidget | None = None,
    ) -> None:
        """`name`: of the file that is suggested, without its ending. `selected`: offered besides all of them."""
        super().__init__(parent)
        self.tell(
            self.tr("Export signals"),
            self.tr(
                "The file has one column for each property of a signal; Import reads it back unchanged. Registers "
                "are numbered as in the manual of each device."
            ),
        )
        self._settings = settings
        self._name = name
        self.written: Path | None = None
        """The file, once it is written."""
        self._choices = _choices(project, selected)
        self._make_parts()
        self._lay_out()
        self.work.ended.connect(self._finish)
        self._enable()

    def _make_parts(self) -> None:
        self.which = box([(f"{text} ({len(signals)})", at) for at, (text, signals) in enumerate(self._choices)])
        self.workbook = QRadioButton(self.tr("&Workbook (XLSX)"))
        self.text = QRadioButton(self.tr("&Text with separators (CSV, UTF-8)"))
        self.workbook.setChecked(True)
        self.separator = box([(self.tr("Comma ,"), ","), (self.tr("Semicolon ;"), ";"), (self.tr("Tab"), "\t")])
        self.decimal_mark = box([(self.tr("Point, 0.1"), "."), (self.tr("Comma, 0,1"), ",")])
        self.byte_order_mark = QCheckBox(self.tr("With &BOM, so that spreadsheets recognise UTF-8"))
        self.byte_order_mark.setChecked(True)
        self.trouble = plain_label("", "fault", wrap=True)
        self.trouble.hide()
        self.progress.hide()
        self.text.toggled.connect(lambda _on: self._enable())
        self.separator.currentIndexChanged.connect(lambda _index: self._keep_apart())

    def _lay_out(self) -> None:
        self.add_row(self.tr("S&ignals"), self.which)
        self.form.addRow(self.tr("File"), self.workbook)
        self.form.addRow("", self.text)
        self.add_row(self.tr("S&eparator"), self.separator)
        self.add_row(self.tr("&Decimal mark"), self.decimal_mark)
        self.form.addRow("", self.byte_order_mark)
        self.body.addWidget(self.trouble)
        self.body.addWidget(self.progress)
        self.save = self.add_deed(self.tr("&Save as\u2026"), self._choose_file)
        self.add_cancel()

    def _enable(self) -> None:
        for editor in (self.separator, self.decimal_mark, self.byte_order_mark):
            editor.setEnabled(self.text.isChecked())

    def _keep_apart(self) -> None:
        """The decimal mark is not the separator: a semicolon goes with a comma, as spreadsheets do it."""
        self.decimal_mark.setCurrentIndex(1 if self.separator.currentData() == ";" else 0)
        comma = self.separator.currentData() == ","
        model: Any = self.decimal_mark.model()
        model.item(1).setEnabled(not comma)

    def _choose_file(self) -> None:
        ending = ".csv" if self.text.isChecked() else ".xlsx"
        kind = self.tr("Text (*.csv)") if self.text.isChecked() else self.tr("Workbooks (*.xlsx)")
        title = self.tr("Save the signals as")
        place = where_to_save(
            self, self._settings, "list_folder", title, self._name + ending, (FileKind(kind, ending),)
        )
        if place is not None:
            self._write(place[0])

    def _write(self, path: Path) -> None:
        signals = self._choices[self.which.currentData()][1]
        style = TextStyle(
            self.separator.currentData(), self.decimal_mark.currentData(), self.byte_order_mark.isChecked()
        )
        as_csv = self.text.isChecked()

        def work(progress: Progress) -> Path:
            write_file(path, as_text(signals, style, progress) if as_csv else as_workbook(signals, progress))
            return path

        self.trouble.hide()
        self.save.setEnabled(False)
        self.begin(work)

    def _finish(self, future: Future[Path]) -> None:
        self.show_progress(False)
        self.save.setEnabled(True)
        try:
            self.written = future.result()
        except CannotWrite as error:
            self.trouble.setText(f"\N{WARNING SIGN} {error}")
            self.trouble.show()
            return
        except Stopped:
            return
        self._settings.list_folder = self.written.parent
        self.accept()


def _choices(project: Project, selected: tuple[AnySignal, ...]) -> list[tuple[str, tuple[AnySignal, ...]]]:
    found: list[tuple[str, tuple[AnySignal, ...]]] = [(translate("ExportDialog", "All"), project.signals)]
    if len(selected) > 1:
        found.append((translate("ExportDialog", "Selected"), selected))
    if len(project.followers) > 1:
        for follower in project.followers:
            own = tuple(
                signal
                for signal in project.signals
                if isinstance(signal, RegisterSignal) and signal.follower == follower.name
            )
            words = {signal.name for signal in own}
            bits = tuple(
                signal for signal in project.signals if isinstance(signal, BitSignal) and signal.bit.of in words
            )
            if own:
                found.append((translate("ExportDialog", "Device {name}").format(name=follower.name), (*own, *bits)))
    return found
