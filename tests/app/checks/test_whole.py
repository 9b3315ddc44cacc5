from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from app.checks import check
from app.project.model import Follower, HeldSignal, Screen, TcpLine

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


def test_a_project_that_is_begun(empty: Draft) -> None:
    messages = [finding.message for finding in check(empty.project) if finding.rule == "nothing-yet"]
    assert messages == ["it has no screen yet", "it has no signal yet"]


def test_screens_that_show_nothing(empty: Draft) -> None:
    begun = empty.add(Screen(name="run"), HeldSignal(name="preset", held=Decimal(1)))
    (finding,) = [finding for finding in check(begun.project) if finding.rule == "nothing-yet"]
    assert (finding.severity, finding.where) == ("note", "project")


def test_a_signal_that_nobody_uses(good: Draft) -> None:
    broken = good.change((*good.place("screen", "scale"), "field", 3), at=(3, 6), signal="weight", width=10)
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("unused", "note", good.place("signal", "power"))
    assert broken.without(good.place("signal", "power")).clean()


def test_a_word_whose_bits_are_used_is_used(good: Draft) -> None:
    assert "status" not in {field.signal for screen in good.project.screens for field in screen.fields}
    assert good.clean()


def test_a_follower_without_signals_and_a_line_without_followers(good: Draft) -> None:
    finding = good.add(Follower(name="spare", line="yard", unit=9)).only()
    assert (finding.rule, finding.place) == ("unused", ("follower", 2))
    finding = good.add(TcpLine(name="spare", host="192.0.2.9")).only()
    assert (finding.rule, finding.place) == ("unused", ("line", 2))
