"""What takes long: a thread for files, so that no window waits for a drive, and the pointer where one has to wait."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final, Generic, TypeVar

from PySide6.QtCore import QCoreApplication, QEventLoop, Qt
from PySide6.QtWidgets import QApplication, QProgressDialog, QWidget

from app.language import translate
from widgets.kit.plain import plain_label

BackgroundJob = Callable[[], object]
_T = TypeVar("_T")

QUICK_S: Final = 0.8
"""Seconds that the window waits before it says what it waits for."""


class Background:
    """Does jobs one after another, in a thread of its own that lives from the first job to `stop`.

    Of jobs with one key that have not begun only the last is done: what it would have written is old by then.
    """

    def __init__(self, name: str) -> None:
        self._name = name
        self._waiting: dict[str, BackgroundJob] = {}
        self._news = threading.Condition()
        self._stopping = False
        self._thread: threading.Thread | None = None

    def post(self, key: str, job: BackgroundJob) -> None:
        """Do this as soon as the jobs before it are done. Exceptions are the job's own affair."""
        with self._news:
            self._waiting.pop(key, None)
            self._waiting[key] = job
            self._news.notify()
            if self._thread is None:
                self._thread = threading.Thread(target=self._work, name=self._name, daemon=True)
                self._thread.start()

    def stop(self, wait_s: float = 5.0) -> None:
        """Do what is waiting and end; a drive that does not answer is left alone after `wait_s` seconds."""
        with self._news:
            self._stopping = True
            self._news.notify()
            thread, self._thread = self._thread, None
        if thread is not None:
            thread.join(wait_s)
        self._stopping = False

    def _work(self) -> None:
        while True:
            with self._news:
                while not self._waiting and not self._stopping:
                    self._news.wait()
                if not self._waiting:
                    return
                job = self._waiting.pop(next(iter(self._waiting)))
            job()


class GaveUp(Exception):
    """The user waits no longer for a job; it may still be done."""


class _Outcome(Generic[_T]):
    def __init__(self) -> None:
        self.value: list[_T] = []
        self.error: BaseException | None = None

    def find(self, job: Callable[[], _T]) -> None:
        try:
            self.value.append(job())
        except BaseException as error:  # noqa: BLE001 (raised again where it is waited for)
            self.error = error


@contextmanager
def wait_pointer() -> Iterator[None]:
    """Show that the window's own thread works: for what takes longer than 100 ms, and can be done nowhere else."""
    QApplication.setOverrideCursor(Qt.CursorShape.WaitCursor)
    try:
        yield
    finally:
        QApplication.restoreOverrideCursor()


def run_with_wait_dialog(parent: QWidget, words: str, job: Callable[[], _T]) -> _T:
    """What `job` returns or raises. It runs aside; if it takes long, `words` say what is waited for, with a way out.

    Raises GaveUp if the user took it.
    """
    outcome = _Outcome[_T]()
    thread = threading.Thread(target=outcome.find, args=(job,), name="patience", daemon=True)
    thread.start()
    thread.join(QUICK_S)
    if thread.is_alive():
        _wait(parent, words, thread)
    if outcome.error is not None:
        raise outcome.error
    return outcome.value[0]


def _wait(parent: QWidget, words: str, thread: threading.Thread) -> None:
    dialog = QProgressDialog("", translate("waiting", "Stop waiting"), 0, 0, parent)
    dialog.setLabel(plain_label(words))
    dialog.setWindowModality(Qt.WindowModality.WindowModal)
    dialog.setWindowTitle("Fanlight")
    dialog.setMinimumDuration(0)
    dialog.show()
    try:
        while thread.is_alive():
            QCoreApplication.processEvents(QEventLoop.ProcessEventsFlag.AllEvents, 20)
            thread.join(0.01)
            if dialog.wasCanceled():
                raise GaveUp
    finally:
        dialog.close()
        dialog.deleteLater()
