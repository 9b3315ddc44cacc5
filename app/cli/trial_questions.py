"""The questions of a trial in the terminal. The run goes on while somebody thinks: answers are read in a thread."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import date
from fractions import Fraction
from queue import Empty, SimpleQueue

from app.cli.outcome import put, tell
from app.trial.outcome import Instrument, PersonAsked, Reply
from app.trial.replies import KnownReplies

_YES, _NO = ("y", "yes"), ("n", "no")


class TerminalPerson:
    """Whoever sits at the terminal; what is known from a file of answers is not asked."""

    def __init__(self, known: KnownReplies | None = None, read: Callable[[str], str] = input) -> None:
        """`read` gives a line that was typed, after a prompt; it raises EOFError when there are no more."""
        self._known = known
        self._read = read
        self._replies: SimpleQueue[tuple[PersonAsked, Reply]] = SimpleQueue()
        self._asked: PersonAsked | None = None
        self._instrument: Instrument | None = None

    def ask(self, question: PersonAsked) -> None:
        """Put a question."""
        self._asked = question
        known = self._known.known(question) if self._known is not None else None
        if known is not None:
            self._replies.put((question, known))
            return
        threading.Thread(target=self._talk, args=(question,), name="fanlight-question", daemon=True).start()

    def answer(self) -> Reply | None:
        """What was typed, once it was."""
        try:
            asked, reply = self._replies.get_nowait()
        except Empty:
            return None
        return reply if asked is self._asked else None

    def _talk(self, question: PersonAsked) -> None:
        try:
            reply = self._measured(question) if question.kind == "measure" else self._yes_or_no(question)
        except EOFError:
            reply = Reply(None, "nobody answered: the input ended")
        self._replies.put((question, reply))

    def _yes_or_no(self, question: PersonAsked) -> Reply:
        put("", f"   {question.text}")
        if question.kind == "by hand":
            put("   Do this, then answer.")
        while True:
            words = self._read("   y yes, n no, u not tested; then a remark, if any: ").strip()
            first, _, remark = words.partition(" ")
            word = first.lower().rstrip(",")
            if word in (*_YES, *_NO, "u"):
                return Reply(None if word == "u" else word in _YES, remark.strip())
            tell(f"   '{first}' is none of y, n and u")

    def _measured(self, question: PersonAsked) -> Reply:
        put("", f"   Measure: {question.text}")
        while True:
            text = self._read(f"   value in {question.unit or 'its unit'}, or u for not tested: ").strip()
            if text.lower() == "u":
                return Reply(None, self._read("   why: ").strip())
            try:
                value = Fraction(text.replace(",", "."))
                break
            except (ValueError, ZeroDivisionError):
                tell(f"   '{text}' is not a number")
        return Reply(True, value=value, instrument=self._tool() if question.instrument else None)

    def _tool(self) -> Instrument:
        former = self._instrument
        if former is not None and not self._read(f"   with {former.name} {former.serial} again? Enter, or n: ").strip():
            return former
        name = self._read("   instrument: ").strip()
        serial = self._read("   its serial number: ").strip()
        due: date | None = None
        while text := self._read("   calibration due on (YYYY-MM-DD), or nothing: ").strip():
            try:
                due = date.fromisoformat(text)
                break
            except ValueError:
                tell(f"   '{text}' is not a date such as 2027-03-01")
        self._instrument = Instrument(name, serial, due)
        return self._instrument
