"""What stops is sent until it is proved, what starts is not, and what starts without a key is named."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest

from app.project.model import Action, Condition, HeldValue

if TYPE_CHECKING:
    from tests.app.checks.conftest import Draft


@pytest.mark.parametrize(
    "stop",
    [
        {"do": "write", "signal": "run", "value": Decimal(0)},
        {"do": "write", "signal": "command", "value": Decimal(8)},
        {"do": "clear", "signal": "run", "stops": False},
        {"do": "toggle", "signal": "run", "stops": False},
    ],
)
def test_a_start_whose_stop_is_sent_once_only(good: Draft, stop: dict[str, Any]) -> None:
    draft = good.without(("action", 1)).without(("action", 1))
    broken = draft.add(Action(key="stop", **stop))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("stop-sent-once", "warning", ("action", 2))
    assert "'stop'" in finding.message
    assert finding.fix is not None
    assert broken.change(("action", 2), stops=True).clean()


def test_one_stop_for_each_start_is_enough(good: Draft) -> None:
    assert good.add(Action(key="down", do="write", signal="command", value=Decimal(0))).clean()


def test_a_stop_that_brings_a_value(good: Draft) -> None:
    broken = good.add(Action(key="down", do="write", signal="speed set", value=Decimal(30), stops=True))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("stop-that-starts", "warning", ("action", 4))
    assert broken.change(("action", 4), stops=None).clean()


@pytest.mark.parametrize("value", [0x06, 0x07, 0x02, 0x0D, 0x0F, 0x10F])
def test_a_control_word_of_the_standard_starts_by_its_lowest_four_bits_alone(good: Draft, value: int) -> None:
    """IEC 61800-7-201, commands in the control word (from memory): enable operation is xxxx 1111."""
    draft = good.signal("command", drive_role="control-word")
    for _ in range(3):
        draft = draft.without(("action", 0))  # which start and stop by a bit of the word
    starts = value & 0xF == 0xF

    def rules(draft: Draft) -> list[str]:
        return [found.rule for found in draft.all() if found.rule in ("start-without-stop", "stop-that-starts")]

    written = draft.add(Action(key="down", do="write", signal="command", value=Decimal(value)))
    assert rules(written) == (["start-without-stop"] if starts else [])
    owed = draft.add(Action(key="down", do="write", signal="command", value=Decimal(value), stops=True))
    assert rules(owed) == (["stop-that-starts"] if starts else [])
    assert rules(written.add(Action(key="up", do="write", signal="command", value=Decimal(6), stops=True))) == []


def test_a_bit_that_is_set_and_cleared_to_stop(good: Draft) -> None:
    broken = good.add(Action(key="down", do="set", signal="lamp", stops=True)).add(
        Action(key="up", do="clear", signal="lamp")
    )
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("set-and-cleared-to-stop", "warning", ("action", 4))
    assert broken.change(("action", 5), stops=False).clean()


@pytest.mark.parametrize(
    ("deed", "words"),
    [
        ({"do": "set", "signal": "run"}, "when 'fault' is set: 'run' is set to 1, automatically and without a key"),
        ({"do": "toggle", "signal": "run"}, "when 'fault' is set: 'run' is toggled between 0 and 1"),
        ({"do": "write", "signal": "speed set", "value": Decimal(40)}, "40.0 Hz is written to 'speed set'"),
        (
            {"do": "write", "signal": "speed set", "value": HeldValue(from_="slow speed")},
            "the value of 'slow speed' is written to 'speed set'",
        ),
        ({"do": "clear", "signal": "lamp", "stops": False}, "'lamp' is set to 0"),
    ],
)
def test_what_starts_without_a_key_is_named(good: Draft, deed: dict[str, Any], words: str) -> None:
    broken = good.add(Action(when=Condition(signal="fault"), **deed))
    finding = broken.only()
    assert (finding.rule, finding.severity, finding.place) == ("starts-by-itself", "warning", ("action", 4))
    assert words in finding.message


@pytest.mark.parametrize(
    "deed",
    [
        {"do": "clear", "signal": "lamp"},
        {"do": "write", "signal": "speed set", "value": Decimal(0), "stops": True},
        {"do": "write", "signal": "slow speed", "value": Decimal(8)},  # goes nowhere
    ],
)
def test_what_stops_without_a_key_is_not(good: Draft, deed: dict[str, Any]) -> None:
    rules = {finding.rule for finding in good.add(Action(when=Condition(signal="fault"), **deed)).all()}
    assert "starts-by-itself" not in rules


def test_what_is_written_again_and_again_is_named(good: Draft) -> None:
    finding = good.signal("speed set", refresh_ms=500).only()
    assert (finding.rule, finding.severity) == ("written-by-itself", "note")
    assert "every 500 ms" in finding.message
